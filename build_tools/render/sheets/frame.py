"""What every poster has: title, lead and key above, the library, its code and the sources below. Twin: docs/assets/js/sheets/frame.js."""

from __future__ import annotations

from .marks import heading, line, lines, picture, rect, text
from .paper import Sheet
from .type import Type

MARGIN = 18.0
TITLE, LEAD, LEADING, KEY = 24.0, 7.4, 9.4, 6.4  # mm: type sizes 68, 21 and 18 pt on A2
FOOT, CODE = 46.0, 36.0
SMALL, SMALL_LEADING, SMALL_LINES = 3.6, 4.5, 4  # small print of 10 pt on A2


def head(type_: Type, sheet: Sheet, title: str, lead: str, page: int, pages: int) -> tuple[list[dict], float]:
    """(title and lead, the y where the rest may begin); pages after the first say which they are."""
    width = sheet.width - 2 * MARGIN
    words = title if pages == 1 else f"{title} ({page} of {pages})"
    size = type_.one_line(words, TITLE, 600, width)
    wrapped = type_.wrap(lead, LEAD, 400, width)
    marks = [
        heading(1, text(MARGIN, MARGIN + 0.72 * size, size, words, weight=600)),
        lines(MARGIN, MARGIN + 0.72 * size + 12.5, LEAD, LEADING, wrapped),
    ]
    return marks, MARGIN + 0.72 * size + 12.5 + LEADING * (len(wrapped) - 1) + 4.5


def key(type_: Type, sheet: Sheet, y: float, entries: list[dict]) -> tuple[list[dict], float]:
    """(swatches with words in a row that wraps, the y below). Entries: {"words", "fill", "hatch"}."""
    marks, x, top = [], MARGIN, y
    for entry in entries:
        width = 11.0 + type_.width(entry["words"], KEY) + 8.0
        if x + width > sheet.width - MARGIN + 8.0:
            x, top = MARGIN, top + 9.0
        marks.append(rect(x, top, 9.0, 6.0, entry["fill"], hatch=entry["hatch"], edge="rule", edge_width=0.3))
        marks.append(text(x + 11.0, top + 5.1, KEY, entry["words"]))
        x += width
    return marks, top + 9.0


def foot(type_: Type, sheet: Sheet, library: dict, small_print: str) -> tuple[list[dict], float]:
    """(library, code and small print, the y above which the rest must end)."""
    top = sheet.height - MARGIN - FOOT + 4.0
    width = sheet.width - 2 * MARGIN - CODE - 10.0
    name = type_.one_line(library["name"], 9.0, 600, width)
    where = f"{library['address']} · {library['site']}" if library["address"] else library["site"]
    small = type_.wrap(small_print, SMALL, 400, width)
    if len(small) > SMALL_LINES:
        end = f" … all at {library['site']}"
        small = [*small[: SMALL_LINES - 1], type_.wrap(small[SMALL_LINES - 1], SMALL, 400, width - type_.width(end, SMALL))[0] + end]
    marks = [
        line(MARGIN, top, sheet.width - MARGIN, top, 0.5, "ink"),
        text(MARGIN, top + 11.0, name, library["name"], weight=600),
        text(MARGIN, top + 19.0, type_.one_line(where, 5.4, 400, width), where),
        lines(MARGIN, top + 26.0, SMALL, SMALL_LEADING, small, ink="soft"),
        picture(sheet.width - MARGIN - CODE, top + 5.0, CODE, CODE, "code", f"Code to scan: {library['site']}"),
    ]
    return marks, top - 4.0


def small_print(library: dict, kind: str, sources: list[str], none_found: str, missing: list[str]) -> str:
    """What the numbers are, for which crops there are none, and the sources."""
    without = f" {none_found}: {', '.join(missing)}." if missing else ""
    named = f" Sources: {'; '.join(sources)}." if sources else ""
    version = ", ".join(filter(None, [library["version"], library["date"]]))
    return f"Data version {version}. {kind}{without}{named}"
