"""Changes of sources: what is said of them, what makes them count, and the cells of their printed tables."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher

from ..read import SourceFolder, Table
from ..read.csv_file import Row
from .differ import differences
from .names import Names, mapping
from .others import item_changes
from .plain import clean
from .report import (
    ADDED,
    COUNTS,
    PRINTED,
    REMOVED,
    RENAMED,
    VALUE,
    WORDING,
    Change,
)

COUNTING = {"family": "family", "historical": "historical", "doubtful": "doubtful"}  # what decides whether and with whom a source counts
OURS = {"crop_id": ("taken for the crop", VALUE), "note": ("remark on the row", WORDING)}  # columns that are ours, and not printed


def source_changes(old_id: str, new_id: str, before: SourceFolder, after: SourceFolder, unread: set[str], names: Names) -> Iterator[Change]:
    """Every change of one source; tables of `unread` files are passed over."""
    name = names.source(new_id)
    old, new = mapping(before.document.data), mapping(after.document.data)
    for key, word in COUNTING.items():
        a, b = old.get(key), new.get(key)
        if key == "family":
            a = names.renames["source"].get(a, a) if isinstance(a, str) else a
        if a != b:
            shown = [("not " + word if key != "family" else "no family") if v is None or v is False else word if v is True else f"{word}: {clean(v, 200)}" if key == "doubtful" else clean(v, 80) for v in (a, b)]
            yield Change("source", new_id, name, f"What counts: {word}", COUNTS, clean(a or ""), clean(b or ""), f"{shown[0]} → {shown[1]}")
    rest = [{k: v for k, v in data.items() if k not in COUNTING and k not in ("id", "tables")} for data in (old, new)]
    for difference in differences(*rest):
        yield from item_changes("source", new_id, name, difference, names)
    yield from _tables(new_id, name, before, after, unread, names)


def _entries(folder: SourceFolder) -> dict[str, dict]:
    tables = mapping(folder.document.data).get("tables")
    return {entry["file"]: entry for entry in tables if isinstance(entry, dict) and isinstance(entry.get("file"), str)} if isinstance(tables, list) else {}


def _tables(source: str, name: str, before: SourceFolder, after: SourceFolder, unread: set[str], names: Names) -> Iterator[Change]:
    old, new = _entries(before), _entries(after)
    skipped = {file for folder in (before, after) for file in folder.tables if folder.document.file.removesuffix("source.yml") + file in unread}
    for folder in (before, after):
        skipped |= {file.rpartition("/")[2] for file in unread if file.startswith(folder.document.file.removesuffix("source.yml"))}
    gone, come = [f for f in before.tables if f not in after.tables and f not in skipped], [f for f in after.tables if f not in before.tables and f not in skipped]
    moved = {}
    for file in gone:
        twin = next((f for f in come if f not in moved.values() and _cells(before.tables[file]) == _cells(after.tables[f])), None)
        if twin:
            moved[file] = twin
            yield Change("source", source, name, "table", RENAMED, file, twin, f"{file} → {twin}")
    for file in gone:
        if file not in moved:
            yield Change("source", source, name, "table", REMOVED, file, "", f"{_caption(old.get(file), file)}, {len(before.tables[file].rows)} rows")
    for file in come:
        if file not in moved.values():
            yield Change("source", source, name, "table", ADDED, "", file, f"{_caption(new.get(file), file)}, {len(after.tables[file].rows)} rows")
    for file, table in before.tables.items():
        other = after.tables.get(moved.get(file, file))
        if other is None or file in skipped:
            continue
        yield from table_changes(source, name, _caption(new.get(other.file.rpartition("/")[2]), file), table, other, names)
    for file, entry in old.items():
        if moved.get(file, file) in new:
            pair = [{k: v for k, v in e.items() if k != "file"} for e in (entry, new[moved.get(file, file)])]
            for difference in differences(*pair, (("item", f"table {file}"),)):
                yield from item_changes("source", source, name, difference, names)


def _caption(entry: dict | None, file: str) -> str:
    caption = (entry or {}).get("caption")
    return f"{clean(caption, 80)} ({file})" if isinstance(caption, str) else file


def _cells(table: Table) -> tuple:
    return tuple(table.columns), tuple(tuple(row.cells.values()) for row in table.rows)


def table_changes(source: str, name: str, caption: str, before: Table, after: Table, names: Names) -> Iterator[Change]:
    """Every cell, row and column of a printed table that differs; a row is named by its first cell and its place."""
    for column in before.columns:
        if column not in after.columns:
            yield Change("source", source, name, f"{caption}, column {clean(column, 40)}", PRINTED, "in the table", "", "column removed")
    for column in after.columns:
        if column not in before.columns:
            yield Change("source", source, name, f"{caption}, column {clean(column, 40)}", PRINTED, "", "in the table", "column added")
    common = [c for c in before.columns if c in after.columns]
    for number, old, new in _rows(before, after, common, names.renames["crop"]):
        row = new or old
        where = f"{caption}, row {number} “{clean(row[common[0]] if common else '', 60)}”"
        if old is None or new is None:
            text = clean(", ".join(filter(None, row.cells.values())), 300)
            yield Change("source", source, name, where, PRINTED, text if old else "", text if new else "", f"row {'added' if old is None else 'removed'}: {text}")
            continue
        for column in common:
            if old[column] == new[column] or (column == "crop_id" and _renamed(old[column], names.renames["crop"]) == new[column]):
                continue
            a, b = clean(old[column]), clean(new[column])
            word, kind = OURS.get(column, (f"column {clean(column, 40)}", PRINTED))
            what = f"{where}, {word}"
            yield Change("source", source, name, what, kind, a, b, f"“{clean(a, 200)}” → “{clean(b, 200)}”" if a or b else "spaces only")


def _renamed(cell: str, renames: dict[str, str]) -> str:
    return ";".join(renames.get(crop, crop) for crop in cell.split(";"))


def _rows(before: Table, after: Table, columns: list[str], renames: dict[str, str]) -> Iterator[tuple[int, Row | None, Row | None]]:
    """(place, old row, new row) of rows that differ; None on one side for a row that came or went."""

    def key(row: Row, old: bool) -> tuple:
        return tuple(_renamed(row[c], renames) if old and c == "crop_id" else row[c] for c in columns)

    a, b = [key(row, True) for row in before.rows], [key(row, False) for row in after.rows]
    start = next((i for i, (x, y) in enumerate(zip(a, b)) if x != y), min(len(a), len(b)))
    end = next((i for i, (x, y) in enumerate(zip(reversed(a[start:]), reversed(b[start:]))) if x != y), min(len(a), len(b)) - start)
    for op, i1, i2, j1, j2 in SequenceMatcher(None, a[start : len(a) - end], b[start : len(b) - end], autojunk=len(a) > 2000).get_opcodes():
        if op == "equal":
            continue
        old, new = before.rows[start + i1 : start + i2], after.rows[start + j1 : start + j2]
        for number, x, y in _paired(old, new, columns):
            yield start + (j1 if y is not None else i1) + number + 1, x, y


def _paired(old: list[Row], new: list[Row], columns: list[str]) -> Iterator[tuple[int, Row | None, Row | None]]:
    """Rows of a stretch that differs, paired in order when as many, else by their first cell."""
    if len(old) == len(new):
        yield from ((i, x, y) for i, (x, y) in enumerate(zip(old, new)))
        return
    free = list(new)
    for i, row in enumerate(old):
        twin = next((y for y in free if columns and y[columns[0]] == row[columns[0]]), None)
        if twin is not None:
            free.remove(twin)
        yield new.index(twin) if twin is not None else i, row, twin
    yield from ((new.index(row), None, row) for row in free)


