"""What the server shows while data are being edited: after a change nothing is written at once, each page and file is made when it is asked for.

So a change shows as soon as the data are read and checked, and whatever is asked for, the search's index too, is of the newest good data.
"""

from __future__ import annotations

import os
import posixpath
import threading
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

from .write_file import write_whole

Make = Callable[[], str | bytes]
EDITED = ("data", "docs/guides")  # what is taken in without building the whole site


class Preview:
    """The files of a served folder that are made when they are asked for."""

    def __init__(self, site: Path):
        self.site = site
        self.lock = threading.RLock()  # held while data are taken in or a site is built: what is asked for meanwhile waits
        self._makers: Mapping[str, Make] = {}
        self._stale: set[str] = set()

    def renew(self, makers: Mapping[str, Make]) -> None:
        """From now on these make the files, named by their path in the site; none of them has been made yet."""
        with self.lock:
            self._makers, self._stale = makers, set(makers)

    def fresh(self, name: str) -> None:
        """See to it that a file is as the newest data would have it. Raises what its maker raises, and OSError."""
        with self.lock:
            if name in self._stale:
                content = self._makers[name]()
                write_whole(self.site / name, content if isinstance(content, bytes) else content.encode("utf-8"))
                self._stale.discard(name)

    def is_stale(self, name: str) -> bool:
        """Whether a file has to be made anew before it may be shown."""
        return name in self._stale


def file_of(address: str, mount: str = "/") -> str:
    """The file of the site that an address leads to: a folder's is its index.html."""
    inside = address[len(mount) :] if address.startswith(mount) else address
    return posixpath.normpath("/" + inside + ("index.html" if not inside or inside.endswith("/") else "")).lstrip("/")


class Stamps:
    """Which files below some folders have changed since one last looked, by size and time of change."""

    def __init__(self, root: Path, places: Iterable[str]):
        self.root, self.places = root, tuple(places)
        self.last = self._now()

    def changed(self) -> list[str]:
        """Files changed, added or gone since the last time, by their path from the root."""
        before, self.last = self.last, self._now()
        return sorted(Path(path).relative_to(self.root).as_posix() for path in before.keys() | self.last.keys() if before.get(path) != self.last.get(path))

    def _now(self) -> dict[str, tuple[int, int]]:
        found = {}
        for place in self.places:
            top = self.root / place
            for folder, folders, files in os.walk(top) if top.is_dir() else [(str(self.root), [], [place])]:
                folders[:] = [name for name in folders if name != "__pycache__"]
                for name in files:
                    path = os.path.join(folder, name)
                    try:
                        stat = os.stat(path)
                    except OSError:
                        continue
                    found[path] = stat.st_mtime_ns, stat.st_size
        return found


def only_edited(changed: Iterable[str]) -> bool:
    """Whether all these files are data or guides."""
    return all(name.startswith(tuple(f"{place}/" for place in EDITED)) for name in changed)
