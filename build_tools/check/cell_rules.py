"""Rules about single cells and rows of printed tables: limits, order, copies, and what spreadsheets do to them."""

from __future__ import annotations

import re

from ..problem import Place
from ..read import DataTree
from ..read.csv_file import parse_csv
from ..registry import ONE_FILE, rule
from .tables import GRID_C, doubts_of, tables_of

LEAST_LETTERS = 8
LONG_NUMBER = re.compile(r"^[<>]?-?[0-9]{8}|[0-9]{12}")  # seeds in an ounce of petunia have six
FORMULA = re.compile(r"\s*([=@\uff1d\uff20]|[+\-\uff0b\uff0d][^|!(]*[|!(])")  # full-width signs count as signs to some spreadsheets
PAIRS = [("min", "max"), ("low", "high")]
DATE = re.compile(r"\d{1,2}-(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*|(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*-\d{1,4}|\d{4}-\d{2}-\d{2}", re.I)


def _number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None


@rule("cell-limits", acceptable=True)
def cell_limits(tree: DataTree):
    """A number in a printed table is plausible for its column: temperatures fit their unit, percentages end at 100, seed life is not a century."""
    limits = tree.singles["quantities"].data["table_columns"]
    for _, entry, table in tables_of(tree):
        percent, days = entry["kind"] == "normal-seedlings-by-temperature", entry["kind"] == "days-by-temperature"
        for row in table.rows:
            doubted = doubts_of(entry, table, row)
            for column in table.columns:
                if column in doubted:
                    continue
                numbers = [float(n) for n in re.findall(r"\d+(?:\.\d+)?", row[column])] if column in GRID_C else []
                if percent and numbers and (numbers[0] > 100 or numbers[-1] > 250) or days and numbers and numbers[0] > 250:
                    yield table.problem(row, column, "cell-limits", f'"{row[column]}" is not plausible here.', "Percentages end at 100, days at 250. If it is printed so, list a doubt in source.yml.")
                value = None if entry["kind"] == "measured-life" else _number(row[column])  # genebank half-lives are of another order
                if column in limits and value is not None and not limits[column]["lowest"] <= value <= limits[column]["highest"]:
                    yield table.problem(row, column, "cell-limits", f"{row[column]} is not plausible for {column}; expected {limits[column]['lowest']:g} to {limits[column]['highest']:g}.", "Check the unit and the decimal point. If it is printed so, list a doubt in source.yml.", see=(tree.singles["quantities"].see(("table_columns", column)),))


@rule("pair-order", acceptable=True)
def pair_order(tree: DataTree):
    """Where a table has a lowest and a highest column of the same thing, the lowest is not above the highest."""
    for _, entry, table in tables_of(tree):
        pairs = [(c, c.replace(low, high)) for c in table.columns for low, high in PAIRS if re.search(rf"(^|_){low}(_|$)", c) and c.replace(low, high) in table.columns]
        for row in table.rows:
            doubted = doubts_of(entry, table, row)
            for low, high in pairs:
                a, b = _number(row[low]), _number(row[high])
                if a is not None and b is not None and a > b and low not in doubted and high not in doubted:
                    yield table.problem(row, low, "pair-order", f"{low} is {row[low]}, above {high} at {row[high]}.", "Swap them, or check both against the copy.")


@rule("printed-and-read", acceptable=True)
def printed_and_read(tree: DataTree):
    """The numbers read from a cell such as "3-5" years are numbers printed in it."""
    for _, entry, table in tables_of(tree, "seed-life"):
        for row in table.rows:
            printed = {float(n) for n in re.findall(r"\d+(?:\.\d+)?", row["years_as_printed"])}
            for column in ("years_min", "years_max"):
                value = _number(row[column])
                if printed and value is not None and value not in printed:
                    yield table.problem(row, column, "printed-and-read", f'{column} is {row[column]}, but "{row["years_as_printed"]}" is printed.', "Make them agree with the copy.")


@rule("spreadsheet-date")
def spreadsheet_date(tree: DataTree):
    """No cell is a date that a spreadsheet made of a range such as 7-10, unless the table says how it was read back."""
    for _, _, table in tables_of(tree):
        columns = [c for c in table.columns if c.endswith(("_as_printed", "_min", "_max")) or c in GRID_C]
        for row in table.rows:
            for column in columns:
                if DATE.fullmatch(row[column].strip()) and not row[column.replace("as_printed", "read_as")]:
                    yield table.problem(row, column, "spreadsheet-date", f'"{row[column]}" looks like a range that a spreadsheet turned into a date.', "Type the range as the copy prints it, such as 7-10.")


@rule("same-row-twice", acceptable=True)
def same_row_twice(tree: DataTree):
    """No row of a table is empty or stands there twice."""
    for _, _, table in tables_of(tree):
        seen: dict[tuple, int] = {}
        for row in table.rows:
            cells = tuple(row.cells.values())
            if not any(cells):
                yield table.problem(row, None, "same-row-twice", "A row of empty cells.", "Delete it.")
            elif cells in seen:
                yield table.problem(row, None, "same-row-twice", f"The same row stands on line {seen[cells]}.", "Delete one of them.", see=(Place(table.file, seen[cells]),))
            seen.setdefault(cells, row.line)


@rule("cell-number", ONE_FILE)
def cell_number(tree: DataTree):
    """A number in a cell has no more digits than anyone prints: eight at the start of a cell, or twelve in a row, are a slip, or meant to break something."""
    for _, _, table in tables_of(tree):
        for row in table.rows:
            for column in table.columns:
                if len(row[column]) >= LEAST_LETTERS and (found := LONG_NUMBER.search(row[column])):
                    yield table.problem(row, column, "cell-number", f'"{found[0]}…" has too many digits for a printed number.', "Check the cell against the copy.")


@rule("formula-cell", ONE_FILE)
def formula_cell(tree: DataTree):
    """No cell of a table is a formula: tables are given away as they stand, and a spreadsheet would run it. Signed numbers such as +7 F are none."""
    demo = (parse_csv(raw.decode("utf-8", "replace"), f"data/demo/{name}")[0] for name, raw in tree.demo.items())
    for table in (*(table for _, _, table in tables_of(tree)), *filter(None, demo)):
        for row in table.rows:
            for column in table.columns:
                if FORMULA.match(row[column]):
                    yield table.problem(row, column, "formula-cell", f'"{row[column][:60]}" is a formula to a spreadsheet.', "Begin the cell with a word, or check it against the copy.")
