"""What is made anew only when something that goes into it changes: set sheets and compiled templates, kept from one build to the next.

They stand in a folder that may be deleted at any time. A file's name is the checksum of everything that goes into it, and its content begins
with the checksum of the rest: what was cut short or changed is made anew. Files are put in place whole, so that builds may run beside one
another. Without `keep_in` nothing is kept.
"""

from __future__ import annotations

import os
from hashlib import sha256
from pathlib import Path

from .write_file import write_whole

HEAD = 32  # bytes of the checksum
STILL_WANTED = 3600.0  # seconds: what another build has used so lately stays
_folder: Path | None = None


def keep_in(folder: Path | None) -> None:
    """From now on keep things in this folder; None: keep nothing, and use nothing that was kept."""
    global _folder
    _folder = folder


def key(*parts: bytes) -> str:
    """The name of what is made of these parts."""
    return sha256(b"".join(sha256(part).digest() for part in parts)).hexdigest()


def get(kind: str, name: str) -> bytes | None:
    """What is kept under a name; None where nothing is, or something damaged."""
    if _folder is None:
        return None
    path = _folder / kind / name
    try:
        content = path.read_bytes()
        os.utime(path)
    except OSError:
        return None
    return content[HEAD:] if sha256(content[HEAD:]).digest() == content[:HEAD] else None


def put(kind: str, name: str, content: bytes) -> None:
    """Keep something; where the folder can't be written, it is not kept."""
    if _folder is None:
        return
    try:
        write_whole(_folder / kind / name, sha256(content).digest() + content)
    except OSError:
        return


def tidy(since: float) -> None:
    """Drop what no build has used since an hour before `since`, in seconds of the epoch."""
    for path in _folder.glob("*/*") if _folder else ():
        try:
            if path.stat().st_mtime < since - STILL_WANTED:
                path.unlink()
        except OSError:
            continue
