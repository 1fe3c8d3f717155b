"""Percentage of normal seedlings by temperature, with days in brackets, as printed.

Source: Percentage of normal vegetable seedlings produced at different temperatures, attributed to J. F. Harrington
(attribution uncertain), copy on a farm's web page, year not stated; read in a copy of that page. The heading row of
temperatures was not in the copy; it follows from a second web copy and from the days, which agree with Knott's reprint.
0(n) cannot be: seedlings came up after n days, so the percentage is missing, not zero. A 0 where Knott's reprint says "not
tested" is no measurement either.
"""

from __future__ import annotations

import re

import pytest

from . import days_table
from .printed import GRID, assert_same_table, by_crop, table

SOURCE = "harrington-percent-copy"
# kind, our ids, percentage (days) at 32, 41, 50, 59, 68, 77, 86, 95, 104 °F
PRINTED = """
Asparagus    asparagus                0        0       61(53)  80(24)  88(15)  95(10)  79(12)  37(19)  0
Beans, lima  bean-lima                0        0       1       52(31)  82(18)  90(7)   88(7)   2       0
Beans, snap  bean-snap                0        0       1       97(16)  90(11)  97(8)   47(6)   39(6)   0
Beets        beet                     0        53(42)  72(17)  88(10)  90(6)   97(5)   89(5)   35(5)   0
Cabbage      cabbage                  0        27      78(15)  93(9)   0(6)    99(5)   0(4)    0       0
Carrots      carrot                   0        48(51)  93(17)  95(10)  96(7)   96(6)   95(6)   74(9)   0
Cauliflower  cauliflower              0        0       58(20)  60(10)  0(6)    63(5)   45(5)   0       0
Celery       celery                   0        72(41)  70(16)  40(12)  97(7)   65      0       0       0
Cucumber     cucumber                 0        0       0       95(13)  99(6)   99(4)   99(3)   99(3)   49
Eggplant     eggplant                 0        0       0       0       21(13)  53(8)   60(5)   0       0
Lettuce      lettuce                  98(49)   98(15)  98(7)   99(4)   99(3)   99(2)   12(3)   0       0
Muskmelon    muskmelon                0        0       0       0       38(8)   94(4)   90(3)   0       0
Okra         okra                     0        0       0       74(27)  89(17)  92(13)  88(7)   85(6)   35(7)
Onions       onion                    90(136)  98(31)  98(13)  98(7)   99(5)   97(4)   91(4)   73(13)  2
Parsley      parsley                  0        0       63(29)  0(17)   69(14)  64(13)  50(12)  0       0
Parsnips     parsnip                  82(172)  87(57)  79(27)  85(19)  89(14)  77(15)  51(32)  1       0
Peas         pea                      0        89(36)  94(14)  93(9)   93(8)   94(6)   86(6)   0       0
Peppers      pepper-sweet;pepper-hot  0        0       1       70(25)  96(13)  98(8)   95(8)   70(9)   0
Radish       radish                   0        42(29)  76(11)  97(6)   95(4)   97(4)   95(3)   0       0
Spinach      spinach                  83(63)   96(23)  91(12)  82(7)   52(6)   28(5)   32(6)   0       0
Sweet Corn   corn-sweet               0        0       47(22)  97(12)  97(7)   98(4)   91(4)   88(3)   10
Tomatoes     tomato                   0        0       82(43)  98(14)  98(8)   97(6)   83(6)   46(9)   0
Turnips      turnip                   1        14      79(5)   98(3)   99(2)   100(1)  99(1)   99(1)   88(3)
Watermelon   watermelon               0        0       0       17      94(12)  90(5)   92(4)   96(3)   0
"""
ROWS = table(PRINTED, "crop_as_printed", "crop_id", *GRID)
DAYS = by_crop(days_table.ROWS)
IMPOSSIBLE = {("cabbage", "f68"), ("cabbage", "f86"), ("cauliflower", "f68"), ("parsley", "f59")}
# 0 % where both copies of the days have 28: test_days_by_temperature.py checks how that is settled.
UNDECIDED = {("asparagus", "f104")}


def is_not_tested(crop: str, column: str, text: str) -> bool:
    """A bare 0 where the table of days says "not tested"."""
    return text == "0" and DAYS[crop][column] == "-"


CASES = [pytest.param(crop, column, row[column], id=f"{crop}-{column}") for crop, row in by_crop(ROWS).items() for column in GRID]


def cell_of(reference, crop, column):
    rows = [row for row in reference.crops[crop].percents if row.source == SOURCE]
    assert len(rows) == 1
    cells = [cell for cell in rows[0].cells if cell.celsius == days_table.CELSIUS[column]]
    assert len(cells) == 1
    return cells[0]


def test_table_is_whole_and_as_printed(reference):
    # the farm's copy: 24 kinds, nine temperatures
    assert len(ROWS) == 24
    assert_same_table(reference, SOURCE, "normal-seedlings-by-temperature", ROWS, GRID)


@pytest.mark.parametrize(("crop", "column", "text"), CASES)
def test_cell(reference, crop, column, text):
    # the farm's copy; states follow from it and from Knott's reprint of the days
    cell = cell_of(reference, crop, column)
    assert cell.as_printed == text
    if (crop, column) in IMPOSSIBLE:
        assert (cell.state, cell.value) == ("doubtful", None)
        assert cell.doubt
    elif is_not_tested(crop, column, text):
        assert (cell.state, cell.value) == ("not tested", None)
        assert cell.doubt
    elif (crop, column) in UNDECIDED:
        assert cell.value in (None, 0)
        assert cell.doubt
    else:
        assert (cell.state, cell.value) == ("measured", float(text.split("(")[0]))


def test_impossible_and_untested_cells_are_the_known_ones():
    # the farm's copy: four cells 0(n); 37 bare zeros where Knott's reprint says "not tested"
    found = {(crop, column) for crop, row in by_crop(ROWS).items() for column in GRID if re.match(r"0\(", row[column])}
    assert found == IMPOSSIBLE
    assert sum(is_not_tested(crop, column, row[column]) for crop, row in by_crop(ROWS).items() for column in GRID) == 37


@pytest.mark.parametrize("crop", by_crop(ROWS))
def test_days_in_brackets_are_those_of_the_table_of_days(crop):
    # the farm's copy and Knott's reprint: same days but for asparagus at 95 °F (19 and 20), a check of both typed tables
    for column in GRID:
        days = re.search(r"\((\d+)\)", by_crop(ROWS)[crop][column])
        if days and (crop, column) != ("asparagus", "f95"):
            assert days[1] == DAYS[crop][column], column


@pytest.mark.parametrize("crop", by_crop(ROWS))
def test_a_percentage_without_days_stays_doubted(reference, crop):
    # the farm's copy: more than 0 % and no days, where Knott's reprint has no germination or not tested
    for column in GRID:
        text = by_crop(ROWS)[crop][column]
        if text.isdigit() and text != "0":
            assert cell_of(reference, crop, column).doubt, column
