"""Germination tests counted day by day, as the page "Follow a test day by day" saves them or a spreadsheet exports them.

A file is CSV in UTF-8 (with or without a byte-order mark), separated by commas, semicolons or tabs,
quoted as in RFC 4180, one row a count, the rows of a test in the order of the days:

    test,seeds,day,new
    Row 3,50,4,4
    Row 3,50,5,9

    test   name of the test, up to 60 characters; rows with the same name belong together. A file
           that names none holds one test.
    seeds  seeds set, 1 to 100,000, the same in every row of the test
    day    days since the seed was set, 0 to 1000, decimals allowed; a decimal comma only where the
           separator is not a comma
    new    seedlings new at this count, not a running total

Other columns are passed over with a note. A test with anything wrong in it is left out as a whole,
since a count lost from the middle would shift every number; the other tests still come out.
Encoding, separator, quotes and counts are read by the modules that read lots.
Twin: docs/assets/js/calculators/daily-counts/file.js.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from .lots.catalogue import fold, nearest
from .lots.cells import tidy
from .lots.table import SEPARATORS, Stop, decode, quote_words, records, separator_of
from .lots.words import counted, grouped, listed, quoted
from .problem import Problem
from .test_file_cells import Wrong, bare, day_text, read_day, read_name, read_number

COLUMNS = ("test", "seeds", "day", "new")
FILE, ROW = "file", "row"  # stand for a column in problems of the whole file or row

# What people call the columns, so that a missing one can be found under another heading.
OTHER_WORDS = {
    "name": "test", "lot": "test", "sample": "test", "trial": "test", "set": "seeds", "sown": "seeds", "seed": "seeds", "n": "seeds",
    "days": "day", "time": "day", "date": "day", "seedlings": "new", "germinated": "new", "sprouted": "new", "count": "new", "fresh": "new",
}
TOTALS = ("total", "cumulative", "sum")  # headings of running totals, which are not what "new" holds


@dataclass(frozen=True)
class Course:
    """One test: count days (rising, above 0), seedlings new at each, seeds set; `line` is its first in the file."""

    name: str
    seeds: int
    days: tuple[float, ...]
    new: tuple[int, ...]
    line: int = 0


@dataclass
class Reading:
    """What a file held: good tests in their order, problems by place (level "error" or "note"), tests left out."""

    courses: list[Course] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    left_out: int = 0

    @property
    def all_good(self) -> bool:
        return all(problem.level == "note" for problem in self.problems)


@dataclass(frozen=True)
class _Row:
    line: int
    seeds: int
    day: float
    new: int


def read_courses(raw: bytes, name: str) -> Reading:
    """Read a file of tests; `name` is shown in problems. Never raises for anything the bytes hold."""
    reader = _Reader(name)
    try:
        reader.read(decode(raw).split("\n"))
    except Stop as stop:
        reader.reading = Reading()
        reader.problem(stop.line, FILE, (stop.message, stop.hint))
    reader.reading.problems.sort(key=lambda problem: (problem.line, problem.column))
    return reader.reading


class _Reader:
    def __init__(self, name: str):
        self.name = name
        self.reading = Reading()
        self.columns: list[str] = []
        self.rows: dict[str, list[_Row]] = {}  # by test
        self.first: dict[str, int] = {}  # line in which a test begins, good or bad
        self.marked: set[str] = set()  # tests with something wrong in them

    def problem(self, line: int, column: str, wrong: Wrong, level: str = "error") -> None:
        place = self.columns.index(column) + 1 if column in self.columns else 1
        self.reading.problems.append(Problem(self.name, line, place, column, *wrong, level))

    def read(self, lines: list[str]) -> None:
        first = next((line for line in lines if line.strip(" ,;\t")), None)
        if first is None:
            raise Stop(1, "The file is empty.", "Give it the column names test, seeds, day, new and a row for each count.")
        self.separator = separator_of(first)
        for line, cells, wrong in records(lines, self.separator):
            if cells is None and not self.columns:
                raise Stop(line, *quote_words(wrong, lines[line - 1]))
            if cells is None:
                self._leave_out(lines[line - 1].split(self.separator), line, [(ROW, quote_words(wrong, lines[line - 1]))])
            elif not any(map(tidy, cells)):
                continue
            elif not self.columns:
                self._header(line, cells)
            else:
                self._row(line, cells)
        if not self.first:
            raise Stop(1, "The file has column names and no rows.", "Add a row for each count.")
        self._gather()

    def _header(self, line: int, cells: list[str]) -> None:
        headings = [fold(tidy(cell)) for cell in cells]
        twice = [name for name in COLUMNS if headings.count(name) > 1]
        if twice:
            raise Stop(line, f"The column {listed([quoted(name) for name in twice])} is there more than once.", "Keep one of them, or give the other another name.")
        others = [heading for heading in dict.fromkeys(headings) if heading not in COLUMNS]
        missing = [name for name in COLUMNS if name not in headings]
        if missing:
            words = listed([quoted(name) for name in missing])
            raise Stop(line, f"The column {words} is missing." if len(missing) == 1 else f"The columns {words} are missing.", " ".join(_remedy(name, others) for name in missing))
        self.columns = headings
        self.places = {name: headings.index(name) for name in COLUMNS}
        if others:
            shown = listed([quoted(other) if other else "one without a name" for other in others])
            self.problem(line, FILE, (f"Not read, being none of the columns known here: {shown}.", "Nothing needs doing."), "note")

    def _row(self, line: int, cells: list[str]) -> None:
        if len(cells) != len(self.columns):
            word = SEPARATORS[self.separator]
            hint = "A decimal comma makes two cells of one: write 5.5." if word == "comma" and len(cells) > len(self.columns) else f"Look for a missing {word}, or for one too many."
            self._leave_out(cells, line, [(ROW, (f"{len(cells)} cells in this row, {len(self.columns)} in the header.", hint))])
            return
        texts = {name: cells[place] for name, place in self.places.items()}
        name, wrong = read_name(texts["test"])
        wrongs = [("test", wrong)] if wrong else []
        seeds, wrong = read_number(texts["seeds"], "Write how many seeds were set, in every row of the test.", 1)
        wrongs += [("seeds", wrong)] if wrong else []
        day, wrong = read_day(texts["day"], self.separator == ",")
        wrongs += [("day", wrong)] if wrong else []
        new, wrong = read_number(texts["new"], "Write how many seedlings were new, 0 if none.", 0)
        wrongs += [("new", wrong)] if wrong else []
        if wrongs:
            self._leave_out(cells, line, wrongs)
            return
        self.first.setdefault(name, line)
        self.rows.setdefault(name, []).append(_Row(line, seeds, day, new))

    def _leave_out(self, cells: list[str], line: int, wrongs: list[tuple[str, Wrong]]) -> None:
        """Report what is wrong with a row; its test, as far as that can be read, is left out."""
        place = self.places["test"]
        name = bare(cells[place].strip('"')) if place < len(cells) else ""
        self.first.setdefault(name, line)
        self.marked.add(name)
        for column, wrong in wrongs:
            self.problem(line, column, wrong)

    def _gather(self) -> None:
        """The tests, each checked as a whole."""
        if "" in self.first and len(self.first) > 1:
            if "" not in self.marked:
                self.problem(self.first[""], "test", ("This row names no test, and others do.", "Write the name in every row of the test."))
            self.marked.add("")
        for name, line in self.first.items():
            rows = self.rows.get(name, [])
            wrong = None if name in self.marked else _wrong_with(rows)
            if wrong:
                self.problem(*wrong)
            if wrong or name in self.marked:
                self.reading.left_out += 1
                continue
            kept = [row for row in rows if row.day > 0]
            self.reading.courses.append(Course(name, rows[0].seeds, tuple(row.day for row in kept), tuple(row.new for row in kept), line))


def _wrong_with(rows: list[_Row]) -> tuple[int, str, Wrong] | None:
    """(line, column, (message, hint)) of the first thing wrong with a test as a whole."""
    total, before = 0, None
    for row in rows:
        total += row.new
        if row.seeds != rows[0].seeds:
            return row.line, "seeds", (f"{counted(row.seeds, 'seed')} here, {grouped(rows[0].seeds)} in line {rows[0].line}.", "All rows of one test carry the same number; another test needs another name.")
        if before and row.day <= before.day:
            seen = f"Day {day_text(row.day)} is there twice" if row.day == before.day else f"Day {day_text(row.day)} comes after day {day_text(before.day)}"
            return row.line, "day", (f"{seen} (line {before.line}).", "Put the counts in the order of the days; two tests need two names.")
        if row.day == 0 and row.new:
            return row.line, "new", (f"{counted(row.new, 'seedling')} on day 0 cannot be: seed does not come up at the moment it is set.", "Count the days from setting the seed; the next day is day 1.")
        if total > row.seeds:
            return row.line, "new", (f"{counted(total, 'seedling')} by day {day_text(row.day)} from {counted(row.seeds, 'seed')} cannot be.", "Check the counts: “new” holds the seedlings new at each count, not running totals.")
        before = row
    if before.day == 0:
        return before.line, "day", ("Day 0 is the only count of this test.", "Add the counts of later days.")
    return None


def _remedy(name: str, others: list[str]) -> str:
    """How to come by a missing column; the heading that probably means it is named."""
    meant = next((other for other in others if _means(other) == name), None)
    if meant:
        return f"Rename {quoted(meant)} to “{name}”."
    if name == "new" and any(word in other.split() for other in others for word in TOTALS):
        return "Add a column “new” with the seedlings new at each count: each total less the one before."
    return f"Add a column “{name}”."


def _means(heading: str) -> str | None:
    words = heading.split()
    if any(word in TOTALS for word in words):
        return None
    return next((word for word in words if word in COLUMNS), None) or next((OTHER_WORDS[word] for word in words if word in OTHER_WORDS), None) or (nearest(heading, COLUMNS) if heading else None)
