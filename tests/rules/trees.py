"""The small sound tree of tests/rules/tree, and copies of it changed as the cases on disk say.

A case is a folder with the files that it puts into data/ in the place of the sound ones; what is in docs/ in it goes beside data/. A file
change.txt in it may say more, a line each: `delete PATH`, `link PATH TARGET`.
"""

from __future__ import annotations

import shutil
from pathlib import Path

from build_tools.check import check_tree
from build_tools.check.schema_rules import SchemaSet
from build_tools.printers import as_text
from build_tools.read import read_tree

HERE = Path(__file__).parent
SOUND = HERE / "tree" / "data"
SOUND_GUIDES = HERE / "tree" / "docs" / "guides"
NOT_DATA = ("expected.txt", "change.txt")


def copy_sound(target: Path) -> Path:
    """A copy of the sound tree at target/data and target/docs/guides; returns the first."""
    shutil.copytree(SOUND, target / "data")
    shutil.copytree(SOUND_GUIDES, target / "docs" / "guides")
    return target / "data"


def changed_copy(case: Path, target: Path) -> Path:
    """The sound tree at target/data, changed as a case says; returns that folder."""
    data = copy_sound(target)
    for path in sorted(case.rglob("*")):
        if path.is_file() and path.relative_to(case).as_posix() not in NOT_DATA:
            to = place_of(path.relative_to(case), data)
            to.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, to)
    if (case / "change.txt").is_file():
        for line in (case / "change.txt").read_text(encoding="utf-8").splitlines():
            words = line.split()
            if words[0] == "delete":
                place_of(Path(words[1]), data).unlink()
            else:
                place_of(Path(words[1]), data).symlink_to(words[2])
    return data


def place_of(path: Path, data: Path) -> Path:
    """Where a case's file goes: into data/, or beside it when it is one of docs/."""
    return (data.parent if path.parts[0] == "docs" else data) / path


def cases(folder: str) -> list[Path]:
    """The cases in tests/rules/<folder>/<rule>/<case>."""
    return sorted(case for rule in (HERE / folder).iterdir() for case in rule.iterdir() if case.is_dir())


def found_in(case: Path, target: Path, schemas: SchemaSet) -> str:
    """What check says of a case, as text without the count."""
    problems = check_tree(read_tree(changed_copy(case, target)), schemas)
    return as_text(problems).rpartition("\n")[0] + "\n" if problems else ""
