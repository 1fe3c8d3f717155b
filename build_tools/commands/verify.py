"""The command `verify`."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from ..checksums import LIST, Difference, checksums, difference, read_list

MOST_SHOWN = 10


def arguments(parser) -> None:
    parser.add_argument("folder", nargs="?", type=Path, metavar="DIR", help="the built site; build/site unless given")
    parser.add_argument("--rebuild", action="store_true", help="also build the site anew from the files here, and want the same bytes")


def main(root: Path, options) -> int:
    """Hold a built site against its list of checksums; exit status 0 when all is as built, 1 when not, 2 when it can't be told."""
    folder = options.folder or root / "build" / "site"
    try:
        listed = read_list(folder)
    except OSError:
        print(f"{folder} has no {LIST}: it is no site built here. Build it: python3 -m build_tools build", file=sys.stderr)
        return 2
    except (ValueError, UnicodeDecodeError) as error:
        print(f"{folder / LIST}: {error}. Build the site anew.", file=sys.stderr)
        return 2
    status = _told(difference(listed, checksums(folder)), f"{len(listed)} files of {folder} are as they were built.", "not as it was built")
    if status or not options.rebuild:
        return status
    from ..site import build

    with tempfile.TemporaryDirectory(prefix="germination-verify-") as temporary:
        if build(root, Path(temporary) / "site", keep=False):
            return 2
        return _told(difference(listed, read_list(Path(temporary) / "site")), "Built anew, every byte is the same.", "not what these files build")


def _told(found: Difference, good: str, bad: str) -> int:
    if not found:
        print(good)
        return 0
    for word, names in (("missing", found.missing), ("added", found.added), ("changed", found.changed)):
        for name in names[:MOST_SHOWN]:
            print(f"{word}: {name}")
        if len(names) > MOST_SHOWN:
            print(f"{word}: {len(names) - MOST_SHOWN} more")
    print(f"The site is {bad}.")
    return 1
