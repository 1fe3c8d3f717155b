"""What is wrong with the installed packages: asked for when a command fails in a way that nobody foresaw. Standard library only."""

from __future__ import annotations

import base64
import csv
import hashlib
import sys
from collections.abc import Iterator
from importlib.metadata import Distribution, distributions
from pathlib import Path

from .lock_files import SITE, BadLock, normal, read_lock
from .set_up import VENV, distrust

MOST_SHOWN = 5


def damaged(lock: Path) -> dict[str, str]:
    """Packages of this Python that are not as they were installed, and those of the lock file that are missing: name → what is wrong.

    Every installed file is held against the checksum that came with its package; the packages that the lock file wants only of some systems
    are not looked for. Takes about a second.
    """
    found, seen = {}, set()
    for package in distributions():
        name = normal(str(package.metadata["Name"] or ""))
        seen.add(name)
        if wrong := next(_wrong(package), ""):
            found.setdefault(name or "a package without a name", wrong)
    try:
        wanted = {pin.name for pin in read_lock(lock) if not pin.marker}
    except (BadLock, OSError):
        wanted = set()
    return {**{name: "is missing" for name in sorted(wanted - seen)}, **dict(sorted(found.items()))}


def _wrong(package: Distribution) -> Iterator[str]:
    """What is wrong with the files of one installed package."""
    try:
        listed = package.files or ()
    except (OSError, ValueError, csv.Error):
        yield "has a damaged list of files"
        return
    for file in listed:
        if file.hash is None or file.hash.mode != "sha256":
            continue
        try:
            digest = hashlib.sha256(Path(file.locate()).read_bytes()).digest()
        except OSError:
            yield f"{file} is missing"
            return
        if base64.urlsafe_b64encode(digest).rstrip(b"=").decode() != file.hash.value:
            yield f"{file} is not as it was installed"
            return


def explained(root: Path, error: BaseException) -> str:
    """What to tell when `error` may come from broken packages; empty when they are whole. The project's own .venv is made anew by the next command."""
    found = damaged(root / SITE)
    if not found:
        return ""
    shown = [f"  {name}: {words}" for name, words in list(found.items())[:MOST_SHOWN]]
    more = [f"  and {len(found) - MOST_SHOWN} more"] if len(found) > MOST_SHOWN else []
    own = Path(sys.prefix).resolve() == VENV.resolve()
    if own:
        distrust()
    remedy = f"Run the command again: {VENV.name} is made anew." if own else "Install again what requirements.lock lists, or use python3 -m build_tools, which keeps an environment of its own."
    return "\n".join([f"Installed packages are damaged ({type(error).__name__}: {error}):", *shown, *more, remedy])
