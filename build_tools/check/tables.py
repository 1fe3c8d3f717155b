"""The printed tables of a data tree: finding them, their doubts, and what kind of evidence they are."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

from ..read import DataTree, Table, of_tree
from ..read.csv_file import Row

GRID_C = {"f32": 0, "f41": 5, "f50": 10, "f59": 15, "f68": 20, "f77": 25, "f86": 30, "f95": 35, "f104": 40}  # exact
KINDS_OF_EVIDENCE = ("temperature table", "official test method", "seed life")
KIND_OF_TABLE = {
    "temperature-bands": "temperature table",
    "days-by-temperature": "temperature table",
    "normal-seedlings-by-temperature": "temperature table",
    "germination-temperature": "temperature table",
    "cardinal-temperatures": "temperature table",
    "sowing-thresholds": "temperature table",
    "official-methods": "official test method",
    "seed-life": "seed life",
    "measured-life": "seed life",
}


def tables_of(tree: DataTree, kind: str | None = None) -> Iterator[tuple[str, dict, Table]]:
    """(source id, its entry in source.yml, table) of every table, or of one kind."""
    for name, source in tree.sources.items():
        for entry in source.document.data.get("tables", []):
            if (kind is None or entry.get("kind") == kind) and entry.get("file") in source.tables:
                yield name, entry, source.tables[entry["file"]]


def doubts_of(entry: dict, table: Table, row: Row) -> dict[str, dict]:
    """The listed doubts about a row, by column."""
    first = row[table.columns[0]]
    return {d["column"]: d for d in entry.get("doubts", []) if d["row"] == first and row[d["column"]] == d["printed"]}


def days_cell(cell: str) -> float | None:
    """The days of a cell such as "12" or "61(53)"; None for NG, not tested and empty."""
    match = re.fullmatch(r"(?:\d+(?:\.\d+)?\()?(\d+(?:\.\d+)?)\)?", cell)
    return float(match[1]) if match else None


@of_tree
def evidence_kinds(tree: DataTree) -> dict[str, frozenset[str]]:
    """For each crop id, which of the three kinds of evidence exist."""
    kinds: dict[str, set[str]] = defaultdict(set)
    for name, entry, table in tables_of(tree):
        kind = KIND_OF_TABLE.get(entry.get("kind"))
        for row in table.rows if kind else ():
            for crop in filter(None, row["crop_id"].split(";")):
                kinds[crop].add(kind)
    return {crop: frozenset(found) for crop, found in kinds.items()}
