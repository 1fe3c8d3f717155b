"""The list of a built site's files with their checksums, in the form that `sha256sum -c` reads; and holding a folder against it."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass
from pathlib import Path

LIST = "SHA256SUMS"
LINE = re.compile(r"([0-9a-f]{64})  ([^\n]+)")
AT_ONCE = 1 << 20


@dataclass(frozen=True)
class Difference:
    """Files that a folder and its list do not have alike; all empty when they agree."""

    missing: tuple[str, ...] = ()
    added: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.missing or self.added or self.changed)


def checksum(path: Path) -> str:
    """SHA-256 of a file, in hexadecimal. Raises OSError."""
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while piece := file.read(AT_ONCE):
            digest.update(piece)
    return digest.hexdigest()


def checksums(folder: Path) -> dict[str, str]:
    """Checksum of every file below a folder, by its path with slashes, in order; without the list itself."""
    files = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
    return {name: checksum(folder / name) for name in files if name != LIST}


def write_list(folder: Path) -> None:
    """Put the list into the folder."""
    (folder / LIST).write_text("".join(f"{digest}  {name}\n" for name, digest in checksums(folder).items()), encoding="utf-8")


def read_list(folder: Path) -> dict[str, str]:
    """Checksums by path from a folder's list. Raises FileNotFoundError without one, ValueError with the line that is none of a list."""
    found = {}
    for number, line in enumerate((folder / LIST).read_text(encoding="utf-8").splitlines(), start=1):
        match = LINE.fullmatch(line)
        if match is None:
            raise ValueError(f"line {number} is no checksum with a name")
        found[match[2]] = match[1]
    return found


def difference(listed: dict[str, str], found: dict[str, str]) -> Difference:
    """What differs between two sets of checksums: `listed` as it should be, `found` as it is."""
    return Difference(
        tuple(sorted(set(listed) - set(found))), tuple(sorted(set(found) - set(listed))), tuple(sorted(name for name in set(listed) & set(found) if listed[name] != found[name])),
    )
