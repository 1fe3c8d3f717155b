"""The Alabama reprint of Harrington's table, and the five kinds in which it differs from Oregon State's, in °F as printed.

Source: Soil Temperature Conditions for Vegetable Seed Germination, ANR-1061, Alabama Cooperative Extension System, year not
shown, the only table; its authors are J. Kemble and M. Musgrove (from memory, the copy does not show them). Read in a copy
of the page in which the cells stood run together; the split used is the only one that gives sensible values.
"""

from __future__ import annotations

import pytest

from .printed import BAND_QUANTITIES, assert_band, assert_same_table, band_cases, held, split_range, table

SOURCE = "aces-anr-1061"
# kind, our ids, minimum, optimum range, optimum, maximum: °F
PRINTED = """
Asparagus               asparagus                    50  60-85   75  95
Bean, lima              bean-lima                    60  60-85   85  85
Bean, snap              bean-snap                    60  65-85   80  95
Beet                    beet                         40  50-85   85  85
Cabbage                 cabbage                      40  45-95   85  100
Carrot                  carrot                       40  45-85   80  95
Cauliflower             cauliflower                  40  45-85   80  100
Celery                  celery                       40  60-70   70  85
Chard, Swiss            chard                        40  50-85   85  95
Corn                    corn-sweet                   50  60-95   95  105
Cucumber                cucumber                     60  60-95   95  105
Eggplant                eggplant                     60  75-90   85  95
Lettuce                 lettuce                      35  40-80   75  85
Muskmelon (cantaloupe)  muskmelon                    60  75-95   90  100
Okra                    okra                         60  70-95   95  105
Onion                   onion                        35  50-95   75  95
Parsley                 parsley                      40  50-85   75  90
Parsnip                 parsnip                      35  50-70   65  85
Pea, English            pea                          40  40-75   75  85
Pepper                  pepper-sweet;pepper-hot      60  65-95   85  95
Pumpkin                 pumpkin                      60  70-90   90  100
Radish                  radish                       40  45-90   85  95
Spinach                 spinach                      35  45-75   70  85
Squash                  squash-summer;squash-winter  60  70-95   95  100
Tomato                  tomato                       50  70-95   85  95
Turnip                  turnip                       40  60-105  85  105
Watermelon              watermelon                   60  70-95   95  105
"""
ROWS = [split_range(row) for row in table(PRINTED, "crop_as_printed", "crop_id", "min_f", "range_f", "opt_f", "max_f")]
# crop, quantity, ANR-1061, Oregon State 2013: °F
DIFFERENCES = [
    ("beet", "maximum_c", "85", "95"),
    ("lettuce", "maximum_c", "85", "95"),
    ("pumpkin", "optimum_c", "90", "95"),
    ("tomato", "optimum_low_c", "70", "60"),
    ("tomato", "optimum_high_c", "95", "85"),
    ("bean-snap", "optimum_low_c", "65", "60"),
]


def test_table_is_whole_and_as_printed(reference):
    # ANR-1061: 27 kinds
    assert len(ROWS) == 27
    assert_same_table(reference, SOURCE, "temperature-bands", ROWS, tuple(BAND_QUANTITIES))


@pytest.mark.parametrize(("crop", "quantity", "fahrenheit"), band_cases(ROWS))
def test_value_is_held(reference, crop, quantity, fahrenheit):
    # ANR-1061
    assert_band(reference, SOURCE, crop, quantity, fahrenheit)


@pytest.mark.parametrize(("crop", "quantity", "alabama", "oregon"), DIFFERENCES, ids=lambda value: value)
def test_both_reprints_stand_side_by_side(reference, crop, quantity, alabama, oregon):
    # ANR-1061 and Oregon State 2013: one family, two figures, neither corrected to the other
    assert_band(reference, SOURCE, crop, quantity, alabama)
    assert_band(reference, "osu-harrington-2013", crop, quantity, oregon)
    families = {f.family for f in reference.crops[crop][quantity].families for p in f.printed if p.source in (SOURCE, "osu-harrington-2013")}
    assert families == {"harrington"}


def test_no_other_shared_cell_differs(reference):
    # ANR-1061 and Oregon State 2013: 114 of 120 shared cells are equal
    shared = equal = 0
    for case in band_cases(ROWS):
        crop, quantity, _ = case.values
        if crop == "pepper-hot" or crop == "squash-winter":  # second id of a row that is counted once
            continue
        ours, theirs = held(reference, crop, quantity, SOURCE), held(reference, crop, quantity, "osu-harrington-2013")
        if ours and theirs:
            shared += 1
            equal += ours[0].as_printed == theirs[0].as_printed
    assert (shared, equal) == (120, 114)
