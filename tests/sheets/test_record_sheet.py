"""The empty record of a towel test: one side, everything to fill in, what to do and what to take care of."""

import pytest

from build_tools.render.sheets import frame
from build_tools.render.sheets.fonts import widths
from build_tools.render.sheets.marks import flat
from build_tools.render.sheets.paper import poster_sheet
from build_tools.render.sheets.poster_data import UNITS, library
from build_tools.render.sheets.record_sheet import (
    FIELDS,
    HOW,
    RECORD_PAPERS,
    TOWELS,
    record_pages,
    record_pdf,
)
from build_tools.render.sheets.type import Type
from build_tools.render.sheets.typeset import forget

from .boxes import POINTS, missing_in_pdf, outside, overlapping
from .test_posters import PUBLISHED_SIZES, check_tagged, embedded_fonts, open_pdf


@pytest.fixture(params=[(paper, units) for paper in RECORD_PAPERS for units in UNITS], ids="-".join)
def laid(request, reference):
    """(paper, units, sheet, marks)."""
    paper, units = request.param
    sheet = poster_sheet(paper, "portrait")
    pages = record_pages(Type(widths()), sheet, reference, library(reference), units)
    assert len(pages) == 1
    return paper, units, sheet, pages[0]


def words_of(marks):
    return [m["text"] if m["mark"] == "text" else " ".join(m["lines"]) for m in flat(marks) if m["mark"] in ("text", "lines")]


def test_nothing_outside_nothing_overlapping(laid):
    _, _, sheet, marks = laid
    assert outside(marks, sheet.width, sheet.height, frame.MARGIN) == [] and overlapping(marks) == []


def test_no_line_to_write_on_runs_through_words(laid):
    """Lines to write on begin after their label and end before the next."""
    from .boxes import text_boxes

    marks = laid[3]
    level = [m for m in marks if m["mark"] == "line" and m["y1"] == m["y2"] and m["width"] == 0.4]
    assert len(level) >= sum(len(row) for row in FIELDS) + 8
    for mark in level:
        for words, left, top, right, bottom in text_boxes(marks):
            assert not (top < mark["y1"] - 1.0 < bottom and min(right, mark["x2"]) - max(left, mark["x1"]) > 0.0), words


def test_everything_to_fill_in_is_there(laid, reference):
    words = words_of(laid[3])
    assert {"Library", "Lot", "Crop, variety", "Source, year of the seed", "Seeds in all", "Towels", "Begun on", "Warmth", "Seeds set", "Totals", "Day", "Date"} <= set(words)
    assert [words.count(name) for name in ("normal", "other")] == [TOWELS, TOWELS] and all(f"Towel {i}" in words for i in range(1, TOWELS + 1))
    joined = " ".join(words)
    assert "Result: normal seedlings, % of seeds" in joined and HOW in joined
    assert len([s for s in HOW.split(". ") if s]) == 3
    cautions = reference.posters["towel-test"].cautions
    assert cautions and all(text in joined for text, _ in cautions)
    assert reference.library["name"] in joined and f"Data version {reference.library['data_version']}" in joined


def test_the_table_has_rows_enough_for_a_test_counted_every_other_day(laid, reference):
    """The longest official test of the data, looked at every second day, finds a row for each look."""
    longest = max(m.final_count_days or 0 for crop in reference.crops.values() for m in crop.methods)
    group = next(m for m in laid[3] if m["mark"] == "group")
    level = {m["y1"] for m in group["marks"] if m["mark"] == "line" and m["y1"] == m["y2"] and m["x2"] - m["x1"] > 300}
    days = len(level) - 4  # the table's upper edge, those under its head, the seeds set and the totals
    assert days >= longest / 2 and f"{days} rows for days" in group["alt"]


@pytest.mark.parametrize("paper", RECORD_PAPERS)
def test_pdf_is_one_tagged_page_with_every_text_in_place(reference, paper):
    content = record_pdf(reference, paper)
    sheet = poster_sheet(paper, "portrait")
    with open_pdf(content) as pdf:
        assert len(pdf.pages) == 1
        assert [pdf.pages[0].width, pdf.pages[0].height] == pytest.approx([side * POINTS for side in PUBLISHED_SIZES[paper]], abs=0.1)
        check_tagged(pdf, content)
        assert embedded_fonts(pdf) == {"SourceSansPro-Regular", "SourceSansPro-Semibold"}
        assert missing_in_pdf(pdf.pages[0], record_pages(Type(widths()), sheet, reference, library(reference))[0], sheet.scale) == []
    forget()
    assert content == record_pdf(reference, paper)
