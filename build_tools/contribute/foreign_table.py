"""Somebody's table as they saved it: any usual separator and encoding, read with the line of every cell. Nothing is dropped unsaid."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, field
from pathlib import Path

from ..problem import Problem
from ..read.csv_file import LARGEST_CSV

SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs"}
SHEETS = {b"PK\x03\x04": "a spreadsheet file", b"\xd0\xcf\x11\xe0": "an old spreadsheet file", b"%PDF": "a PDF"}


@dataclass
class ForeignTable:
    """Headers and rows as they stand, cells without the spaces around them; notes say in words how the file was read.

    rows: (line in the file from 1, as many cells as headers).
    """

    name: str
    headers: list[str] = field(default_factory=list)
    header_line: int = 1
    rows: list[tuple[int, list[str]]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def problem(self, line: int, column: int | None, rule: str, message: str, hint: str = "") -> Problem:
        """A problem at a line and, from 0, a column of this table; the column is said by its header."""
        said = f' (column "{self.headers[column]}")' if column is not None and column < len(self.headers) else ""
        return Problem(self.name, line, (column or 0) + 1, rule, message.rstrip(".") + said + ".", hint)


def read_foreign(path: Path, header_line: int | None = None, leave_out: Collection[int] = ()) -> tuple[ForeignTable | None, list[Problem]]:
    """The table of a file. `header_line` and `leave_out` count the file's lines from 1. None when it can't be read at all."""
    table = ForeignTable(path.name)
    text, problems = _text(path, table)
    if text is None:
        return None, problems
    lines, problems = _lines(text, table)
    if problems:
        return None, problems
    return _shaped(table, lines, header_line, set(leave_out))


def _text(path: Path, table: ForeignTable) -> tuple[str | None, list[Problem]]:
    def refused(rule, message, hint):
        return None, [Problem(path.name, 1, 1, rule, message, hint)]

    try:
        raw = path.read_bytes()
    except OSError as error:
        return refused("unreadable", f"Cannot be read: {error.strerror}.", "Check the name of the file.")
    if len(raw) > LARGEST_CSV:
        return refused("file-too-large", f"The file has {len(raw):,} bytes; at most {LARGEST_CSV:,} are read.", "Save the one table alone.")
    for start, what in SHEETS.items():
        if raw.startswith(start):
            return refused("not-csv", f"This is {what}.", "Open it and save the one table as CSV (UTF-8).")
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        table.notes.append("The text is UTF-16.")
        return raw.decode("utf-16", errors="replace"), []
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        try:
            text = raw.decode("cp1252")
        except UnicodeDecodeError:
            return refused("not-utf8", f"Byte {error.start} is neither UTF-8 nor Windows-1252 text.", "Save the file as CSV (UTF-8).")
        line = raw[: error.start].count(b"\n") + 1
        table.notes.append(f"The text is not UTF-8; it was read as Windows-1252. Line {line} has the first such letter: check that it reads rightly.")
    return text, []


def _lines(text: str, table: ForeignTable) -> tuple[list[tuple[int, list[str]]], list[Problem]]:
    """(line, cells) of every row, parted by the separator that parts most rows alike."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    best = max(SEPARATORS, key=lambda separator: _alike(text, separator))
    rows, last = [], 0
    reader = csv.reader(io.StringIO(text), delimiter=best, strict=True)
    try:
        for cells in reader:
            rows.append((last + 1, [cell.strip() for cell in cells]))
            last = reader.line_num
    except csv.Error as error:
        return [], [Problem(table.name, last + 1, 1, "csv-shape", f"Not readable as CSV: {error}.", "Check the quotes in this row: a text with a quote in it has the quote doubled.")]
    if max((len(cells) for _, cells in rows), default=0) < 2:
        return [], [Problem(table.name, 1, 1, "csv-shape", "Only one column was found.", "Save the table with commas, semicolons or tabs between the columns.")]
    if best != ",":
        table.notes.append(f"The columns are separated by {SEPARATORS[best]}.")
    return rows, []


def _alike(text: str, separator: str) -> tuple[float, int]:
    """(share of rows with the commonest number of cells above one, that number)."""
    try:
        counts = Counter(len(cells) for cells in csv.reader(io.StringIO(text), delimiter=separator) if any(cells))
    except csv.Error:
        return 0, 0
    wide = {width: count for width, count in counts.items() if width > 1}
    if not wide:
        return 0, 0
    width = max(wide, key=lambda w: (wide[w], w))
    return wide[width] / counts.total(), width


def _filled(cells: list[str]) -> int:
    return sum(bool(cell) for cell in cells)


def _ranges(lines: list[int]) -> str:
    return ", ".join(map(str, lines))


def _shaped(table: ForeignTable, lines, header_line: int | None, leave_out: set[int]) -> tuple[ForeignTable | None, list[Problem]]:
    """Header and rows told apart, every row as wide as the header."""
    empty = [line for line, cells in lines if not _filled(cells)]
    full = [(line, cells) for line, cells in lines if _filled(cells)]
    unknown = sorted((leave_out | ({header_line} if header_line else set())) - {line for line, _ in lines})
    if unknown:
        return None, [Problem(table.name, 1, 1, "csv-shape", f"No row begins on line {_ranges(unknown)}.", "Lines are counted from 1, empty ones too; a cell that holds a line break counts its lines.")]
    full = [(line, cells) for line, cells in full if line not in leave_out]
    if header_line is None:
        if not full:
            return None, [Problem(table.name, 1, 1, "csv-shape", "The table is empty.", "It needs a row of column names and at least one row.")]
        header_line, cells = full[0]
        gaps = _filled(cells) < len(cells) or _filled(cells) == 1  # cells left empty by merging, or a title alone
        wider = next(((line, later) for line, later in full[1:4] if gaps and _filled(later) > _filled(cells)), None)
        if wider:
            words = "; ".join(filter(None, cells))
            return None, [Problem(table.name, header_line, 1, "merged-header", f'Line {header_line} ("{words}") names {_filled(cells)} of {_filled(wider[1])} columns: a title or merged heading, it seems.',
                                  f"If the column names stand on line {wider[0]}, add --header-line {wider[0]}. Else give every column a name.")]
    above = [line for line, _ in full if line < header_line]
    headers = next(cells for line, cells in lines if line == header_line)
    rows = [(line, cells) for line, cells in full if line > header_line]
    used = max([i + 1 for i, header in enumerate(headers) if header] + [i + 1 for _, cells in rows for i, cell in enumerate(cells[: len(headers)]) if cell], default=0)
    table.headers, table.header_line = [" ".join(header.split()) for header in headers[:used]], header_line
    problems = []
    for index, header in enumerate(table.headers):
        if not header:
            problems.append(table.problem(header_line, index, "csv-header", f"Column {index + 1} has cells but no name.", "Give it a name in the header, or delete it."))
        elif header in table.headers[:index]:
            problems.append(table.problem(header_line, index, "csv-header", f'Two columns are called "{header}".', "Give each a name of its own."))
    if not rows:
        problems.append(table.problem(header_line, None, "csv-shape", "No row follows the header.", "Check that the whole table was saved."))
    for line, cells in rows:
        if _filled(cells[used:]):
            problems.append(table.problem(line, None, "csv-shape", f"{len(cells)} cells in this row, {used} columns in the header.", 'A cell that holds the separator needs quotes around it, such as "Bean, snap".'))
        table.rows.append((line, (cells + [""] * used)[:used]))
    if above:
        table.notes.append(f"Above the header, and not taken in: line {_ranges(above)}.")
    if leave_out:
        table.notes.append(f"Left out as asked: line {_ranges(sorted(leave_out))}.")
    inside = [line for line in empty if line < max((line for line, _ in rows), default=0)]
    if inside:
        table.notes.append(f"Empty and not taken in: line {_ranges(inside)}.")
    return table, problems
