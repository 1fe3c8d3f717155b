"""Writing a file whole or not at all."""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Iterable
from pathlib import Path


def write_whole(path: Path, pieces: Iterable[str] | bytes) -> None:
    """Write text pieces or bytes to a temporary file, then give it its name: a failure leaves what was there.

    The folder is made when it is missing. Raises OSError when the place can't be written.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, temporary = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        if isinstance(pieces, bytes):
            with os.fdopen(handle, "wb") as file:
                file.write(pieces)
        else:
            with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
                file.writelines(pieces)
        os.chmod(temporary, 0o666 & ~_mask())
        os.replace(temporary, path)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(temporary)
        raise


def _mask() -> int:
    """The process's mask for new files; it can only be read by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
