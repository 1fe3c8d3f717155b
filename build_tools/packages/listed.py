"""The committed list of packages, listed.json: read here, and held against the lock files."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

import yaml

from ..lock_files import SITE, TEST, Pin, whole
from ..problem import Problem

FOLDER = Path(__file__).resolve().parent
ROOT = FOLDER.parents[1]  # the list is of this code, whichever data it builds from
LIST = FOLDER / "listed.json"
RENEW = "python3 -m build_tools packages --renew"
RULE = "packages-listed"


@dataclass(frozen=True)
class Package:
    """A version of a package in a lock file.

    marker: when it is wanted, as PEP 508 writes it. use: "site" or "test". licence: an SPDX expression. read_in: where the package declares it.
    reason: why it is asked for by name; "" for what others require. requires: names of packages of the locks that it requires, on any system.
    """

    name: str
    version: str
    marker: str
    use: str
    licence: str
    read_in: str
    reason: str
    requires: tuple[str, ...]

    @property
    def purl(self) -> str:
        """Its package URL."""
        return f"pkg:pypi/{self.name}@{self.version}"


def read_list(path: Path = LIST) -> tuple[Package, ...]:
    """The committed list, by name and version."""
    return tuple(Package(**{**entry, "requires": tuple(entry["requires"])}) for entry in json.loads(path.read_text(encoding="utf-8"))["packages"])


def list_text(packages: Sequence[Package]) -> str:
    """The list as it is committed: one package a line."""
    lines = ",\n".join("  " + json.dumps(asdict(package), ensure_ascii=False) for package in packages)
    return f'{{\n "about": "Written by: {RENEW}",\n "packages": [\n{lines}\n ]\n}}\n'


def judged() -> dict:
    """What judged.yml says."""
    return yaml.safe_load((FOLDER / "judged.yml").read_text(encoding="utf-8"))


def pinned(root: Path) -> dict[tuple[str, str], tuple[Pin, str]]:
    """(name, version) → (pin, "site" or "test") of everything locked. The site's hashes are those of its own lock. Raises BadLock."""
    site, test = whole(root, SITE), whole(root, TEST)
    return {(pin.name, pin.version): (pin, use) for use, pins in (("test", test), ("site", site)) for pin in pins}


def required_by(packages: Sequence[Package]) -> dict[str, list[str]]:
    """Name → the names of those among them that require it."""
    found: dict[str, set[str]] = {package.name: set() for package in packages}
    for package in packages:
        for name in found.keys() & set(package.requires):
            found[name].add(package.name)
    return {name: sorted(names) for name, names in found.items()}


def faults(pins: Sequence[Pin], packages: Sequence[Package], name: str = SITE) -> list[Problem]:
    """Where the list and the lock file `name` say different things, at the line of the lock file.

    The marker of what the site needs is that of its own lock: the tests may need the same on more systems.
    """
    listed = {(p.name, p.version, p.marker if name == SITE else "") for p in packages if name == TEST or p.use == "site"}
    locked = {(pin.name, pin.version, pin.marker if name == SITE else ""): pin.line for pin in pins}
    hint = f"After the lock files were renewed: {RENEW}"
    problems = [Problem(name, locked[key], 1, RULE, f"{key[0]} {key[1]} is not in the list of packages, build_tools/packages/listed.json, in this form.", hint) for key in set(locked) - listed]
    problems += [Problem(name, 1, 1, RULE, f"The list of packages, build_tools/packages/listed.json, names {key[0]} {key[1]}, which is not locked in this form.", hint) for key in listed - set(locked)]
    return sorted(problems)
