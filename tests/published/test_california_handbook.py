"""Minimum, optimum range and maximum soil temperature of the California handbook, in °F as printed.

Source: California Master Gardener Handbook, 2nd edition, Publication 3382, Table 5.2 (page 114), Regents of the University of
California, year not shown (2015, from memory); read in a copy of its reprint as Garden Notes GN 154, UC Cooperative Extension
Sacramento County; all 30 rows. Celery has a footnote in place of range and maximum. The table prints no single optimum.
"""

from __future__ import annotations

import pytest

from .printed import BAND_QUANTITIES, HALF_STEP, assert_band, assert_same_table, band_cases, by_crop, inside_or_explained, split_range, table

SOURCE = "ucanr-3382-table-5-2"
# kind, our ids, minimum, optimum range, maximum: °F
PRINTED = """
Asparagus                asparagus                    50  75-85  95
Beans, Lima              bean-lima                    60  75-85  85
Beans, Snap              bean-snap                    60  75-85  95
Beets                    beet                         40  65-85  95
Broccoli                 broccoli                     40  60-85  95
Cabbage                  cabbage                      40  60-85  95
Carrots                  carrot                       40  65-85  95
Cauliflower              cauliflower                  40  65-85  95
Celery                   celery                       40  *      _
Chard, Swiss             chard                        40  65-85  95
Corn                     corn-sweet                   50  65-95  105
Cucumbers                cucumber                     60  65-95  105
Eggplant                 eggplant                     60  75-85  95
Garlic                   garlic                       32  65-85  95
Leeks                    leek                         32  65-85  95
Lettuce                  lettuce                      32  60-75  85
Muskmelons (Cantaloupe)  muskmelon                    60  75-85  105
Okra                     okra                         60  85-95  105
Onions                   onion                        32  65-85  95
Parsley                  parsley                      40  65-85  95
Parsnips                 parsnip                      32  65-75  85
Peas                     pea                          40  65-75  85
Peppers                  pepper-sweet;pepper-hot      60  65-75  95
Pumpkins                 pumpkin                      60  85-95  105
Radishes                 radish                       40  65-85  95
Spinach                  spinach                      32  65-75  75
Squash                   squash-summer;squash-winter  60  85-95  105
Tomatoes                 tomato                       50  65-85  95
Turnips                  turnip                       40  60-95  105
Watermelons              watermelon                   60  75-95  105
"""
ROWS = [split_range(row) for row in table(PRINTED, "crop_as_printed", "crop_id", "min_f", "range_f", "max_f")]
WITHOUT_PAGE = {"garlic"}  # planted as cloves, not as seed
CASES = [case for case in band_cases(ROWS) if case.values[0] not in WITHOUT_PAGE]


def test_table_is_whole_and_as_printed(reference):
    # UC handbook, Table 5.2: 30 kinds, garlic among them
    assert len(ROWS) == 30
    assert_same_table(reference, SOURCE, "temperature-bands", ROWS, tuple(BAND_QUANTITIES))


@pytest.mark.parametrize(("crop", "quantity", "fahrenheit"), CASES)
def test_value_is_held(reference, crop, quantity, fahrenheit):
    # UC handbook, Table 5.2; celery's range and maximum are printed as *
    assert_band(reference, SOURCE, crop, quantity, fahrenheit)


@pytest.mark.parametrize("crop", [crop for crop in by_crop(ROWS) if crop not in WITHOUT_PAGE])
@pytest.mark.parametrize("quantity", BAND_QUANTITIES.values())
def test_reference_value_lies_inside_what_is_published(reference, crop, quantity):
    # UC handbook, Table 5.2, and all other sources that count: outside their span a reason is given
    judged = reference.crops[crop][quantity]
    if judged.known:
        assert inside_or_explained(judged, HALF_STEP), (judged.low, judged.span)
    else:
        assert quantity == "optimum_c" or crop == "celery", "a printed figure without a reference value"
