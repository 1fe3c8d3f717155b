"""The command `check`."""

from __future__ import annotations

import time
from pathlib import Path

from ..check import check_data
from ..printers import PRINTERS, report


def arguments(parser) -> None:
    parser.add_argument("--format", choices=PRINTERS, default="text", help="text for people, annotations for pull requests, json for programs")


def main(root: Path, options) -> int:
    """Check the data; print the problems; exit status 1 when there are any."""
    start = time.monotonic()
    tree, problems = check_data(root)
    status = report(problems, options.format, root)
    if options.format == "text":
        print(f"{len(tree.crops)} crops, {len(tree.sources)} sources, {sum(len(s.tables) for s in tree.sources.values())} printed tables checked in {time.monotonic() - start:.1f} s.")
    return status
