"""The poster of days to emergence: measured days as a table of shades, advised days as a list. Twin: docs/assets/js/sheets/days_poster.js."""

from __future__ import annotations

import math

from . import frame
from .columns import GAP, LEAST_ROW
from .marks import group, line, rect, text
from .paper import Sheet
from .rows_poster import TICK, name_marks
from .type import Type

TITLE = "How many days until seedlings are up?"
LEAD = "Days measured from sowing until seedlings come up, in soil kept at one temperature, sown half an inch (13 mm) deep. Darker is sooner. On the right, days as advised or recorded."
KIND = "“none” = no germination, “–” = not tested, “?” = the printed number is in doubt."
MOST_MEASURED, LEAST_ADVISED, MOST_ADVISED = 34.0, 6.2, 20.0  # mm: heights of rows
HEAD = 16.0  # mm above the rows of each part
SHADE_INK = ("ink", "on-days-1", "on-days-2", "on-days-3", "on-days-4", "on-days-5")


def key(data: dict) -> list[dict]:
    """The shades with their days."""
    lasts, entries = data["shades"], []
    for shade in range(1, len(lasts) + 2):
        low = 1 if shade == 1 else lasts[shade - 2] + 1
        words = f"up to {lasts[0]} days" if shade == 1 else f"over {lasts[-1]}" if shade > len(lasts) else f"{low}–{lasts[shade - 1]}"
        entries.append({"words": words, "fill": f"days-{shade}", "hatch": ""})
    return entries


def parts(sheet: Sheet, crops: list[dict], height: float) -> dict:
    """Widths, rows a page and row heights of both parts, and how many pages they take."""
    measured = [crop for crop in crops if crop["days"] is not None and crop["days"]["cells"]]
    advised = [crop for crop in crops if crop["days"] is not None and not crop["days"]["cells"]]
    width = sheet.width - 2 * frame.MARGIN
    share = 0.62 if measured and advised else 1.0 if measured else 0.0
    left = (width - GAP) * share if advised else width * share
    pages = max(1, math.ceil(len(measured) * LEAST_ROW / height), math.ceil(len(advised) * LEAST_ADVISED / height))
    rows = [max(1, math.ceil(len(part) / pages)) for part in (measured, advised)]
    return {
        "measured": measured, "advised": advised, "left": left, "right": width - left - (GAP if measured and advised else 0.0), "pages": pages, "rows": rows,
        "row": [min(MOST_MEASURED, height / rows[0]), min(MOST_ADVISED, height / rows[1])],
    }


def measured_head(data: dict, units: str, x0: float, top: float, width: float) -> list[dict]:
    """Temperatures above the columns, in the unit or units wanted."""
    cell = width * 0.68 / max(1, len(data["tested"]))
    marks = []
    for index, tested in enumerate(data["tested"]):
        middle = x0 + width * 0.32 + cell * (index + 0.5)
        shown = ("c", "f") if units == "both" else (units.lower(),)
        for number, unit in enumerate(shown):
            marks.append(text(middle, top - 2.5 - 6.6 * (len(shown) - 1 - number), TICK + 0.8 * (len(shown) == 1), f"{tested[unit]} °{unit.upper()}", anchor="middle", ink="soft" if number else "ink"))
    return marks


def measured_row(type_: Type, data: dict, units: str, crop: dict, x0: float, y: float, width: float, row: float) -> dict:
    """One crop's measured days."""
    cell, cells = width * 0.68 / len(data["tested"]), {entry[0]: entry for entry in crop["days"]["cells"]}
    marks, said = [name_marks(type_, crop["name"], x0, y, row, width * 0.31)], []
    for index, tested in enumerate(data["tested"]):
        if tested["c"] not in cells:
            continue
        _, shade, words = cells[tested["c"]]
        left = x0 + width * 0.32 + cell * index
        size = type_.one_line(words, row * (0.62 if shade else 0.42), 600 if shade else 400, cell - 1.5)
        if shade:
            marks.append(rect(left + 0.3, y + 0.4, cell - 0.6, row - 0.8, f"days-{shade}"))
        marks.append(text(left + cell / 2, y + row / 2 + 0.33 * size, size, words, weight=600 if shade else 400, anchor="middle", ink=SHADE_INK[shade]))
        if shade or words.startswith("none"):
            at = " or ".join(f"{tested[unit]} °{unit.upper()}" for unit in (("c", "f") if units == "both" else (units.lower(),)))
            said.append(f"{words}{' days' if shade else ''} at {at}")
    marks.append(line(x0, y + row, x0 + width, y + row, 0.2, "rule"))
    return group(f"{crop['name']}: {', '.join(said)}", marks)


def usual_words(usual: dict, units: str) -> str:
    """Days as advised, with the temperature where one is given."""
    at = usual["at"]
    if at is None:
        return f"{usual['days']} days"
    warmth = f"{at['c']} °C ({at['f']} °F)" if units == "both" else f"{at[units.lower()]} °{units}"
    return f"{usual['days']} days at {warmth}"


def advised_row(type_: Type, units: str, crop: dict, x0: float, y: float, width: float, row: float) -> dict:
    """One crop's days as advised."""
    words = usual_words(crop["days"]["usual"], units)
    size = type_.one_line(words, row * 0.66, 400, width * 0.56)
    marks = [
        name_marks(type_, crop["name"], x0, y, row, width * 0.42),
        text(x0 + width, y + row / 2 + 0.33 * size, size, words, anchor="end"),
        line(x0, y + row, x0 + width, y + row, 0.2, "rule"),
    ]
    return group(f"{crop['name']}: {words}", marks)


def pages(type_: Type, sheet: Sheet, data: dict, units: str, crops: list[dict]) -> list[list[dict]]:
    """The pages of the poster."""
    known = [crop for crop in crops if crop["days"] is not None]
    sources = sorted({source for crop in known for source in crop["days"]["sources"]})
    small = frame.small_print(data["library"], KIND, sources, "No published days", [crop["name"] for crop in crops if crop["days"] is None])
    feet, bottom = frame.foot(type_, sheet, data["library"], small)
    _, y = frame.head(type_, sheet, TITLE, LEAD, 1, 1)
    keys, y = frame.key(type_, sheet, y, key(data))
    top = y + HEAD
    plan = parts(sheet, crops, bottom - top)
    made = []
    for page in range(plan["pages"]):
        heads, _ = frame.head(type_, sheet, TITLE, LEAD, page + 1, plan["pages"])
        body: list[dict] = []
        measured = plan["measured"][page * plan["rows"][0] : (page + 1) * plan["rows"][0]]
        advised = plan["advised"][page * plan["rows"][1] : (page + 1) * plan["rows"][1]]
        if measured:
            body += measured_head(data, units, frame.MARGIN, top, plan["left"])
        for index, crop in enumerate(measured):
            body.append(measured_row(type_, data, units, crop, frame.MARGIN, top + index * plan["row"][0], plan["left"], plan["row"][0]))
        x0 = frame.MARGIN + plan["left"] + (GAP if plan["measured"] and plan["advised"] else 0.0)
        if advised:
            body.append(text(x0, top - 2.5, TICK + 0.8, "As advised or recorded", weight=600))
        for index, crop in enumerate(advised):
            body.append(advised_row(type_, units, crop, x0, top + index * plan["row"][1], plan["right"], plan["row"][1]))
        made.append([*heads, *keys, *body, *feet])
    return made
