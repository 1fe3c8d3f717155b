"""How well soil temperature is estimated from the air, measured where both were recorded day by day.

Nothing here goes to the browser but its results; it has no twin. Errors are estimate minus measured, °C or days.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from math import sqrt

from .soil_temperature import (
    PERIOD_DAYS,
    TIME_CONSTANT,
    annual_harmonic,
    annual_wave,
    average_year,
    error_band,
    exponential_mean,
)
from .soil_windows import windows

DEPTHS_MM = (50, 100, 200)
SHORT_DAYS = 21  # doubtful spells of the page up to this long
SHARE = 0.8  # of the measured days that a band holds
SPRING_MONTHS = (3, 4, 5, 6)
FIRST_TEST_YEAR = 2013  # normals for the rows of errors are made of the years before
HOLD_DATES = tuple((celsius, days) for celsius in (10, 15.5556, 18.3333) for days in (3, 5, 7))  # 50, 60 and 65 °F


def place_in_year(day: date) -> int:
    """0 to 364; 29 February is with the 28th."""
    return date(2001, day.month, min(day.day, 28) if day.month == 2 else day.day).timetuple().tm_yday - 1


@dataclass(frozen=True)
class Station:
    """Daily air and soil temperature, °C; None where not recorded. All sequences are as long as `dates`, which rise."""

    dates: tuple[date, ...]
    air: tuple[float | None, ...]
    soil: Mapping[int, tuple[float | None, ...]]

    @cached_property
    def places(self) -> list[int]:
        return [place_in_year(day) for day in self.dates]

    @cached_property
    def full_years(self) -> list[int]:
        """The years whose first eight months at least are there."""
        return [y for y in range(self.dates[0].year, self.dates[-1].year + 1) if date(y, 1, 1) in self._found and date(y, 8, 31) in self._found]

    @cached_property
    def _found(self) -> frozenset[date]:
        return frozenset(self.dates)

    def exponential(self, time_constant: float) -> list[float | None]:
        """Estimate by the exponential mean, one for each day."""
        days = [i for i, value in enumerate(self.air) if value is not None]
        found = exponential_mean([self.dates[i].toordinal() for i in days], [self.air[i] for i in days], time_constant, 7, 0)
        estimate: list[float | None] = [None] * len(self.dates)
        for i, value in zip(days, found):
            estimate[i] = value
        return estimate

    def trailing(self, length: int) -> list[float | None]:
        """Mean of the last `length` days; None unless all are there."""
        found = []
        for i in range(len(self.air)):
            last = self.air[max(0, i - length + 1):i + 1]
            found.append(sum(last) / length if len(last) == length and None not in last else None)
        return found

    def normals(self, until: int | None = None) -> list[float]:
        """Twelve monthly means of the air, of the years before `until` or of all."""
        used = [i for i, day in enumerate(self.dates) if until is None or day.year < until]
        months: list[list[float]] = [[] for _ in range(12)]
        for i in used:
            if self.air[i] is not None:
                months[self.dates[i].month - 1].append(self.air[i])
        return [sum(values) / len(values) for values in months]

    def from_normals(self, depth_mm: int, until: int | None = None) -> list[float]:
        """Estimate from the normals by the damped yearly wave, one for each day."""
        year = annual_wave(annual_harmonic(self.normals(until)), depth_mm)
        return [year[place] for place in self.places]


def estimates(station: Station, depth_mm: int) -> dict[str, list[float | None]]:
    """Every way of estimating that is compared, by name."""
    return {
        "same day": list(station.air),
        "mean of 5 days": station.trailing(5),
        "mean of 7 days": station.trailing(7),
        "exponential, 3 days": station.exponential(TIME_CONSTANT),
        "exponential, 5 days": station.exponential(5),
        "monthly normals": station.from_normals(depth_mm, FIRST_TEST_YEAR),
    }


def spring_errors(station: Station) -> list[dict]:
    """For each way of estimating {"way", "bias", "rmse", "n"}, the last three by depth in mm; March to June from the test years on."""
    rows: dict[str, dict] = {}
    for depth in DEPTHS_MM:
        for way, estimate in estimates(station, depth).items():
            errors = [e - s for day, e, s in zip(station.dates, estimate, station.soil[depth])
                      if day.year >= FIRST_TEST_YEAR and day.month in SPRING_MONTHS and e is not None and s is not None]
            row = rows.setdefault(way, {"way": way, "bias": {}, "rmse": {}, "n": {}})
            row["bias"][depth] = sum(errors) / len(errors)
            row["rmse"][depth] = sqrt(sum(e * e for e in errors) / len(errors))
            row["n"][depth] = len(errors)
    return list(rows.values())


def quarter_errors(station: Station, estimate: Sequence[float | None], depth_mm: int) -> list[tuple[float, float]]:
    """For the quarter about the warmest day and the three after it the measured minus estimated °C that hold SHARE of the days."""
    warmest = warmest_day(station)
    errors: list[list[float]] = [[], [], [], []]
    for place, e, s in zip(station.places, estimate, station.soil[depth_mm]):
        if e is not None and s is not None:
            errors[int(4 * ((place + 0.5 - warmest) % PERIOD_DAYS) / PERIOD_DAYS + 0.5) % 4].append(s - e)
    tail = (1 - SHARE) / 2
    return [(quantile(quarter, tail), quantile(quarter, 1 - tail)) for quarter in errors]


def warmest_day(station: Station) -> float:
    """Of the air at the station, from the start of the year."""
    return annual_harmonic(station.normals())["warmest_day"]


def yearly_swing(station: Station) -> float:
    """Amplitude of the air's yearly wave at the station, °C."""
    return annual_harmonic(station.normals())["amplitude"]


def quantile(values: Sequence[float], share: float) -> float:
    """By straight lines between the ordered values."""
    ordered = sorted(values)
    at = share * (len(ordered) - 1)
    below = min(int(at), len(ordered) - 2)
    return ordered[below] + (at - below) * (ordered[below + 1] - ordered[below])


def first_held(station: Station, values: Sequence[float | None], year: int, celsius: float, hold_days: int) -> int | None:
    """Day of that year, 1 January being 1, that begins the first `hold_days` days in a row at or above; None when there are none."""
    run = 0
    for day, value in zip(station.dates, values):
        if day.year == year:
            run = run + 1 if value is not None and value >= celsius else 0
            if run == hold_days:
                return day.timetuple().tm_yday - hold_days + 1
    return None


def hold_dates(station: Station, depth_mm: int = 50) -> list[dict]:
    """For each temperature and number of days: {"celsius", "days", "n", "mean", "sd", "exponential", "normals"}.

    Mean day of the year of the first date measured, its spread between years, and by how many days the two ways of estimating miss it on average.
    """
    found = []
    for celsius, days in HOLD_DATES:
        dates = _dates(station, depth_mm, celsius, days)
        measured = [row["measured"] for row in dates]
        mean = sum(measured) / len(measured)
        missed = {way: sum(abs(row[way] - row["measured"]) for row in dates) / len(dates) for way in ("exponential", "normals")}
        found.append({"celsius": celsius, "days": days, "n": len(dates), "mean": mean,
                      "sd": sqrt(sum((m - mean) ** 2 for m in measured) / (len(measured) - 1)), **missed})
    return found


def _dates(station: Station, depth_mm: int, celsius: float, days: int) -> list[dict]:
    series = {"measured": station.soil[depth_mm], "exponential": station.exponential(TIME_CONSTANT), "normals": station.from_normals(depth_mm)}
    rows = [{way: first_held(station, values, year, celsius, days) for way, values in series.items()} for year in station.full_years]
    return [row for row in rows if None not in row.values()]


def date_errors(station: Station, depth_mm: int = 50) -> dict[str, dict]:
    """For both ways: mean error of the first date, median and nine-in-ten of its size in days, over all of HOLD_DATES; {"bias", "median", "most", "n"}."""
    rows = [row for celsius, days in HOLD_DATES for row in _dates(station, depth_mm, celsius, days)]
    found = {}
    for way in ("exponential", "normals"):
        errors = [row[way] - row["measured"] for row in rows]
        sizes = [abs(e) for e in errors]
        found[way] = {"bias": sum(errors) / len(errors), "median": quantile(sizes, 0.5), "most": quantile(sizes, 0.9), "n": len(errors)}
    return found


def bands(station: Station) -> dict[str, dict[int, list[tuple[float, float]]]]:
    """quarter_errors() for both ways at every depth."""
    exponential = station.exponential(TIME_CONSTANT)
    return {
        "days": {depth: quarter_errors(station, exponential, depth) for depth in DEPTHS_MM},
        "months": {depth: quarter_errors(station, station.from_normals(depth), depth) for depth in DEPTHS_MM},
    }


def coverage(station: Station, hold_days: int = 5, depth_mm: int = 50) -> dict[str, tuple[int, int]]:
    """How many of the measured first dates lie in the range that the page would have given, and of how many."""
    quarters, warmest = bands(station), warmest_day(station)
    normals = annual_wave(annual_harmonic(station.normals()), depth_mm)
    exponential = station.exponential(TIME_CONSTANT)
    hits, tried = {"days": 0, "months": 0}, 0
    for year in station.full_years:
        used = [i for i, day in enumerate(station.dates) if day.year == year]
        own = average_year([station.places[i] for i in used], [exponential[i] for i in used], 7)
        for celsius in sorted({c for c, _ in HOLD_DATES}):
            truth = first_held(station, station.soil[depth_mm], year, celsius, hold_days)
            tried += 1
            for way, curve in (("days", own), ("months", normals)):
                first = windows(curve, error_band(quarters[way][depth_mm], warmest), celsius, None, hold_days, SHORT_DAYS)["windows"][0]
                earliest, latest = first["starts"]
                hits[way] += (earliest is None or earliest <= truth - 1) and (latest is None or truth - 1 <= latest)
    return {way: (count, tried) for way, count in hits.items()}

