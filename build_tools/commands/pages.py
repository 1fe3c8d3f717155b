"""The command `pages`: everything for another site generator, in a plain folder."""

from __future__ import annotations

import sys
import time
from pathlib import Path

from .. import model
from ..other_generator.folder import write_pages
from ..printers import as_text
from ..render import render

LOCK = "tests/other_generator/zensical.lock"
ENVIRONMENT = "build/other-generator"
MOST_SHOWN = 10


def arguments(parser) -> None:
    parser.add_argument("folder", nargs="?", type=Path, metavar="FOLDER", help="build/pages unless given; what this command wrote there before is replaced")
    parser.add_argument("--try", action="store_true", dest="attempt", help=f"also build them with Zensical, installed into {ENVIRONMENT} alone, and hold the result against build/site")
    parser.add_argument("--site", type=Path, metavar="DIR", help="the built site to hold it against; build/site unless given")


def main(root: Path, options) -> int:
    """Write the folder, and try it when asked to; exit status 0, 1 when something is wrong, 2 when it can't be told."""
    folder, start = (options.folder or root / "build" / "pages").resolve(), time.monotonic()
    reference, problems = model.load(root)
    if reference is None:
        print(f"{as_text(problems)}\nNothing was written.", file=sys.stderr)
        return 1
    try:
        count = write_pages(reference, render(reference, root), root, folder)
    except ValueError as error:
        print(error, file=sys.stderr)
        return 2
    except OSError as error:
        print(f"Cannot write to {folder}: {error.strerror}. Choose another folder.", file=sys.stderr)
        return 1
    print(f"{count} pages in {time.monotonic() - start:.1f} s: {folder}")
    return _tried(root, folder, options.site or root / "build" / "site", [crop.name for crop in reference.crops.values()]) if options.attempt else 0


def _tried(root: Path, folder: Path, site: Path, crops: list[str]) -> int:
    from ..other_generator import compare, zensical
    from ..set_up import of_its_own

    if not (site / "index.html").is_file():
        print(f"There is no site in {site} to hold it against. Build it: python3 -m build_tools build", file=sys.stderr)
        return 2
    python = of_its_own(root / ENVIRONMENT, root / LOCK)
    built = zensical.build(folder, python)
    if not built.well:
        print(f"Zensical {zensical.installed(python)} did not build the pages:\n{built.said}", file=sys.stderr)
        return 1
    found = compare.compared(site, built.site, crops)
    print(f"Zensical {zensical.installed(python)} built {found.pages + len(found.added)} pages in {built.seconds:.1f} s: {built.site}")
    for words, names in (
        ("missing there", found.missing), ("there alone", found.added), ("says something else", found.other_text), ("leads nowhere", found.broken), ("not found by its search", found.not_found),
    ):
        for name in names[:MOST_SHOWN]:
            print(f"{words}: {name}")
        if len(names) > MOST_SHOWN:
            print(f"{words}: {len(names) - MOST_SHOWN} more")
    if found.alike:
        print(f"Held against {site}: all {found.pages} pages say and show the same, every link leads somewhere, and the search there has every crop.")
    return 0 if found.alike else 1
