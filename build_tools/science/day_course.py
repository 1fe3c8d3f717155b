"""Warmth that goes up and down: the hours of a day from its minimum and maximum, and what seed makes of them.

Temperature follows a sine within the day. The rate of development is 1/days of the curve through tested temperatures
(emergence.py); emergence is expected when the rates have added up to 1. Outside the tested temperatures the rate is
not known, so it is kept as two: the least it can be, and the most. Degree-days are those of UC IPM: single sine and
single triangle with a horizontal cut-off. Twin: docs/assets/js/science/day_course.js.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from build_tools.science.emergence import RANGE_FACTOR, days_at

HOURS = 24
LONGEST_WAIT_DAYS = 1000
SLIGHT = 1e-6  # a day is not added for less


def hours_of_day(low: float, high: float) -> list[float]:
    """24 temperatures, in the middle of each hour, of a sine between the day's minimum and maximum (°C).

    Raises ValueError when the minimum is above the maximum.
    """
    if low > high:
        raise ValueError(f"the minimum {low} is above the maximum {high}")
    middle, swing = (low + high) / 2.0, (high - low) / 2.0
    return [middle + swing * math.sin(2.0 * math.pi * (hour + 0.5) / HOURS) for hour in range(HOURS)]


def development_rate(crop: Mapping, celsius: float) -> tuple[float, float]:
    """(least, most) share of development a day at a steady temperature.

    `crop` is {"days": cubics of ln days, "none_below", "none_above": °C at which none came any more, or None}. Inside the
    tested temperatures both are 1/days. Where none came, and beyond, both are 0. In between, and where nothing was
    tested, the least is 0 and the most that of the nearest tested temperature.
    """
    days = days_at(crop["days"], celsius)
    if days is not None:
        return (1.0 / days, 1.0 / days)
    knots = crop["days"]["knots"]
    if celsius < knots[0]:
        cold = crop["none_below"]
        return (0.0, 0.0) if cold is not None and celsius <= cold else (0.0, 1.0 / days_at(crop["days"], knots[0]))
    hot = crop["none_above"]
    return (0.0, 0.0) if hot is not None and celsius >= hot else (0.0, 1.0 / days_at(crop["days"], knots[-1]))


def development_of_day(crop: Mapping, low: float, high: float) -> dict:
    """Share of development in one day: {"least", "most", "outside_hours"}; the last counts hours outside the tested temperatures."""
    knots = crop["days"]["knots"]
    hours = hours_of_day(low, high)
    rates = [development_rate(crop, celsius) for celsius in hours]
    return {
        "least": math.fsum(rate[0] for rate in rates) / HOURS,
        "most": math.fsum(rate[1] for rate in rates) / HOURS,
        "outside_hours": sum(not knots[0] <= celsius <= knots[-1] for celsius in hours),
    }


def expected_days(least: float, most: float) -> dict:
    """Days to emergence at a constant share of development a day: {"early", "likely", "late"}.

    early = 1/most/1.3, late = 1/least·1.3, likely from the middle of both; None where that share is 0.
    """
    middle = (least + most) / 2.0
    return {
        "early": 1.0 / most / RANGE_FACTOR if most > 0 else None,
        "likely": 1.0 / middle if middle > 0 else None,
        "late": RANGE_FACTOR / least if least > 0 else None,
    }


def first_day(daily: Sequence[float], afterwards: float, target: float) -> int | None:
    """The first day, counted from 1, on which shares of `daily`, then of `afterwards` for every further day, reach `target`.

    None when they never do, or not within LONGEST_WAIT_DAYS.
    """
    total = 0.0
    for index, share in enumerate(daily):
        total += share
        if total >= target - SLIGHT:
            return index + 1
    further = (target - total) / afterwards if afterwards > 0 else math.inf
    if len(daily) + further > LONGEST_WAIT_DAYS:
        return None
    return len(daily) + max(1, math.ceil(further - SLIGHT))


def fill_gaps(values: Sequence[float | None]) -> list[float]:
    """A day's readings with gaps (None) filled by a straight line between the days beside them; at the ends by the nearest.

    Raises ValueError when there is no reading at all.
    """
    known = [index for index, value in enumerate(values) if value is not None]
    if not known:
        raise ValueError("there is no reading at all")
    filled = []
    for index, value in enumerate(values):
        if value is not None:
            filled.append(float(value))
            continue
        before = [i for i in known if i < index]
        after = [i for i in known if i > index]
        if not before or not after:
            filled.append(float(values[before[-1] if before else after[0]]))
            continue
        a, b = before[-1], after[0]
        filled.append(values[a] + (values[b] - values[a]) * (index - a) / (b - a))
    return filled


def longest_gap(values: Sequence[float | None]) -> int:
    """The most days in a row without a reading."""
    longest = run = 0
    for value in values:
        run = 0 if value is not None else run + 1
        longest = max(longest, run)
    return longest


def degree_days(low: float, high: float, base: float, ceiling: float | None, shape: str) -> float:
    """Degree-days (°C·d) of one day above `base`, with a horizontal cut-off at `ceiling` (None for none).

    `shape` is "sine" or "triangle", single: the day alone. Formulas as in University of California IPM's degree-day
    calculator. Raises ValueError when the minimum is above the maximum, the ceiling not above the base, or the shape is none of the two.
    """
    if low > high or (ceiling is not None and ceiling <= base) or shape not in ("sine", "triangle"):
        raise ValueError(f"impossible day {low}, {high}, base {base}, ceiling {ceiling} or shape {shape}")
    above = _sine_above if shape == "sine" else _triangle_above
    return above(low, high, base) - (0.0 if ceiling is None else above(low, high, ceiling))


def _sine_above(low: float, high: float, line: float) -> float:
    """Area between a day's sine and the line, where it is above it."""
    if high <= line:
        return 0.0
    middle = (low + high) / 2.0
    if low >= line:
        return middle - line
    swing = (high - low) / 2.0
    angle = math.asin((line - middle) / swing)
    return ((middle - line) * (math.pi / 2.0 - angle) + swing * math.cos(angle)) / math.pi


def _triangle_above(low: float, high: float, line: float) -> float:
    """Area between a day's triangle and the line, where it is above it."""
    if high <= line:
        return 0.0
    if low >= line:
        return (low + high) / 2.0 - line
    return (high - line) ** 2 / (2.0 * (high - low))
