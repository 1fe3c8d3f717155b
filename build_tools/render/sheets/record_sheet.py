"""An empty sheet to record a towel test on: what was tested, a row a day, totals and the result."""

from __future__ import annotations

from ...model.reference import Reference
from ..wording import source_label
from . import frame
from .fonts import widths
from .marks import group, heading, line, lines, rect, text
from .paper import PAPER_NAMES, Sheet, poster_sheet
from .poster_data import library
from .posters import code_svg
from .steps_poster import in_units
from .type import Type
from .typeset import pdf

RECORD_PAPERS = ("A4", "Letter")
TITLE = "Record of a towel test"
HOW = (
    "Each time you look, write the day, and under each towel how many normal seedlings you take out and how many others: abnormal, or rotted. "
    "A normal seedling has a sound root and a sound shoot; hard and fresh seed that has not sprouted is left in the towel and counted on the last day. "
    "At the end add up the columns: normal seedlings of all towels × 100, divided by all seeds set, is the result, and the calculator at the address below says how far off it may be."
)
# (label, share of the width) of the lines to fill in, row by row. Design mm: twice those on A4.
FIELDS = (
    (("Library", 0.5), ("Lot", 0.5)),
    (("Crop, variety", 0.5), ("Source, year of the seed", 0.5)),
    (("Seeds in all", 0.25), ("Towels", 0.25), ("Begun on", 0.25), ("Warmth", 0.25)),
)
TOWELS = 4
WORDS, LEADING, LABEL, FIELD_ROW, GAP = 6.6, 8.3, 6.4, 19.0, 9.0
DAY, DATE = 0.09, 0.15  # of the table's width; the towels share the rest
HEAD, ROW = 9.5, 16.0
RESULT = 39.0


def record_pages(type_: Type, sheet: Sheet, reference: Reference, own: dict, units: str = "both") -> list[list[dict]]:
    """The one page of marks; `own` is poster_data.library."""
    words = reference.posters["towel-test"]
    x, width = frame.MARGIN, sheet.width - 2 * frame.MARGIN
    sources = sorted({source_label(reference, source) for _, of in words.cautions for source in of})
    feet, bottom = frame.foot(type_, sheet, own, frame.small_print(own, "What to do is common practice.", sources, "", []))
    heads = [heading(1, text(x, frame.MARGIN + 12.0, 16.5, TITLE, weight=600))]
    fields, y = _fields(type_, x, frame.MARGIN + 16.0, width)
    how = type_.wrap(HOW, WORDS, 400, width)
    heads.append(lines(x, y + WORDS + 7.0, WORDS, LEADING, how))
    y += WORDS + 7.0 + LEADING * (len(how) - 1) + 8.0
    cautions = type_.wrap("Take care. " + " ".join(in_units(said, units) for said, _ in words.cautions), WORDS, 400, width - 12.0)
    tall = 5.0 + LEADING * len(cautions)
    bottom -= tall + 2.0
    warned = [rect(x, bottom, width, tall, None, edge="ink", edge_width=0.6), lines(x + 6.0, bottom + 2.5 + WORDS, WORDS, LEADING, cautions)]
    table, end = _table(type_, x, y, width, bottom - RESULT)
    return [[*heads, *fields, *table, *_result(type_, x, end, width), *warned, *feet]]


def _fields(type_: Type, x: float, y: float, width: float) -> tuple[list[dict], float]:
    """(labels with lines to write on, the y below)."""
    marks = []
    for row in FIELDS:
        y += FIELD_ROW
        left = x
        for label, share in row:
            right = left + width * share - (GAP if left + width * share < x + width - 1.0 else 0.0)
            marks.append(text(left, y, LABEL, label))
            marks.append(line(left + type_.width(label, LABEL) + 3.0, y + 1.2, right, y + 1.2, 0.4, "ink"))
            left += width * share
    return marks, y


def _table(type_: Type, x: float, top: float, width: float, bottom: float) -> tuple[list[dict], float]:
    """(a row for the seeds set, one a day, one of totals, two columns a towel; the y below); read aloud as one figure."""
    columns = [width * DAY, width * DATE, *[width * (1 - DAY - DATE) / (2 * TOWELS)] * (2 * TOWELS)]
    days = int((bottom - top - 2 * HEAD) // ROW) - 2
    first, end = top + 2 * HEAD + ROW, top + 2 * HEAD + ROW * (days + 2)
    edges = [x]
    for column in columns:
        edges.append(edges[-1] + column)
    marks = [rect(x, top, width, 2 * HEAD, "days-5"), rect(x, end - ROW, width, ROW, "days-5")]
    for index in range(TOWELS):
        left, right = edges[2 + 2 * index], edges[4 + 2 * index]
        marks.append(text((left + right) / 2, top + HEAD * 0.7, LABEL, f"Towel {index + 1}", weight=600, anchor="middle"))
        marks.append(line(left, top + HEAD, right, top + HEAD, 0.4, "ink"))
    for index, name in enumerate(["Day", "Date", *["normal", "other"] * TOWELS]):
        size = type_.one_line(name, LABEL, 400, columns[index] - 2.0)
        marks.append(text((edges[index] + edges[index + 1]) / 2, top + HEAD * 1.7, size, name, anchor="middle", weight=600 if index < 2 else 400))
    marks.append(text(x + 2.5, end - ROW * 0.36, LABEL, "Totals", weight=600))
    marks.append(text(x + 2.5, first - ROW * 0.36, LABEL, "Seeds set", weight=600))
    for index, edge in enumerate(edges):
        if index % 2 == 0:
            marks.append(line(edge, top, edge, end, 0.7, "ink"))
        else:  # inside a towel, and between day and date: not through the rows that belong to both
            marks += [line(edge, top + HEAD if index > 1 else top, edge, first - ROW, 0.3, "ink"), line(edge, first, edge, end - ROW if index == 1 else end, 0.3, "ink")]
    marks += [line(x, y, x + width, y, 0.4, "ink") for y in (top, *(top + 2 * HEAD + ROW * i for i in range(days + 3)))]
    said = f"Empty table: a row for the seeds set, {days} rows for days and one for totals; columns day, date, and normal and other for each of {TOWELS} towels"
    return [group(said, marks)], end


def _result(type_: Type, x: float, top: float, width: float) -> list[dict]:
    """The line of the result, to be filled in."""
    y, marks, left = top + 19.0, [], x
    parts = (("Result:", 30.0), ("normal seedlings, ", 0.0), ("", 26.0), ("% of", 30.0), ("seeds; the lot itself is likely between", 24.0), ("and", 24.0), ("%", 0.0))
    for words, blank in parts:
        if words:
            marks.append(text(left, y, 7.2, words.strip(), weight=600 if words == "Result:" else 400))
            left += type_.width(words.strip(), 7.2, 600 if words == "Result:" else 400) + 2.0
        if blank:
            marks.append(line(left, y + 1.2, left + blank, y + 1.2, 0.4, "ink"))
            left += blank + 2.0
    last = (("Counted by", 0.5), ("on", 0.2), ("Next test by", 0.3))
    y, left = y + 14.0, x
    for label, share in last:
        right = left + width * share - (GAP if label != "Next test by" else 0.0)
        marks.append(text(left, y, LABEL, label))
        marks.append(line(left + type_.width(label, LABEL) + 3.0, y + 1.2, right, y + 1.2, 0.4, "ink"))
        left += width * share
    return marks


def record_pdf(reference: Reference, paper: str, units: str = "both") -> bytes:
    """The PDF of the sheet on A4 or Letter. KeyError for an unknown paper."""
    own, sheet = library(reference), poster_sheet(paper, "portrait")
    return pdf(
        record_pages(Type(widths()), sheet, reference, own, units), sheet, title=f"{TITLE}, {PAPER_NAMES.get(paper, paper)}", author=own["name"],
        description=f"Germination reference, data version {own['version']}", pictures={"code": code_svg(own["site"])},
    )


def record_file_name(paper: str) -> str:
    """What the file is called: towel-test-record-A4.pdf."""
    return f"towel-test-record-{paper}.pdf"
