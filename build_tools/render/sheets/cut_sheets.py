"""Cards on paper: one a page, or four or eight to a sheet with marks to cut along."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .marks import line
from .paper import Sheet

INCH = 25.4
POINT = INCH / 72
TICK, CROSS = 10.0, 4.0  # mm: cut marks from the paper's edge inwards, and each way from where cuts cross
LEAST_POINTS, LEAST_POINTS_EIGHTH = 6.5, 5.5


@dataclass(frozen=True)
class CutSheet:
    """`columns` × `rows` cards that fill a page of `width` × `height` mm; no type below `least` mm, no mark within `margin` mm of a card's edge."""

    id: str
    title: str
    width: float
    height: float
    columns: int
    rows: int
    least: float
    margin: float

    @property
    def card_width(self) -> float:
        return self.width / self.columns

    @property
    def card_height(self) -> float:
        return self.height / self.rows

    @property
    def cards(self) -> int:
        """Cards on a page."""
        return self.columns * self.rows

    @property
    def page(self) -> Sheet:
        return Sheet(self.width, self.height, 1.0)


def _sheet(id_: str, title: str, width: float, height: float, columns: int = 1, rows: int = 1) -> CutSheet:
    eighth = columns * rows == 8
    return CutSheet(id_, title, width, height, columns, rows, (LEAST_POINTS_EIGHTH if eighth else LEAST_POINTS) * POINT, 5.5 if eighth else 6.5)


# Eighths are cut from a sheet laid sideways: cards taller than wide hold more lines of a sentence than cards wider than tall.
CUT_SHEETS = {
    sheet.id: sheet
    for sheet in (
        _sheet("A6", "A6", 105.0, 148.0),
        _sheet("4x6", "4 × 6 in", 4 * INCH, 6 * INCH),
        _sheet("A4-4", "A4, four to a sheet", 210.0, 297.0, 2, 2),
        _sheet("A4-8", "A4, eight to a sheet", 297.0, 210.0, 4, 2),
        _sheet("Letter-4", "Letter, four to a sheet", 8.5 * INCH, 11 * INCH, 2, 2),
        _sheet("Letter-8", "Letter, eight to a sheet", 11 * INCH, 8.5 * INCH, 4, 2),
    )
}


def moved(mark: dict, dx: float, dy: float) -> dict:
    """The mark moved by mm."""
    if mark["mark"] == "group":
        return {**mark, "marks": [moved(inner, dx, dy) for inner in mark["marks"]]}
    if mark["mark"] == "line":
        return {**mark, "x1": mark["x1"] + dx, "x2": mark["x2"] + dx, "y1": mark["y1"] + dy, "y2": mark["y2"] + dy}
    if mark["mark"] == "polygon":
        return {**mark, "points": [[x + dx, y + dy] for x, y in mark["points"]]}
    return {**mark, "x": mark["x"] + dx, "y": mark["y"] + dy}


def cut_marks(sheet: CutSheet) -> list[dict]:
    """Short lines along the cuts: from the paper's edges, and crosses where cuts cross. They stay in the cards' margins."""
    across = [sheet.card_width * i for i in range(1, sheet.columns)]
    down = [sheet.card_height * i for i in range(1, sheet.rows)]
    ends = [*((x, y, x, y + way * TICK) for x in across for y, way in ((0.0, 1), (sheet.height, -1))), *((x, y, x + way * TICK, y) for y in down for x, way in ((0.0, 1), (sheet.width, -1)))]
    crosses = [cut for x in across for y in down for cut in ((x - CROSS, y, x + CROSS, y), (x, y - CROSS, x, y + CROSS))]
    return [line(*cut, 0.15, "line") for cut in (*ends, *crosses)]


def pages_of(sheet: CutSheet, cards: Sequence[list[dict]]) -> list[list[dict]]:
    """Cards, each as marks from its own corner, placed on as many pages as they need."""
    made = []
    for start in range(0, len(cards), sheet.cards):
        page = cut_marks(sheet)
        for index, card in enumerate(cards[start : start + sheet.cards]):
            row, column = divmod(index, sheet.columns)
            page += [moved(mark, column * sheet.card_width, row * sheet.card_height) for mark in card] if sheet.cards > 1 else card
        made.append(page)
    return made
