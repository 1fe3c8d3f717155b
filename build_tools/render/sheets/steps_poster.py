"""Posters of steps with drawings: from packet to seedling, and the towel test with a table to fill in."""

from __future__ import annotations

import math

from ...model.posters import PosterStep, PosterWords
from ...model.reference import Reference
from ..wording import PAIR, source_label
from . import frame
from .marks import group, heading, line, lines, picture, rect, text
from .paper import Sheet
from .type import Type

GAP = 14.0
HEADING, TEXT, LEAST_TEXT = 11.5, 7.6, 5.4  # mm: 33 and 22 pt on A2; text shrinks no further than 15 pt
LEADING = 1.24  # times the type size
DRAWING = 320 / 200  # width to height of every drawing
RECORD = (("Lot", 0.14), ("Crop", 0.2), ("Begun", 0.11), ("Seeds", 0.08), ("Day:", 0.07), ("Day:", 0.07), ("Day:", 0.07), ("Normal", 0.09), ("Not normal", 0.09), ("%", 0.08))
RECORD_HEAD, RECORD_ROW = 11.0, 13.0


def in_units(words: str, units: str) -> str:
    """A text whose temperatures stand in both units, in the wanted ones."""
    if units != "both":
        words = PAIR.sub(lambda m: f"{m[1 if units == 'C' else 2]} °{units}", words)
    return words.replace(" °", "\u00a0°").replace(" %", "\u00a0%")  # a number and its unit stay on one line


def _fitted(type_: Type, words: str, width: float, height: float) -> tuple[list[str], float]:
    """Lines and type size of a text that has to fit width × height mm; the least size even when it doesn't."""
    size = TEXT
    while size > LEAST_TEXT and len(type_.wrap(words, size, 400, width)) * size * LEADING > height:
        size -= 0.2
    return type_.wrap(words, size, 400, width), size


def _above(type_: Type, number: int, step: PosterStep, units: str, drawings: dict, x: float, y: float, width: float, height: float) -> list[dict]:
    """A step whose drawing stands between its heading and its text."""
    title = f"{number}  {step.title}"
    size = type_.one_line(title, HEADING, 600, width)
    said = in_units(step.text, units)
    room = height - HEADING * 1.35 - 6.0
    tall = max(room * 0.5, min(width / DRAWING, room - len(type_.wrap(said, TEXT, 400, width)) * TEXT * LEADING))
    words, text_size = _fitted(type_, said, width, room - tall)
    below = y + HEADING * 1.35 + tall + 4.0 + text_size * 0.8
    return [
        heading(2, text(x, y + HEADING * 0.8, size, title, weight=600)),
        picture(x, y + HEADING * 1.35, tall * DRAWING, tall, step.drawing, drawings[step.drawing]),
        lines(x, below, text_size, text_size * LEADING, words),
    ]


def _beside(type_: Type, number: int, step: PosterStep, units: str, drawings: dict, x: float, y: float, width: float, height: float) -> list[dict]:
    """A step whose drawing stands left of its heading and text."""
    wide = width * 0.4
    left = x + wide + 6.0
    title = f"{number}  {step.title}"
    size = type_.one_line(title, HEADING * 0.86, 600, width - wide - 6.0)
    words, text_size = _fitted(type_, in_units(step.text, units), width - wide - 6.0, height - HEADING * 1.2)
    return [
        picture(x, y, wide, wide / DRAWING, step.drawing, drawings[step.drawing]),
        heading(2, text(left, y + HEADING * 0.75, size, title, weight=600)),
        lines(left, y + HEADING * 1.2 + text_size * 0.8, text_size, text_size * LEADING, words),
    ]


def _caution(type_: Type, words: PosterWords, units: str, sheet: Sheet, bottom: float) -> tuple[list[dict], float]:
    """The cautions in a frame at the foot, and the y above it."""
    width = sheet.width - 2 * frame.MARGIN
    said = type_.wrap("Take care. " + " ".join(in_units(text_, units) for text_, _ in words.cautions), 6.6, 400, width - 12.0)
    height = 7.0 + len(said) * 8.2
    top = bottom - height
    return [rect(frame.MARGIN, top, width, height, None, edge="ink", edge_width=0.6), lines(frame.MARGIN + 6.0, top + 9.0, 6.6, 8.2, said)], top - 7.0


def _page(type_: Type, sheet: Sheet, reference: Reference, library: dict, words: PosterWords, units: str):
    """(head, foot, y of the top, y of the bottom) around the steps."""
    sources = sorted({source_label(reference, s) for part in [step.sources for step in words.steps] + [s for _, s in words.cautions] for s in part})
    small = frame.small_print(library, "Steps without a published source are common practice.", sources, "", [])
    feet, bottom = frame.foot(type_, sheet, library, small)
    cautions, bottom = _caution(type_, words, units, sheet, bottom)
    heads, top = frame.head(type_, sheet, words.title, words.lead, 1, 1)
    return heads, [*cautions, *feet], top + 5.0, bottom


def steps_pages(type_: Type, sheet: Sheet, reference: Reference, library: dict, units: str, drawings: dict[str, str]) -> list[list[dict]]:
    """From packet to seedling; `drawings` gives each drawing's description."""
    words = reference.posters["packet-to-seedling"]
    heads, feet, top, bottom = _page(type_, sheet, reference, library, words, units)
    columns = 2 if sheet.width < sheet.height else 3
    rows = math.ceil(len(words.steps) / columns)
    width = (sheet.width - 2 * frame.MARGIN - GAP * (columns - 1)) / columns
    height = (bottom - top - GAP * (rows - 1)) / rows
    body: list[dict] = []
    for index, step in enumerate(words.steps):
        row, column = divmod(index, columns)
        body += _above(type_, index + 1, step, units, drawings, frame.MARGIN + column * (width + GAP), top + row * (height + GAP), width, height)
    return [[*heads, *body, *feet]]


def towel_pages(type_: Type, sheet: Sheet, reference: Reference, library: dict, units: str, drawings: dict[str, str]) -> list[list[dict]]:
    """The towel test with a table to fill in."""
    words = reference.posters["towel-test"]
    heads, feet, top, bottom = _page(type_, sheet, reference, library, words, units)
    width, height = (sheet.width - 2 * frame.MARGIN - GAP) / 2, 74.0
    body: list[dict] = []
    for index, step in enumerate(words.steps):
        row, column = divmod(index, 2)
        body += _beside(type_, index + 1, step, units, drawings, frame.MARGIN + column * (width + GAP), top + row * (height + 6.0), width, height)
    top += math.ceil(len(words.steps) / 2) * (height + 6.0) + 4.0
    return [[*heads, *body, *record_table(type_, frame.MARGIN, top, sheet.width - 2 * frame.MARGIN, bottom), *feet]]


def record_table(type_: Type, x: float, top: float, width: float, bottom: float, columns=RECORD, row: float = RECORD_ROW) -> list[dict]:
    """An empty table down to `bottom`, read aloud as one figure; `columns` are (head, share of the width)."""
    count = int((bottom - top - RECORD_HEAD) // row)
    end = top + RECORD_HEAD + count * row
    marks, left = [rect(x, top, width, RECORD_HEAD, "days-5")], x
    for head, share in columns:
        size = type_.one_line(head, 5.8, 600, width * share - 3.0)
        marks.append(text(left + 1.8, top + RECORD_HEAD * 0.68, size, head, weight=600))
        marks.append(line(left, top, left, end, 0.4, "ink"))
        left += width * share
    marks.append(line(x + width, top, x + width, end, 0.4, "ink"))
    marks += [line(x, y, x + width, y, 0.4, "ink") for y in (top, *(top + RECORD_HEAD + row * i for i in range(count + 1)))]
    return [group(f"Empty table with {count} rows: {', '.join(head.strip(':') for head, _ in columns)}", marks)]
