"""Time courses: a test worked by hand, published rules, open data, scipy and numpy."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import stats

from build_tools.science.time_course import day_of_count, new_from_totals, time_course
from tests.science.open_data import rows_of, whole

LOBELIA = [row for row in rows_of("lobelia.csv") if row["celsius"] == "15"]


def close(found, want):
    return math.isclose(found, want, rel_tol=0, abs_tol=1e-9)


def test_worked_by_hand():
    # Twelve seeds; new seedlings 1, 4, 3, 2 on days 2, 3, 5, 8, so N = 10 and running totals 1, 5, 8, 10.
    #   mean       (1·2 + 4·3 + 3·5 + 2·8)/10 = 45/10 = 4.5 days
    #   variance   (1·2.5² + 4·1.5² + 3·0.5² + 2·3.5²)/9 = (6.25 + 9 + 0.75 + 24.5)/9 = 40.5/9 = 4.5
    #   spread √4.5, standard error √(4.5/10), velocity 100/4.5
    #   speed      1/2 + 4/3 + 3/5 + 2/8 = 2.68333 (Maguire 1962)
    #   T50        target 10/2 = 5: the running total is 5 on day 3 (Farooq et al. 2005)
    #              target 11/2 = 5.5: 3 + (5.5 - 5)/(8 - 5) · (5 - 3) = 3.33333 (Coolbear et al. 1984)
    #   synchrony  (1·0 + 4·3 + 3·2 + 2·1)/(10·9) = 20/90
    #   uncertainty  .1 log2 10 + .4 log2 2.5 + .3 log2 3.33333 + .2 log2 5
    found = time_course([2, 3, 5, 8], [1, 4, 3, 2], 12)
    assert found["germinated"] == 10
    assert (found["first_day"], found["last_day"], found["peak_day"]) == (2, 8, 3)
    assert found["t50_farooq"] == {"kind": "at-count", "day": 3}
    assert found["t50_coolbear"]["kind"] == "between"
    assert close(found["t50_coolbear"]["day"], 10 / 3)
    assert close(found["mean_days"], 4.5)
    assert close(found["variance"], 4.5)
    assert close(found["spread_days"], math.sqrt(4.5))
    assert close(found["standard_error"], math.sqrt(0.45))
    assert close(found["velocity"], 100 / 4.5)
    assert close(found["speed"], 161 / 60)
    assert close(found["synchrony"], 2 / 9)
    assert close(found["uncertainty"], 0.1 * math.log2(10) + 0.4 * math.log2(2.5)
                 + 0.3 * math.log2(10 / 3) + 0.2 * math.log2(5))
    # other seeds set, same seedlings: all these numbers are of the seeds that germinated
    assert time_course([2, 3, 5, 8], [1, 4, 3, 2], 400) == found


def test_lobelia():
    # Lobelia erinus at 15 °C (open_data/README.md): Farooq's T50 8.1 days, mean 12.4 days with each
    # seedling put on the day of its count; both computed beforehand by other code
    found = time_course(whole(LOBELIA, "day"), whole(LOBELIA, "new_seedlings"), 100)
    assert found["germinated"] == 92
    assert round(found["t50_farooq"]["day"], 1) == 8.1
    assert round(found["mean_days"], 1) == 12.4


COURSES = [
    (whole(LOBELIA, "day"), whole(LOBELIA, "new_seedlings"), 100),
    ([3, 4, 5, 6, 7], [2, 5, 8, 3, 1], 25), ([0.5, 1.25, 2.75], [3, 9, 4], 20),
    ([4, 7, 14, 21, 28], [120, 150, 80, 12, 1], 400), ([1, 2, 3, 4], [0, 7, 0, 7], 14),
]


@pytest.mark.parametrize(("days", "counts", "seeds"), COURSES)
def test_against_numpy_and_scipy(days, counts, seeds):
    # numpy.average, numpy.cov with frequencies, scipy.stats.entropy; pairs counted out for the synchrony
    found = time_course(days, counts, seeds)
    assert close(found["mean_days"], np.average(days, weights=counts))
    assert close(found["variance"], np.cov(days, fweights=counts))
    assert close(found["spread_days"], np.repeat(days, counts).std(ddof=1))
    assert close(found["standard_error"], stats.sem(np.repeat(days, counts)))
    assert close(found["velocity"], 100 / np.repeat(days, counts).mean())
    assert close(found["speed"], (1 / np.repeat(days, counts)).sum())
    assert close(found["uncertainty"], stats.entropy(counts, base=2))
    own = np.repeat(days, counts)
    same = (own[:, None] == own[None, :]).sum() - len(own)
    assert close(found["synchrony"], same / (len(own) * (len(own) - 1)))


@pytest.mark.parametrize(("days", "counts", "seeds"), COURSES)
def test_t50_against_interpolation(days, counts, seeds):
    # numpy.interp of days on running totals, where every count has seedlings
    kept = [(day, count) for day, count in zip(days, counts, strict=True) if count]
    totals = np.cumsum([count for _, count in kept])
    for name, target in (("t50_farooq", totals[-1] / 2), ("t50_coolbear", (totals[-1] + 1) / 2)):
        found = time_course([day for day, _ in kept], [count for _, count in kept], seeds)[name]
        assert close(found["day"], np.interp(target, totals, [day for day, _ in kept]))


def test_speed_is_of_new_seedlings():
    # Maguire 1962 divides new seedlings by days; running totals in their place give too much: a slip
    # in 54.8 % of the 124 papers of one review (Pire & Vargas-Simón, read in a copy)
    counts, days = [1, 4, 3, 2], [2, 3, 5, 8]
    slip = sum(total / day for total, day in zip(np.cumsum(counts), days, strict=True))
    found = time_course(days, counts, 12)["speed"]
    assert slip > 1.5 * found
    # the same running totals, read as they should be
    assert time_course(days, new_from_totals([1, 5, 8, 10]), 12)["speed"] == found


def test_target_passed_at_the_first_count():
    # nobody looked before day 4, so all that can be said is "day 4 or earlier"
    found = time_course([4, 6, 8], [8, 1, 1], 10)
    assert found["t50_farooq"] == found["t50_coolbear"] == {"kind": "by-first-count", "day": 4}
    # reached exactly at the first count is no better known
    assert day_of_count([4, 6], [5, 5], 5) == {"kind": "by-first-count", "day": 4}


def test_target_equal_to_a_count():
    # a flat stretch after the target must not matter, nor divide by zero
    assert day_of_count([2, 4, 6, 8], [1, 4, 0, 5], 5) == {"kind": "at-count", "day": 4}
    found = time_course([2, 4, 6, 8], [1, 4, 0, 5], 10)
    assert found["t50_farooq"] == {"kind": "at-count", "day": 4}
    # half a seedling more comes in the last interval, after the flat stretch: 6 + .5/5 · 2
    assert close(found["t50_coolbear"]["day"], 6.2)
    # never reached
    assert day_of_count([2, 4], [1, 1], 3) == {"kind": "none", "day": None}


def test_none_germinated():
    found = time_course([4, 7], [0, 0], 10)
    assert found["germinated"] == 0
    assert found["speed"] == 0
    assert found["t50_farooq"] == found["t50_coolbear"] == {"kind": "none", "day": None}
    rest = set(found) - {"germinated", "speed", "t50_farooq", "t50_coolbear"}
    assert {found[name] for name in rest} == {None}
    assert len(rest) == 10


def test_one_seedling():
    # one has a day, and no spread
    found = time_course([4, 7, 9], [0, 1, 0], 1)
    assert (found["first_day"], found["last_day"], found["peak_day"], found["mean_days"]) == (7, 7, 7, 7)
    assert found["uncertainty"] == 0
    assert found["variance"] is found["spread_days"] is found["standard_error"] is found["synchrony"] is None
    # both targets are met with the only seedling: at its count, or on the straight line to it
    assert found["t50_coolbear"] == {"kind": "at-count", "day": 7}
    assert found["t50_farooq"] == {"kind": "between", "day": 5.5}


def test_all_on_one_day():
    # perfect synchrony: every pair comes up together, and nothing is uncertain
    found = time_course([4, 7], [0, 12], 12)
    assert (found["synchrony"], found["uncertainty"], found["variance"]) == (1, 0, 0)


def test_the_earlier_of_two_peaks():
    assert time_course([1, 2, 3, 4], [2, 5, 5, 1], 20)["peak_day"] == 2
