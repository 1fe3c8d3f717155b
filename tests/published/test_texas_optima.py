"""Minimum and optimum soil temperature of the Texas text, in °F as printed.

Source: Check Soil Temperature, Earth-Kind gardening archive, Texas A&M University, Aggie Horticulture (Jerry Parsons, from the
address of the page), year not shown; running text read in a copy of the page, 20 kinds. The optima are Harrington's but for
snap bean, corn and melon. No minimum is given for six kinds.
"""

from __future__ import annotations

import pytest

from .printed import assert_band, assert_same_table, band_cases, table

SOURCE = "tamu-earthkind-parsons"
# kind, our ids, minimum, optimum: °F
PRINTED = """
Cucumber    cucumber                     60  95
Cantaloupe  muskmelon                    60  95
Okra        okra                         60  95
Pumpkin     pumpkin                      60  95
Squash      squash-summer;squash-winter  60  95
Watermelon  watermelon                   60  95
Beans       bean-snap                    _   85
Beets       beet                         40  85
Cabbage     cabbage                      40  85
Chard       chard                        40  85
Eggplant    eggplant                     _   85
Pepper      pepper-sweet;pepper-hot      _   85
Radish      radish                       40  85
Tomato      tomato                       _   85
Turnip      turnip                       40  85
Corn        corn-sweet                   _   85
Carrot      carrot                       35  80
Parsley     parsley                      35  75
Lettuce     lettuce                      35  75
Spinach     spinach                      35  70
"""
ROWS = table(PRINTED, "crop_as_printed", "crop_id", "min_f", "opt_f")


def test_table_is_whole_and_as_printed(reference):
    # Texas A&M: 20 kinds
    assert len(ROWS) == 20
    assert_same_table(reference, SOURCE, "temperature-bands", ROWS, ("min_f", "opt_f"))


@pytest.mark.parametrize(("crop", "quantity", "fahrenheit"), band_cases(ROWS))
def test_value_is_held(reference, crop, quantity, fahrenheit):
    # Texas A&M; where the text gives no figure the model holds none
    assert_band(reference, SOURCE, crop, quantity, fahrenheit)
