"""The commands, run inside the project's own environment: one module each, with `arguments(parser)` and `main(root, options)`."""

from __future__ import annotations

import argparse
import errno
import os
import sys
from importlib import import_module
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

COMMANDS = {
    "serve": "check, build and serve the site here, and rebuild on every change",
    "check": "check the data and print every problem with its place and a remedy",
    "explain": "say what a rule of check asks, with an example; or list all rules",
    "fix": "give data files their form: order of keys, numbers, quotes, spaces; no value changes",
    "changes": "say in words what differs between two versions of the data, and which pages, charts and sheets it touches",
    "build": "check and build the site into build/site",
    "pages": "write every page and file into a plain folder for another site generator; with --try, build them there and compare",
    "verify": "hold a built site against its list of checksums, and with --rebuild against what the files here build",
    "renew": "rewrite the committed files that are made from data and schemas: issue forms, CITATION.cff",
    "packages": "list the packages this stands on, with licences and reasons; write them as an SBOM, or hold them against advisories, without a network",
    "test": "run every test, in a real browser too; further words go to pytest",
    "mutants": "change the science in small ways, one at a time, and say which changes no test notices",
    "new": "begin a data file: crop, source or treatment, with every key explained",
    "import-table": "walk a table, saved as CSV, into a source folder; names to crops, headers to columns, every doubt said",
    "suggest": "show what the published families would give for each value of a crop",
    "reading": "say how easy the guides are to read: words, sentences, reading ease",
    "bench": "measure build time, memory and page weight, with ratios to plain MkDocs Material",
    "lots": "judge a CSV file of seed lots and germination counts; write a table and a sheet to print",
    "labels": "write labels for the packets of tested lots as PDF, from the same file as lots",
    "time-course": "work out every number of germination tests counted day by day, with a fit for the time between counts",
    "posters": "write posters as PDF: warmth, days, seed life, steps, towel test",
    "cards": "write a card for each crop as PDF, alone or four or eight to a sheet",
}

WRITABLE, ROOM = "Give yourself leave to read and write there, or name another place, and run the command again.", "Make room, and run the command again."
OUTSIDE = {errno.EACCES: WRITABLE, errno.EPERM: WRITABLE, errno.EROFS: WRITABLE, errno.ENOSPC: ROOM, errno.EDQUOT: ROOM, errno.EFBIG: ROOM}


def _module(name: str):
    return import_module(f".{name.replace('-', '_')}", __package__)


def _parser(chosen: str | None) -> argparse.ArgumentParser:
    """The parser; only the chosen command's module is loaded, so that `--help` and light commands start at once."""
    parser = argparse.ArgumentParser(prog="python3 -m build_tools", description="Check, build, serve, test and measure the germination reference.")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name, words in COMMANDS.items():
        command = commands.add_parser(name, help=words, description=words[:1].upper() + words[1:] + ".")
        if name == chosen:
            _module(name).arguments(command)
    return parser


def main(words: list[str] | None = None) -> int:
    """Run the command that the words name; the exit status. What fails outside the project is told with its remedy."""
    try:
        return _run(sys.argv[1:] if words is None else words)
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
        return 130
    except BrokenPipeError:  # whoever read the output has read enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except Exception as error:
        if told := _told(error):
            print(told, file=sys.stderr)
            return 1
        raise


def _told(error: Exception) -> str:
    """What to say of a failure that is not the project's own; empty for one that is."""
    if isinstance(error, OSError) and error.errno in OUTSIDE:
        return f"{error.filename or 'Writing failed'}: {error.strerror}. {OUTSIDE[error.errno]}"
    from ..environment import explained

    return explained(ROOT, error)


def _run(words: list[str]) -> int:
    parser = _parser(next((word for word in words if word in COMMANDS), None))
    options, further = parser.parse_known_args(words)
    if options.command == "test":
        options.words += further
    elif further:
        parser.error(f"unrecognized arguments: {' '.join(further)}")
    return _module(options.command).main(ROOT, options)


if __name__ == "__main__":
    sys.exit(main())
