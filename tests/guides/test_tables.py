"""The tables of guides that are made from the model: official warmth and light, and years of seed life."""

from dataclasses import replace

import pytest

from build_tools.render.guides.blocks import lives, official_tests, warmth_of


@pytest.fixture(scope="module")
def tested(reference):
    return {crop.id: (warmth, light) for crop, warmth, light in official_tests(reference)["tested"]}


def plain(markup):
    return markup.striptags()


def test_a_warmth_that_changes_within_the_day_is_no_range(tested):
    assert plain(tested["carrot"][0]) == "20 °C (68 °F) for 16 h and 30 °C (86 °F) for 8 h"


def test_two_warmths_to_choose_from_are_no_range(tested):
    assert plain(tested["spinach"][0]) == "15 °C (59 °F), or 10 °C (50 °F)"


def test_a_misprint_that_is_left_out_is_not_shown(tested):
    assert plain(tested["celeriac"][0]) == "20 °C (68 °F)"


def test_light_is_said_as_printed(tested):
    assert [tested[crop][1] for crop in ("lettuce", "tomato", "carrot")] == ["yes", "if dormant", "–"]


def test_harmful_words_in_a_method_are_text(reference):
    method = replace(reference.crops["carrot"].method, temperatures="<b>20 °C</b> all day")
    assert "<b>" not in warmth_of(method)


def test_every_crop_stands_once_in_the_years_of_seed_life_shortest_first(reference):
    found = lives(reference)
    assert [years for years, _ in found["lives"]] == sorted(years for years, _ in found["lives"])
    assert sorted(crop.id for crops in [found["unknown"], *(crops for _, crops in found["lives"])] for crop in crops) == sorted(reference.crops)
