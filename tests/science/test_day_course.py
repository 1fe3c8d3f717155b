"""The course of a day. Degree-days: UC IPM's output for Ojai 2016 (open_data/); curves: scipy; the rest: properties."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate
from scipy.interpolate import PchipInterpolator

from build_tools.science import day_course as day
from build_tools.science import emergence
from tests.published.days_table import ROWS, measured_points
from tests.science.open_data import rows_of
from tests.science.vector_cases_warmth import crop_of, curve_of

LOWER, UPPER = 12, 33  # °C, of the published run
OJAI = [(float(r["minimum_c"]), float(r["maximum_c"]), float(r["degree_days"]), float(r["accumulated"])) for r in rows_of("ojai_2016_degree_days.csv")]
days_and_nights = st.tuples(st.floats(-20, 50), st.floats(0, 30)).map(lambda pair: (pair[0], pair[0] + pair[1]))
crops = st.sampled_from([crop_of(row) for row in ROWS])


def test_single_sine_every_day():
    # University of California IPM, degree-day output for Ojai 2016, single sine, horizontal cut-off: two decimals a day
    assert len(OJAI) == 366
    for low, high, printed, _ in OJAI:
        assert day.degree_days(low, high, LOWER, UPPER, "sine") == pytest.approx(printed, abs=0.0051)
    assert any(high > UPPER for _, high, _, _ in OJAI) and any(low < LOWER for low, *_ in OJAI), "both thresholds are crossed"


@pytest.mark.parametrize(("shape", "year"), [("sine", 2095.87), ("triangle", 2026.74)])
def test_degree_days_of_the_year(shape, year):
    # UC IPM: accumulated over 366 days, 2095.87 by single sine and 2026.74 by single triangle
    assert sum(day.degree_days(low, high, LOWER, UPPER, shape) for low, high, *_ in OJAI) == pytest.approx(year, abs=0.02)
    assert OJAI[-1][3] == 2095.87


def test_hours_of_the_day_give_the_same_warmth():
    # The 24 hours that development is summed over, against the published degree-days: the year within 0.2 %
    hourly = [sum(min(max(t, LOWER), UPPER) - LOWER for t in day.hours_of_day(low, high)) / 24 for low, high, *_ in OJAI]
    assert sum(hourly) == pytest.approx(2095.87, rel=0.002)
    assert max(abs(h - printed) for h, (_, _, printed, _) in zip(hourly, OJAI, strict=True)) < 0.06


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["crop_as_printed"])
def test_cubics_are_the_curve_of_scipy(row):
    # scipy.interpolate.PchipInterpolator
    t, days = zip(*measured_points(row), strict=True)
    curve, reference = curve_of(row), PchipInterpolator(t, np.log(days))
    for celsius in np.linspace(t[0], t[-1], 101):
        assert emergence.days_at(curve, float(celsius)) == pytest.approx(math.exp(reference(celsius)), rel=1e-12)
    assert emergence.days_at(curve, t[0] - 1e-6) is None and emergence.days_at(curve, t[-1] + 1e-6) is None


@pytest.mark.parametrize("row", ROWS[::5], ids=lambda row: row["crop_as_printed"])
def test_day_of_development_is_the_integral(row):
    # scipy.integrate.quad over the sine, inside the tested temperatures
    crop = crop_of(row)
    low, high = crop["days"]["knots"][0], crop["days"]["knots"][-1]
    middle, swing = (low + high) / 2, (high - low) / 2
    whole, _ = integrate.quad(lambda x: 1 / emergence.days_at(crop["days"], min(high, max(low, middle + swing * math.sin(2 * math.pi * x)))), 0, 1, limit=200, points=[0.25, 0.75])
    found = day.development_of_day(crop, low, high)
    assert found["least"] == found["most"] == pytest.approx(whole, rel=0.01)
    assert found["outside_hours"] == 0


@given(crops, st.floats(-10, 50))
def test_steady_warmth_is_the_curve(crop, celsius):
    found = day.development_of_day(crop, celsius, celsius)
    days = emergence.days_at(crop["days"], celsius)
    if days is None:
        assert found["least"] == 0 and found["outside_hours"] == 24
    else:
        assert found["least"] == pytest.approx(1 / days) and found["most"] == pytest.approx(1 / days)


@given(crops, days_and_nights)
def test_least_never_above_most(crop, day_and_night):
    found = day.development_of_day(crop, *day_and_night)
    assert 0 <= found["least"] <= found["most"] + 1e-12
    expected = day.expected_days(found["least"], found["most"])
    told = [d for d in (expected["early"], expected["likely"], expected["late"]) if d is not None]
    assert told == sorted(told)


def test_no_development_where_none_came():
    # Harrington & Minges 1954: no tomato came at 10 °C less 5 or at 40 °C; lettuce none at 35 °C
    tomato, lettuce = (crop_of(next(row for row in ROWS if row["crop_id"] == crop)) for crop in ("tomato", "lettuce"))
    assert day.development_rate(tomato, 5) == (0, 0) == day.development_rate(tomato, 41)
    assert day.development_rate(lettuce, 35) == (0, 0)
    # between 5 °C (none) and 10 °C (43 days): not known, at most as at 10 °C
    assert day.development_rate(tomato, 7) == (0, pytest.approx(1 / 43))


@given(st.lists(st.floats(0, 0.5), max_size=40), st.floats(0, 0.5), st.floats(0.1, 3))
def test_first_day_is_the_first(daily, afterwards, target):
    found = day.first_day(daily, afterwards, target)
    total = sum(daily)
    if found is None:
        assert total < target and (afterwards <= 0 or total + afterwards * (day.LONGEST_WAIT_DAYS - len(daily)) < target + afterwards)
        return
    reached = sum([*daily, *[afterwards] * max(0, found - len(daily))][:found])
    assert reached >= target - 2e-6
    if found > 1:
        assert sum([*daily, *[afterwards] * max(0, found - 1 - len(daily))][: found - 1]) < target + 2e-6


@given(st.lists(st.one_of(st.none(), st.floats(-10, 40)), min_size=1, max_size=40).filter(lambda v: any(x is not None for x in v)))
def test_gaps_are_straight_lines(values):
    # numpy.interp over the days that have a reading
    known = [i for i, v in enumerate(values) if v is not None]
    assert day.fill_gaps(values) == pytest.approx(list(np.interp(range(len(values)), known, [values[i] for i in known])))


@pytest.mark.parametrize(("function", "arguments"), [
    (day.hours_of_day, (20, 10)), (day.fill_gaps, ([None, None],)), (day.degree_days, (10, 5, 0, None, "sine")),
    (day.degree_days, (5, 10, 12, 12, "sine")), (day.degree_days, (5, 10, 0, None, "square")),
])
def test_impossible_arguments(function, arguments):
    with pytest.raises(ValueError, match="[a-z]"):
        function(*arguments)
