"""Minimum, optimum and maximum soil temperature of the Florida list, in °F as printed.

Source: list attributed to the University of Florida, IFAS Extension, title and year not shown; read in a copy on a farm's web
page headed as from IFAS, three grouped lists, 29 kinds. The original page was not found. It prints 106 °F where other tables
have 105, and no optimum range.
"""

from __future__ import annotations

import pytest

from .printed import BAND_QUANTITIES, HALF_STEP, assert_band, assert_same_table, band_cases, by_crop, inside_or_explained, table

SOURCE = "ufifas-soil-temperature-list"
# kind, our ids, minimum, optimum, maximum: °F
PRINTED = """
Asparagus    asparagus                    50  75  95
Beet         beet                         40  85  95
Broccoli     broccoli                     40  85  95
Cabbage      cabbage                      40  85  95
Carrot       carrot                       40  80  95
Cauliflower  cauliflower                  40  80  95
Celery       celery                       40  70  75
Cucumber     cucumber                     60  95  106
Eggplant     eggplant                     65  85  95
Endive       endive                       32  75  75
Lettuce      lettuce                      32  75  75
Lima bean    bean-lima                    60  80  85
Muskmelon    muskmelon                    65  95  106
Okra         okra                         60  95  106
Onion        onion                        32  80  95
Parsley      parsley                      40  85  95
Parsnip      parsnip                      32  70  85
Pea          pea                          40  75  85
Pepper       pepper-sweet;pepper-hot      60  85  95
Pumpkin      pumpkin                      65  95  106
Radish       radish                       40  80  95
Snap Bean    bean-snap                    60  85  95
Spinach      spinach                      32  70  75
Squash       squash-summer;squash-winter  65  95  106
Sweet Corn   corn-sweet                   50  85  106
Swiss Chard  chard                        40  85  95
Tomato       tomato                       50  80  95
Turnip       turnip                       50  80  106
Watermelon   watermelon                   65  95  106
"""
ROWS = table(PRINTED, "crop_as_printed", "crop_id", "min_f", "opt_f", "max_f")
JUDGED = [(crop, quantity) for crop in by_crop(ROWS) for quantity in ("minimum_c", "optimum_c", "maximum_c")]


def test_table_is_whole_and_as_printed(reference):
    # the Florida list: 29 kinds
    assert len(ROWS) == 29
    assert_same_table(reference, SOURCE, "temperature-bands", ROWS, tuple(BAND_QUANTITIES))


@pytest.mark.parametrize(("crop", "quantity", "fahrenheit"), band_cases(ROWS))
def test_value_is_held(reference, crop, quantity, fahrenheit):
    # the Florida list
    assert_band(reference, SOURCE, crop, quantity, fahrenheit)


@pytest.mark.parametrize(("crop", "quantity"), JUDGED, ids=lambda value: value)
def test_reference_value_lies_inside_what_is_published(reference, crop, quantity):
    # the Florida list and all other sources that count: outside their span a reason is given
    judged = reference.crops[crop][quantity]
    assert judged.known
    assert inside_or_explained(judged, HALF_STEP), (judged.low, judged.span)


@pytest.mark.parametrize("crop", ["asparagus", "cabbage", "lettuce", "okra", "spinach", "watermelon"])
def test_california_and_florida_are_one_family(reference, crop):
    # the Florida list shares maxima (26 of 27 within 1 °F) and most minima with the UC handbook: they count once
    families = {
        family.family
        for family in reference.crops[crop]["maximum_c"].families
        for printed in family.printed
        if printed.source in (SOURCE, "ucanr-3382-table-5-2")
    }
    assert families == {reference.sources[SOURCE].family} == {reference.sources["ucanr-3382-table-5-2"].family}
