"""Properties of ageing, cells, courses, repeated tests and mass; examples are made by hypothesis."""

from __future__ import annotations

import itertools
import math

from hypothesis import assume, given
from hypothesis import strategies as st

from build_tools.science.ageing import (
    beta_summary,
    chance_above,
    expected_fraction,
    months_to_next_test,
    update,
    years_until,
)
from build_tools.science.cells import (
    MOST_A_CELL,
    chance_empty,
    expected_thinned,
    seeds_per_cell,
)
from build_tools.science.repeated_tests import dispersion, judge_tests
from build_tools.science.seed_mass import bulk_needed, pure_live_seed
from build_tools.science.time_course import new_from_totals, time_course
from tests.science.published_trials import two_test_table
from tests.science.test_properties import CONFIDENCE, count, steady

FRACTION = st.floats(0.01, 0.99)
FACTOR = st.sampled_from([1.0, 0.8, 0.3])


@steady
@given(FRACTION, st.floats(0.5, 20), count(most=400), count(most=400))
def test_order_of_tests_does_not_matter(expected, worth, first, second):
    a, b = update(expected, worth, *first)
    once = (a + second[0], b + second[1] - second[0])
    for other in (update(a / (a + b), a + b, *second), update(expected, worth, first[0] + second[0], first[1] + second[1])):
        assert math.isclose(once[0], other[0], rel_tol=1e-9)
        assert math.isclose(once[1], other[1], rel_tol=1e-9)
    a, b = update(expected, worth, *second)
    other = update(a / (a + b), a + b, *first)
    assert math.isclose(once[0], other[0], rel_tol=1e-9)
    assert math.isclose(once[1], other[1], rel_tol=1e-9)


@steady
@given(FRACTION, st.floats(0.5, 20), count(most=400), CONFIDENCE)
def test_the_expectation_pulls_towards_itself(expected, worth, kn, confidence):
    a, b = update(expected, worth, *kn)
    summary = beta_summary(a, b, confidence)
    low, high = sorted((expected, kn[0] / kn[1]))
    assert low - 1e-12 <= summary["mean"] <= high + 1e-12
    assert 0 <= summary["low"] <= summary["high"] <= 1
    if min(a, b) >= 1:  # else the density runs up so steeply at 0 or 1 that the ends round
        inside = chance_above(a, b, summary["low"]) - chance_above(a, b, summary["high"])
        assert math.isclose(inside, confidence, abs_tol=1e-9)


@steady
@given(st.floats(0, 50), st.floats(0.01, 10), st.floats(0.5, 40), st.floats(0.6, 0.97), st.floats(0.05, 0.55))
def test_older_seed_and_shorter_life_are_worse(age, older, life, fresh, end):
    now = expected_fraction(age, life, fresh, end)
    assert expected_fraction(age + older, life, fresh, end) <= now
    assert expected_fraction(age, life + older, fresh, end) >= now
    assert expected_fraction(age, life, fresh, end + 0.01) >= now
    # fresher seed reaches the same end of its life: better before that, and lower after
    fresher = expected_fraction(age, life, fresh + 0.01, end)
    assert fresher >= now - 1e-12 if age <= life else fresher <= now + 1e-12
    assert 0.02 <= now <= 0.98


@steady
@given(FRACTION, FRACTION, st.floats(0.01, 3), st.integers(1, 6), st.integers(6, 60))
def test_the_next_test_is_within_bounds(fraction, line, slope, least, most):
    years = years_until(fraction, line, slope)
    assert years >= 0
    assert (years == 0) == (fraction <= line) or fraction > 0.98 or fraction < 0.02
    months = months_to_next_test(years, least, most)
    assert least <= months <= most
    assert months >= months_to_next_test(years / 2, least, most)


@steady
@given(count(most=200), st.integers(1, 40), FACTOR)
def test_more_seeds_never_leave_a_cell_emptier(kn, seeds, factor):
    less, more = chance_empty(seeds, *kn, factor), chance_empty(seeds + 1, *kn, factor)
    assert 0 <= more <= less + 1e-12 <= 1 + 2e-12
    assert expected_thinned(seeds, *kn, factor) <= expected_thinned(seeds + 1, *kn, factor) + 1e-12
    assert expected_thinned(1, *kn, factor) < 1e-9  # a cell of one has none to lose


@steady
@given(count(most=200), st.floats(0.3, 0.99), FACTOR)
def test_seeds_per_cell_is_the_smallest(kn, chance, factor):
    seeds = seeds_per_cell(chance, *kn, factor)
    if seeds is None:
        assert 1 - chance_empty(MOST_A_CELL, *kn, factor) < chance
        return
    assert 1 - chance_empty(seeds, *kn, factor) >= chance
    assert seeds == 1 or 1 - chance_empty(seeds - 1, *kn, factor) < chance


@st.composite
def course(draw):
    gaps = draw(st.lists(st.integers(1, 9), min_size=1, max_size=12))
    counts = draw(st.lists(st.integers(0, 30), min_size=len(gaps), max_size=len(gaps)))
    assume(sum(counts) > 0)
    return list(itertools.accumulate(gaps)), counts, sum(counts) + draw(st.integers(0, 20))


@steady
@given(course())
def test_t50_lies_between_first_and_last(given_course):
    days, counts, seeds = given_course
    found = time_course(days, counts, seeds)
    # the first seedlings came up after the count before theirs
    place = days.index(found["first_day"])
    earliest = days[max(place - 1, 0)]
    for name in ("t50_coolbear", "t50_farooq"):
        assert earliest <= found[name]["day"] <= found["last_day"]
    assert found["t50_farooq"]["day"] <= found["t50_coolbear"]["day"]
    assert found["first_day"] - 1e-9 <= found["mean_days"] <= found["last_day"] + 1e-9
    assert found["first_day"] <= found["peak_day"] <= found["last_day"]
    assert found["synchrony"] is None or 0 <= found["synchrony"] <= 1


@steady
@given(course())
def test_the_same_a_day_later_is_slower(given_course):
    days, counts, seeds = given_course
    now, later = time_course(days, counts, seeds), time_course([day + 1 for day in days], counts, seeds)
    assert later["speed"] < now["speed"]
    assert later["velocity"] < now["velocity"]
    assert math.isclose(later["mean_days"], now["mean_days"] + 1)
    assert math.isclose(later["t50_farooq"]["day"], now["t50_farooq"]["day"] + 1)
    assert later["uncertainty"] == now["uncertainty"]
    assert later["variance"] is None or math.isclose(later["variance"], now["variance"], abs_tol=1e-6)


@steady
@given(st.lists(st.integers(0, 500)))
def test_running_totals_come_apart_again(counts):
    assert new_from_totals(list(itertools.accumulate(counts))) == counts


@steady
@given(st.lists(count(most=60), min_size=1, max_size=30), st.randoms(use_true_random=False))
def test_dispersion_does_not_mind_the_order(tests, random):
    found = dispersion(*map(list, zip(*tests, strict=True)))
    assert found["deviance"] >= -1e-9
    assert found["pearson"] >= 0
    random.shuffle(tests)
    other = dispersion([n - k for k, n in tests], [n for _, n in tests])
    for key in found:
        assert math.isclose(found[key], other[key], rel_tol=1e-9, abs_tol=1e-9)


@steady
@given(st.integers(0, 400), st.integers(0, 400))
def test_two_full_tests_do_not_mind_the_order(first, second):
    table = two_test_table()
    found = judge_tests([first, second], [400, 400], table)
    assert found["agree"] == judge_tests([second, first], [400, 400], table)["agree"]
    assert first != second or found["agree"]


@steady
@given(FRACTION, FRACTION, st.floats(0.1, 1e6))
def test_bulk_gives_its_live_seed_back(purity, germination, live):
    bulk = bulk_needed(live, purity, germination)
    assert bulk >= live
    assert math.isclose(bulk * pure_live_seed(purity, germination), live)
