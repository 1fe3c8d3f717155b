"""Reading requirements.lock and requirements-test.lock. Standard library only: this is read before anything is installed."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from pathlib import Path

SITE, TEST = "requirements.lock", "requirements-test.lock"
PROJECT = "pyproject.toml"
PIN = re.compile(r"([a-z0-9]+(?:-[a-z0-9]+)*)==([0-9][^\s;\\]*)(?: ; ([^\\]+?))? \\")
HASH = re.compile(r"    --hash=sha256:([0-9a-f]{64})( \\)?")
RESTORE = "Restore it from the repository, or write it anew as DEVELOPERS.md says."


@dataclass(frozen=True)
class Pin:
    """One version of a package in a lock file: its name as PEP 503 writes it, when it is wanted, the SHA-256 of each file that may be installed."""

    name: str
    version: str
    marker: str
    hashes: tuple[str, ...]
    line: int


class BadLock(ValueError):
    """What is wrong with a lock file, with its name, the line and a remedy. `line` counts from 1."""

    def __init__(self, name: str, line: int, words: str):
        super().__init__(f"{name}:{line}: {words} {RESTORE}")
        self.name, self.line, self.words = name, line, words


def normal(name: str) -> str:
    """A package's name as PEP 503 compares it: Foo_Bar and foo.bar are foo-bar."""
    return re.sub(r"[-_.]+", "-", name).lower()


def read_lock(path: Path) -> list[Pin]:
    """The pins of a lock file, as `uv pip compile` writes it. Raises BadLock when it is missing, empty, cut short or of another form."""
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise BadLock(path.name, 1, "The lock file is missing.") from None
    except UnicodeDecodeError:
        raise BadLock(path.name, 1, "The lock file is no text.") from None
    pins: list[Pin] = []
    hashes: list[str] = []
    begun, begun_at, goes_on, number = None, 0, False, 0
    for number, line in enumerate(text.splitlines(), 1):
        pin, given = PIN.fullmatch(line), HASH.fullmatch(line)
        if given and goes_on:
            hashes.append(given[1])
            goes_on = bool(given[2])
            if not goes_on:
                pins.append(Pin(begun[1], begun[2], begun[3] or "", tuple(hashes), begun_at))
        elif pin and not goes_on:
            begun, begun_at, hashes, goes_on = pin, number, [], True
        elif line.strip() and not line.startswith("#") or goes_on:
            raise BadLock(path.name, number, "This line is damaged: a package with its version, or a hash of 64 digits, is expected.")
    if goes_on or text and not text.endswith("\n"):
        raise BadLock(path.name, number, "The lock file is cut short here.")
    if not pins:
        raise BadLock(path.name, 1, "The lock file is empty.")
    return pins


def direct(root: Path) -> tuple[dict[str, str], dict[str, str]]:
    """What pyproject.toml asks for: {name: whole requirement} for the site, and for the tests only.

    Raises BadLock when the file is missing or no TOML.
    """
    try:
        project = tomllib.loads((root / PROJECT).read_text(encoding="utf-8"))
        groups = project["project"]["dependencies"], project["dependency-groups"]["test"]
    except (FileNotFoundError, UnicodeDecodeError, tomllib.TOMLDecodeError, KeyError) as error:
        raise BadLock(PROJECT, 1, f"What the project needs cannot be read ({type(error).__name__}: {error}).") from None
    site, test = ({normal(re.match(r"[A-Za-z0-9._-]+", wanted)[0]): wanted for wanted in group} for group in groups)
    return site, test


def whole(root: Path, name: str) -> list[Pin]:
    """The pins of the lock file <root>/<name>, which has to hold whatever pyproject.toml asks for. Raises BadLock."""
    pins = read_lock(root / name)
    site, test = direct(root)
    missing = sorted((set(site) | (set(test) if name == TEST else set())) - {pin.name for pin in pins})
    if missing:
        raise BadLock(name, pins[-1].line, f"The lock file lacks {', '.join(missing)}, which {PROJECT} asks for: it is cut short, or older than {PROJECT}.")
    return pins
