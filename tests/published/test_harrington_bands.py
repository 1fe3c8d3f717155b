"""Minimum, optimum range, optimum and maximum soil temperature, in °F as printed.

Source: J. F. Harrington, Soil temperature conditions for vegetable seed germination, first table, Oregon State University
Extension Service, 2013 (reviewed 2024). Read in a copy of the page; all 24 rows.
Printed there and doubted elsewhere, kept as they stand: pumpkin 95 above its own range, lettuce 95, beet 95, tomato 60-85.
"""

from __future__ import annotations

import pytest

from .printed import BAND_QUANTITIES, HALF_STEP, assert_band, assert_same_table, band_cases, by_crop, inside_or_explained, split_range, table

SOURCE = "osu-harrington-2013"
# kind, our ids, minimum, optimum range, optimum, maximum: °F
PRINTED = """
Asparagus     asparagus                    50  60-85   75  95
Bean          bean-snap                    60  60-85   80  95
Beet          beet                         40  50-85   85  95
Cabbage       cabbage                      40  45-95   85  100
Carrot        carrot                       40  45-85   80  95
Cauliflower   cauliflower                  40  45-85   80  100
Chard, Swiss  chard                        40  50-85   85  95
Corn          corn-sweet                   50  60-95   95  105
Cucumber      cucumber                     60  60-95   95  105
Eggplant      eggplant                     60  75-90   85  95
Lettuce       lettuce                      35  40-80   75  95
Muskmelon     muskmelon                    60  75-95   90  100
Onion         onion                        35  50-95   75  95
Parsley       parsley                      40  50-85   75  90
Parsnip       parsnip                      35  50-70   65  85
Pea           pea                          40  40-75   75  85
Pepper        pepper-sweet;pepper-hot      60  65-95   85  95
Pumpkin       pumpkin                      60  70-90   95  100
Radish        radish                       40  45-90   85  95
Spinach       spinach                      35  45-75   70  85
Squash        squash-summer;squash-winter  60  70-95   95  100
Tomato        tomato                       50  60-85   85  95
Turnip        turnip                       40  60-105  85  105
Watermelon    watermelon                   60  70-95   95  105
"""
ROWS = [split_range(row) for row in table(PRINTED, "crop_as_printed", "crop_id", "min_f", "range_f", "opt_f", "max_f")]
JUDGED = [(crop, quantity) for crop in by_crop(ROWS) for quantity in BAND_QUANTITIES.values()]


def test_table_is_whole_and_as_printed(reference):
    # Oregon State 2013, first table: 24 kinds
    assert len(ROWS) == 24
    assert_same_table(reference, SOURCE, "temperature-bands", ROWS, tuple(BAND_QUANTITIES))


@pytest.mark.parametrize(("crop", "quantity", "fahrenheit"), band_cases(ROWS))
def test_value_is_held(reference, crop, quantity, fahrenheit):
    # Oregon State 2013, first table
    assert_band(reference, SOURCE, crop, quantity, fahrenheit)


@pytest.mark.parametrize(("crop", "quantity"), JUDGED, ids=lambda value: value)
def test_reference_value_lies_inside_what_is_published(reference, crop, quantity):
    # Oregon State 2013 and all other sources that count: outside their span a reason is given
    judged = reference.crops[crop][quantity]
    assert judged.known
    assert inside_or_explained(judged, HALF_STEP), (judged.low, judged.span)


@pytest.mark.parametrize("crop", by_crop(ROWS))
def test_bands_of_the_print_are_in_order(crop):
    # Oregon State 2013, first table: minimum, range and maximum never cross (a slip of typing would show here)
    row = by_crop(ROWS)[crop]
    ends = [int(row[c]) for c in ("min_f", "opt_low_f", "opt_high_f", "max_f")]
    assert ends == sorted(ends)
