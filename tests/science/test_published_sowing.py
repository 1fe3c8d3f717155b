"""Sowing numbers, and the days on which a test may be read."""

from __future__ import annotations

import math

import pytest
from scipy import stats

from build_tools.science.counting import can_still_rise, reading_stage
from build_tools.science.sowing import MOST_SEEDS, chance_of_enough, seeds_needed
from tests.science.published import SOWING


@pytest.mark.parametrize("check", SOWING, ids=str)
def test_seeds_after_a_small_test(check):
    # beta-binomial with a uniform prior, computed beforehand by other code
    assert seeds_needed(*check.arguments) == check.expected


# Known germination: smallest n with P(Bin(n, p) >= N) at 80, 90, 95 and 99 %; computed beforehand.
KNOWN = [(6, 0.8, (9, 9, 10, 12)), (12, 0.9, (14, 15, 16, 17)), (12, 0.7, (19, 21, 22, 25)),
         (24, 0.8, (32, 34, 35, 37)), (72, 0.9, (82, 84, 85, 88)), (72, 0.8, (94, 96, 98, 102))]


@pytest.mark.parametrize(("plants", "fraction", "numbers"), KNOWN)
def test_a_very_large_test_means_known_germination(plants, fraction, numbers):
    # computed beforehand by other code; with ten million seeds tested nothing is left to guess
    n = 10_000_000
    for certainty, seeds in zip((0.80, 0.90, 0.95, 0.99), numbers, strict=True):
        assert seeds_needed(plants, certainty, round(fraction * n), n) == seeds


def test_field_factor_is_thinning():
    # closed form: germination known to be 1 leaves a binomial with the field factor alone
    n = 100_000_000
    for plants, seeds, factor in ((12, 15, 0.9), (6, 9, 0.8), (72, 98, 0.8)):
        want = stats.binom.sf(plants - 1, seeds, factor)
        assert math.isclose(chance_of_enough(plants, seeds, n, n, factor), want, abs_tol=1e-5)


def test_field_factor_against_integration():
    # the same chance by numerical integration over the beta posterior (scipy.integrate)
    from scipy import integrate

    for plants, seeds, k, n, factor in ((12, 30, 8, 10, 0.7), (5, 9, 40, 50, 0.5)):
        want, _ = integrate.quad(
            lambda g, plants=plants, seeds=seeds, k=k, n=n, factor=factor:
            stats.binom.sf(plants - 1, seeds, factor * g) * stats.beta.pdf(g, k + 0.5, n - k + 0.5),
            0, 1, epsabs=1e-11)
        assert math.isclose(chance_of_enough(plants, seeds, k, n, factor), want, abs_tol=1e-9)


def test_no_promise_from_nothing():
    # 0 of n leaves any germination near nothing possible: no number of seeds is promised
    assert seeds_needed(1, 0.8, 0, 10) is None
    assert seeds_needed(MOST_SEEDS, 0.9, 1, 100) is None


def test_official_count_days():
    # 7 CFR 201.58, Table 2: tomato first count day 5, final count day 14
    stages = [reading_stage(day, 5, 14) for day in (0, 4, 5, 13, 14, 30)]
    assert stages == ["before-first", "before-first", "before-final", "before-final", "complete",
                      "complete"]
    # 7 CFR 201.58, Table 2: lettuce has a final count on day 7 and no first count
    assert [reading_stage(day, None, 7) for day in (6, 7)] == ["before-final", "complete"]


def test_a_week_of_patience():
    # common practice, no source: a towel test without published days is left at least a week
    assert [reading_stage(day, None, None) for day in (None, 6, 7)] == [
        "no-day", "short-wait", "waited"]
    assert [stage for stage in ("no-day", "before-first", "before-final", "complete", "short-wait",
                                "waited") if can_still_rise(stage)] == [
        "before-first", "before-final", "short-wait"]


@pytest.mark.parametrize("arguments", [(-1, 5, 14), (3, 14, 5)])
def test_impossible_days(arguments):
    with pytest.raises(ValueError, match="day"):
        reading_stage(*arguments)
