"""Plants and filled cells against scipy, used independently."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import integrate, stats

from build_tools.science import outcomes


@pytest.mark.parametrize(("seeds", "k", "n", "factor"), [(12, 8, 10, 1.0), (22, 8, 10, 0.6), (100, 40, 50, 0.85), (1, 1, 1, 0.3), (400, 0, 10, 1.0)])
def test_range_of_plants_is_that_of_the_thinned_beta_binomial(seeds, k, n, factor):
    # scipy.stats.betabinom for the seeds that germinate, scipy.stats.binom for those of them that make a plant
    germinated = stats.betabinom.pmf(np.arange(seeds + 1), seeds, k + 0.5, n - k + 0.5)
    plants = sum(w * stats.binom.pmf(np.arange(seeds + 1), g, factor) for g, w in enumerate(germinated))
    low, high = (int(np.searchsorted(np.cumsum(plants), tail)) for tail in (0.05, 0.95))
    assert outcomes.plants_range(seeds, k, n, factor) == (low, high)


def test_very_many_seeds_leave_only_the_percentage_to_guess():
    # scipy.stats.beta; just below the limit the exact range agrees to one in a thousand
    low, high = stats.beta(40.5, 10.5).ppf([0.05, 0.95])
    assert outcomes.plants_range(1_000_000, 40, 50) == (round(low * 1e6), round(high * 1e6))
    exact = outcomes.plants_range(200_000, 40, 50)
    assert np.allclose(exact, [200_000 * low, 200_000 * high], rtol=1e-3)


@pytest.mark.parametrize(("wanted", "cells", "seeds", "k", "n"), [(60, 72, 2, 8, 10), (12, 12, 1, 40, 50), (1, 6, 3, 1, 10), (70, 72, 2, 390, 400)])
def test_chance_of_cells_against_integration(wanted, cells, seeds, k, n):
    # scipy.integrate over the beta posterior, all its mass counted; the 200 midpoints come within a quarter of a point
    posterior = stats.beta(k + 0.5, n - k + 0.5)
    want, _ = integrate.quad(lambda q: stats.binom.sf(wanted - 1, cells, 1 - (1 - posterior.ppf(q)) ** seeds), 0, 1, limit=200)
    assert abs(outcomes.chance_of_cells(wanted, cells, seeds, outcomes.likely_shares(k, n)) - want) < 2.5e-3


def test_seventy_two_cells_of_two_at_a_known_percentage():
    # 72 cells, two seeds each at 80 %: 2.9 empty expected, all full in 5 % of sowings (worked out beforehand; scipy.stats.binom)
    filled = stats.binom(72, 1 - 0.2**2)
    assert outcomes.chance_of_cells(72, 72, 2, [0.8]) == pytest.approx(filled.pmf(72), abs=1e-12) == pytest.approx(0.053, abs=5e-4)
    assert outcomes.cells_range(72, 2, [0.8]) == tuple(filled.ppf([0.05, 0.95]))


@pytest.mark.parametrize("certainty", [0.8, 0.9, 0.99])
def test_cells_needed_is_the_smallest(certainty):
    shares = outcomes.likely_shares(17, 25)
    needed = outcomes.cells_needed(40, certainty, 2, shares, 2000)
    assert outcomes.chance_of_cells(40, needed, 2, shares) >= certainty > outcomes.chance_of_cells(40, needed - 1, 2, shares)
    assert outcomes.cells_needed(40, certainty, 2, shares, needed - 1) is None


def test_midpoints_are_the_beta_quantiles():
    # scipy.stats.beta; their mean is that of the posterior to a thousandth
    shares = outcomes.likely_shares(8, 10, 0.5)
    assert np.allclose(shares, 0.5 * stats.beta(8.5, 2.5).ppf((np.arange(200) + 0.5) / 200), atol=1e-12)
    assert abs(np.mean(shares) - 0.5 * 8.5 / 11) < 1e-3
