"""Rows in columns: how many columns, how high a row, how many pages. Twin: docs/assets/js/sheets/columns.js."""

from __future__ import annotations

import math
from dataclasses import dataclass

from .frame import MARGIN
from .paper import Sheet

GAP = 12.0
LEAST_ROW, EASY_ROW, MOST_ROW = 10.35, 13.0, 44.0  # design mm; at LEAST_ROW names are set in 25 pt on A2
NAME = 0.86  # of a row: the type size of a name


@dataclass(frozen=True)
class Grid:
    """`columns` of `width` with `rows` each, `row` mm high; `pages` of them."""

    columns: int
    width: float
    rows: int
    row: float
    pages: int

    def place(self, index_on_page: int, top: float) -> tuple[float, float]:
        """(x, y) of a row on its page, filled column by column."""
        column, row = divmod(index_on_page, self.rows)
        return MARGIN + column * (self.width + GAP), top + row * self.row


def grid(sheet: Sheet, count: int, height: float, most_columns: int) -> Grid:
    """The fewest columns that leave easy rows; when even the most columns don't do, the least rows on more pages."""
    columns = next((k for k in range(1, most_columns + 1) if height / math.ceil(count / k) >= EASY_ROW), most_columns)
    rows = math.ceil(count / columns)
    pages = 1
    if height / rows < LEAST_ROW:
        fitting = int(height // LEAST_ROW)
        pages = math.ceil(count / (columns * fitting))
        rows = math.ceil(count / (columns * pages))
    width = (sheet.width - 2 * MARGIN - GAP * (columns - 1)) / columns
    return Grid(columns, width, rows, min(height / rows, MOST_ROW), pages)
