"""Published viability constants, limits and rules of thumb in the model, against what the sources print."""

import pytest


@pytest.mark.parametrize(("crop", "row"), [
    # Ellis and Hong 2007, abstract (read); the others as a compilation of published constants prints them (read)
    ("beet", (8.988, 4.969, 0.0322, 0.000454, False)), ("chard", (8.988, 4.969, 0.0322, 0.000454, False)), ("corn-sweet", (9.993, 5.993, 0.0322, 0.000454, False)),
    ("lettuce", (7.938, 5.25, 0.0329, 0.000478, False)), ("onion", (6.975, 3.47, 0.04, 0.000428, False)), ("tomato", (6.5017, 3.1807, 0.0324, 0.000431, False)),
    ("pea", (9.858, 5.39, 0.0329, 0.000478, True)), ("rutabaga", (5.65359, 2.49975, 0.04387, 1.438e-05, False)),
])
def test_first_set_of_a_crop(reference, crop, row):
    first = reference.viability.constants[crop][0]
    assert (first.ke, first.cw, first.ch, first.cq, first.single_temperature) == row and not first.doubt


def test_doubtful_rows_are_marked_and_never_first(reference):
    doubted = {crop for crop, rows in reference.viability.constants.items() if any(r.doubt for r in rows)}
    assert doubted == {"arugula", "eggplant", "marigold", "savory-summer", "tomato"}
    assert reference.viability.usable("eggplant") == () == reference.viability.usable("carrot")
    sound, doubtful = reference.viability.usable("tomato")
    assert not sound.doubt and doubtful.doubt.startswith("CH -0.05018:")


def test_universal_constants_stand_in_single_temperature_rows(reference):
    # 0.0329 and 0.000478 (Dickie and others 1990, as quoted)
    singles = [r for rows in reference.viability.constants.values() for r in rows if r.single_temperature]
    assert len(singles) > 10 and {(r.ch, r.cq) for r in singles} == {(0.0329, 0.000478)}


def test_limits_and_rules(reference):
    limits, rules = reference.viability.limits, reference.viability.rules
    spans = [(s.low, s.high) for s in (limits.celsius, limits.moisture, limits.starchy_celsius, limits.oily_celsius, limits.humidity)]
    assert spans == [(-20, 90), (5, 25), (0, 40), (15, 25), (10, 70)]
    assert {crop: s.high for crop, s in limits.upper_moisture.items()} == {"lettuce": 15}  # Ibrahim and Roberts 1983, abstract
    # University of Washington EHUF 473 and West Virginia University, read
    assert (rules.moisture_points, rules.fahrenheit, rules.sum_limit, rules.freezing_moisture) == (1, 10, 100, 14)


def test_every_oil_content_says_that_it_is_none_of_a_source(reference):
    # lettuce, onion, tomato, pea, bean and sweet corn were assumed for the lives worked out beforehand in tests/science/test_viability.py
    assumed = {crop: oil.percent for crop, oil in reference.seed_oil.items() if oil.sources == ("common practice",)}
    assert assumed == {"pea": 2, "bean-snap": 2, "corn-sweet": 5, "lettuce": 37, "onion": 22, "tomato": 24}
    assert all("assumed here" in reference.seed_oil[crop].note for crop in assumed)
    assert {oil.sources for crop, oil in reference.seed_oil.items() if crop not in assumed} == {("from memory",)}
    # a crop with sound constants has one
    assert {c for c in reference.crops if reference.viability.usable(c)} == set(reference.seed_oil)
