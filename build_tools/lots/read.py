"""From the file to lots with their tests. Every row that cannot be read is a problem; the others count.

Twin: docs/assets/js/lots/read.js.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from operator import itemgetter

from ..problem import Problem
from .catalogue import Catalogue, fold, nearest
from .cells import Cells, tidy
from .columns import COUNTS, HEADINGS_NEEDED, NAMES, OTHER_WORDS
from .gather import Lot, Row, gather
from .table import SEPARATORS, Stop, decode, quote_words, records, separator_of
from .words import listed, quoted

FILE, ROW = "file", "row"  # stand for a column in problems of the whole file or row
DESCRIBING = ("crop", "variety", "harvested", "storage", "tested")
EVERY = 5000  # rows between two words on progress


@dataclass
class Reading:
    """What a file held.

    lots: by name, in the order of their first good row; problems: sorted by line, level "error" (a
    row or the file was left out) or "note"; rows: not counting empty ones; left_out: rows of them.
    """

    lots: dict[str, Lot] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    rows: int = 0
    left_out: int = 0
    stopped: bool = False


def read_lots(raw: bytes, name: str, catalogue: Catalogue, today: str, progress: Callable[[int, int], None] = lambda done, total: None) -> Reading:
    """Read a file of lots. Never raises for anything the bytes hold.

    `name` is shown in problems; `today` is an ISO day; `progress(lines done, lines in all)` is called now and then.
    """
    reader = _Reader(name, catalogue, today)
    try:
        text = decode(raw)
        del raw
        reader.read(text.split("\n"), progress)
    except Stop as stop:
        reader.reading = Reading(stopped=True)
        reader.problem(stop.line, FILE, stop.message, stop.hint)
    return reader.finish()


class _Reader:
    def __init__(self, name: str, catalogue: Catalogue, today: str):
        self.name, self.catalogue = name, catalogue
        self.cells = Cells(catalogue, today)
        self.reading = Reading()
        self.columns: list[str] = []
        self.rows: dict[str, list[Row]] = {}
        self.marked: set[str] = set()

    def problem(self, line: int, column: str, message: str, hint: str, level: str = "error") -> None:
        place = self.columns.index(column) + 1 if column in self.columns else 1
        self.reading.problems.append(Problem(self.name, line, place, column, message, hint, level))

    def read(self, lines: list[str], progress) -> None:
        start = next((index for index, line in enumerate(lines) if line.strip(" ,;\t")), None)
        if start is None:
            raise Stop(1, "The file is empty.", "Give it a row of column names and a row for each towel or dish.")
        self.separator = separator_of(lines[start])
        told, take = start, self._row
        for line, cells, wrong in records(lines, self.separator, start):
            if self.columns and cells is not None:
                take(line, cells)
            elif cells is not None:
                if any(map(tidy, cells)):
                    self._header(line, cells)
            elif not self.columns:
                raise Stop(line, *quote_words(wrong, lines[line - 1]))
            else:
                self.reading.rows += 1
                self._leave_out(lines[line - 1].split(self.separator), line, [(ROW, quote_words(wrong, lines[line - 1]))])
            if line - told >= EVERY:
                told = line
                progress(line, len(lines))

    def finish(self) -> Reading:
        """Put the rows together into lots; say so when there are none."""
        reading = self.reading
        if not reading.stopped:
            gather(self.rows, self.marked, self.catalogue, reading, self.problem)
            if not reading.rows:
                self.problem(1, FILE, "The file has column names and no rows.", "Add a row for each towel or dish.")
        reading.problems.sort(key=lambda p: (p.line, p.column))
        return reading

    def _header(self, line: int, cells: list[str]) -> None:
        headings = [tidy(cell) for cell in cells]
        twice = [name for name in NAMES if headings.count(name) > 1]
        if twice:
            raise Stop(line, f"The column {listed([quoted(name) for name in twice])} is there more than once.", "Keep one of them, or give the other another name.")
        others = list(dict.fromkeys(heading for heading in headings if heading not in NAMES))
        missing = [name for name in HEADINGS_NEEDED if name not in headings]
        if missing:
            meant = {name: next((other for other in others if meaning(other) == name), None) for name in missing}
            remedies = [f"Rename {quoted(other)} to “{name}”." if other else f"Add a column “{name}”." for name, other in meant.items()]
            words = listed([f"“{name}”" for name in missing])
            raise Stop(line, f"The column {words} is missing." if len(missing) == 1 else f"The columns {words} are missing.", " ".join(remedies))
        self.columns = headings
        self.places = {name: headings.index(name) for name in NAMES if name in headings}
        if others:
            # A heading that looks like one of the missing columns is worth a word.
            like = next(((other, meaning(other)) for other in others if meaning(other) and meaning(other) not in headings), None)
            shown = listed([quoted(other) if other else "without a name" for other in others])
            hint = f"If {quoted(like[0])} is “{like[1]}”, rename it." if like else "Nothing needs doing."
            self.problem(line, FILE, f"Not read, being none of the columns known here: {shown}.", hint, "note")
        self._prepare()

    def _prepare(self) -> None:
        """What each row needs, looked up once. A column that is not there is read from an empty cell put at the end."""
        place = {name: self.places.get(name, -1) for name in NAMES}
        self.texts = itemgetter(*(place[name] for name in ("lot", *DESCRIBING)))
        self.counts = itemgetter(*(place[name] for name in COUNTS))
        self.memories = [self.cells.read[name] for name in DESCRIBING]
        self.read_counts = self.cells.read["counts"]
        self.width = len(self.columns)
        self.last_texts, self.last = (), None

    def _row(self, line: int, cells: list[str]) -> None:
        reading = self.reading
        if len(cells) != self.width:
            if any(map(tidy, cells)):
                reading.rows += 1
                word = SEPARATORS[self.separator]
                self._leave_out(cells, line, [(ROW, (f"{len(cells)} cells in this row, {self.width} in the header.", f"Look for a missing {word}, or for a {word} inside a text, which then needs quotes around it."))])
            return
        cells.append("")
        texts = self.texts(cells)
        if texts != self.last_texts:  # further replicates repeat them
            self.last_texts, self.last = texts, self._described(texts)
        lot, described, wrongs = self.last
        counts, wrong_counts = self.read_counts[described[-1] != "", self.counts(cells)]
        if wrongs or wrong_counts:
            if any(map(tidy, cells)):
                reading.rows += 1
                self._leave_out(cells, line, wrongs + wrong_counts)
            return
        reading.rows += 1
        row = Row(line, *described, *counts)
        if lot in self.rows:
            self.rows[lot].append(row)
        else:
            self.rows[lot] = [row]

    def _described(self, texts: tuple[str, ...]):
        """(lot, values of DESCRIBING, wrongs) of a row's cells but for the counts."""
        lot, wrong = self.cells.lot(texts[0])
        wrongs = [("lot", wrong)] if wrong else []
        values = []
        for name, memory, text in zip(DESCRIBING, self.memories, texts[1:], strict=True):
            value, wrong = memory[text]
            values.append(value)
            if wrong:
                wrongs.append((name, wrong))
        harvested, tested = values[2], values[4]
        if not wrongs and tested and tested[: len(harvested)] < harvested:
            wrongs.append(("tested", (f"Tested on {tested}, before the harvest of {harvested}.", "Check both dates.")))
        return lot, values, wrongs

    def _leave_out(self, cells: list[str], line: int, wrongs) -> None:
        """Report what is wrong with a row; mark its lot, as far as that can be read."""
        self.reading.left_out += 1
        place = self.places["lot"]
        if place < len(cells):
            self.marked.add(tidy(cells[place].strip('"')))
        for column, (message, hint) in wrongs:
            self.problem(line, column, message, hint)


def meaning(heading: str) -> str | None:
    """The column of ours that another heading probably stands for."""
    folded = fold(heading)
    words = "".join(letter if letter.isascii() and letter.isalpha() else " " for letter in folded).split()
    for word in words:
        if word in NAMES:
            return word
    for word in words:
        if word in OTHER_WORDS:
            return OTHER_WORDS[word]
    return nearest(folded, NAMES) if folded else None
