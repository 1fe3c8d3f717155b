"""Published intervals and tail chances; each check carries its source (see published.py)."""

from __future__ import annotations

import math

import pytest

from build_tools.science import lot, proportions
from tests.science.published import EIGHTY_PERCENT, INTERVALS, LOT, TEN_SEEDS


@pytest.mark.parametrize("check", INTERVALS, ids=str)
def test_interval(check):
    # Newcombe 1998; NIST/SEMATECH e-Handbook 7.2.4.2 (limits from memory)
    found = getattr(proportions, check.function)(*check.arguments)
    for got, want in zip(found, check.expected, strict=True):
        assert abs(got - want) <= check.tolerance, f"{check.source} ({check.seen})"


def whole(interval):
    return tuple(proportions.round_half_up(100 * end) for end in interval)


@pytest.mark.parametrize(("k", "wilson_80", "wilson_95", "guaranteed_95"), TEN_SEEDS)
def test_what_ten_seeds_say(k, wilson_80, wilson_95, guaranteed_95):
    # computed beforehand by other code, whole percent; 8 of 10 also Newcombe-type values above
    assert whole(proportions.wilson(k, 10, 0.80)) == wilson_80
    assert whole(proportions.wilson(k, 10, 0.95)) == wilson_95
    assert whole(proportions.clopper_pearson(k, 10, 0.95)) == guaranteed_95


@pytest.mark.parametrize(("k", "n", "low", "high"), EIGHTY_PERCENT)
def test_eighty_percent_at_other_sizes(k, n, low, high):
    # computed beforehand by other code, whole percent
    assert whole(proportions.wilson(k, n, 0.95)) == (low, high)


def test_the_table_readers_see_without_scripts():
    # rows computed beforehand by other code, whole percent
    rows = {row["k"]: (row["low"], row["high"]) for row in proportions.whole_percent_table(10)}
    assert len(rows) == 11
    for k, _, wilson_95, _ in TEN_SEEDS:
        assert rows[k] == wilson_95


@pytest.mark.parametrize("check", LOT, ids=str)
def test_binomial_tail(check):
    # computed beforehand by other code
    found = getattr(lot, check.function)(*check.arguments)
    assert abs(found - check.expected) <= check.tolerance, f"{check.source} ({check.seen})"


def test_none_and_all_of_ten_one_sided():
    # closed form 1 - 0.05^(1/10): 0 of 10 says below about 26 %, 10 of 10 above about 74 %
    bound = 1 - 0.05 ** (1 / 10)
    assert math.isclose(proportions.clopper_pearson(0, 10, 0.90)[1], bound, abs_tol=1e-12)
    assert math.isclose(proportions.clopper_pearson(10, 10, 0.90)[0], 1 - bound, abs_tol=1e-12)
    assert round(100 * bound) == 26


def test_uniform_posterior_of_a_large_count():
    # Gelman et al., Bayesian Data Analysis, 437 of 980 (figures from memory): uniform prior,
    # 95 % interval 0.415 to 0.477. With this many births the Jeffreys prior changes no printed digit.
    assert abs(lot.chance_at_least(437, 980, 0.415) - 0.975) < 0.006
    assert abs(lot.chance_at_least(437, 980, 0.477) - 0.025) < 0.006
    # the median lies at the printed mean, 0.446
    assert lot.chance_at_least(437, 980, 0.4455) > 0.5 > lot.chance_at_least(437, 980, 0.4465)
