"""Arguments of the vectors for emergence by temperature and for the course of a day; same form as in vector_cases.py."""

from __future__ import annotations

import math
from itertools import product

from build_tools.science import day_course, emergence
from tests.published.days_table import CELSIUS, ROWS, measured_points

WORDS = {"NG": "no germination", "-": "not tested"}
TEMPERATURES = (-5, -0.01, 0, 2.5, 4.9999, 5, 7.3, 10, 12.5, 15, 17.5, 19.96, 20, 22.2, 25, 27.7, 30, 32.5, 35, 37.5, 40, 40.01, 55)
DAYS_AND_NIGHTS = ((20, 20), (12, 25), (-3, 8), (5, 42), (33, 45), (0, 0.5), (15, 15.001), (-10, -5), (41, 50))
READINGS = ([1], [None, 4], [4, None, None, 7, None], [None, 2.5, None, None, 1, 8, None, None], list(range(30)), [3, *[None] * 12, 29])
EDGES = {"doubted": [[0, "doubtful", None], [5, "not tested", None], [10, "measured", 12], [15, "doubtful", None], [20, "measured", 6], [25, "blank", None], [30, "no germination", None]],
         "nothing": [], "none came": [[0, "no germination", None], [10, "no germination", None], [20, "not tested", None]], "one": [[15, "measured", 9]]}


def cells_of(row: dict[str, str]) -> list[list]:
    return [[celsius, WORDS.get(row[column], "measured"), int(row[column]) if row[column].isdigit() else None] for column, celsius in CELSIUS.items()]


def curve_of(row: dict[str, str]) -> dict:
    t, days = zip(*measured_points(row), strict=True)
    return emergence.cubics(t, [math.log(d) for d in days])


def crop_of(row: dict[str, str]) -> dict:
    """The row as day_course takes it."""
    points = measured_points(row)
    none = [celsius for celsius, state, _ in cells_of(row) if state == "no germination"]
    return {
        "days": curve_of(row),
        "none_below": max((c for c in none if c < points[0][0]), default=None),
        "none_above": min((c for c in none if c > points[-1][0]), default=None),
    }


def percents() -> list[dict]:
    return [emergence.cubics((0, 5, 10, 15, 20, 25, 30, 35), p) for p in ((0, 0, 61, 80, 88, 95, 79, 37), (98, 98, 98, 98, 99, 99, 12, 0), (0, 0, 0, 1, 1, 99, 100, 100))]


def at_temperatures(curves) -> list[list]:
    return [[curve, t] for curve in curves for t in TEMPERATURES]


CASES = {
    "emergence": {
        "curve_at": (["curve", "x"], lambda: at_temperatures([curve_of(row) for row in ROWS[1::6]])),
        "days_at": (["curve", "celsius"], lambda: at_temperatures([curve_of(row) for row in ROWS[::8]])),
        "percent_at": (["curve", "celsius"], lambda: at_temperatures(percents())),
        "tested_state": (["cells", "celsius"], lambda: [
            [cells, t] for cells in (*(cells_of(row) for row in ROWS[::6]), *EDGES.values()) for t in TEMPERATURES]),
    },
    "day_course": {
        "hours_of_day": (["low", "high"], lambda: [list(day) for day in DAYS_AND_NIGHTS]),
        "development_rate": (["crop", "celsius"], lambda: [[crop_of(row), t] for row in ROWS[::7] for t in TEMPERATURES]),
        "development_of_day": (["crop", "low", "high"], lambda: [[crop_of(row), *day] for row in ROWS[::7] for day in DAYS_AND_NIGHTS]),
        "expected_days": (["least", "most"], lambda: [[0, 0], [0, 0.1], [0.08, 0.1], [0.25, 0.25], [1, 1]]),
        "first_day": (["daily", "afterwards", "target"], lambda: [
            [daily, after, target] for daily in ([], [0.1] * 10, [0, 0.5, 0.5], [0.03, 0.04, 0.2]) for after in (0, 1e-4, 0.1, 0.37)
            for target in (0.5, 1 / 1.3, 1, 1.3, 2)]),
        "fill_gaps": (["values"], lambda: [[values] for values in READINGS]),
        "longest_gap": (["values"], lambda: [[values] for values in READINGS]),
        "degree_days": (["low", "high", "base", "ceiling", "shape"], lambda: [
            [*day, base, ceiling, shape] for day, base, ceiling, shape in product(DAYS_AND_NIGHTS, (0, 10, 12), (None, 33), ("sine", "triangle"))]),
    },
}
MODULES = {"emergence": emergence, "day_course": day_course}
