"""Two treatments, ageing and cells against scipy and statsmodels over a wide grid with none and all."""

from __future__ import annotations

import itertools
import math
from itertools import product

import numpy as np
import pytest
from scipy import integrate, stats
from statsmodels.stats.proportion import (
    confint_proportions_2indep,
    samplesize_proportions_2indep_onetail,
)

from build_tools.science import ageing, cells, two_treatments

SIZES = (1, 2, 5, 10, 33, 100, 400)
CONFIDENCES = (0.80, 0.90, 0.95, 0.99)
BETAS = list(product((0.08, 0.5, 1, 3.92, 40.5, 2000), repeat=2))


def pairs():
    for n1, n2 in product(SIZES, SIZES):
        for k1 in sorted({0, 1, (3 * n1) // 4, n1 - 1, n1}):
            for k2 in sorted({0, n2 // 2, n2 - 1, n2}):
                yield k1, n1, k2, n2


def test_newcombe_against_statsmodels():
    # statsmodels confint_proportions_2indep, method "newcomb", difference; the confidences in turn
    for counts, confidence in zip(pairs(), itertools.cycle(CONFIDENCES), strict=False):
        want = confint_proportions_2indep(*counts, method="newcomb", compare="diff", alpha=1 - confidence)
        found = two_treatments.newcombe_difference(*counts, confidence)
        assert np.allclose(found, want, rtol=0, atol=1e-10), counts


def test_fisher_against_scipy():
    # scipy.stats.fisher_exact, two-sided
    tables = [*pairs(), (1000, 2000, 950, 2000), (3, 20_000, 9, 9000), (0, 5000, 30, 30)]
    for k1, n1, k2, n2 in tables:
        want = stats.fisher_exact([[k1, n1 - k1], [k2, n2 - k2]]).pvalue
        assert math.isclose(two_treatments.fisher_exact(k1, n1, k2, n2), want, abs_tol=1e-9), (k1, n1, k2, n2)


def test_fisher_against_scipy_on_every_small_table():
    # scipy.stats.fisher_exact, two-sided
    for n1, n2 in ((3, 3), (4, 7), (10, 10)):
        for k1, k2 in product(range(n1 + 1), range(n2 + 1)):
            want = stats.fisher_exact([[k1, n1 - k1], [k2, n2 - k2]]).pvalue
            assert math.isclose(two_treatments.fisher_exact(k1, n1, k2, n2), want, abs_tol=1e-9)


@pytest.mark.parametrize("seeds", [1, 4, 7, 12])
def test_power_against_every_outcome(seeds):
    # every pair of counts, weighed with scipy.stats.binom, judged with scipy.stats.fisher_exact
    counts = range(seeds + 1)
    seen = np.array([[stats.fisher_exact([[a, seeds - a], [b, seeds - b]]).pvalue <= 0.05
                      for b in counts] for a in counts])
    for p1, p2 in ((0.0, 1.0), (0.9, 0.6), (0.3, 0.35), (1.0, 0.5), (0.5, 0.5)):
        want = stats.binom.pmf(counts, seeds, p1) @ seen @ stats.binom.pmf(counts, seeds, p2)
        assert math.isclose(two_treatments.fisher_power(p1, p2, seeds), want, abs_tol=1e-12)


def test_formula_for_seeds_against_statsmodels():
    # statsmodels samplesize_proportions_2indep_onetail, two-sided 5 %, is the same formula without the
    # correction for continuity: with that added and rounded up, the two agree to the seed everywhere
    fractions = (0.0, 0.02, 0.1, 0.3, 0.5, 0.6, 0.75, 0.9, 0.97, 1.0)
    for p1, p2 in product(fractions, fractions):
        if p1 == p2:
            continue
        for power in (0.5, 0.8, 0.9, 0.99):
            n = samplesize_proportions_2indep_onetail(p1 - p2, p2, power, alpha=0.05, alternative="two-sided")
            corrected = n / 4 * (1 + math.sqrt(1 + 4 / (n * abs(p1 - p2)))) ** 2
            assert two_treatments.approximate_seeds(p1, p2, power) == math.ceil(corrected - 1e-9)


def test_formula_for_seeds_is_near_the_exact_number():
    # the exact number, in fives, lies between four fifths of the formula's and a little above it
    for p1, p2 in ((0.9, 0.6), (0.5, 0.3), (0.8, 0.5), (0.95, 0.7), (0.6, 0.1)):
        formula = two_treatments.approximate_seeds(p1, p2, 0.8)
        found = two_treatments.seeds_for_trial(p1, p2, 0.8)
        assert found["exact"] and found["seeds"] % 5 == 0
        assert 0.8 * formula - 5 <= found["seeds"] <= formula + 5
        assert two_treatments.fisher_power(p1, p2, found["seeds"]) >= 0.8
        assert two_treatments.fisher_power(p1, p2, found["seeds"] - 5) < 0.8


def test_many_seeds_come_from_the_formula():
    found = two_treatments.seeds_for_trial(0.85, 0.8, 0.9)
    assert found == {"seeds": two_treatments.approximate_seeds(0.85, 0.8, 0.9), "exact": False}
    assert found["seeds"] > two_treatments.EXACT_SEEDS
    # here the formula just fits, and 200 seeds do not yet reach 99 %: more are needed than it says, and it is not called exact
    assert two_treatments.approximate_seeds(0.48, 0.27, 0.99) == 200
    assert two_treatments.seeds_for_trial(0.48, 0.27, 0.99) == {"seeds": 201, "exact": False}
    assert two_treatments.fisher_power(0.48, 0.27, 200) < 0.99


def test_beta_against_scipy():
    # scipy.stats.beta
    for (a, b), confidence in product(BETAS, CONFIDENCES):
        beta = stats.beta(a, b)
        found = ageing.beta_summary(a, b, confidence)
        want = [beta.mean(), beta.std(), *beta.interval(confidence)]
        assert np.allclose([found[key] for key in ("mean", "sd", "low", "high")], want, rtol=0, atol=1e-10)
    for (a, b), line in product(BETAS, (0.0, 0.02, 0.5, 0.85, 1.0)):
        assert math.isclose(ageing.chance_above(a, b, line), stats.beta.sf(line, a, b), abs_tol=1e-12)


def test_ageing_against_scipy():
    # scipy.stats.norm: probits on a straight line of age
    for age, life, (fresh, end) in product((0, 0.5, 2, 4, 11), (1, 4, 12.5), ((0.95, 0.5), (0.8, 0.3))):
        probits = np.interp(age, [0, life], stats.norm.ppf([fresh, end]))
        if age > life:
            probits = stats.norm.ppf(fresh) + (stats.norm.ppf(end) - stats.norm.ppf(fresh)) * age / life
        want = np.clip(stats.norm.cdf(probits), ageing.LEAST, ageing.MOST)
        assert math.isclose(ageing.expected_fraction(age, life, fresh, end), want, abs_tol=1e-12)


def test_the_two_points_of_the_curve():
    # our own rule: new seed and the end of the seed life are its two points, kept within 2 to 98 %
    assert math.isclose(ageing.expected_fraction(0, 4, 0.93, 0.5), 0.93)
    assert math.isclose(ageing.expected_fraction(4, 4, 0.93, 0.5), 0.5)
    assert ageing.expected_fraction(0, 4, 0.995, 0.5) == ageing.MOST
    assert ageing.expected_fraction(90, 4, 0.93, 0.5) == ageing.LEAST


def test_time_until_a_line_is_on_the_curve():
    # the same curve walked the other way
    slope = ageing.probits_per_year(4, 0.9, 0.5)
    for line in (0.85, 0.7, 0.3):
        years = ageing.years_until(0.9, line, slope)
        assert math.isclose(ageing.expected_fraction(years, 4, 0.9, 0.5), line)
    assert ageing.years_until(0.6, 0.7, slope) == 0
    # a third of the predicted time: FAO Genebank Standards 2014, 4.3.3 (from memory); whole months
    assert [ageing.months_to_next_test(years, 3, 60) for years in (0, 2, 3, 4.99, 40)] == [3, 8, 12, 19, 60]


def test_cells_against_scipy():
    # scipy.stats.betabinom, each seed that germinates then failing in the soil on its own
    for seeds, (k, n), factor, prior in product((1, 2, 5, 30), ((0, 10), (8, 10), (10, 10), (399, 400)), (1.0, 0.6), (0.5, 1.0)):
        g = np.arange(seeds + 1)
        chances = stats.betabinom.pmf(g, seeds, k + prior, n - k + prior)
        empty = chances @ (1 - factor) ** g
        plants = chances @ (g * factor)
        given = (seeds, k, n, factor, prior)
        assert math.isclose(cells.chance_empty(*given), empty, abs_tol=1e-12)
        assert math.isclose(cells.expected_plants(*given), plants, abs_tol=1e-11)
        assert math.isclose(cells.expected_thinned(*given), plants - (1 - empty), abs_tol=1e-11)


def test_cells_against_integration():
    # scipy.integrate over the beta posterior: E[(1 - f p)^m]
    for seeds, k, n, factor in ((2, 8, 10, 1.0), (3, 5, 10, 0.7), (6, 1, 10, 0.4)):
        posterior = stats.beta(k + 0.5, n - k + 0.5).pdf
        want, _ = integrate.quad(lambda p, m=seeds, f=factor, pdf=posterior: (1 - f * p) ** m * pdf(p), 0, 1, epsabs=1e-12)
        assert math.isclose(cells.chance_empty(seeds, k, n, factor), want, abs_tol=1e-9)


def test_known_seeds_per_cell_is_the_smallest():
    # closed form, tried one seed at a time
    for chance, fraction in product((0.5, 0.9, 0.95, 0.99), (0.05, 0.3, 0.5, 0.8, 0.9, 1.0)):
        m = cells.known_seeds_per_cell(chance, fraction)
        assert 1 - (1 - fraction) ** m >= chance - 1e-12
        assert m == 1 or 1 - (1 - fraction) ** (m - 1) < chance
    assert cells.seeds_per_cell(0.9, 0, 10) is None  # nothing germinated: no number is promised


def test_places_in_a_row():
    # closed form: one at each end, so a metre at 10 cm takes eleven
    assert [cells.row_places(*given) for given in ((1, 0.1), (100, 10), (0.3, 0.1), (95, 10), (5, 10))] == [11, 11, 4, 10, 1]


def test_least_that_is_seen_as_better():
    # Fisher's test by hand: 4 of 4 against 0 of 4 is 2/70, 3 of 3 against none of 3 is 2/20; 10 against 5 and 9 against 5 of
    # 10 are .033 and .141, 10 against 6 is .087 (scipy.stats.fisher_exact)
    found = {case: two_treatments.least_shown(*case) for case in ((0, 4), (0, 3), (5, 10), (6, 10), (4, 4))}
    assert found == {(0, 4): 4, (0, 3): None, (5, 10): 10, (6, 10): None, (4, 4): None}
    for k2 in range(21):
        seen = [k1 for k1 in range(k2 + 1, 21) if stats.fisher_exact([[k1, 20 - k1], [k2, 20 - k2]]).pvalue < 0.05]
        assert two_treatments.least_shown(k2, 20) == (seen[0] if seen else None)
    with pytest.raises(ValueError, match="seedlings"):
        two_treatments.least_shown(11, 10)
