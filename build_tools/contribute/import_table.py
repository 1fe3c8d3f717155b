"""Walking somebody's table into a source folder: headers to columns, names to crops, ranges to numbers, and every doubt said before anything is written."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from ..lots.catalogue import fold
from ..problem import Problem, did_you_mean
from .crop_names import Match, NameBook
from .foreign_table import ForeignTable
from .headers import Reading, match_headers, unit_of
from .ranges import is_date, pairs, read_range

TOTALS = re.compile(r"(grand |sub)?total|totals|average|averages|mean|sum|median|overall", re.I)
THOUSANDS = re.compile(r"\d{1,3}([, ’'\u00a0]\d{3})+")
DECIMAL_COMMA = re.compile(r"-?\d+,\d{1,2}")


@dataclass
class Import:
    """A table on its way in: our columns and rows (with the line each has in the file), and all that is to be said about it.

    readings: header → Reading; crops: name as printed → Match or None; filled: printed column → (cells filled, cells not clear by line).
    """

    columns: list[str] = field(default_factory=list)
    rows: list[dict[str, str]] = field(default_factory=list)
    lines: list[int] = field(default_factory=list)
    readings: dict[str, Reading] = field(default_factory=dict)
    crops: dict[str, Match | None] = field(default_factory=dict)
    filled: dict[str, tuple[int, list[tuple[int, str]]]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def text(self) -> str:
        """The table as CSV text in the form of its neighbours."""
        out = io.StringIO()
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(self.columns)
        writer.writerows([row.get(column, "") for column in self.columns] for row in self.rows)
        return out.getvalue()


def import_table(table: ForeignTable, kind: str, schema: Mapping, book: NameBook, maps: Mapping[str, str] | None = None, crops: Mapping[str, str] | None = None, unit: str = "") -> Import:
    """The table as our kind of table. `schema` is that of the kind; `maps`: header → column ("" leaves it out); `crops`: name → ids.

    Problems stop the table: they name the line and column of the file as it came.
    """
    done, known = Import(), list(schema["properties"])
    maps, crops = maps or {}, crops or {}
    _check_words(table, known, maps, crops, book, done)
    done.readings, open_ = match_headers(table.headers, known, maps, unit)
    done.readings = {header: done.readings[header] for header in table.headers if header in done.readings}
    _unmatched(table, open_, done)
    wanted = {reading.column for reading in done.readings.values() if reading.column}
    said = [unit_of(header) for header, reading in done.readings.items() if reading.column] + [column[-1] for column in wanted if re.search(r"_[fc]$", column)]
    units = set(filter(None, said))
    unit = unit or (next(iter(units)) if len(units) == 1 else "")
    _take_cells(table, done)
    if "crop_as_printed" in wanted and "crop_id" in known and "crop_id" not in wanted:
        given = {fold(name): ids for name, ids in crops.items()}
        for row in done.rows:
            name = row["crop_as_printed"]
            if name not in done.crops:
                done.crops[name] = Match(given[fold(name)], "given") if fold(name) in given else book.find(name, kind)
            row["crop_id"] = done.crops[name].ids if done.crops[name] else ""
        wanted.add("crop_id")
    _odd_rows(table, done)
    _odd_cells(table, schema, done)
    wanted |= _fill(done, wanted, pairs(known, unit))
    done.columns = [column for column in known if column in wanted]
    for column in schema.get("required", ()):
        if column not in wanted:
            done.problems.append(table.problem(table.header_line, None, "missing-column", f'A table of kind {kind} needs the column "{column}": {schema["properties"].get(column, {}).get("description", "")}', f'If a column has it under another name, add --map "Their header={column}".'))
    return done


def _check_words(table: ForeignTable, known: list[str], maps, crops, book: NameBook, done: Import) -> None:
    """What the person typed for --map and --crops names headers, columns and crops that exist."""
    headers = {fold(header): header for header in table.headers}
    for header, column in maps.items():
        if fold(header) not in headers:
            done.problems.append(table.problem(table.header_line, None, "unknown-column", f'--map names the header "{header}", which the table has not.', did_you_mean(header, table.headers)))
        if column and column not in known:
            done.problems.append(table.problem(table.header_line, None, "unknown-column", f'--map names the column "{column}", which this kind of table has not.', did_you_mean(column, known) or f"Its columns: {', '.join(known)}."))
    columns = [reading for reading in maps.values() if reading]
    for column in sorted({c for c in columns if columns.count(c) > 1}):
        done.problems.append(table.problem(table.header_line, None, "unknown-column", f'--map gives two headers to the column "{column}".', "Keep one of them; leave the other out with --map \"Their header=\"."))
    for name, ids in crops.items():
        for crop in filter(None, ids.split(";")):
            if crop not in book.shown:
                near = book.nearest(crop)
                done.problems.append(table.problem(1, None, "unknown-crop-id", f'--crops gives "{name}" the id "{crop}", which is neither a crop nor listed in data/other-kinds.yml.', f"Nearest: {', '.join(near)}." if near else "Leave it empty for a kind without an id."))


def _unmatched(table: ForeignTable, open_: Mapping[str, list[str]], done: Import) -> None:
    for header, near in open_.items():
        first = near[0] if near else "our_column"
        hint = f'Nearest: {", ".join(near)}. ' if near else ""
        done.problems.append(table.problem(table.header_line, table.headers.index(header), "unmatched-column", f'No column of this kind was surely meant by "{header}"',
                                           f'{hint}Add --map "{header}={first}", or --map "{header}=" to leave the column out.'))


def _take_cells(table: ForeignTable, done: Import) -> None:
    """Each row's cells under our names, as printed."""
    for line, cells in table.rows:
        row = {done.readings[header].column: cell for header, cell in zip(table.headers, cells) if header in done.readings and done.readings[header].column}
        done.rows.append(row)
        done.lines.append(line)


def _odd_rows(table: ForeignTable, done: Import) -> None:
    """Totals at the end, headings and footnotes between the rows: named, never guessed."""
    for line, row in zip(done.lines, done.rows):
        name = row.get("crop_as_printed", "")
        filled = [column for column, cell in row.items() if cell and column != "crop_id"]
        if TOTALS.fullmatch(name.strip(" :")):
            done.problems.append(table.problem(line, None, "totals-row", f'"{name}" is no crop: a row of totals, it seems', f"Add --leave-out {line}, or delete the row."))
        elif filled == ["crop_as_printed"] and not row.get("crop_id") and len(row) > 2:
            done.problems.append(table.problem(line, None, "lone-cell", f'Only "{name[:60]}" stands in this row: a heading or a footnote, it seems', f'Add --leave-out {line}; or, if it is a crop, say so with --crops "{name}=crop-id".'))


def _odd_cells(table: ForeignTable, schema: Mapping, done: Import) -> None:
    """Dates that a spreadsheet made, and numbers written with a thousands separator or a decimal comma."""
    header_of = {reading.column: header for header, reading in done.readings.items()}
    for line, row in zip(done.lines, done.rows):
        for column, cell in row.items():
            if column not in header_of or not cell:
                continue
            place = table.headers.index(header_of[column])
            numeric = _of_numbers(schema["properties"].get(column, {}))
            if is_date(cell) and column != "date" and not row.get(column.replace("as_printed", "read_as") if "as_printed" in column else ""):
                done.problems.append(table.problem(line, place, "spreadsheet-date", f'"{cell}" is a date', "A spreadsheet makes dates of ranges such as 7-10. It can't be known which: look into the copy, format the column as text, and type the range as printed."))
            elif numeric and THOUSANDS.fullmatch(cell):
                done.problems.append(table.problem(line, place, "thousands-separator", f'"{cell}" has a thousands separator in the column of numbers {column}', f"Type {re.sub(r'[^0-9]', '', cell)}; if it is a decimal comma, type a point."))
            elif numeric and DECIMAL_COMMA.fullmatch(cell):
                done.problems.append(table.problem(line, place, "decimal-comma", f'"{cell}" has a decimal comma', f"Type {cell.replace(',', '.')}."))


def _of_numbers(column: Mapping) -> bool:
    """Whether the cells of a column of the schema are numbers."""
    pattern = column.get("items", {}).get("pattern", "")
    return bool(pattern) and re.search(pattern, "12") is not None and re.search(pattern, "x") is None


def _fill(done: Import, wanted: set[str], targets) -> set[str]:
    """Fill lowest and highest from what is printed; the columns that were added."""
    added: set[str] = set()
    for target in targets:
        if target.printed not in wanted or {target.low.format("c"), target.low.format("f"), target.high.format("c"), target.high.format("f")} & wanted:
            continue
        count, unclear = 0, []
        for line, row in zip(done.lines, done.rows):
            cell = row.get(target.printed, "")
            read = read_range(cell, target.holds) if cell and not is_date(cell) else None
            unit = read[2] if read else ""
            if read and "{}" not in target.low and unit and not target.low.endswith(f"_{unit}"):
                read = None  # another unit than the table's
            if read and "{}" in target.low and not unit:
                read = None
            if read:
                low, high = target.low.format(unit), target.high.format(unit)
                row[low], row[high] = read[:2]
                added |= {low, high}
                count += 1
            elif cell:
                unclear.append((line, cell))
        if "{}" not in target.low:
            added |= {target.low, target.high}
        done.filled[target.printed] = (count, unclear)
    return added
