"""Properties of two treatments and of plans; examples are made by hypothesis."""

from __future__ import annotations

import itertools
import math

from hypothesis import assume, given
from hypothesis import strategies as st

from build_tools.science.lot import chance_count_at_least, chance_count_at_most
from build_tools.science.plans import (
    fixed_plan,
    operating_characteristic,
    seeds_for_half_width,
    sequential_plan,
)
from build_tools.science.two_treatments import (
    fisher_exact,
    fisher_power,
    newcombe_difference,
)
from tests.science.test_properties import CONFIDENCE, count, steady

FRACTION = st.floats(0.01, 0.99)
ERROR = st.floats(0.02, 0.3)


@steady
@given(count(), count(), CONFIDENCE)
def test_difference_contains_the_estimate(first, second, confidence):
    low, high = newcombe_difference(*first, *second, confidence)
    seen = first[0] / first[1] - second[0] / second[1]
    assert -1 - 1e-12 <= low <= seen <= high <= 1 + 1e-12
    assert low < high


@steady
@given(count(), count(), CONFIDENCE)
def test_difference_mirrors(first, second, confidence):
    low, high = newcombe_difference(*first, *second, confidence)
    swapped = newcombe_difference(*second, *first, confidence)
    not_grown = newcombe_difference(first[1] - first[0], first[1], second[1] - second[0], second[1], confidence)
    for found in (swapped, not_grown):
        assert math.isclose(found[0], -high, abs_tol=1e-12)
        assert math.isclose(found[1], -low, abs_tol=1e-12)


@steady
@given(count(), count(), CONFIDENCE, st.integers(2, 20))
def test_difference_is_better_known_from_more_seeds(first, second, confidence, times):
    low, high = newcombe_difference(*first, *second, confidence)
    closer = newcombe_difference(*(times * x for x in first), *(times * x for x in second), confidence)
    assert closer[1] - closer[0] < high - low


@steady
@given(count(most=300), count(most=300))
def test_fisher_does_not_mind_the_order(first, second):
    (k1, n1), (k2, n2) = first, second
    p = fisher_exact(k1, n1, k2, n2)
    assert 0 <= p <= 1
    for other in (fisher_exact(k2, n2, k1, n1), fisher_exact(n1 - k1, n1, n2 - k2, n2)):
        assert math.isclose(p, other, rel_tol=1e-9, abs_tol=1e-12)
    if 0 < k1 + k2 < n1 + n2:
        # rows and columns of the table change places
        assert math.isclose(p, fisher_exact(k1, k1 + k2, n1 - k1, n1 + n2 - k1 - k2), rel_tol=1e-9, abs_tol=1e-12)


@steady
@given(count(most=300), st.integers(1, 5))
def test_the_same_percentage_is_no_difference(kn, times):
    k, n = kn
    assert math.isclose(fisher_exact(k, n, times * k, times * n), 1, abs_tol=1e-6)


@steady
@given(FRACTION, FRACTION, st.integers(1, 30))
def test_power_mirrors_and_stays_a_chance(p1, p2, seeds):
    power = fisher_power(p1, p2, seeds)
    assert 0 <= power <= 1
    assert math.isclose(power, fisher_power(p2, p1, seeds), abs_tol=1e-12)
    assert math.isclose(power, fisher_power(1 - p1, 1 - p2, seeds), abs_tol=1e-12)
    assert fisher_power(p1, p1, seeds) <= 0.05 + 1e-12  # never more false alarms than promised


@steady
@given(st.floats(0.2, 0.95), st.floats(0.15, 0.6), ERROR, ERROR)
def test_a_fixed_plan_keeps_its_promise(good, apart, turned_away, passed):
    bad = good - apart
    assume(bad > 0.01)
    plan = fixed_plan(good, bad, turned_away, passed)
    seeds, at = plan["seeds"], plan["accept_at"]
    assert chance_count_at_most(at - 1, seeds, good) <= turned_away * (1 + 1e-8)
    assert chance_count_at_least(at, seeds, bad) <= passed * (1 + 1e-8)
    # one seed fewer fails with every count
    assert all(chance_count_at_most(c - 1, seeds - 1, good) > turned_away or chance_count_at_least(c, seeds - 1, bad) > passed
               for c in range(1, seeds))


@steady
@given(st.floats(0.3, 0.97), st.floats(0.1, 0.5), ERROR, ERROR, st.integers(1, 12), st.lists(st.floats(0, 1), min_size=2, max_size=5))
def test_chances_of_a_sequential_plan(good, apart, turned_away, passed, groups, fractions):
    assume(good - apart > 0.01)
    plan = sequential_plan(good, good - apart, turned_away, passed, groups)
    accepts, flags = [], []
    for fraction in sorted(fractions):
        found = operating_characteristic(plan, fraction)
        assert math.isclose(found["accept"] + found["flag"] + found["between"], 1, abs_tol=1e-12)
        assert 10 - 1e-9 <= found["mean_seeds"] <= 10 * groups + 1e-9
        accepts.append(found["accept"])
        flags.append(found["flag"])
    for worse, better in itertools.pairwise(accepts):
        assert worse <= better + 1e-12
    for worse, better in itertools.pairwise(flags):
        assert better <= worse + 1e-12
    for row in plan:
        assert row["accept"] is None or row["flag"] is None or row["accept"] < row["flag"]


@steady
@given(st.floats(0.02, 0.5), FRACTION, CONFIDENCE)
def test_a_narrower_range_takes_more_seeds(half, fraction, confidence):
    seeds = seeds_for_half_width(half, fraction, confidence)
    assert 1 <= seeds <= seeds_for_half_width(half / 2, fraction, confidence)
    assert seeds <= seeds_for_half_width(half, 0.5, confidence)
