"""Reads the open data sets beside this file; README.md says where each comes from."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from pathlib import Path


def rows_of(name: str) -> list[dict[str, str]]:
    """Rows of one of the files, as text by column."""
    with (Path(__file__).parent / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def grouped(rows: Iterable[dict], *columns: str) -> dict[tuple, list[dict]]:
    """The rows by the values of some columns; with no column all rows in one group."""
    groups: dict[tuple, list[dict]] = {}
    for row in rows:
        groups.setdefault(tuple(row[column] for column in columns), []).append(row)
    return groups


def whole(rows: Iterable[dict], column: str) -> list[int]:
    return [int(row[column]) for row in rows]
