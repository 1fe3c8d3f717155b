"""Units and numbers as readers see them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.render.wording import depth, temperature, temperature_plain, weeks
from build_tools.units import fahrenheit, inches, round_half_up, span


@pytest.mark.parametrize("mm, text", [(3, "⅛"), (6, "¼"), (13, "½"), (19, "¾"), (25, "1"), (38, "1½"), (51, "2"), (0, "0")])
def test_inches_are_those_of_a_ruler(mm, text):
    """Exact: 25.4 mm to the inch (international yard and pound agreement, 1959)."""
    assert inches(mm) == text


@pytest.mark.parametrize("celsius, whole", [(0, 32), (10, 50), (100, 212), (-40, -40), (37, 99), (4.5, 40), (29.5, 85)])
def test_fahrenheit(celsius, whole):
    assert fahrenheit(celsius) == whole


def test_words():
    assert temperature_plain(10) == "10 °C (50 °F)"
    assert temperature_plain(10, 35) == "10–35 °C (50–95 °F)"
    assert depth(6, 13) == "6–13 mm (¼–½ in)" and depth(0, 0) == "on the surface"
    assert weeks(-4, -2) == "2–4 weeks before the average last frost"
    assert weeks(0, 0) == "at the average last frost"
    assert weeks(2, 2) == "2 weeks after the average last frost"
    assert weeks(-2, 2) == "from 2 weeks before to 2 weeks after the average last frost"
    assert '<span class="tf">50 °F</span>' in temperature(10)
    assert span(3, 3) == "3" and span(-2, 2) == "−2–2"


@given(st.floats(-1e6, 1e6))
def test_round_half_up_is_within_half(x):
    assert abs(round_half_up(x) - x) <= 0.5
