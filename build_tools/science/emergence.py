"""Days to emergence and percentages between tested soil temperatures.

PCHIP (Fritsch & Carlson 1980, as in scipy) through ln(days), or through percentages, on °C: inside the tested
temperatures and never beyond them. Of the models compared by leaving out each inner temperature of the Harrington &
Minges table in turn (held_out.py) it misses least; x/1.3 to x·1.3 covers about nine such cases in ten. The curve is
fitted here and handed on as cubics; `curve_at` and what rests on it have a twin: docs/assets/js/science/emergence.js.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence

import numpy as np

from ..fitted import pchip

RANGE_FACTOR = 1.3
SAME_C = 0.05  # temperatures nearer than this are one


def days_curve(temperatures_c: Sequence[float], days: Sequence[float]):
    """A function °C → days for points with strictly rising temperatures and days > 0; None for fewer than two points.

    The returned function gives NaN outside the tested temperatures. Raises ValueError on days ≤ 0.
    """
    if len(temperatures_c) < 2:
        return None
    if min(days) <= 0:
        raise ValueError("days must be above zero")
    curve = smooth_curve(temperatures_c, np.log(days))
    return lambda celsius: np.exp(curve(celsius))


def percent_curve(temperatures_c: Sequence[float], percents: Sequence[float]):
    """A function °C → percent (0 to 100) through measured percentages; NaN outside; None for fewer than two points."""
    if len(temperatures_c) < 2:
        return None
    curve = smooth_curve(temperatures_c, percents)
    return lambda celsius: np.clip(curve(celsius), 0, 100)


def half_degrees(low: float, high: float) -> list[float]:
    """Every half degree from low to high (both to the nearest half), both ends included."""
    return [i / 2 for i in range(round(low * 2), round(high * 2) + 1)]


def cubics(x: Sequence[float], y: Sequence[float]) -> dict:
    """The PCHIP curve through two points or more as {"knots": [x…], "cubics": [[a, b, c, d]…]}.

    Between knots i and i+1, with u = x - knots[i]: a·u³ + b·u² + c·u + d. For days give their logarithms.
    """
    return {"knots": [float(v) for v in x], "cubics": [list(piece) for piece in pchip(x, y)]}


def curve_at(curve: Mapping, x: float) -> float | None:
    """The curve of `cubics` at x; None outside its knots."""
    knots = curve["knots"]
    if not knots[0] <= x <= knots[-1]:
        return None
    index = min(bisect_right(knots, x) - 1, len(knots) - 2)
    u = x - knots[index]
    a, b, c, d = curve["cubics"][index]
    return ((a * u + b) * u + c) * u + d


def days_at(curve: Mapping, celsius: float) -> float | None:
    """Days at a temperature from the curve through ln(days); None outside the tested temperatures."""
    logarithm = curve_at(curve, celsius)
    return None if logarithm is None else math.exp(logarithm)


def percent_at(curve: Mapping, celsius: float) -> float | None:
    """Percent, 0 to 100, from the curve through percentages; None outside the tested temperatures."""
    percent = curve_at(curve, celsius)
    return None if percent is None else min(100.0, max(0.0, percent))


def tested_state(cells: Sequence[Sequence], celsius: float) -> dict:
    """How a temperature stands to the tested ones: {"state", "below", "above"}.

    `cells` are [°C, state, value or None] from cold to warm, the states of model Cell. `below` and `above` are the °C
    of the nearest cells on either side that were tested and are not in doubt, the temperature's own cell on both.
    state: "measured" (at a tested temperature), "between" (two measured ones with nothing else tested between),
    "none" (none came at this very temperature), "next to none" (between a measured one and one where none came),
    "among none" (none came on either side, or none came on the one tested side), "doubtful", "not tested".
    """
    at = next((cell for cell in cells if abs(cell[0] - celsius) < SAME_C), None)
    if at is not None and at[1] == "doubtful":
        return {"state": "doubtful", "below": at[0], "above": at[0]}
    told = [cell for cell in cells if cell[1] in ("measured", "no germination")]
    below = [cell for cell in told if cell[0] < celsius + SAME_C]
    above = [cell for cell in told if cell[0] > celsius - SAME_C]
    low, high = (below[-1] if below else None), (above[0] if above else None)
    states = {cell[1] for cell in (low, high) if cell is not None}
    if low is not None and high is not None:
        if low is high:
            state = "measured" if states == {"measured"} else "none"
        else:
            state = "between" if states == {"measured"} else "among none" if states == {"no germination"} else "next to none"
    else:
        state = "among none" if states == {"no germination"} else "not tested"
    return {"state": state, "below": None if low is None else low[0], "above": None if high is None else high[0]}


def smooth_curve(x: Sequence[float], y: Sequence[float]) -> Callable[[float], float]:
    """A function x → y, the PCHIP curve through two points or more; NaN outside the knots."""
    curve = cubics(x, y)

    def at(value: float) -> float:
        found = curve_at(curve, value)
        return math.nan if found is None else found

    return at
