"""The commands, run inside the project's own environment."""

from __future__ import annotations

import argparse
import os
import sys
import time
from pathlib import Path

from .problem import PRINTERS, report

ROOT = Path(__file__).resolve().parent.parent


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python3 -m build_tools", description="Check, build, serve, test and measure the germination reference.")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    serve = commands.add_parser("serve", help="check, build and serve the site here, and rebuild on every change")
    serve.add_argument("--port", type=int, default=8000)
    check = commands.add_parser("check", help="check the data and print every problem with its place and a remedy")
    check.add_argument("--format", choices=PRINTERS, default="text", help="text for people, annotations for pull requests, json for programs")
    build = commands.add_parser("build", help="check and build the site into build/site")
    build.add_argument("--output", type=Path, default=ROOT / "build" / "site")
    test = commands.add_parser("test", help="run every test, in a real browser too; further words go to pytest")
    test.add_argument("words", nargs="*", metavar="WORD")
    bench = commands.add_parser("bench", help="measure build time, memory and page weight, with ratios to plain MkDocs Material")
    bench.add_argument("--quick", action="store_true", help="leave out the 3,000-crop builds")
    lots = commands.add_parser("lots", help="judge a CSV file of seed lots and germination counts; write a table and a sheet to print")
    lots.add_argument("file", type=Path, metavar="FILE.csv", help="one row a towel or dish; the page “A file of lots” describes the columns")
    lots.add_argument("--out", type=Path, metavar="DIR", help="folder for the results, beside FILE unless given")
    lots.add_argument("--line", metavar="PERCENT", help="lending line, instead of the one in data/library.yml")
    lots.add_argument("--today", metavar="DATE", help="reckon as on this day, such as 2026-03-12")
    course = commands.add_parser("time-course", help="work out every number of germination tests counted day by day, with a fit for the time between counts")
    course.add_argument("file", type=Path, metavar="FILE.csv", help="columns test, seeds, day, new, one row a count; the page “Follow a test day by day” saves such files")
    course.add_argument("--out", type=Path, metavar="DIR", help="folder for the results, beside FILE unless given")
    course.add_argument("--confidence", default="95", metavar="PERCENT", help="confidence of the ranges, 95 unless given")
    labels = commands.add_parser("labels", help="write labels for the packets of tested lots as PDF, from the same file as lots")
    labels.add_argument("file", type=Path, metavar="FILE.csv")
    labels.add_argument("--sheet", default="A4-3x8", metavar="SHEET", help="A4-3x7, A4-3x8 (unless given), A4-2x7, A4-2x8, A4-4x10, Letter-3x10, Letter-2x10 or Letter-2x5: columns × rows")
    labels.add_argument("--start", type=int, default=1, metavar="N", help="first label of a sheet that is partly used")
    labels.add_argument("--copies", type=int, default=1, metavar="N", help="labels for each lot")
    labels.add_argument("--units", choices=("C", "F", "both"), default="both", help="temperatures in °C, °F or both")
    labels.add_argument("--outlines", action="store_true", help="draw each label's edge, for a trial on plain paper")
    labels.add_argument("--line", metavar="PERCENT", help="lending line, instead of the one in data/library.yml")
    labels.add_argument("--today", metavar="DATE", help="reckon as on this day, such as 2026-03-12")
    labels.add_argument("--out", type=Path, metavar="DIR", help="folder for the file, beside FILE unless given")
    _posters_parser(commands.add_parser("posters", help="write posters as PDF: warmth, days, seed life, steps, towel test"))
    _cards_parser(commands.add_parser("cards", help="write a card for each crop as PDF, alone or four or eight to a sheet"))
    return parser


def _cards_parser(cards: argparse.ArgumentParser) -> None:
    cards.add_argument("--size", default="A6", metavar="SIZE", help="A6 (unless given), 4x6, A4-4, A4-8, Letter-4 or Letter-8; several with commas")
    cards.add_argument("--units", choices=("C", "F", "both"), default="both", help="temperatures in °C, °F or both")
    cards.add_argument("--crops", metavar="NAMES", help="names with commas, such as tomato,pepper; all crops unless given")
    cards.add_argument("--out", type=Path, metavar="DIR", default=ROOT / "build" / "cards", help="folder for the files, build/cards unless given")


def _posters_parser(posters: argparse.ArgumentParser) -> None:
    posters.add_argument("--size", default="A3", metavar="PAPER", help="A2, A3 (unless given), A4, Letter, Tabloid or 24x36; several with commas")
    posters.add_argument("--units", choices=("C", "F", "both"), default="both", help="temperatures in °C, °F or both")
    posters.add_argument("--crops", metavar="NAMES", help="names with commas, such as tomato,pepper; all crops unless given")
    posters.add_argument("--poster", metavar="NAMES", help="bands, days, seed-life, steps or towel-test, several with commas; all unless given")
    posters.add_argument("--orientation", choices=("portrait", "landscape"), default="portrait")
    posters.add_argument("--order", choices=("name", "minimum", "optimum"), default="name", help="crops by name, or from cold to warm")
    posters.add_argument("--out", type=Path, metavar="DIR", default=ROOT / "build" / "posters", help="folder for the files, build/posters unless given")


def check(form: str) -> int:
    """Check the data; print the problems; exit status 1 when there are any."""
    from .check import check_data

    start = time.monotonic()
    tree, problems = check_data(ROOT)
    status = report(problems, form)
    if form == "text":
        print(f"{len(tree.crops)} crops, {len(tree.sources)} sources, {sum(len(s.tables) for s in tree.sources.values())} printed tables checked in {time.monotonic() - start:.1f} s.")
    return status


def main(arguments: list[str] | None = None) -> int:
    parser = _parser()
    options, further = parser.parse_known_args(arguments)
    if further and options.command != "test":
        parser.error(f"unrecognized arguments: {' '.join(further)}")
    if options.command == "check":
        return check(options.format)
    if options.command == "build":
        from .site import build

        return build(ROOT, options.output)
    if options.command == "serve":
        from .site import serve

        return serve(ROOT, options.port)
    if options.command == "lots":
        from .lots_command import run

        return run(ROOT, options.file, options.out, options.line, options.today)
    if options.command == "time-course":
        from .time_course_command import run

        return run(options.file, options.out, options.confidence)
    if options.command == "labels":
        from .labels_command import run

        return run(ROOT, options)
    if options.command == "posters":
        from .posters_command import run

        return run(ROOT, options)
    if options.command == "cards":
        from .cards_command import run

        return run(ROOT, options)
    if options.command == "test":
        import pytest

        os.chdir(ROOT)
        return int(pytest.main(options.words + further))
    from .bench import bench

    return bench(ROOT, quick=options.quick)


if __name__ == "__main__":
    sys.exit(main())
