"""The science against scipy and statsmodels, used independently, over a wide grid."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
import pytest
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from build_tools.science import lot, proportions, replicates, sowing
from tests.science.published import replicate_range_table

SIZES = [1, 2, 3, 5, 8, 10, 16, 25, 50, 99, 100, 200, 399, 400, 10_000, 100_000]
CONFIDENCES = (0.80, 0.90, 0.95, 0.99)


def grid():
    for n in SIZES:
        for k in sorted({0, 1, n // 5, n // 2, (4 * n) // 5, n - 1, n}):
            yield k, n


@pytest.mark.parametrize("confidence", CONFIDENCES)
def test_intervals_against_statsmodels(confidence):
    # statsmodels proportion_confint, methods "wilson" and "beta"
    for k, n in grid():
        for method, function in (("wilson", proportions.wilson),
                                 ("beta", proportions.clopper_pearson)):
            want = proportion_confint(k, n, alpha=1 - confidence, method=method)
            assert np.allclose(function(k, n, confidence), want, rtol=0, atol=1e-12), (k, n)


@pytest.mark.parametrize("confidence", CONFIDENCES)
def test_intervals_against_scipy(confidence):
    # scipy.stats.binomtest, methods "wilson" and "exact"
    for k, n in grid():
        test = stats.binomtest(k, n)
        for method, function in (("wilson", proportions.wilson),
                                 ("exact", proportions.clopper_pearson)):
            want = test.proportion_ci(confidence, method=method)
            assert np.allclose(function(k, n, confidence), (want.low, want.high), rtol=0,
                               atol=1e-9), (k, n)


def test_tails_against_scipy():
    # scipy.stats.binom and scipy.stats.beta
    for (k, n), p in product(grid(), (0.0, 0.02, 0.5, 0.75, 0.999, 1.0)):
        assert math.isclose(lot.chance_count_at_least(k, n, p), stats.binom.sf(k - 1, n, p),
                            abs_tol=1e-12)
        assert math.isclose(lot.chance_count_at_most(k, n, p), stats.binom.cdf(k, n, p),
                            abs_tol=1e-12)
        assert math.isclose(lot.chance_at_least(k, n, p),
                            stats.beta(k + 0.5, n - k + 0.5).sf(p), abs_tol=1e-12)


def test_range_against_every_outcome():
    # every outcome of small replicates counted out with scipy.stats.binom
    for counts, seeds in (([3, 5], [6, 6]), ([2, 5, 4], [5, 6, 7]), ([1, 4, 3, 4], [4, 4, 3, 5])):
        pooled = sum(counts) / sum(seeds)
        seen = spread(counts, seeds)
        want = sum(
            np.prod([stats.binom.pmf(x, n, pooled) for x, n in zip(outcome, seeds, strict=True)])
            for outcome in product(*(range(n + 1) for n in seeds))
            if spread(outcome, seeds) >= seen - 1e-12
        )
        assert math.isclose(replicates.chance_of_range(counts, seeds), want, abs_tol=1e-12)


def spread(counts, seeds):
    shares = [k / n for k, n in zip(counts, seeds, strict=True)]
    return max(shares) - min(shares)


def test_factors_against_scipy():
    # scipy.stats.studentized_range; the browser twin's constants are compared in test_twins.py
    for m in range(2, 9):
        area = stats.studentized_range.cdf(replicates.miles_factor(m), m, np.inf)
        assert math.isclose(area, 0.975, abs_tol=1e-9)


def test_enough_plants_against_scipy():
    # scipy.stats.betabinom
    for plants, seeds, (k, n) in product((1, 6, 40), (5, 41, 300), ((8, 10), (50, 50), (0, 9))):
        want = stats.betabinom.sf(plants - 1, seeds, k + 0.5, n - k + 0.5)
        assert math.isclose(sowing.chance_of_enough(plants, seeds, k, n), want, abs_tol=1e-12)


def test_beta_binomial_against_scipy():
    # scipy.stats.betabinom; U-shaped, one-sided and narrow cases
    for seeds, a, b in ((1, 0.5, 0.5), (9, 0.5, 10.5), (30, 10.5, 0.5), (400, 8.5, 2.5),
                        (5000, 40.5, 10.5), (2000, 300.5, 100.5)):
        want = stats.betabinom.pmf(np.arange(seeds + 1), seeds, a, b)
        got = sowing.beta_binomial_probabilities(seeds, a, b)
        assert np.allclose(got, want, rtol=0, atol=1e-11)


def test_which_rule_judges_replicates():
    # 7 CFR 201.55(a) for 2 or 4 replicates of 100, exact binomial while quick, then Miles' formula
    table = replicate_range_table()

    def rule(counts, seeds):
        verdict = replicates.judge_replicates(counts, seeds, table)
        return verdict["rule"], verdict["agree"]

    assert replicates.judge_replicates([80], [100], table) is None
    assert rule([70, 86, 80, 84], [100] * 4) == ("table", True)  # average 80, limit 16
    assert rule([69, 86, 80, 84], [100] * 4) == ("table", False)  # range 17
    assert rule([83, 96], [100] * 2) == ("table", False)  # average 89.5 read as 90, limit 9
    assert rule([99, 97], [100] * 2) == ("exact", True)  # average 98 has no 2-replicate limit
    assert rule([100] * 4, [100] * 4) == ("exact", True)  # the table ends at 99
    assert rule([80, 82, 79], [100] * 3) == ("exact", True)
    assert rule([9, 6], [10, 10]) == ("exact", True)
    assert rule([10, 3], [10, 10]) == ("exact", False)
    assert rule([8000, 8500], [10_000] * 2) == ("miles", False)
    assert rule([8000, 8050], [10_000] * 2) == ("miles", True)


@pytest.mark.parametrize("call", [
    lambda: proportions.wilson(11, 10), lambda: proportions.wilson(-1, 10),
    lambda: proportions.wilson(0, 0), lambda: proportions.wilson(1.5, 10),
    lambda: proportions.clopper_pearson(1, 10, 1.0), lambda: proportions.normal_quantile(1.0),
    lambda: lot.chance_at_least(1, 10, -0.1), lambda: lot.chance_count_at_least(12, 10, 0.5),
    lambda: lot.chance_count_at_most(11, 10, 0.5), lambda: lot.chance_count_at_most(1, 10, 2),
    lambda: lot.chance_count_at_least(1, 10, 2), lambda: replicates.miles_factor(1),
    lambda: replicates.miles_tolerance(0.5, 0, 4), lambda: replicates.chance_of_range([1], [10, 10]),
    lambda: replicates.chance_of_range([1, 2], [4000, 10]),
    lambda: replicates.largest_common_range(0.5, 1000, 8),
    lambda: replicates.judge_replicates([1] * 9, [2] * 9),
    lambda: sowing.seeds_needed(0, 0.9, 8, 10), lambda: sowing.seeds_needed(5, 1.0, 8, 10),
    lambda: sowing.chance_of_enough(5, 9, 8, 10, 0.0),
])
def test_impossible_input_is_refused(call):
    with pytest.raises(ValueError, match="must|impossible|need|cannot|exact chance"):
        call()
