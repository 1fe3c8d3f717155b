"""Writing the committed list anew: from the lock files, pyproject.toml, the reasons in DEVELOPERS.md and what the installed packages declare."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from importlib.metadata import Distribution, distributions
from pathlib import Path

from packaging.requirements import Requirement

from ..lock_files import BadLock, direct, normal
from . import declared
from .listed import Package, judged, pinned

REASONS = "DEVELOPERS.md"
HEADING = "## Dependencies, and why"
PREFIX = "test only: "


class NotInstalled(ValueError):
    """A locked package whose metadata can't be read here, and which the committed list does not know either."""


def reasons(text: str) -> dict[str, tuple[str, bool]]:
    """Name → (reason, whether for tests only) of the table in DEVELOPERS.md. Raises BadLock when the table is gone or names a package twice."""
    found: dict[str, tuple[str, bool]] = {}
    for row in re.findall(r"^\| (.+?) \| (.+) \|$", text.partition(HEADING)[2].partition("\n## ")[0], re.MULTILINE)[1:]:
        names, for_tests = row[0].removeprefix(PREFIX), row[0].startswith(PREFIX)
        for name in names.split(", "):
            if name in found:
                raise BadLock(REASONS, 1, f"The table of dependencies names {name} twice.")
            if name != "---":
                found[name] = (row[1], for_tests)
    if not found:
        raise BadLock(REASONS, 1, f"There is no table under “{HEADING.removeprefix('## ')}”.")
    return found


def renewed(root: Path, known: Sequence[Package] = (), also: Sequence[str] = ()) -> tuple[Package, ...]:
    """The list, from what is locked and installed here or in the folders `also`.

    A pin for another Python is taken from `known` when it is there. Raises NotInstalled, declared.Undeclared and BadLock.
    """
    pins = pinned(root)
    installed = [*(distributions(path=list(also)) if also else ()), *distributions()]
    here = {(normal(str(d.metadata["Name"])), d.version): d for d in installed}
    before = {(p.name, p.version): p for p in known}
    why, by_hand = reasons((root / REASONS).read_text(encoding="utf-8")), judged()["licences"]
    asked = direct(root)
    unread = [key for key in pins if key not in here and key not in before]
    if unread:
        raise NotInstalled(", ".join(f"{name} {version}" for name, version in sorted(unread)))
    extras = _extras([requirement for group in asked for requirement in group.values()], here, before)
    names = {name for name, _ in pins}
    found = []
    for (name, version), (pin, use) in sorted(pins.items()):
        reason = why.get(name, ("", False))[0] if name in asked[0] or name in asked[1] else ""
        if (package := here.get((name, version))) is None:
            old = before[name, version]
            found.append(Package(name, version, pin.marker, use, old.licence, old.read_in, reason, old.requires))
            continue
        stated, where = (by_hand[name]["licence"], "by hand") if name in by_hand else declared.licence(package)
        needs = sorted({other for other, _ in declared.requires(package, extras.get(name, ()))} & names - {name})
        found.append(Package(name, version, pin.marker, use, stated, where, reason, tuple(needs)))
    return tuple(found)


def _extras(asked: Sequence[str], here: Mapping[tuple[str, str], Distribution], before: Mapping) -> dict[str, set[str]]:
    """Name → the extras with which anybody asks for it."""
    installed = {name: package for (name, _), package in here.items()}
    found: dict[str, set[str]] = {}
    todo = [(normal(r.name), tuple(r.extras)) for r in map(Requirement, asked)]
    while todo:
        name, wanted = todo.pop()
        if name in found and set(wanted) <= found[name]:
            continue
        found.setdefault(name, set()).update(wanted)
        if name in installed:
            todo += declared.requires(installed[name], found[name])
    return found
