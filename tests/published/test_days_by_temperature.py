"""Days to emergence by temperature: every cell of two printed copies, with its state.

Sources: Harrington & Minges 1954 as reprinted in Knott's Handbook 1997 (see days_table.py, 24 rows); J. F. Harrington, Oregon
State University Extension Service 2013, second table, read in a copy of the page that is cut after muskmelon (11 rows).
NG = no germination ("little or no" at Oregon State), - or NT = not tested. The two never mean the same.
"""

from __future__ import annotations

import pytest

from .days_table import CELSIUS, ROWS
from .printed import GRID, assert_same_table, by_crop, table

KNOTT, OREGON = "knott-1997-harrington-minges-1954", "osu-harrington-2013"
STATES = {"NG": "no germination", "-": "not tested", "NT": "not tested", "": "blank"}
# 28 days in both copies of the days, 0 % in the percentage table of the same experiments: one of them is wrong.
CONTRADICTED = ("asparagus", "f104")
# Oregon State 2013, second table; muskmelon's last cell is cut off in the copy
OREGON_PRINTED = """
Asparagus    asparagus    NG  NG  53  24  15  10  11  19  28
Bean         bean-snap    NG  NG  NG  16  11  8   6   6   NG
Beet         beet         NT  42  17  10  6   5   4   4   NT
Cabbage      cabbage      NT  NT  15  9   6   4   3   NT  NT
Carrot       carrot       NG  51  17  10  7   6   6   8   NG
Cauliflower  cauliflower  NT  NT  19  10  6   5   4   NT  NT
Corn         corn-sweet   NG  NG  22  12  7   4   4   3   NG
Cucumber     cucumber     NG  NG  NG  13  6   4   3   3   NT
Eggplant     eggplant     NT  NT  NT  13  8   5   NT  NT  NT
Lettuce      lettuce      49  15  7   4   3   2   2   NG  NG
Muskmelon    muskmelon    NT  NT  NT  NT  8   4   3   NT  _
"""
OREGON_ROWS = table(OREGON_PRINTED, "crop_as_printed", "crop_id", *GRID)


def cases(rows):
    return [pytest.param(crop, column, row[column], id=f"{crop}-{column}") for crop, row in by_crop(rows).items() for column in GRID]


def cell_of(reference, crop, source, column):
    rows = [row for row in reference.crops[crop].days if row.source == source]
    assert len(rows) == 1
    cells = [cell for cell in rows[0].cells if cell.celsius == CELSIUS[column]]
    assert len(cells) == 1
    return cells[0]


def assert_cell(cell, text):
    """State and value of a cell that is used as printed."""
    assert cell.as_printed == text
    expected = ("measured", float(text)) if text.isdigit() else (STATES[text], None)
    assert (cell.state, cell.value) == expected


@pytest.mark.parametrize(("source", "rows", "count"), [(KNOTT, ROWS, 24), (OREGON, OREGON_ROWS, 11)], ids=["knott", "oregon"])
def test_table_is_whole_and_as_printed(reference, source, rows, count):
    # Knott's reprint: 24 kinds; Oregon State 2013: 11 kinds could be read
    assert len(rows) == count
    assert_same_table(reference, source, "days-by-temperature", rows, GRID)


@pytest.mark.parametrize(("crop", "column", "text"), cases(ROWS))
def test_cell_of_knotts_reprint(reference, crop, column, text):
    # Harrington & Minges 1954, Knott's reprint
    cell = cell_of(reference, crop, KNOTT, column)
    if (crop, column) == CONTRADICTED and cell.state == "doubtful":
        assert (cell.as_printed, cell.value) == (text, None)
    else:
        assert_cell(cell, text)


@pytest.mark.parametrize(("crop", "column", "text"), cases(OREGON_ROWS))
def test_cell_of_oregon_state(reference, crop, column, text):
    # Oregon State 2013; its eggplant row stands one column too far left (Knott's has 13, 8, 5 at 68, 77, 86 °F): not used
    cell = cell_of(reference, crop, OREGON, column)
    if crop == "eggplant":
        assert (cell.as_printed, cell.state, cell.value) == (text, "doubtful", None)
        assert cell.doubt
    elif (crop, column) == CONTRADICTED and cell.state == "doubtful":
        assert (cell.as_printed, cell.value) == (text, None)
    else:
        assert_cell(cell, text)


def test_contradicted_cell_is_judged_once(reference):
    # Knott's reprint and Oregon State: 28 days at 104 °F; the percentage table: 0 %. Doubted everywhere, judged alike in both
    # copies of the days, and never 28 days and 0 % side by side
    crop, column = CONTRADICTED
    days = [cell_of(reference, crop, source, column) for source in (KNOTT, OREGON)]
    percent = next(c for row in reference.crops[crop].percents for c in row.cells if c.celsius == CELSIUS[column])
    assert [cell.as_printed for cell in (*days, percent)] == ["28", "28", "0"]
    assert all(cell.doubt for cell in (*days, percent))
    assert days[0].state == days[1].state
    assert (days[0].state, percent.state) != ("measured", "measured")


@pytest.mark.parametrize("crop", by_crop(ROWS))
def test_curve_passes_through_the_print_and_ends_with_it(reference, crop):
    # Harrington & Minges 1954, Knott's reprint: days at a tested temperature are the printed days, and none where none emerged
    at = {point.celsius: point.days for point in reference.crops[crop].by_temperature}
    for column in GRID:
        text = by_crop(ROWS)[crop][column]
        used = text.isdigit() and cell_of(reference, crop, KNOTT, column).state == "measured"
        assert at.get(CELSIUS[column]) == (float(text) if used else None), column


def test_no_germination_and_not_tested_are_both_present_and_apart(reference):
    # Knott's reprint: 41 cells NG and 40 not tested, as counted in the print (peppers once)
    states = [cell_of(reference, crop, KNOTT, column).state for crop in by_crop(ROWS) if crop != "pepper-hot" for column in GRID]
    assert (states.count("no germination"), states.count("not tested")) == (41, 40)
