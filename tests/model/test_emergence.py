"""The curve between measured days: through the points, nothing beyond them. Reference library: scipy."""

import math

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from build_tools.science.emergence import days_curve, half_degrees, percent_curve

TEMPERATURES, DAYS = [0, 5, 10, 15, 20, 25, 30], [49, 15, 7, 4, 3, 2, 3]


def test_curve_goes_through_the_points_and_is_scipys_pchip_on_ln_days():
    curve = days_curve(TEMPERATURES, DAYS)
    assert [float(curve(t)) for t in TEMPERATURES] == pytest.approx(DAYS)
    theirs = np.exp(PchipInterpolator(TEMPERATURES, np.log(DAYS))(12.5))
    assert float(curve(12.5)) == pytest.approx(float(theirs)) and 4 < float(curve(12.5)) < 7


@pytest.mark.parametrize("celsius", [-0.5, 30.5, 100])
def test_nothing_beyond_the_tested_temperatures(celsius):
    assert math.isnan(float(days_curve(TEMPERATURES, DAYS)(celsius)))


def test_too_few_points_and_wrong_days():
    assert days_curve([10], [5]) is None and percent_curve([], []) is None
    assert percent_curve([10], [50]) is None
    with pytest.raises(ValueError):
        days_curve([10, 20], [5, 0])


def test_two_points_make_a_straight_line():
    curve = percent_curve([10, 20], [0, 100])
    assert [float(curve(t)) for t in (10, 15, 20)] == [0, 50, 100]
    assert math.isnan(float(curve(20.5)))


def test_half_degrees():
    assert half_degrees(10, 11.5) == [10, 10.5, 11, 11.5] and half_degrees(3, 3) == [3]


def test_percent_stays_between_0_and_100():
    curve = percent_curve([20, 25, 30, 35], [99, 99, 12, 0])
    values = [float(curve(t)) for t in half_degrees(20, 35)]
    assert all(0 <= v <= 100 for v in values) and values == sorted(values, reverse=True)


def test_model_holds_half_degrees_inside_the_tested_range_only(reference):
    lettuce = reference.crops["lettuce"]
    at = {a.celsius: a for a in lettuce.by_temperature}
    assert at[10].days == 7 and at[10].percent == 98
    assert min(at) == 0 and 30.5 in at and at[30.5].days is None and at[30.5].percent is not None
    for crop in reference.crops.values():
        measured = [c.celsius for row in crop.days[:1] for c in row.cells if c.state == "measured"]
        for a in crop.by_temperature:
            if a.days is not None:
                assert min(measured) <= a.celsius <= max(measured), crop.id
