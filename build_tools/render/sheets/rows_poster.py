"""Posters with a row for each crop, in columns: temperature bands and seed life. Twin: docs/assets/js/sheets/rows_poster.js."""

from __future__ import annotations

import math

from . import frame
from .columns import NAME, Grid, grid
from .marks import group, line, lines, polygon, rect, text
from .paper import Sheet
from .type import Type

AXIS, TICK = 10.0, 5.4  # room for an axis above and below the rows, its type size
HATCHES = {"cold": "rising", "hot": "falling"}


def name_marks(type_: Type, words: str, x: float, y: float, row: float, most: float) -> dict:
    """A crop's name, in the middle of its row, in one line or two."""
    parts, size = type_.name(words, row * NAME, 600, most)
    leading = size * 1.04
    first = y + row / 2 + 0.33 * size - leading * (len(parts) - 1) / 2
    return lines(x, first, size, leading, parts, weight=600)


def part_rect(part: str, x: float, y: float, width: float, height: float) -> dict:
    """A part of a band; what lies between minimum and maximum without a best range is an empty frame."""
    if part == "between":
        return rect(x, y, width, height, "paper", edge="line", edge_width=0.4)
    return rect(x, y, width, height, part, hatch=HATCHES.get(part, ""))


def optimum_mark(x: float, y: float, size: float) -> list[dict]:
    """A diamond with a pale edge, its middle at x, y."""
    return [polygon([(x, y - half * 1.5), (x + half, y), (x, y + half * 1.5), (x - half, y)], fill) for half, fill in ((size, "paper"), (size * 0.7, "ink"))]


def numbers(type_: Type, said: dict, units: str, x: float, y: float, row: float, width: float) -> list[dict]:
    """A number in the middle of its column, in both units one above the other."""
    if units != "both":
        words = said[units.lower()]
        size = type_.one_line(words, row * 0.62, 400, width)
        return [text(x + width / 2, y + row / 2 + 0.33 * size, size, words, anchor="middle")]
    size = min(type_.one_line(f"{said[u]} °{u.upper()}" if said[u] != "–" else "–", row * 0.44, 400, width) for u in ("c", "f"))
    if said["c"] == "–":
        return [text(x + width / 2, y + row / 2 + 0.33 * size, size, "–", anchor="middle")]
    return [
        text(x + width / 2, y + row / 2 - 0.12 * size, size, f"{said['c']} °C", anchor="middle"),
        text(x + width / 2, y + row / 2 + 0.86 * size, size, f"{said['f']} °F", anchor="middle", ink="soft"),
    ]


class Bands:
    """Rows of the poster of temperature bands."""

    about = "band"
    title = "How warm must the soil be?"
    lead = "Soil temperature at sowing depth for each crop: the least at which seed can come up, the range in which it does best, the most it bears. The diamond is the optimum, where they come fastest."
    kind = "Reference values judged from published tables; “–” means that none was found."
    none_found = "No published soil temperature"

    def __init__(self, data: dict, units: str):
        self.data, self.units, self.scale = data, units, data["scale"]

    def key(self) -> list[dict]:
        return [{"words": self.scale["words"][part], "fill": part, "hatch": HATCHES.get(part, "")} for part in ("cold", "slow", "best", "fading", "hot")]

    def shares(self, width: float) -> list[tuple[float, float]]:
        """(x, width) of name, band, least, best, most inside a column."""
        found, x = [], 0.0
        for share, gap in ((0.335, 0.015), (0.305, 0.01), (0.09, 0.01), (0.135, 0.01), (0.09, 0.0)):
            found.append((x, width * share))
            x += width * (share + gap)
        return found

    def x(self, celsius: float, start: float, width: float) -> float:
        low, high = self.scale["low"], self.scale["high"]
        return start + width * (min(max(celsius, low), high) - low) / (high - low)

    def axes(self, x0: float, width: float, top: float, bottom: float) -> list[dict]:
        """Ticks above and below a column, with faint lines between; heads of the numbers."""
        places = self.shares(width)
        start, across = x0 + places[1][0], places[1][1]
        above, below = ("c", "f") if self.units == "both" else (self.units.lower(), self.units.lower())
        marks = []
        for unit, y in ((above, top - 2.5), (below, bottom + TICK)):
            marks.append(text(start - 1.0, y, TICK, f"°{unit.upper()}", anchor="end", ink="soft"))
            for celsius, words in self.scale["ticks"][unit]:
                marks.append(text(self.x(celsius, start, across), y, TICK, words, anchor="middle", ink="soft"))
        for celsius, _ in self.scale["ticks"][above]:
            at = self.x(celsius, start, across)
            marks.append(line(at, top, at, bottom, 0.2, "rule"))
        for (at, wide), words in zip(places[2:], ("least", "best", "most"), strict=True):
            marks.append(text(x0 + at + wide / 2, top - 2.5, TICK, words, anchor="middle", ink="soft"))
        return marks

    def row(self, type_: Type, crop: dict, x0: float, y: float, width: float, row: float) -> dict:
        band, places = crop["band"], self.shares(width)
        start, across = x0 + places[1][0], places[1][1]
        marks = [name_marks(type_, crop["name"], x0, y, row, places[0][1])]
        for part, low, high in band["parts"]:
            left, right = self.x(low, start, across), self.x(high, start, across)
            marks.append(part_rect(part, left, y + row * 0.17, right - left, row * 0.66))
        if band["optimum"] is not None:
            marks += optimum_mark(self.x(band["optimum"], start, across), y + row / 2, row * 0.2)
        for (at, wide), said in zip(places[2:], band["said"], strict=True):
            marks += numbers(type_, said, self.units, x0 + at, y, row, wide)
        marks.append(line(x0, y + row, x0 + width, y + row, 0.2, "rule"))
        return group(self.alt(crop), marks)

    def alt(self, crop: dict) -> str:
        units = ("c", "f") if self.units == "both" else (self.units.lower(),)
        parts = [f"{words} {' or '.join(f'{said[u]} °{u.upper()}' for u in units)}" for words, said in zip(("least", "best", "most"), crop["band"]["said"], strict=True) if said["c"] != "–"]
        return f"{crop['name']}: {', '.join(parts)}"


class Life:
    """Rows of the poster of seed life."""

    about = "life"
    title = "How long does seed keep?"
    lead = "Years that most seed stays good when it is kept cool, dry and dark: a block for each year. The thin line spans what independent sources print. Test older seed before you throw it away, and before you rely on it."
    kind = "Reference values judged from published tables."
    none_found = "No published seed life"

    def __init__(self, data: dict, units: str):
        self.data = data

    def key(self) -> list[dict]:
        return []

    def shares(self, width: float) -> list[tuple[float, float]]:
        return [(0.0, width * 0.36), (width * 0.38, width * 0.43), (width * 0.83, width * 0.17)]

    def year(self, value: float, start: float, width: float) -> float:
        return start + width * value / self.data["most_years"]

    def axes(self, x0: float, width: float, top: float, bottom: float) -> list[dict]:
        at, across = self.shares(width)[1]
        marks = []
        for year in range(1, int(self.data["most_years"]) + 1):
            x = self.year(year, x0 + at, across)
            marks += [text(x, y, TICK, f"{year}", anchor="middle", ink="soft") for y in (top - 2.5, bottom + TICK)]
            marks.append(line(x, top, x, bottom, 0.2, "rule"))
        return marks

    def row(self, type_: Type, crop: dict, x0: float, y: float, width: float, row: float) -> dict:
        life, places = crop["life"], self.shares(width)
        start, across = x0 + places[1][0], places[1][1]
        marks = [name_marks(type_, crop["name"], x0, y, row, places[0][1])]
        for year in range(math.ceil(life["high"])):
            until = min(year + 1, life["high"])
            sure = until <= life["low"]
            left, right = self.year(year, start, across), self.year(until, start, across)
            marks.append(rect(left + 0.5, y + row * 0.2, right - left - 1.0, row * 0.42, "best" if sure else "slow", edge="best", edge_width=0.4))
        if life["span"] is not None:
            left, right = self.year(life["span"][0], start, across), self.year(life["span"][1], start, across)
            marks.append(line(left, y + row * 0.8, right, y + row * 0.8, 0.7, "ink"))
            marks += [line(x, y + row * 0.72, x, y + row * 0.88, 0.7, "ink") for x in (left, right)]
        size = type_.one_line(life["text"], row * 0.62, 400, places[2][1])
        marks.append(text(x0 + width, y + row / 2 + 0.33 * size, size, life["text"], anchor="end"))
        marks.append(line(x0, y + row, x0 + width, y + row, 0.2, "rule"))
        return group(self.alt(crop), marks)

    def alt(self, crop: dict) -> str:
        span = crop["life"]["span"]
        words = "" if span is None else f"; sources {span[0]:g} to {span[1]:g}"
        return f"{crop['name']}: {crop['life']['text']}{words}"


MOST_COLUMNS = {"portrait": 2, "landscape": 3}


def pages(type_: Type, sheet: Sheet, orientation: str, poster: Bands | Life, crops: list[dict]) -> list[list[dict]]:
    """The pages of a poster with a row a crop; crops without a value are named in the small print."""
    rows = [crop for crop in crops if crop[poster.about] is not None]
    sources = sorted({source for crop in rows for source in crop[poster.about]["sources"]})
    small = frame.small_print(poster.data["library"], poster.kind, sources, poster.none_found, [crop["name"] for crop in crops if crop[poster.about] is None])
    feet, bottom = frame.foot(type_, sheet, poster.data["library"], small)
    heads, y = frame.head(type_, sheet, poster.title, poster.lead, 1, 1)
    keys, y = frame.key(type_, sheet, y, poster.key()) if poster.key() else ([], y)
    top = y + AXIS
    cells = grid(sheet, max(1, len(rows)), bottom - AXIS - top, MOST_COLUMNS[orientation])
    made = []
    for page in range(cells.pages):
        heads, _ = frame.head(type_, sheet, poster.title, poster.lead, page + 1, cells.pages)
        on_page = rows[page * cells.columns * cells.rows : (page + 1) * cells.columns * cells.rows]
        body = _axes(poster, cells, len(on_page), top)
        for index, crop in enumerate(on_page):
            body.append(poster.row(type_, crop, *cells.place(index, top), cells.width, cells.row))
        made.append([*heads, *keys, *body, *feet])
    return made


def _axes(poster: Bands | Life, cells: Grid, count: int, top: float) -> list[dict]:
    marks = []
    for first in range(0, count, cells.rows):
        x, _ = cells.place(first, top)
        marks += poster.axes(x, cells.width, top, top + cells.row * min(cells.rows, count - first))
    return marks
