"""The quick verdicts on replicates and tests are those of science/replicates and science/repeated_tests.

These are held against 7 CFR 201.55 and Miles 1963 in tests/science; here it is the sameness that counts: every outcome of
small designs, and a wide sample of larger ones, learned together as for a long file, and asked one by one.
"""

from __future__ import annotations

import itertools
import random

import pytest

from build_tools.lots.agreement import Agreement, chances
from build_tools.science.repeated_tests import judge_tests
from build_tools.science.replicates import (
    EXACT_SEEDS,
    chance_of_range,
    judge_replicates,
)


@pytest.fixture
def agreement(catalogue):
    return Agreement(catalogue.replicate_range, catalogue.two_test_range)


def truth(pairs, catalogue):
    return judge_replicates([k for _, k in pairs], [n for n, _ in pairs], catalogue.replicate_range)["agree"]


@pytest.mark.parametrize("sizes", [(1, 1), (2, 3), (5, 5), (10, 10), (6, 9), (4, 4, 4), (3, 5, 8), (6, 6, 6), (3, 3, 3, 3), (2, 4, 4, 5), (2,) * 6, (1,) * 8], ids=str)
def test_every_outcome_of_small_designs(sizes, agreement, catalogue):
    outcomes = [tuple(sorted(zip(sizes, counts, strict=True))) for counts in itertools.product(*(range(n + 1) for n in sizes))]
    random.Random(1).shuffle(outcomes)
    wanted = [truth(pairs, catalogue) for pairs in outcomes]
    alone = Agreement(catalogue.replicate_range, catalogue.two_test_range)
    assert [alone.replicates(pairs) for pairs in outcomes] == wanted
    agreement.learn(outcomes)
    assert len(agreement._by_chance) == len(set(outcomes)), "all were learned together"
    assert [agreement.replicates(pairs) for pairs in outcomes] == wanted


@pytest.mark.parametrize("sizes", [(7, 7), (25, 50), (10, 25, 50), (20, 20, 20)], ids=str)
def test_the_chances_themselves(sizes):
    rng = random.Random(2)
    counts = [[rng.randint(0, n) for n in sizes] for _ in range(60)] + [[0] * len(sizes), list(sizes)]
    for row, chance in zip(counts, chances(counts, sizes), strict=True):
        assert chance == pytest.approx(chance_of_range(row, sizes), abs=1e-11)


def test_long_lists_are_worked_out_in_parts(monkeypatch):
    rng = random.Random(4)
    counts = [[rng.randint(0, 10) for _ in range(3)] for _ in range(50)]
    whole = chances(counts, (10, 10, 10))
    monkeypatch.setattr("build_tools.lots.agreement.MOST_CELLS", 40)
    assert chances(counts, (10, 10, 10)).tolist() == whole.tolist()


@pytest.mark.parametrize("seed", range(4))
def test_a_wide_sample_of_larger_designs(seed, agreement, catalogue):
    rng = random.Random(seed)
    outcomes = []
    for _ in range(250):
        replicates = rng.randint(2, 8)
        sizes = [rng.choice([10, 25, 50, 100])] * replicates if rng.random() < 0.5 else [rng.choice([10, 20, 25, 40, 50, 100]) for _ in range(replicates)]
        good, spread = rng.betavariate(5, 2), rng.choice([0, 0.1, 0.2])
        counts = [sum(rng.random() < min(1, max(0, good + shift)) for _ in range(n)) for n, shift in ((n, rng.uniform(-spread, spread)) for n in sizes)]
        outcomes.append(tuple(sorted(zip(sizes, counts, strict=True))))
    agreement.learn(outcomes)
    verdicts = [truth(pairs, catalogue) for pairs in outcomes]
    assert [agreement.replicates(pairs) for pairs in outcomes] == verdicts
    assert 10 < sum(verdicts) < 240, "the sample holds both kinds"


def test_replicates_of_100_follow_the_published_table(agreement, catalogue):
    rng = random.Random(7)
    for replicates in (2, 3, 4):
        for _ in range(150):
            good = rng.betavariate(5, 2)
            pairs = tuple(sorted((100, min(100, max(0, round(rng.gauss(100 * good, 6))))) for _ in range(replicates)))
            assert agreement.replicates(pairs) == truth(pairs, catalogue), pairs


def test_two_tests_are_judged_as_repeated_tests_are(agreement, catalogue):
    rng = random.Random(3)
    seen = set()
    for _ in range(400):
        sizes = [400, 400] if rng.random() < 0.3 else [rng.choice([10, 25, 50, 75, 100, 200, 300]) for _ in range(2)]
        good = rng.betavariate(5, 2)
        first, second = ((n, min(n, max(0, round(rng.gauss(n * good, 0.06 * n))))) for n in sizes)
        wanted = judge_tests([first[1], second[1]], [first[0], second[0]], catalogue.two_test_range)["agree"]
        seen.add((wanted, sizes == [400, 400]))
        assert agreement.tests(tuple(sorted((first, second)))) == wanted, (first, second)
    assert len(seen) == 4


def test_beyond_the_exact_size_miles_formula_is_asked(agreement, catalogue):
    for pairs in (((3000, 2700), (3000, 2760)), ((3000, 2700), (3000, 2790)), ((1000, 700), (5000, 3600))):
        assert sum(n for n, _ in pairs) > EXACT_SEEDS
        assert agreement.replicates(pairs) == truth(pairs, catalogue)
