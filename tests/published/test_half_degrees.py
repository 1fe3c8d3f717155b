"""Half-degree Celsius keeps every whole Fahrenheit figure, and the steps of the table of days are exact.

Sources: definition of the two scales; the column heads of Harrington & Minges 1954 (Knott's reprint), 32 to 104 °F, are exact
steps of 5 °C. The half degrees of the usual Fahrenheit figures were worked out by hand.
"""

from __future__ import annotations

import pytest

from build_tools.units import celsius_from_fahrenheit, fahrenheit

EXACT = [(0, 32), (5, 41), (10, 50), (15, 59), (20, 68), (25, 77), (30, 86), (35, 95), (40, 104)]
# °F of the printed tables, °C to the half degree
USUAL = [
    (32, 0), (35, 1.5), (40, 4.5), (45, 7), (50, 10), (55, 13), (60, 15.5), (65, 18.5), (70, 21), (75, 24), (80, 26.5), (85, 29.5),
    (90, 32), (95, 35), (100, 38), (105, 40.5), (106, 41),
]


@pytest.mark.parametrize("printed", range(32, 111))
def test_whole_fahrenheit_comes_back(printed):
    # definition of the scales: half a degree is 0.9 °F, so rounding moves a value by less than half a °F
    held = celsius_from_fahrenheit(printed)
    assert held * 2 == round(held * 2), "not a half degree"
    assert abs(held - (printed - 32) * 5 / 9) <= 0.25 + 1e-9
    assert fahrenheit(held) == printed


@pytest.mark.parametrize(("celsius", "printed"), EXACT)
def test_steps_of_5_c_are_exact(celsius, printed):
    # Harrington & Minges 1954, column heads
    assert fahrenheit(celsius) == printed
    assert celsius_from_fahrenheit(printed) == celsius


@pytest.mark.parametrize(("printed", "celsius"), USUAL)
def test_usual_figures(printed, celsius):
    # worked out by hand from the definition of the scales
    assert celsius_from_fahrenheit(printed) == celsius


def test_every_temperature_of_the_reference_is_a_half_degree(reference):
    # the rule that makes the above enough: no reference temperature carries more than half a degree
    for crop in reference.crops.values():
        for quantity in ("minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c"):
            if crop[quantity].known:
                assert crop[quantity].low * 2 == round(crop[quantity].low * 2), (crop.id, quantity)
