"""The corpus of hostile data: one file a case in cases/, each an edit of the small good tree and what the check must say.

A case is JSON: `why` (in words), `do` (steps, in order) and `expect` (rule, file and line of every problem but warnings; `{"rule": …, "more": true}`
at the end stands for any number of further ones of that rule). Steps, with paths below data/ (../docs/guides/ stands beside it):

    {"edit": path, "old": text, "new": text}          the first `old` becomes `new`
    {"write": path, "text": text}                     a new file
    {"link": path, "to": target}                      a symbolic link
    {"pipe": path}, {"folder": path}, {"remove": path}
    {"sparse": path, "bytes": number}                 a file of that length that holds nothing

A `new` or `text` may be a list: its items are joined, and an item {"times": number, "text": text} stands for that many; `{n}` in it counts.
`"as": "latin-1"` writes one byte a letter, for what is not UTF-8. A path with a lone surrogate is a name that is not UTF-8.
"""

from __future__ import annotations

import json
import os
import shutil
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).parent
TREE = HERE.parent / "rules" / "tree" / "data"


@dataclass(frozen=True)
class Case:
    """A case of the corpus: its name, why it is there, the steps that make it, what is expected."""

    name: str
    why: str
    do: tuple[dict, ...]
    expect: tuple[dict, ...]


def cases() -> list[Case]:
    """Every case on disk, by name."""
    found = []
    for path in sorted((HERE / "cases").glob("*.json")):
        case = json.loads(path.read_text(encoding="utf-8"))
        found.append(Case(path.stem, case["why"], tuple(case["do"]), tuple(case["expect"])))
    return found


def text_of(parts) -> str:
    """A text, or the join of texts and repetitions."""
    if isinstance(parts, str):
        return parts
    return "".join(part if isinstance(part, str) else "".join(part["text"].replace("{n}", str(n)) for n in range(part["times"])) for part in parts)


def make(case: Case, target: Path) -> Path:
    """The case's data folder, made from the good tree at target."""
    data = target / "data"
    shutil.copytree(TREE.parent, target, dirs_exist_ok=True)
    for step in case.do:
        _do(step, data)
    return data


def _do(step: dict, data: Path) -> None:
    kind = next(kind for kind in ("edit", "write", "link", "pipe", "folder", "remove", "sparse") if kind in step)
    path = Path(os.fsdecode(os.fsencode(data / step[kind])))
    code = step.get("as", "utf-8")
    path.parent.mkdir(parents=True, exist_ok=True)
    if kind == "edit":
        old, raw = step["old"].encode(), path.read_bytes()
        assert old in raw, f"{path} no longer holds {old!r}"
        path.write_bytes(raw.replace(old, text_of(step["new"]).encode(code), 1))
    elif kind == "write":
        path.write_bytes(text_of(step["text"]).encode(code))
    elif kind == "link":
        path.symlink_to(step["to"])
    elif kind == "pipe":
        os.mkfifo(path)
    elif kind == "folder":
        path.mkdir()
    elif kind == "remove":
        shutil.rmtree(path) if path.is_dir() else path.unlink()
    else:
        with path.open("wb") as file:
            file.truncate(step["bytes"])
