"""A printed table as CSV, read with the place of each cell."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass, field
from pathlib import Path

from ..problem import Problem
from .text_file import read_text

LARGEST_CSV = 400_000  # bytes


@dataclass(frozen=True)
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

    def problem(self, row: Row | None, column: str | None, rule: str, message: str, hint: str = "") -> Problem:
        line = row.line if row else 1
        return Problem(self.file, line, self._start(line, column), rule, message, hint)

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


def read_csv(path: Path, name: str) -> tuple[Table | None, list[Problem]]:
    """Read a CSV file with a header row. Returns (table, problems)."""
    text, problems = read_text(path, name, LARGEST_CSV)
    if text is None:
        return None, problems
    table = Table(name, lines=text.split("\n"))
    reader = csv.reader(io.StringIO(text), strict=True)
    last = 0
    try:
        for cells in reader:
            line, last = last + 1, reader.line_num
            if not table.columns:
                table.columns = cells
                other = next((s for s in ";\t" if len(cells) == 1 and s in cells[0]), None)
                if other:
                    return None, [Problem(name, 1, 1, "csv-header", f"The columns are separated by {'semicolons' if other == ';' else 'tabs'}.", "Save the table with commas between the columns.")]
                repeated = sorted({c for c in cells if cells.count(c) > 1 or not c})
                if repeated:
                    return None, [Problem(name, 1, 1, "csv-header", f"Column name empty or repeated: {', '.join(repeated) or '(empty)'}.", "Give each column a name of its own.")]
            elif not cells:
                if line < len(table.lines):
                    problems.append(Problem(name, line, 1, "csv-shape", "An empty line stands in the table.", "Delete it."))
            elif len(cells) != len(table.columns):
                problems.append(Problem(name, line, 1, "csv-shape", f"{len(cells)} cells in this row, {len(table.columns)} columns in the header.", "Check for a missing comma, or a comma in a text without quotes."))
            else:
                table.rows.append(Row(line, dict(zip(table.columns, cells))))
    except csv.Error as error:
        return None, problems + [Problem(name, last + 1, 1, "csv-shape", f"Not readable as CSV: {error}.", "Check the quotes in this row.")]
    if not table.columns or not table.rows:
        return None, problems + [Problem(name, 1, 1, "csv-shape", "The table is empty.", "Give it a header row and at least one row.")]
    return table, problems
