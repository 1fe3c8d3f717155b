"""A printed table as CSV, read with the place of each cell. Its rules, one function each."""

from __future__ import annotations

import csv
import io
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from ..problem import Place, Problem
from ..registry import READING, rule
from .text_file import line_break, read_text

LARGEST_CSV = 400_000  # bytes
MOST_COLUMNS = 60
MOST_WRONG = 200  # rows that are told of before the rest is left unread


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its line in the file (from 1) and its cells by column name, as printed."""

    line: int
    cells: dict[str, str]

    def __getitem__(self, column: str) -> str:
        return self.cells.get(column, "")


@dataclass
class Table:
    """A table of text cells; `file` is the shown name."""

    file: str
    columns: list[str] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    lines: list[str] = field(default_factory=list, repr=False)

    def see(self, row: Row | None = None, column: str | None = None, words: str = "") -> Place:
        """The place of a cell, for a problem of another file."""
        line = row.line if row else 1
        return Place(self.file, line, self._start(line, column), words)

    def problem(self, row: Row | None, column: str | None, rule: str, message: str, hint: str = "", see: tuple[Place, ...] = ()) -> Problem:
        """A problem at a cell, at a row, or at the header."""
        line = row.line if row else 1
        at = f"{row[self.columns[0]] if row and self.columns else ''}/{column or ''}".strip("/")
        return Problem(self.file, line, self._start(line, column), rule, message, hint, see=see, at=at)

    def _start(self, line: int, column: str | None) -> int:
        """Where the column's cell starts in that line (from 1); quoted commas are skipped."""
        if column is None or column not in self.columns or not 0 < line <= len(self.lines):
            return 1
        wanted, quoted, seen = self.columns.index(column), False, 0
        for index, letter in enumerate(self.lines[line - 1]):
            if seen == wanted:
                return index + 1
            if letter == '"':
                quoted = not quoted
            elif letter == "," and not quoted:
                seen += 1
        return len(self.lines[line - 1]) + 1


@rule("csv-header", READING)
def csv_header(columns: list[str], file: str) -> Problem | None:
    """A table's first line names its columns, each once, with commas between them."""
    other = next((s for s in ";\t" if len(columns) == 1 and s in columns[0]), None)
    if other:
        return Problem(file, 1, 1, "csv-header", f"The columns are separated by {'semicolons' if other == ';' else 'tabs'}.", "Save the table with commas between the columns.")
    if len(columns) > MOST_COLUMNS:
        return Problem(file, 1, 1, "csv-header", f"The table has {len(columns):,} columns; at most {MOST_COLUMNS} are read.", "Check that the right file was saved.")
    repeated = sorted(c for c, times in Counter(columns).items() if times > 1 or not c)
    if repeated:
        return Problem(file, 1, 1, "csv-header", f"Column name empty or repeated: {', '.join(c[:40] for c in repeated[:8]) or '(empty)'}.", "Give each column a name of its own.")
    return None


@rule("csv-shape", READING)
def csv_shape(table: Table, cells: list[str], line: int, first: int) -> Iterator[Problem]:
    """Every row of a table has as many cells as its header, and no empty line stands between rows."""
    if not cells and line < len(table.lines):
        yield Problem(table.file, line, 1, "csv-shape", "An empty line stands in the table.", "Delete it.")
    elif cells and len(cells) != len(table.columns):
        yield Problem(table.file, first, 1, "csv-shape", f"{len(cells)} cells in this row, {len(table.columns)} columns in the header.", "Check for a missing comma, or a comma in a text without quotes.")


def read_csv(path: Path, name: str) -> tuple[Table | None, list[Problem]]:
    """Read a CSV file with a header row. Returns (table, problems)."""
    text, problems = read_text(path, name, LARGEST_CSV)
    return (None, problems) if text is None else parse_csv(text, name)


def parse_csv(text: str, name: str) -> tuple[Table | None, list[Problem]]:
    """The same of a text."""
    problems: list[Problem] = []
    table = Table(name, lines=text.split("\n"))
    reader = csv.reader(io.StringIO(text), strict=True)
    last = 0
    try:
        for cells in reader:
            first, last = last + 1, reader.line_num
            if not table.columns:
                table.columns = [sys.intern(cell) for cell in cells]
                if problem := csv_header(cells, name):
                    return None, [problem]
                continue
            wrong = list(csv_shape(table, cells, last, first))
            wrong += [Problem(name, first, 1, "line-break", *found) for cell in cells if (found := line_break(cell))]
            problems += wrong
            if len(problems) > MOST_WRONG:
                return None, problems  # hardly a table at all
            if cells and not wrong:
                table.rows.append(Row(first, dict(zip(table.columns, cells))))
    except csv.Error as error:
        return None, problems + [Problem(name, last + 1, 1, "csv-shape", f"Not readable as CSV: {error}.", "Check the quotes in this row.")]
    if not table.columns or not table.rows:
        return None, problems + [Problem(name, 1, 1, "csv-shape", "The table is empty.", "Give it a header row and at least one row.")]
    return table, problems
