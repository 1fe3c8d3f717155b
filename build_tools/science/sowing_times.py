"""A sowing season as windows of days, counted from the average last frost.

Plain date arithmetic on ISO texts: weeks from the frost, days to seedlings from measured temperatures, days back for a
germination test. Every window is a pair of dates, both included. A week printed alone means that week. Days are given
as a range (science/emergence.py: a third either way); nothing is looked up beyond tested temperatures.
Twin: docs/assets/js/science/sowing_times.js.
"""

from __future__ import annotations

import calendar
import math
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from itertools import pairwise

TASKS = ("test", "soak-indoors", "sow-indoors", "look-indoors", "give-up-indoors", "plant-out",
         "soak-outdoors", "sow-outdoors", "look-outdoors", "give-up-outdoors")
FIRST_YEAR, LAST_YEAR = 1000, 9998  # four digits, and room for a window that runs into the next year
HAIR = 1e-9  # so that 10 × 1.3 is 13 days and not 14
Window = list[str]


def read_day(text: str) -> date:
    """An ISO date of the years 1000 to 9999; ValueError for any other text and for days that do not exist."""
    parts = text.split("-")
    if [len(part) for part in parts] != [4, 2, 2] or not all(part.isascii() and part.isdigit() for part in parts):
        raise ValueError(f"a date reads 2027-05-08, not {text}")
    found = date(*map(int, parts))
    if found.year < FIRST_YEAR:
        raise ValueError(f"no year of four digits: {text}")
    return found


def add_days(day: str, days: int) -> str:
    """The ISO date so many days later (earlier when negative). ValueError outside the years 1000 to 9999."""
    if isinstance(days, float) and not days.is_integer():
        raise ValueError(f"whole days only, not {days}")
    try:
        found = read_day(day) + timedelta(days=int(days))
    except OverflowError as error:
        raise ValueError(f"{day} and {days} days is outside the calendar") from error
    if found.year < FIRST_YEAR:
        raise ValueError(f"{day} and {days} days is outside the calendar")
    return found.isoformat()


def days_between(first: str, second: str) -> int:
    """Days from the first ISO date to the second; negative when the second is earlier."""
    return (read_day(second) - read_day(first)).days


def day_in_year(month_day: str, year: int) -> str:
    """"05-08" in 2027 as "2027-05-08"; the 29th of February is the 28th where the year has none."""
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise ValueError(f"a year has four digits, not {year}")
    if month_day == "02-29" and not calendar.isleap(year):
        month_day = "02-28"
    return read_day(f"{year:04d}-{month_day}").isoformat()


def season(last_frost: str, first_frost: str, year: int) -> dict:
    """Last and first frost of the season whose last frost falls in `year`: {"last": ISO, "first": ISO}.

    The first frost ("10-06") is the next such day after the last, so that a season may run over New Year, as south of
    the equator. ValueError when both are the same day.
    """
    last = day_in_year(last_frost, year)
    if last_frost == first_frost:
        raise ValueError("last and first frost are the same day")
    first = day_in_year(first_frost, year)
    return {"last": last, "first": first if first > last else day_in_year(first_frost, year + 1)}


def weeks_window(frost: str, low: float, high: float, least_days: int) -> Window:
    """From `low` to `high` weeks after the frost (negative before it), both days included.

    Weeks become whole days, halves upward; a window shorter than `least_days` runs on to that length.
    """
    if low > high or least_days < 1:
        raise ValueError(f"no window from {low} to {high} weeks and at least {least_days} days")
    start, end = math.floor(7 * low + 0.5), math.floor(7 * high + 0.5)
    return [add_days(frost, start), add_days(frost, max(end, start + least_days - 1))]


def before_planting(plant_out: Sequence[str], age_low: float, age_high: float) -> Window:
    """When to sow indoors for a window of planting out and an age of transplants in weeks: oldest plants first."""
    if not 0 < age_low <= age_high:
        raise ValueError(f"no age from {age_low} to {age_high} weeks")
    start, end = add_days(plant_out[0], -math.floor(7 * age_high + 0.5)), add_days(plant_out[1], -math.floor(7 * age_low + 0.5))
    return [start, end]


def window_for_test(first_sowing: str, test_days: int, buy_days: int, lead_days: int) -> Window:
    """When to start a germination test: its last day leaves `test_days` and then `buy_days` before the first sowing."""
    if test_days < 1 or buy_days < 0 or lead_days < 1:
        raise ValueError("a test takes a day or more")
    latest = add_days(first_sowing, -(test_days + buy_days))
    return [add_days(latest, 1 - lead_days), latest]


def still_good(tested: str, sowing: str, months: int) -> bool:
    """Whether a test of that day is at most `months` calendar months old when the seed is sown."""
    day = read_day(tested)
    years, month = divmod(day.month - 1 + months, 12)
    year = day.year + years
    last = calendar.monthrange(year, month + 1)[1]
    return f"{year:04d}-{month + 1:02d}-{min(day.day, last):02d}" >= read_day(sowing).isoformat()


def days_range(fast: float, slow: float, factor: float) -> list[int]:
    """Whole days from fast/factor to slow·factor, rounded outward, 1 or more."""
    if not 0 < fast <= slow or factor < 1:
        raise ValueError(f"no range of days from {fast} to {slow} and a factor of {factor}")
    return [max(1, math.floor(fast / factor + HAIR)), max(1, math.ceil(slow * factor - HAIR))]


def days_at(points: Sequence[Sequence[float]], celsius: float) -> float | None:
    """Days to seedlings at a temperature, between [°C, days] points of rising °C; None outside them.

    Straight lines through ln(days): the points already stand half a degree apart on the fitted curve.
    """
    for (low, days_low), (high, days_high) in pairwise(points):
        if not low < high or min(days_low, days_high) <= 0:
            raise ValueError("points must rise in °C and days be above zero")
        if low <= celsius <= high:
            share = (celsius - low) / (high - low)
            return math.exp((1 - share) * math.log(days_low) + share * math.log(days_high))
    return None


def shifted(window: Sequence[str], first_days: int, last_days: int) -> Window:
    """A window whose first day is moved by `first_days` and whose last by `last_days`."""
    return [add_days(window[0], first_days), add_days(window[1], last_days)]


def weeks_apart(sow: Sequence[str], plant_out: Sequence[str]) -> list[int]:
    """Fewest and most whole weeks from sowing to planting out, first week with first and last with last.

    That is the age of plants when both windows are used in step: early sown, early planted.
    """
    gaps = [days_between(sow[0], plant_out[0]) // 7, days_between(sow[1], plant_out[1]) // 7]
    return [min(gaps), max(gaps)]


def sowing_plan(crop: Mapping, frost: str, rules: Mapping, tested: str | None = None) -> dict:
    """Every window of one crop in one season: {task of TASKS: [from, to]}; tasks without published figures are left out.

    `crop`: sow_indoors, plant_out, sow_outdoors, transplant_age as [low, high] weeks or None; test_days; soak (bool);
    indoor_days, outdoor_days as [early, late] days after sowing or None.
    `rules`: least_window_days, test_lead_days, buy_days, give_up_times, test_good_months. `tested`: ISO date or None.
    Indoors the temperature is known, so one gives up at `give_up_times` the late end; outdoors the late end is already
    that of cold soil. Where sowing indoors is not published, planting out less the age of a transplant gives it.
    """
    plan: dict[str, Window] = {}
    sowings = {"indoors": None, "outdoors": None}
    if crop["plant_out"]:
        plan["plant-out"] = weeks_window(frost, *crop["plant_out"], rules["least_window_days"])
    if crop["sow_indoors"]:
        sowings["indoors"] = weeks_window(frost, *crop["sow_indoors"], rules["least_window_days"])
    elif crop["plant_out"] and crop["transplant_age"]:
        sowings["indoors"] = before_planting(plan["plant-out"], *crop["transplant_age"])
    if crop["sow_outdoors"]:
        sowings["outdoors"] = weeks_window(frost, *crop["sow_outdoors"], rules["least_window_days"])
    for where, times in (("indoors", rules["give_up_times"]), ("outdoors", 1)):
        window, days = sowings[where], crop[f"{where[:-1]}_days"]
        if window is None:
            continue
        plan[f"sow-{where}"] = window
        if crop["soak"]:
            plan[f"soak-{where}"] = shifted(window, -1, -1)
        if days:
            plan[f"look-{where}"] = shifted(window, days[0], days[1])
            late = math.ceil(days[1] * times - HAIR)
            plan[f"give-up-{where}"] = shifted(window, late + 1, late + 1)
    first = min((window[0] for window in sowings.values() if window), default=None)
    if first and not (tested and still_good(tested, first, rules["test_good_months"])):
        plan["test"] = window_for_test(first, crop["test_days"], rules["buy_days"], rules["test_lead_days"])
    return {task: plan[task] for task in TASKS if task in plan}


def next_tasks(windows: Sequence[Sequence[str]], today: str, most: int) -> list[int]:
    """Places in `windows` of the next things to do: those not yet over, by the day they can be done, then by their end."""
    open_now = [i for i, (_, end) in enumerate(windows) if end >= today]
    return sorted(open_now, key=lambda i: (max(windows[i][0], today), windows[i][1], i))[:most]
