"""The command `changes`: what differs between two versions of the data, and the record of a release."""

from __future__ import annotations

import sys
from contextlib import ExitStack
from pathlib import Path

from ..changes import CannotCompare, compare_versions, opened
from ..changes.printers import PRINTERS
from ..write_file import write_whole


def arguments(parser) -> None:
    parser.add_argument("base", metavar="BASE", help="the earlier version: a git revision, or a folder that holds data/ or is it; a folder is taken before a revision of the same name")
    parser.add_argument("head", metavar="HEAD", nargs="?", help="the later version; the working tree unless given")
    parser.add_argument("--format", choices=PRINTERS, default="text", help="text for a terminal, markdown for a comment, html for a page, json for programs")
    parser.add_argument("--out", type=Path, metavar="FILE", help="write the report there instead of printing it")
    parser.add_argument("--release", metavar="VERSION", help="also record the changes from BASE to the working tree as this release, such as 2026.12")


def main(root: Path, options) -> int:
    """Compare and print; exit status 2 when the versions cannot be compared or the release cannot be recorded."""
    try:
        with ExitStack() as stack:
            base, head = (stack.enter_context(opened(root, name)) for name in (options.base, options.head))
            report = compare_versions(base, head, root)
            written = _release(root, options, head, report) if options.release is not None else []
    except CannotCompare as error:
        print(f"{error}\nNothing was compared." if options.release is None else f"{error}\nNo release was recorded.", file=sys.stderr)
        return 2
    text = PRINTERS[options.format](report)
    if options.out is None:
        sys.stdout.write(text)
    else:
        try:
            write_whole(options.out, [text])
        except OSError as error:
            print(f"Cannot write to {options.out}: {error.strerror}. Choose another file with --out.", file=sys.stderr)
            return 2
        print(f"{report.summary}\n{options.out}")
    for line in written:
        print(line, file=sys.stderr)
    return 0


def _release(root: Path, options, head, report) -> list[str]:
    """Record the release; what to say of it. Raises CannotCompare."""
    from ..changes.release import record

    if options.head is not None:
        raise CannotCompare("A release is recorded for the working tree: leave HEAD out.")
    return record(root, options.release, head, report)
