"""Arguments of the vectors for soil temperature and its windows; same form as in vector_cases.py.

Years of the windows are short rings, with spells of every length, gaps and bands, and whole years of both hemispheres.
"""

from __future__ import annotations

from random import Random

from build_tools.science import soil_temperature, soil_windows

MONTHS = ([0.5, 1.5, 5.0, 9.5, 14.0, 17.5, 19.5, 19.0, 15.0, 10.0, 5.0, 1.5], [22.1, 21.8, 19.5, 15.2, 11.0, 8.1, 7.4, 8.9, 11.6, 14.9, 18.2, 20.9],
          [26.5, 26.6, 26.4, 26.1, 25.8, 25.0, 24.6, 24.9, 25.3, 25.9, 26.2, 26.4], [-18.0, -15.5, -8.2, 1.0, 9.4, 14.8, 17.1, 14.6, 8.3, 0.4, -9.8, -16.1],
          [7.0] * 12, list(range(12)))
QUARTERS = ([[-2.0, 3.2], [-1.6, 4.8], [-1.0, 4.0], [-3.3, 4.5]], [[-1, 1]] * 4, [[0, 0], [-0.5, 6.4], [-0.25, 0.125], [-9, 0]])


def harmonics() -> list[dict]:
    return [soil_temperature.annual_harmonic(months) for months in MONTHS]


def daily(seed: int, count: int, gaps: float) -> tuple[list[int], list[float]]:
    """Rising day numbers with gaps, and temperatures."""
    chance = Random(seed)
    day, days, values = chance.randrange(20_000), [], []
    for _ in range(count):
        day += 1 + (int(chance.expovariate(0.15)) if chance.random() < gaps else 0)
        days.append(day)
        values.append(round(chance.gauss(9, 7), 1))
    return days, values


def logs() -> list[list]:
    return [list(daily(seed, count, gaps)) for seed, (count, gaps) in enumerate(((1, 0), (2, 1), (40, 0), (60, 0.1), (90, 0.4), (150, 0.02)))]


def ring(chance: Random, length: int, gaps: int) -> list[float | None]:
    """Spells about 8, 12 and 16 °C, some a day long; `gaps` stretches that are not known."""
    year: list[float | None] = []
    while len(year) < length:
        level = chance.choice((8, 12, 16))
        year += [round(level + chance.uniform(-3, 3), 1) for _ in range(chance.choice((1, 1, 2, 3, 5, 8)))]
    year = year[:length]
    for _ in range(gaps):
        start = chance.randrange(length)
        for i in range(chance.choice((1, 2, 6))):
            year[(start + i) % length] = None
    return year


def rings() -> list[list[float | None]]:
    chance = Random(7)
    return [ring(chance, length, gaps) for length in (1, 2, 5, 24, 40, 61) for gaps in (0, 0, 0, 1, 3)]


def window_rows() -> list[list]:
    rows = []
    limits = ((10, None), (None, 14), (10, 14), (12, 15), (3, 30), (25, None), (None, None), (20, 22), (8, 8.5))
    for i, year in enumerate(rings()):
        for j, (low, high) in enumerate(limits):
            low_error, high_error = ((-2, 3), (-0.5, 0.5), (0, 0), (-6, 6))[(i + j) % 4]
            band = {"low": [low_error] * len(year), "high": [high_error] * len(year)}
            rows.append([year, band, low, high, (1, 3, 5, 7)[(i + 2 * j) % 4], (0, 4, 9)[(i + j) % 3]])
    for months, quarters in zip(MONTHS[:4], (*QUARTERS, QUARTERS[0])):
        found = soil_temperature.annual_harmonic(months)
        year = [round(v, 2) for v in soil_temperature.annual_wave(found, 25)]
        band = {k: [round(v, 2) for v in values] for k, values in soil_temperature.error_band(quarters, found["warmest_day"]).items()}
        rows += [[year, band, low, high, 5, 21] for low, high in ((4.5, 24), (15.5, 35), (18, 19))]
    return rows


MODULES = {"soil_temperature": soil_temperature, "soil_windows": soil_windows}
CASES = {
    "soil_temperature": {
        "damping_depth": (["diffusivity", "period_days"], lambda: [[d, p] for d in (0.2, 0.4, 0.5, 0.6, 0.8) for p in (1, 365.25)]),
        "annual_harmonic": (["monthly"], lambda: [[months] for months in MONTHS]),
        "annual_wave": (["harmonic", "depth_mm"], lambda: [[h, z] for h, z in zip(harmonics(), (0, 6, 25, 50, 200, 13))]),
        "exponential_mean": (["days", "values", "time_constant", "longest_gap", "settling"], lambda: [
            [days, values, tau, gap, settling] for days, values in logs() for tau, gap, settling in ((3, 7, 6), (5, 0, 0), (0.5, 100, 2))]),
        "centred_mean": (["days", "values", "reach"], lambda: [[days, values, reach] for days, values in logs() for reach in (0, 1, 4)]),
        "average_year": (["places", "values", "longest_gap"], lambda: [
            [[day % 365 for day in days], [None if i % 11 == 5 else v for i, v in enumerate(values)], gap] for days, values in logs() for gap in (0, 7)]),
        "monthly_means": (["year"], lambda: [[soil_temperature.average_year(list(range(365)), [round(i / 7, 2) for i in range(365)], 0)],
                                             [[None] * 15 + [1.5] * 350], [[None] * 16 + [1.5] * 349], [[2.5] * 350 + [None] * 15], [[None] * 365]]),
        "scaled_errors": (["quarters", "swing", "measured_swing"], lambda: [[q, swing, 13.6] for q in QUARTERS for swing in (0, 5, 9.5, 13.6, 30)]),
        "error_band": (["quarters", "warmest_day"], lambda: [[q, day] for q, day in ((QUARTERS[0], 0), (QUARTERS[0], 198.4), (QUARTERS[1], 17.25), (QUARTERS[2], 365.2), (QUARTERS[2], 300))]),
    },
    "soil_windows": {
        "holding": (["year", "threshold", "hold_days", "strict"], lambda: [
            [year, threshold, n, strict] for i, year in enumerate(rings()) for threshold, n, strict in ((10, 1 + i % 5, False), (14, 3, True), (40, 2, False))]),
        "windows": (["year", "band", "low", "high", "hold_days", "short_days"], window_rows),
    },
}
