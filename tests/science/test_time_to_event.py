"""Time-to-event fits against published fits of open data, scipy, statsmodels and simulated tests."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy import optimize, stats
from statsmodels.tools.numdiff import approx_hess

from build_tools.science.time_to_event import LOG_LOGISTIC, LOG_NORMAL, Intervals, fit
from tests.science.open_data import grouped, rows_of, whole

Z = 1.959963984540054


def of_rows(rows, column) -> Intervals:
    """A test from rows (start, end, count), the one without an end being the seeds that never came up."""
    seen = [row for row in rows if row["end"] != "inf"]
    left = sum(int(row[column]) for row in rows if row["end"] == "inf")
    return Intervals(tuple(float(row["start"]) for row in seen), tuple(float(row["end"]) for row in seen),
                     tuple(whole(seen, column)), left)


def lobelia() -> list[Intervals]:
    groups = grouped(rows_of("lobelia.csv"), "celsius")
    return [Intervals.of_counts(whole(groups[celsius,], "day"), whole(groups[celsius,], "new_seedlings"), 100)
            for celsius in ("15", "25")]


def chickweed() -> Intervals:
    return of_rows(rows_of("chickweed.csv"), "count")


def by_temperature() -> dict[tuple[str, str], Intervals]:
    groups = grouped(rows_of("germination_by_temperature.csv"), "species", "temp")
    return {key: of_rows(rows, "germinated") for key, rows in groups.items()}


def test_lobelia():
    # agriCensData documentation, Example 2 (read in a copy): log-normal, all seeds would sprout in the end;
    # intercept 2.2415, effect of 25 °C -.6221, log scale .1453, log-likelihood -525.3, T50 9.407324 and 5.050110
    found = fit(lobelia(), "log-normal", final_fraction=False)
    cool, warm = (estimate.value for estimate in found.t50_days)
    assert abs(math.log(cool) - 2.2415) < 5e-5
    assert abs(math.log(warm) - math.log(cool) - -0.6221) < 5e-5
    assert abs(math.log(found.shape.value) - 0.1453) < 5e-5
    assert abs(found.log_likelihood - -525.3) < 0.05
    assert abs(cool - 9.407324) < 2e-6
    assert abs(warm - 5.050110) < 2e-6
    assert {final.value for final in found.final} == {1.0}


def test_chickweed():
    # drc documentation (Ritz, Pipper & Streibig 2013), from memory: b -20.77, d .200, e 196.05; our shape has
    # the other sign, for it rises with the days
    found = fit([chickweed()], "log-logistic")
    assert chickweed().seeds == 200
    assert abs(found.shape.value - 20.77) < 0.005
    assert abs(found.final[0].value - 0.200) < 0.0005
    assert abs(found.t50_days[0].value - 196.05) < 0.005


# Days to half of the seeds that ever sprout, one fit each; worked out beforehand by other code.
T50 = {"mungbean": {"10": 5.4, "16": 3.1},
       "rice": {"16": 7.5, "22": 4.7, "28": 4.0, "34": 3.6, "40": 3.5},
       "wheat": {"10": 6.8, "16": 3.9, "22": 3.8, "28": 4.7, "34": 3.4}}


@pytest.mark.parametrize(("species", "celsius", "days"), [
    (species, celsius, days) for species, row in T50.items() for celsius, days in row.items()])
def test_t50_by_temperature(species, celsius, days):
    # data set "germination" of drc (open_data/README.md); computed beforehand by other code, one decimal
    found = fit([by_temperature()[species, celsius]])
    assert round(found.t50_days[0].value, 1) == days


def log_likelihood(test, share_by, final):
    """By scipy's distributions: every interval, and those that had not sprouted by the end."""
    total = 0.0
    for start, end, count in zip(test.starts, test.ends, test.counts, strict=True):
        if count:
            total += count * math.log(final * (share_by(end) - share_by(start)))
    return total + (test.ungerminated * math.log(1 - final * share_by(test.ends[-1])) if test.ungerminated else 0.0)


def distribution(name, shape, t50):
    if name == LOG_LOGISTIC:
        return stats.fisk(shape, scale=t50).cdf
    return stats.lognorm(shape, scale=t50).cdf


def cases():
    seeds = by_temperature()
    return [("chickweed", chickweed()), ("wheat 22", seeds["wheat", "22"]), ("wheat 10", seeds["wheat", "10"]), ("rice", seeds["rice", "34"])]


@pytest.mark.parametrize("name", [LOG_LOGISTIC, LOG_NORMAL])
@pytest.mark.parametrize(("label", "test"), cases(), ids=lambda value: value if isinstance(value, str) else "")
def test_likelihood_and_its_top(name, label, test):
    # scipy.stats.fisk and lognorm give the likelihood, scipy.optimize another way to its top, statsmodels'
    # numerical second derivatives the standard errors
    found = fit([test], name)

    def of(x):
        final = 1 / (1 + math.exp(-x[2]))
        return log_likelihood(test, distribution(name, math.exp(x[1]), math.exp(x[0])), final)

    final = found.final[0].value
    at = np.array([math.log(found.t50_days[0].value), math.log(found.shape.value), math.log(final / (1 - final))])
    assert abs(of(at) - found.log_likelihood) < 1e-7
    around = [(value - 0.4, value + 0.4) for value in at]
    other = optimize.minimize(lambda x: -of(x), at + [0.03, -0.05, 0.1], method="Powell", bounds=around,
                              options={"xtol": 1e-9, "ftol": 1e-13})
    assert abs(-other.fun - found.log_likelihood) < 1e-6
    assert np.allclose(other.x, at, rtol=0, atol=2e-3)
    errors = np.sqrt(np.diag(np.linalg.inv(-approx_hess(at, of))))
    for estimate, error, back in ((found.t50_days[0], errors[0], math.log), (found.shape, errors[1], math.log),
                                  (found.final[0], errors[2], lambda d: math.log(d / (1 - d)))):
        assert estimate.low < estimate.value < estimate.high
        assert math.isclose(back(estimate.high) - back(estimate.low), 2 * Z * error, rel_tol=2e-3)


@pytest.mark.parametrize(("name", "shape"), [(LOG_LOGISTIC, 5.0), (LOG_NORMAL, 0.4)])
@pytest.mark.parametrize("start", [1, 2, 3])
def test_simulated_tests_give_their_numbers_back(name, shape, start):
    # two tests of 400 seeds with a known truth, counted once a day for 20 days; 99.9 % intervals hold it
    draw = random.Random(start)
    truth = ((6.0, 0.8), (9.0, 0.55))
    spread = (stats.fisk(shape) if name == LOG_LOGISTIC else stats.lognorm(shape)).ppf
    tests = []
    for t50, final in truth:
        sprouted = t50 * spread([draw.random() for _ in range(400) if draw.random() < final])
        counts = [int(((day - 1 < sprouted) & (sprouted <= day)).sum()) for day in range(1, 21)]
        tests.append(Intervals.of_counts(range(1, 21), counts, 400))
    found = fit(tests, name, confidence=0.999)
    for estimate, true in [(found.shape, shape),
                           *((found.t50_days[i], truth[i][0]) for i in (0, 1)),
                           *((found.final[i], truth[i][1]) for i in (0, 1))]:
        assert estimate.low < true < estimate.high
        assert estimate.low < estimate.value < estimate.high
        assert estimate.high - estimate.low < 0.8 * estimate.value  # and say something


def test_more_confidence_is_wider():
    narrow, wide = (fit([chickweed()], confidence=c) for c in (0.8, 0.99))
    assert narrow.t50_days[0].value == wide.t50_days[0].value
    for less, more in ((narrow.t50_days[0], wide.t50_days[0]), (narrow.final[0], wide.final[0]), (narrow.shape, wide.shape)):
        assert more.low < less.low < less.high < more.high


def test_all_germinated():
    # nothing was left, so the final fraction is 1 and has no interval of its own
    found = fit([Intervals.of_counts([3, 4, 5, 6], [3, 9, 6, 2], 20)])
    assert (found.final[0].value, found.final[0].low, found.final[0].high) == (1.0, None, None)
    assert 3 < found.t50_days[0].low < found.t50_days[0].value < found.t50_days[0].high < 5


def test_final_fraction_at_its_bound():
    # seed of Lobelia left at 15 °C is no more than the tail of late seedlings: the best final fraction is 1, and
    # scipy's likelihood falls as soon as it is held below
    test = lobelia()[0]
    found, whole_lot = fit([test]), fit([test], final_fraction=False)
    assert test.ungerminated == 8
    assert found == whole_lot
    assert (found.final[0].value, found.final[0].low) == (1.0, None)
    held = optimize.minimize(lambda x: -log_likelihood(test, distribution(LOG_LOGISTIC, x[1], x[0]), 0.98),
                             [9.0, 1.5], method="Nelder-Mead", bounds=[(5, 15), (0.5, 4)], options={"xatol": 1e-3})
    assert -held.fun < found.log_likelihood - 0.1


def test_still_rising_at_the_end():
    # seeds kept coming up to the last day: the fit lets all of them sprout in the end, or leaves the end open
    found = fit([Intervals.of_counts([2, 4, 6, 8, 10], [1, 3, 6, 11, 16], 100)])
    assert found.final[0].value > 0.5
    assert found.final[0].low is None or found.final[0].high - found.final[0].low > 0.5
    assert found.t50_days[0].value > 10


def test_one_count_tells_no_spread_but_shares_that_of_another_test():
    # all seedlings of the second test at one count: with the first one's slope its half-way day lies within that interval
    found = fit([Intervals.of_counts([3, 4, 5, 6, 7], [2, 9, 16, 8, 3], 50), Intervals.of_counts([3, 7, 9], [0, 20, 0], 40)])
    alone = fit([Intervals.of_counts([3, 4, 5, 6, 7], [2, 9, 16, 8, 3], 50)])
    assert 3 < found.t50_days[1].value < 7
    assert abs(found.final[1].value - 0.5) < 0.01
    assert abs(found.t50_days[0].value - alone.t50_days[0].value) < 0.1


def test_what_cannot_be_fitted():
    assert fit([Intervals.of_counts([3, 5], [0, 0], 10)]) is None
    assert fit([Intervals.of_counts([3, 5], [4, 2], 10), Intervals.of_counts([3, 5], [0, 0], 10)]) is None
    with pytest.raises(ValueError, match="one count only"):
        fit([Intervals.of_counts([3, 5], [0, 7], 10)])
    with pytest.raises(ValueError, match="one count only"):
        fit([Intervals.of_counts([5], [7], 10)])
    with pytest.raises(ValueError, match="unknown distribution"):
        fit([chickweed()], "weibull")


@pytest.mark.parametrize("given", [([3, 5], [8, 3], 10), ([5, 3], [1, 1], 10), ([0, 3], [1, 1], 10), ([3], [1, 1], 10)])
def test_impossible_counts(given):
    with pytest.raises(ValueError, match="cannot be|must rise|as many"):
        Intervals.of_counts(*given)


def test_intervals_of_counts():
    test = Intervals.of_counts([3, 5, 9], [0, 4, 2], 10)
    assert (test.starts, test.ends, test.counts, test.ungerminated, test.seeds) == ((0.0, 3, 5), (3, 5, 9), (0, 4, 2), 4, 10)
