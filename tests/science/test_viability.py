"""The seed viability equation, moisture by humidity and rules of thumb, against figures from outside and scipy."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from build_tools.science.viability import (
    DAYS_PER_YEAR,
    after_storage,
    days_between,
    days_until,
    doublings,
    dry_basis,
    equilibrium_humidity,
    equilibrium_moisture,
    fresh_basis,
    probit_days,
    probits_now,
)
from tests.science.test_properties import CONFIDENCE, count, steady

LETTUCE = (7.938, 5.25, 0.0329, 0.000478)  # Ellis et al. 1989, as a compilation of published constants prints it (read)
BEET = (8.988, 4.969, 0.0322, 0.000454)  # Ellis and Hong 2007, abstract (read)


def test_moisture_bases():
    # an identity; 25 % and 30 % are the examples of a public documentation (read)
    assert dry_basis(25) == pytest.approx(33.33333, abs=1e-5)
    assert fresh_basis(30) == pytest.approx(23.07692, abs=1e-5)


def test_probit_of_lettuce():
    # 7.938 - 5.25 log10 6 - 0.0329·20 - 0.000478·400 = 3.0035: a thousand and eight days (worked by hand)
    assert probit_days(6, 20, *LETTUCE) == pytest.approx(1008, abs=0.5)


@pytest.mark.parametrize(("row", "oil", "celsius", "humidity", "years"), [
    # lives from 90 to 50 %, worked out beforehand by other code from published constants; oil contents assumed
    (LETTUCE, 0.37, 20, 0.50, 1.0), (LETTUCE, 0.37, 25, 0.65, 0.2), (LETTUCE, 0.37, 5, 0.30, 12),
    ((6.975, 3.47, 0.04, 0.000428), 0.22, 20, 0.50, 1.5), ((6.975, 3.47, 0.04, 0.000428), 0.22, 25, 0.65, 0.5), ((6.975, 3.47, 0.04, 0.000428), 0.22, 5, 0.30, 16),
    ((6.5017, 3.1807, 0.0324, 0.000431), 0.24, 20, 0.50, 1.5), ((6.5017, 3.1807, 0.0324, 0.000431), 0.24, 25, 0.65, 0.5), ((6.5017, 3.1807, 0.0324, 0.000431), 0.24, 5, 0.30, 12),
    ((9.858, 5.39, 0.0329, 0.000478), 0.02, 20, 0.50, 7), ((9.858, 5.39, 0.0329, 0.000478), 0.02, 25, 0.65, 1.7), ((9.858, 5.39, 0.0329, 0.000478), 0.02, 5, 0.30, 85),
    ((9.09, 4.761, 0.0329, 0.000478), 0.02, 20, 0.50, 5.5), ((9.09, 4.761, 0.0329, 0.000478), 0.02, 25, 0.65, 1.5), ((9.09, 4.761, 0.0329, 0.000478), 0.02, 5, 0.30, 60),
    ((10.562, 6.366, 0.0332, 0.000577), 0.05, 20, 0.50, 3.5), ((10.562, 6.366, 0.0332, 0.000577), 0.05, 25, 0.65, 0.7), ((10.562, 6.366, 0.0332, 0.000577), 0.05, 5, 0.30, 56),
])
def test_lives_worked_out_beforehand(row, oil, celsius, humidity, years):
    found = days_between(0.9, 0.5, probit_days(equilibrium_moisture(humidity, celsius, oil), celsius, *row)) / DAYS_PER_YEAR
    assert found == pytest.approx(years, rel=0.03, abs=0.05)


@pytest.mark.parametrize(("k", "n", "mid", "low", "high"), [(8, 10, 67, 40, 88), (40, 50, 68, 56, 79)])
def test_lettuce_after_a_year(k, n, mid, low, high):
    # worked out beforehand with random draws from Beta(k + 1/2, n - k + 1/2): whole percent
    found = after_storage(k, n, 0.9, DAYS_PER_YEAR, 1008)
    assert [round(100 * found[end]) for end in ("low", "mid", "high")] == [low, mid, high]


def test_half_viability_period_is_start_times_sigma():
    # Ellis & Roberts 1980: p50 = Ki σ (equation read in a course page)
    assert days_between(0.975, 0.5, 100) == pytest.approx(stats.norm.ppf(0.975) * 100)


def test_moisture_at_half_humidity():
    # 20 °C, 50 %, no oil: √(440 ln 2)/(1.1 + 20/90) = 13.208 % of dry, 11.667 % of fresh weight (worked by hand)
    assert equilibrium_moisture(0.5, 20, 0) == pytest.approx(11.667, abs=5e-4)


def test_universal_constants_halve_life_as_harrington_has_it():
    # 10 °F (5.6 °C) cooler about doubles life near room temperature; the equation puts it somewhat higher (Dickie and others 1990, constants read)
    ratio = probit_days(8, 20 - 50 / 9, *LETTUCE) / probit_days(8, 20, *LETTUCE)
    assert doublings(20, 20 - 50 / 9, 50 / 9) == pytest.approx(2)
    assert 1.8 < ratio < 2.5


@pytest.mark.parametrize("confidence", [0.8, 0.9, 0.95, 0.99])
@pytest.mark.parametrize(("k", "n"), [(0, 10), (1, 10), (8, 10), (10, 10), (399, 400), (1, 1), (50_000, 50_000)])
def test_start_against_scipy(k, n, confidence):
    now, belief = probits_now(k, n, confidence), stats.beta(k + 0.5, n - k + 0.5)
    low, high = belief.interval(confidence)
    assert stats.norm.cdf(now["low"]) == pytest.approx(low, rel=1e-9)
    assert stats.norm.sf(now["high"]) == pytest.approx(stats.beta(n - k + 0.5, k + 0.5).ppf((1 - confidence) / 2), rel=1e-9)
    mid = (k + 0.5) / (n + 1) if k in (0, n) else belief.median()
    assert stats.norm.cdf(now["mid"]) == pytest.approx(mid, rel=1e-9)
    assert high >= mid >= low


def test_pushing_quantiles_through_is_what_random_draws_tend_to():
    # scipy's own generator, 400,000 draws, seed fixed: sampling error of these quantiles is below 0.003
    draws = stats.norm.cdf(stats.norm.ppf(stats.beta(8.5, 2.5).rvs(400_000, random_state=7)) - 365.25 / 1008)
    found = after_storage(8, 10, 0.9, 365.25, 1008)
    for end, q in (("low", 5), ("mid", 50), ("high", 95)):
        assert found[end] == pytest.approx(stats.scoreatpercentile(draws, q), abs=0.003)


MOISTURE, WARMTH = st.floats(5, 25), st.floats(0, 40)
ROW = st.sampled_from([LETTUCE, BEET, (6.5017, 3.1807, 0.0324, 0.000431), (5.35, 2.03, 0.0329, 0.000478), (9.08, 5.2, 0.0057, 0.00079)])


@steady
@given(MOISTURE, WARMTH, ROW, st.floats(0.05, 10), st.floats(0.05, 10))
def test_damper_or_warmer_is_shorter(moisture, celsius, row, damper, warmer):
    here = probit_days(moisture, celsius, *row)
    assert probit_days(moisture + damper, celsius, *row) < here > probit_days(moisture, celsius + warmer, *row)


@steady
@given(MOISTURE, WARMTH, MOISTURE, WARMTH, ROW, count(), CONFIDENCE, st.floats(0.02, 0.98))
def test_ratio_of_stores_does_not_depend_on_the_lot(m1, t1, m2, t2, row, kn, confidence, line):
    first, second = probit_days(m1, t1, *row), probit_days(m2, t2, *row)
    one, two = (days_until(*kn, confidence, line, sigma) for sigma in (first, second))
    for end in ("low", "mid", "high"):
        assert math.isclose(two[end] * first, one[end] * second, rel_tol=1e-9)


@steady
@given(count(), CONFIDENCE, st.floats(0.1, 40_000), st.floats(0, 20_000), st.floats(1, 5000))
def test_ranges_are_in_order_and_fall_with_time(kn, confidence, sigma, days, more):
    now, later = after_storage(*kn, confidence, days, sigma), after_storage(*kn, confidence, days + more, sigma)
    for found in (now, later):
        assert 0 <= found["low"] <= found["mid"] <= found["high"] <= 1
    assert all(later[end] <= now[end] for end in now)


@steady
@given(count(), CONFIDENCE, st.floats(0.02, 0.98), st.floats(1, 40_000))
def test_at_the_line_when_it_is_said_to_be(kn, confidence, line, sigma):
    for end, days in days_until(*kn, confidence, line, sigma).items():
        there = after_storage(*kn, confidence, days, sigma)[end]
        assert math.isclose(there, line, rel_tol=1e-6) if days > 0 else there <= line * (1 + 1e-9)


@steady
@given(st.floats(0.01, 0.99), st.floats(0, 40), st.floats(0, 0.6))
def test_moisture_and_humidity_turn_round(humidity, celsius, oil):
    moisture = equilibrium_moisture(humidity, celsius, oil)
    assert math.isclose(equilibrium_humidity(moisture, celsius, oil), humidity, rel_tol=1e-9)
    # damper air, colder air or less oil: damper seed
    assert equilibrium_moisture(min(0.995, humidity + 0.004), celsius, oil) > moisture
    assert equilibrium_moisture(humidity, celsius + 1, oil) < moisture > equilibrium_moisture(humidity, celsius, oil + 0.05)
