"""What growers say of cool and warm crops, and of soaking, as check values for the reference.

Common practice, no source: cool-season crops start in soil of about 7-10 °C (45-50 °F); warm-season crops need at least
16-21 °C (60-70 °F); large seed is soaked 8 to 12 hours. The rule is about sowing, a printed minimum about bare germination, so
some kinds stand between the two; each of them is named here with the figure that puts it there.
"""

from __future__ import annotations

import re
from statistics import median

import pytest

COOL_START_C = 10  # upper end of the cool-season rule, 50 °F
WARM_NEED_C = 15  # lower end of the warm-season rule, 60 °F (15.6 °C), rounded down
# Warm-season crops whose printed minimum lies under the rule.
WARM_BUT_LOWER = {
    "corn-sweet": "50 °F (10 °C) in Oregon State 2013, ANR-1061 and the UC handbook; 47 % came up at 10 °C",
    "corn-pop": "published for maize, as sweet corn",
    "tomato": "50 °F (10 °C) in Oregon State 2013, ANR-1061 and the UC handbook; 82 % came up at 10 °C",
    "soybean": "10 °C in the review of 2013 (Hasanuzzaman and others, names from memory)",
}
# Cool-season crops whose printed minimum lies at the upper end of the rule.
COOL_BUT_HIGHER = {
    "asparagus": "50 °F (10 °C) in Oregon State 2013, ANR-1061 and the UC handbook",
    "pansy": "10 °C was the coolest temperature of the one trial, 75 % germinated (University of Florida)",
}


def published_minimums(reference, season: str) -> dict[str, float]:
    """Reference minimum (°C) of the crops of a season whose minimum rests on a publication."""
    return {
        crop.id: crop["minimum_c"].low
        for crop in reference.crops.values()
        if crop["season"].choice == season and set(crop["minimum_c"].sources) - {"common practice", "from memory"}
    }


def test_every_crop_has_a_season(reference):
    # common practice, no source
    assert {crop["season"].choice for crop in reference.crops.values()} == {"cool", "warm"}


def test_enough_crops_have_a_published_minimum(reference):
    # Harrington's table alone (Oregon State 2013) has 14 cool and 10 warm kinds; without them the checks below would say nothing
    assert len(published_minimums(reference, "cool")) >= 14
    assert len(published_minimums(reference, "warm")) >= 10


def test_no_warm_crop_starts_below_10_c(reference):
    # common practice, no source
    assert {c: m for c, m in published_minimums(reference, "warm").items() if m < COOL_START_C} == {}


def test_warm_crops_need_about_16_c_in_the_middle(reference):
    # common practice, no source: the median warm-season crop
    assert median(published_minimums(reference, "warm").values()) >= WARM_NEED_C


def test_no_cool_crop_needs_more_than_10_c(reference):
    # common practice, no source
    assert {c: m for c, m in published_minimums(reference, "cool").items() if m > COOL_START_C} == {}


def test_cool_crops_start_below_the_rule_in_the_middle(reference):
    # common practice, no source: bare germination begins at or under 7 °C (45 °F) for the median cool-season crop
    assert median(published_minimums(reference, "cool").values()) <= 7.5


def test_the_crops_between_the_two_rules_are_the_known_ones(reference):
    # season and minimum never contradict but for kinds named above with the figure that puts them there
    warm = {c for c, m in published_minimums(reference, "warm").items() if m < WARM_NEED_C}
    cool = {c for c, m in published_minimums(reference, "cool").items() if m >= COOL_START_C}
    assert (warm, cool) == (set(WARM_BUT_LOWER), set(COOL_BUT_HIGHER))


@pytest.mark.parametrize("pair", [("lettuce", "cucumber"), ("pea", "bean-snap"), ("spinach", "okra"), ("onion", "muskmelon"), ("cabbage", "pepper-sweet")], ids="-".join)
def test_cool_before_warm(reference, pair):
    # common practice, no source: the textbook pairs, cool first
    cool, warm = (reference.crops[crop] for crop in pair)
    assert (cool["season"].choice, warm["season"].choice) == ("cool", "warm")
    assert cool["minimum_c"].low < warm["minimum_c"].low


def test_soak_is_8_to_12_hours(reference):
    # common practice, no source; the text that says so carries that mark
    soak = reference.treatments["soak"]
    hours = re.compile(r"\b8\s*(?:to|-|–)\s*12 hours\b")
    assert any(hours.search(step) for step in soak.steps)
    stated = [words for words in soak.evidence if hours.search(words.text)]
    assert stated
    assert all("common practice" in words.sources for words in stated)


@pytest.mark.parametrize(("key", "value"), [
    ("soak_least_hours", 8), ("soak_most_hours", 12),  # a soak lasts 8 to 12 hours
    ("towel_least_days", 7),  # wait at least a week before you read a towel test
    ("cover_earlier_days", 14),  # a cover brings sowing forward by up to two weeks
])
def test_rules_the_calculators_rest_on(reference, key, value):
    # common practice, no source, and said so beside the value
    assert reference.practice[key]["value"] == value
    assert reference.practice[key]["sources"] == ["common practice"]
