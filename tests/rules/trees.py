"""The small sound tree of tests/rules/tree, and copies of it changed as the cases on disk say.

A case is a folder with the files that it puts into data/ in the place of the sound ones. A file change.txt in it may say more, a line
each: `delete PATH`, `link PATH TARGET`.
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
NOT_DATA = ("expected.txt", "change.txt")


def copy_sound(target: Path) -> Path:
    """A copy of the sound tree at target/data; returns that folder."""
    shutil.copytree(SOUND, target / "data")
    return target / "data"


def changed_copy(case: Path, target: Path) -> Path:
    """The sound tree at target/data, changed as a case says; returns that folder."""
    data = copy_sound(target)
    for path in sorted(case.rglob("*")):
        if path.is_file() and path.relative_to(case).as_posix() not in NOT_DATA:
            to = data / path.relative_to(case)
            to.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, to)
    if (case / "change.txt").is_file():
        for line in (case / "change.txt").read_text(encoding="utf-8").splitlines():
            words = line.split()
            if words[0] == "delete":
                (data / words[1]).unlink()
            else:
                (data / words[1]).symlink_to(words[2])
    return data


def cases(folder: str) -> list[Path]:
    """The cases in tests/rules/<folder>/<rule>/<case>."""
    return sorted(case for rule in (HERE / folder).iterdir() for case in rule.iterdir() if case.is_dir())


def found_in(case: Path, target: Path, schemas: SchemaSet) -> str:
    """What check says of a case, as text without the count."""
    problems = check_tree(read_tree(changed_copy(case, target)), schemas)
    return as_text(problems).rpartition("\n")[0] + "\n" if problems else ""
