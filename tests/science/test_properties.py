"""Properties that hold for every count; examples are made by hypothesis."""

from __future__ import annotations

import math
import os

from hypothesis import given, settings
from hypothesis import strategies as st

from build_tools.science.lot import (
    chance_at_least,
    chance_count_at_least,
    chance_count_at_most,
)
from build_tools.science.proportions import clopper_pearson, wilson
from build_tools.science.replicates import chance_of_range, judge_replicates
from build_tools.science.sowing import chance_of_enough, seeds_needed

# No deadline: a busy machine is no fault. The same examples every time where CI=true.
steady = settings(deadline=None, derandomize=os.environ.get("CI") == "true")
CONFIDENCE = st.sampled_from([0.80, 0.90, 0.95, 0.99])


@st.composite
def count(draw, most=2000):
    n = draw(st.integers(1, most))
    return draw(st.integers(0, n)), n


@steady
@given(count(), CONFIDENCE)
def test_interval_contains_the_estimate(kn, confidence):
    k, n = kn
    for interval in (wilson, clopper_pearson):
        low, high = interval(k, n, confidence)
        assert 0 <= low <= k / n <= high <= 1
        assert low < high


@steady
@given(count(), CONFIDENCE, st.integers(2, 20))
def test_interval_shrinks_with_more_seeds(kn, confidence, times):
    k, n = kn
    for interval in (wilson, clopper_pearson):
        low, high = interval(k, n, confidence)
        closer_low, closer_high = interval(times * k, times * n, confidence)
        assert closer_high - closer_low < high - low


@steady
@given(count(), CONFIDENCE)
def test_interval_mirrors(kn, confidence):
    k, n = kn
    for interval in (wilson, clopper_pearson):
        low, high = interval(k, n, confidence)
        mirror_low, mirror_high = interval(n - k, n, confidence)
        assert math.isclose(low, 1 - mirror_high, abs_tol=1e-12)
        assert math.isclose(high, 1 - mirror_low, abs_tol=1e-12)


@steady
@given(count())
def test_more_confidence_is_wider(kn):
    for interval in (wilson, clopper_pearson):
        widths = [high - low for low, high in (interval(*kn, c) for c in (0.8, 0.9, 0.95, 0.99))]
        assert widths == sorted(widths)


@steady
@given(count(), CONFIDENCE)
def test_ends_of_none_and_all(kn, confidence):
    _, n = kn
    for interval in (wilson, clopper_pearson):
        assert interval(0, n, confidence)[0] == 0
        assert interval(n, n, confidence)[1] == 1


@steady
@given(count(), st.floats(0, 1), st.floats(0, 1))
def test_a_higher_line_is_harder_to_reach(kn, a, b):
    low, high = sorted((a, b))
    assert 0 <= chance_at_least(*kn, high) <= chance_at_least(*kn, low) <= 1


@steady
@given(count(), st.floats(0, 1))
def test_one_more_seedling_helps(kn, line):
    k, n = kn
    if k < n:
        assert chance_at_least(k + 1, n, line) >= chance_at_least(k, n, line)
    total = chance_count_at_least(k + 1, n, line) + chance_count_at_most(k, n, line)
    assert math.isclose(total, 1, abs_tol=1e-12)


@st.composite
def replicate_counts(draw):
    pairs = draw(st.lists(count(most=30), min_size=2, max_size=5))
    return [k for k, _ in pairs], [n for _, n in pairs]


@steady
@given(replicate_counts(), st.randoms(use_true_random=False))
def test_order_of_replicates_does_not_matter(replicates, random):
    counts, seeds = replicates
    chance = chance_of_range(counts, seeds)
    assert -1e-12 <= chance <= 1 + 1e-12
    order = list(range(len(counts)))
    random.shuffle(order)
    shuffled = chance_of_range([counts[i] for i in order], [seeds[i] for i in order])
    assert math.isclose(chance, shuffled, abs_tol=1e-10)
    mirrored = chance_of_range([n - k for k, n in zip(counts, seeds, strict=True)], seeds)
    assert math.isclose(chance, mirrored, abs_tol=1e-9)


@steady
@given(st.integers(1, 60), st.integers(2, 8), st.integers(0, 60))
def test_equal_replicates_always_agree(n, m, k):
    verdict = judge_replicates([min(k, n)] * m, [n] * m)
    assert verdict["agree"] and verdict["range"] == 0 and verdict["chance"] == 1


@steady
@given(count(most=200), st.integers(1, 40), st.integers(0, 120), st.sampled_from([1.0, 0.8, 0.3]))
def test_more_seeds_never_lower_the_chance(kn, plants, seeds, factor):
    less = chance_of_enough(plants, seeds, *kn, factor)
    more = chance_of_enough(plants, seeds + 1, *kn, factor)
    assert 0 <= less <= more + 1e-12 <= 1 + 2e-12


@steady
@given(count(most=200), st.integers(1, 40), CONFIDENCE, st.sampled_from([1.0, 0.8]))
def test_seeds_needed_is_the_smallest(kn, plants, certainty, factor):
    k, n = kn
    seeds = seeds_needed(plants, certainty, k, n, factor)
    if seeds is None:
        assert k <= 1  # only when next to nothing germinated
        return
    assert chance_of_enough(plants, seeds, k, n, factor) >= certainty
    assert seeds == plants or chance_of_enough(plants, seeds - 1, k, n, factor) < certainty
