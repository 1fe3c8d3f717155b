"""Soil temperature from the air, and the part of the year in which it holds what a crop wants.

A year is a list of 365 daily means in °C, 1 January first; None is a day of which nothing is known. 29 February
counts with the 28th. The year is a ring: after its last day comes its first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import atan2, cos, exp, hypot, pi, sin, sqrt

YEAR_DAYS = 365
PERIOD_DAYS = 365.25
DIFFUSIVITY = 0.5  # mm² a second: between .46 and .50 at the USCRN station Manhattan KS, 5 to 100 cm
TIME_CONSTANT = 3  # days; best of 2, 3 and 5 days at 5 and 10 cm at that station
SECONDS_A_DAY = 86400
LEAST_SCALE, MOST_SCALE = 0.5, 1.5  # our own limits to carrying errors from one climate to another
MONTH_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)

Year = Sequence[float | None]


def damping_depth(diffusivity: float, period_days: float) -> float:
    """Depth in m at which a wave of that period keeps 1/e of its swing; diffusivity in mm²/s.

    sqrt(2D/omega), Hillel 1982. Raises ValueError unless both are above 0.
    """
    if not (diffusivity > 0 and period_days > 0):
        raise ValueError("diffusivity and period must be above 0")
    return sqrt(2 * diffusivity * 1e-6 * SECONDS_A_DAY * period_days / (2 * pi))


def annual_harmonic(monthly: Sequence[float]) -> dict[str, float]:
    """Mean, amplitude (°C) and warmest day (0 to 365.25 from the start of the year) of twelve monthly means, January first.

    Least squares of one yearly wave at the middle of the months. Raises ValueError unless there are twelve.
    """
    if len(monthly) != len(MONTH_LENGTHS):
        raise ValueError("twelve monthly means are needed")
    omega = 2 * pi / PERIOD_DAYS
    sums = [[0.0] * 4 for _ in range(3)]  # normal equations, right-hand side last
    start = 0.0
    for value, length in zip(monthly, MONTH_LENGTHS):
        days = 28.25 if length == 28 else length
        middle = start + days / 2
        start += days
        terms = (1.0, cos(omega * middle), sin(omega * middle), value)
        for i in range(3):
            for j in range(4):
                sums[i][j] += terms[i] * terms[j]
    for i in range(3):
        for k in range(i + 1, 3):
            factor = sums[k][i] / sums[i][i]
            for j in range(i, 4):
                sums[k][j] -= factor * sums[i][j]
    sine = sums[2][3] / sums[2][2]
    cosine = (sums[1][3] - sums[1][2] * sine) / sums[1][1]
    mean = (sums[0][3] - sums[0][1] * cosine - sums[0][2] * sine) / sums[0][0]
    return {"mean": mean, "amplitude": hypot(cosine, sine), "warmest_day": (atan2(sine, cosine) / omega) % PERIOD_DAYS}


def annual_wave(harmonic: Mapping[str, float], depth_mm: float, diffusivity: float = DIFFUSIVITY) -> list[float]:
    """A year at that depth: the yearly wave of the air, damped and late (Kusuda & Achenbach 1965; Hillel 1982).

    The soil's mean is taken to be the air's. Raises ValueError for a depth below 0.
    """
    if not depth_mm >= 0:
        raise ValueError("depth must not be below 0")
    omega = 2 * pi / PERIOD_DAYS
    ratio = depth_mm / 1000 / damping_depth(diffusivity, PERIOD_DAYS)
    swing = harmonic["amplitude"] * exp(-ratio)
    return [harmonic["mean"] + swing * cos(omega * (day + 0.5 - harmonic["warmest_day"]) - ratio) for day in range(YEAR_DAYS)]


def exponential_mean(days: Sequence[int], values: Sequence[float], time_constant: float, longest_gap: int, settling: int) -> list[float | None]:
    """The exponential mean of daily values, one for each: today weighs 1 - exp(-1/time_constant), the past the rest.

    `days` are rising day numbers. After `longest_gap` missing days it starts anew, and its first `settling` days,
    which know too little of the days before, are None. Raises ValueError for days that do not rise.
    """
    if len(days) != len(values) or any(b <= a for a, b in pairwise(days)):
        raise ValueError("each value needs its day, and days must rise")
    if not time_constant > 0:
        raise ValueError("the time constant must be above 0")
    found: list[float | None] = []
    for i, value in enumerate(values):
        step = days[i] - days[i - 1] if i > 0 else None
        if step is None or step - 1 > longest_gap:
            mean, began = value, days[i]
        else:
            mean += (1 - exp(-step / time_constant)) * (value - mean)
        found.append(mean if days[i] - began >= settling else None)
    return found


def centred_mean(days: Sequence[int], values: Sequence[float], reach: int) -> list[float]:
    """For each value the mean of those at most `reach` days before or after it; `days` rise."""
    found = []
    first = 0
    for day in days:
        while days[first] < day - reach:
            first += 1
        total, count, i = 0.0, 0, first
        while i < len(days) and days[i] <= day + reach:
            total += values[i]
            count += 1
            i += 1
        found.append(total / count)
    return found


def average_year(places: Sequence[int], values: Sequence[float | None], longest_gap: int) -> list[float | None]:
    """A year from values of any number of years; `places` are their days of the year, 0 to 364.

    Each day is the mean of what fell on it. Up to `longest_gap` days without any are bridged by a straight line.
    """
    sums, counts = [0.0] * YEAR_DAYS, [0] * YEAR_DAYS
    for place, value in zip(places, values):
        if value is not None:
            sums[place] += value
            counts[place] += 1
    year = [sums[i] / counts[i] if counts[i] else None for i in range(YEAR_DAYS)]
    known = [i for i in range(YEAR_DAYS) if year[i] is not None]
    for i, start in enumerate(known):
        end = known[i + 1] if i + 1 < len(known) else known[0] + YEAR_DAYS
        if 1 < end - start <= longest_gap + 1:
            last = year[end % YEAR_DAYS]
            for day in range(start + 1, end):
                year[day % YEAR_DAYS] = year[start] + (last - year[start]) * (day - start) / (end - start)
    return year


def monthly_means(year: Year) -> list[float] | None:
    """Twelve means of a year; None where a month has fewer than half of its days."""
    found, start = [], 0
    for length in MONTH_LENGTHS:
        seen = [value for value in year[start:start + length] if value is not None]
        if 2 * len(seen) < length:
            return None
        found.append(sum(seen) / len(seen))
        start += length
    return found


def scaled_errors(quarters: Sequence[Sequence[float]], swing: float, measured_swing: float) -> list[list[float]]:
    """Errors of a place with another yearly swing (both amplitudes, °C): in proportion, within LEAST_SCALE and MOST_SCALE.

    So an error measured as days of spring stays as many days: where the year swings less, spring is slower and its
    weather calmer. Raises ValueError unless the measured swing is above 0.
    """
    if not measured_swing > 0:
        raise ValueError("the measured swing must be above 0")
    scale = min(MOST_SCALE, max(LEAST_SCALE, swing / measured_swing))
    return [[low * scale, high * scale] for low, high in quarters]


def error_band(quarters: Sequence[Sequence[float]], warmest_day: float) -> dict[str, list[float]]:
    """How far soil may be below and above an estimate, for each day of the year: {"low": 365 °C, "high": 365 °C}.

    `quarters` are (low, high) about the warmest day and a quarter, half and three quarters of a year after it;
    straight lines between.
    """
    low, high = [], []
    for day in range(YEAR_DAYS):
        turn = 4 * ((day + 0.5 - warmest_day) % PERIOD_DAYS) / PERIOD_DAYS
        i = min(int(turn), 3)
        share = turn - i
        this, following = quarters[i], quarters[(i + 1) % 4]
        low.append(this[0] + share * (following[0] - this[0]))
        high.append(this[1] + share * (following[1] - this[1]))
    return {"low": low, "high": high}
