"""Days to emergence between tested soil temperatures.

PCHIP (Fritsch & Carlson 1980, as in scipy) through ln(days) on °C, inside the tested temperatures and never beyond
them. It was the best of eleven interpolation and thermal-time models when each temperature of the Harrington & Minges
table was left out in turn (typical factor 1.17); x/1.3 to x·1.3 covers about nine such cases in ten.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

RANGE_FACTOR = 1.3


def days_curve(temperatures_c: Sequence[float], days: Sequence[float]):
    """A function °C → days for points with strictly rising temperatures and days > 0; None for fewer than two points.

    The returned function gives NaN outside the tested temperatures. Raises ValueError on days ≤ 0.
    """
    if len(temperatures_c) < 2:
        return None
    if min(days) <= 0:
        raise ValueError("days must be above zero")
    curve = _pchip(temperatures_c, np.log(days))
    return lambda celsius: np.exp(curve(celsius))


def percent_curve(temperatures_c: Sequence[float], percents: Sequence[float]):
    """A function °C → percent (0 to 100) through measured percentages; NaN outside; None for fewer than two points."""
    if len(temperatures_c) < 2:
        return None
    curve = _pchip(temperatures_c, percents)
    return lambda celsius: np.clip(curve(celsius), 0, 100)


def half_degrees(low: float, high: float) -> list[float]:
    """Every half degree from low to high (both to the nearest half), both ends included."""
    return [i / 2 for i in range(round(low * 2), round(high * 2) + 1)]


def _pchip(x: Sequence[float], y: Sequence[float]):
    from scipy.interpolate import PchipInterpolator  # a second to load, and checks and commands do without

    return PchipInterpolator(x, y, extrapolate=False)
