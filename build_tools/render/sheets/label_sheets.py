"""Sheets of labels, by their measures. Twin: docs/assets/js/sheets/label_sheets.js."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from .paper import PAPERS

LEAST_WIDTH, LEAST_HEIGHT = 30.0, 15.0  # mm: less holds no name with a percentage and its range
EDGE = 5.0  # mm of the paper's edge that a printer may leave blank
INSIDE = 2.2  # mm kept free inside a label


@dataclass(frozen=True)
class LabelSheet:
    """`columns` × `rows` labels of `width` × `height` mm on a paper; the first begins at `left`, `top`, the next after the gaps."""

    paper: str
    columns: int
    rows: int
    width: float
    height: float
    left: float
    top: float
    gap_x: float = 0.0
    gap_y: float = 0.0

    @property
    def count(self) -> int:
        return self.columns * self.rows

    def place(self, index: int) -> tuple[float, float]:
        """Upper left corner of a label of the sheet, row by row."""
        row, column = divmod(index, self.columns)
        return self.left + column * (self.width + self.gap_x), self.top + row * (self.height + self.gap_y)

    def inside(self) -> tuple[float, float]:
        """mm kept free at the left and right, and above and below, inside each label: more where it touches the paper's edge."""
        return max(INSIDE, EDGE - self.left), max(INSIDE, EDGE - self.top)


# Common sheets, sold under many names. Their measures: common practice, no source.
LABEL_SHEETS = {
    "A4-3x7": LabelSheet("A4", 3, 7, 63.5, 38.1, 7.2, 15.15, 2.55),
    "A4-3x8": LabelSheet("A4", 3, 8, 70.0, 37.0, 0.0, 0.5),
    "A4-2x7": LabelSheet("A4", 2, 7, 99.1, 38.1, 4.65, 15.15, 2.5),
    "A4-2x8": LabelSheet("A4", 2, 8, 99.1, 33.9, 4.65, 12.9, 2.5),
    "A4-4x10": LabelSheet("A4", 4, 10, 48.5, 25.4, 8.0, 21.5),
    "Letter-3x10": LabelSheet("Letter", 3, 10, 66.675, 25.4, 4.7625, 12.7, 3.175),
    "Letter-2x10": LabelSheet("Letter", 2, 10, 101.6, 25.4, 3.96875, 12.7, 4.7625),
    "Letter-2x5": LabelSheet("Letter", 2, 5, 101.6, 50.8, 3.96875, 12.7, 4.7625),
}


def sheet_words(sheet: LabelSheet) -> str:
    """ "3 × 7 labels of 63.5 × 38.1 mm on A4", inches on Letter."""
    size = f"{sheet.width / 25.4:.4g} × {sheet.height / 25.4:.4g} in" if sheet.paper == "Letter" else f"{sheet.width:g} × {sheet.height:g} mm"
    return f"{sheet.columns} × {sheet.rows} labels of {size} on {sheet.paper}"


def does_not_fit(sheet: LabelSheet) -> str:
    """Why the labels can't be printed on their paper; empty when they can."""
    if sheet.width < LEAST_WIDTH or sheet.height < LEAST_HEIGHT:
        return f"A label of {sheet.width:g} × {sheet.height:g} mm is too small for a name and a percentage with its range: {LEAST_WIDTH:g} × {LEAST_HEIGHT:g} mm is the least."
    width, height = PAPERS[sheet.paper]
    for words, needed, there in (
        ("across", sheet.left + sheet.columns * sheet.width + (sheet.columns - 1) * sheet.gap_x, width),
        ("down", sheet.top + sheet.rows * sheet.height + (sheet.rows - 1) * sheet.gap_y, height),
    ):
        if needed > there + 0.05:
            return f"The labels need {needed:.1f} mm {words}, {needed - there:.1f} mm more than {sheet.paper} has. Check the measures."
    return ""


def as_json() -> dict[str, dict]:
    """Every listed sheet with its words, for the browser."""
    return {name: {**asdict(sheet), "words": sheet_words(sheet)} for name, sheet in LABEL_SHEETS.items()}
