"""The bad examples that prove each rule, read from tests/rules/bad: shown by `explain` and on the page of all checks."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from .printers import visible

HEAD = re.compile(r"(\S+):([0-9]+):[0-9]+  ([a-z0-9-]+)( \(warning\))?")
LONGEST = 160  # letters of an example's line


@dataclass(frozen=True)
class Example:
    """A line that breaks a rule, where it stands, and what check says of it."""

    file: str
    line: int
    found: str
    message: str


def examples_of(root: Path, rule: str) -> list[Example]:
    """One example from each case of the rule; none where the project has been copied without its tests."""
    found = []
    folder = root / "tests" / "rules" / "bad" / rule
    for case in sorted(folder.iterdir()) if folder.is_dir() else ():
        lines = (case / "expected.txt").read_text(encoding="utf-8").split("\n")
        for head, words in zip(lines, lines[1:]):
            match = HEAD.fullmatch(head)
            if match and match[3] == rule:
                found.append(Example(match[1], int(match[2]), _line(case, root, match[1], int(match[2])), words.strip()))
                break
    return found


def _line(case: Path, root: Path, file: str, line: int) -> str:
    """The offending line, from the case or from the sound tree that it changes; its words where it has none."""
    inside = Path(file).relative_to("data") if file.startswith("data/") else Path(file)
    tree = root / "tests" / "rules" / "tree"
    for folder in (case, tree / "data", tree):  # data files stand in a case as in data/; those of docs/ with that folder
        if (folder / inside).is_file():
            lines = (folder / inside).read_bytes()[:200_000].decode("utf-8", "replace").split("\n")
            text = visible(lines[line - 1].strip()) if line <= len(lines) else ""
            return text[:LONGEST] + "…" * (len(text) > LONGEST) or "(an empty line)"
    return "(the file is not there)"
