"""The command `lots`: a file of lots and tests judged, shown, and written as CSV and as a sheet to print."""

from __future__ import annotations

import gc
import re
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from ..lots import (
    Catalogue,
    Reading,
    Result,
    catalogue_of,
    data_of,
    judge_lots,
    read_lots,
)
from ..lots.dates import ISO, is_day
from ..lots.judge import by_need
from ..lots.sheet import sheet_html
from ..lots.words import grouped, number_text
from ..lots.write import (
    MOST_ON_TERMINAL,
    csv_lines,
    problem_line,
    summary,
    tally,
    terminal_table,
    verdicts_text,
)
from ..model import Reference, load
from ..printers import as_text
from ..progress import Progress
from ..write_file import write_whole

MOST_PROBLEMS_ON_TERMINAL = 200
PERCENT = re.compile(r"[0-9]{1,3}([.][0-9])?")
GOOD, SOME_LEFT_OUT, NOTHING_READ = 0, 1, 2


def say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)


def arguments(parser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE.csv", help="one row a towel or dish; the page “A file of lots” describes the columns")
    parser.add_argument("--out", type=Path, metavar="DIR", help="folder for the results, beside FILE unless given")
    parser.add_argument("--line", metavar="PERCENT", help="lending line, instead of the one in data/library.yml")
    parser.add_argument("--today", metavar="DATE", help="reckon as on this day, such as 2026-03-12")


def main(root: Path, options) -> int:
    """Judge the file named; the exit status."""
    return run(root, options.file, options.out, options.line, options.today)


def run(root: Path, file: Path, out: Path | None = None, line: str | None = None, today: str | None = None) -> int:
    """Judge `file`. Exit status: 0 all rows were good, 1 some were left out, 2 nothing could be read or written.

    `line` and `today` are as typed: percent and ISO day; the library's line and this day when not given.
    """
    gc.disable()  # a long file makes many small things that all stay: looking for refuse among them takes half the time
    try:
        return _run(root, file, out, line, today)
    finally:
        gc.enable()


@dataclass(frozen=True)
class Judged:
    """What a file of lots came to: the reference it was judged with, what was read, and the results in the file's order."""

    reference: Reference
    catalogue: Catalogue
    reading: Reading
    results: list[Result]
    line: float
    today: str


def read_and_judge(root: Path, file: Path, line: str | None, today: str | None) -> Judged | None:
    """Read and judge `file`, telling its problems; None when nothing could be read, after the reason was said."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a lot's name may have letters that the terminal lacks
    if line is not None and not (PERCENT.fullmatch(line) and float(line) <= 100):
        say(f"--line {line}: not a percentage. Write 0 to 100, such as 70 or 72.5.")
        return None
    if today is not None and not (ISO.fullmatch(today) and is_day(*map(int, today.split("-")))):
        say(f"--today {today}: not a day. Write year, month and day: 2026-03-12.")
        return None
    try:
        raw = file.read_bytes()
    except OSError as error:
        say(f"{file} cannot be read: {error.strerror}. Check the name and where the file is.")
        return None
    reference, problems = load(root)
    if reference is None:
        say(as_text(problems) + "\nThe reference’s own data has problems; mend them first.")
        return None
    catalogue = catalogue_of(data_of(reference))
    percent = catalogue.lending_line if line is None else float(line)
    today = today or date.today().isoformat()
    reading = read_lots(raw, file.name, catalogue, today, _progress("lines read"))
    del raw
    _tell_problems(reading.problems)
    if not reading.lots:
        say("No lot could be read; nothing was written.")
        return None
    results = list(judge_lots(reading, catalogue, percent, today, _progress("lots judged")))
    return Judged(reference, catalogue, reading, results, percent, today)


def _run(root: Path, file: Path, out: Path | None, line: str | None, today: str | None) -> int:
    judged = read_and_judge(root, file, line, today)
    if judged is None:
        return NOTHING_READ
    catalogue, reading, results, percent, today = judged.catalogue, judged.reading, judged.results, judged.line, judged.today
    needed = by_need(results)
    verdicts = tally(results)
    said = summary(reading, verdicts)
    print(terminal_table(needed))
    print(f"\n{said} {verdicts_text(verdicts)} Lending line {number_text(percent)} %.")
    demo = root / "data" / "demo" / "lots.csv"
    invented = catalogue.library_invented and demo.exists() and file.samefile(demo)
    folder = out or (root / "build" / "lots" if (root / "data").resolve() in file.resolve().parents else file.parent)
    sheet = sheet_html(needed, reading.problems, name=file.name, library=catalogue.library_name, line=percent, today=today, invented=invented, verdicts=verdicts, said=said)
    written = {f"{file.stem}-results.csv": csv_lines(results), f"{file.stem}-sheet.html": sheet}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, pieces in written.items():
            _write(folder / name, pieces, file)
    except OSError as error:
        say(f"The results cannot be written into {folder}: {error.strerror or error}. Name another folder with --out.")
        return NOTHING_READ
    if len(results) > MOST_ON_TERMINAL:
        print(f"The first {MOST_ON_TERMINAL} lots, those that need action first. All {grouped(len(results))} are in:")
    for name in written:
        print(f"  {folder / name}")
    return SOME_LEFT_OUT if reading.left_out else GOOD


def _tell_problems(problems) -> None:
    """On the error stream; a terminal gets the first of very many."""
    shown = problems[:MOST_PROBLEMS_ON_TERMINAL] if sys.stderr.isatty() else problems
    for problem in shown:
        print(problem_line(problem), file=sys.stderr)
    if len(shown) < len(problems):
        say(f"And {grouped(len(problems) - len(shown))} more. Add 2> problems.txt to the command to get them all in a file.")


def _progress(what: str):
    """A function (done, total) that says how far a long step is, on a terminal only."""
    counter = Progress()
    counter.start(what)

    def tell(done: int, total: int) -> None:
        counter.done = max(done - 1, 0)
        counter.step(total)

    return tell if sys.stderr.isatty() else lambda done, total: None


def _write(path: Path, pieces: Iterable[str], source: Path) -> None:
    """Write a result; never over the file that was read."""
    if path.exists() and path.samefile(source):
        raise OSError(f"{path.name} is the file that was read")
    write_whole(path, pieces)
