"""Calendar dates as ISO text: reading them with a remedy for every other form, and adding months.

Twin: docs/assets/js/lots/dates.js.
"""

from __future__ import annotations

import re

from .words import quoted

ISO = re.compile("([0-9]{4})-([0-9]{2})-([0-9]{2})")
YEAR, YEAR_MONTH = re.compile("[0-9]{4}"), re.compile("([0-9]{4})-([0-9]{2})")
WITH_TIME = re.compile("([0-9]{4}-[0-9]{2}-[0-9]{2})[T ][\\s\\S]*")
YEAR_FIRST = re.compile("([0-9]{4})[./ -]([0-9]{1,2})[./ -]([0-9]{1,2})")
YEAR_LAST = re.compile("([0-9]{1,2})[./ -]([0-9]{1,2})[./ -]([0-9]{4})")
DAY_NUMBER = re.compile("[0-9]{5}([.,][0-9]*)?")
MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
FAR_YEARS = 60  # a harvest or test longer ago is taken for a slip of the pen
LIKE = "Write year, month and day: 2026-03-12."


def days_in_month(year: int, month: int) -> int:
    leap = month == 2 and year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    return MONTH_DAYS[month - 1] + leap


def is_day(year: int, month: int, day: int) -> bool:
    """Is there such a day in the calendar?"""
    return year >= 1 and 1 <= month <= 12 and 1 <= day <= days_in_month(year, month)


def iso(year: int, month: int, day: int) -> str:
    return f"{year:04d}-{month:02d}-{day:02d}"


def add_months(date: str, months: int) -> str:
    """The day `months` calendar months after an ISO date; the month's last day where it has no such day."""
    year, month, day = int(date[:4]), int(date[5:7]), int(date[8:])
    years, month0 = divmod(month - 1 + months, 12)
    return iso(year + years, month0 + 1, min(day, days_in_month(year + years, month0 + 1)))


def check_day(text: str, today: str) -> tuple[str, str]:
    """("", "") when `text` is an ISO day not after `today` and not far off, else (message, hint)."""
    found = ISO.fullmatch(text)
    if not found:
        return _other_form(text)
    if not is_day(*map(int, found.groups())):
        return f"{quoted(text)} is no day of the calendar.", LIKE
    return _time_of(text, today)


def check_harvest(text: str, today: str) -> tuple[str, str]:
    """As `check_day`, for a year, a month or a day."""
    if YEAR.fullmatch(text):
        return _time_of(text, today)
    month = YEAR_MONTH.fullmatch(text)
    if month:
        if not 1 <= int(month[2]) <= 12:
            return f"{quoted(text)} is no month of the calendar.", "Write year and month: 2025-09."
        return _time_of(text, today)
    message, hint = check_day(text, today)
    return message, "Write the year, the month or the day: 2025, 2025-09 or 2025-09-20." if hint == LIKE else hint


def _time_of(text: str, today: str) -> tuple[str, str]:
    """Not in the future and not far off, at the precision of `text`."""
    if text > today[: len(text)]:
        return f"{text} is in the future; today is {today}.", "Check the year, month and day."
    if int(text[:4]) < int(today[:4]) - FAR_YEARS:
        return f"{text} is more than {FAR_YEARS} years ago.", "Check the year."
    return "", ""


def _other_form(text: str) -> tuple[str, str]:
    """What is wrong with a date in another form than ISO, and how to write it."""
    message = f"{quoted(text)} is not a date written year first."
    with_time = WITH_TIME.fullmatch(text)
    if with_time:
        return f"{quoted(text)} has a time of day in it.", f"Write the day alone: {with_time[1]}."
    first = YEAR_FIRST.fullmatch(text)
    if first and is_day(*map(int, first.groups())):
        return f"{quoted(text)} is not written with hyphens and two digits.", f"Write {iso(*map(int, first.groups()))}."
    last = YEAR_LAST.fullmatch(text)
    if last:
        a, b, year = map(int, last.groups())
        readings = sorted({iso(year, m, d) for d, m in ((a, b), (b, a)) if is_day(year, m, d)})
        if len(readings) == 2:
            return f"{quoted(text)} can be read as {readings[0]} or as {readings[1]}.", f"Write the one you mean, year first: {readings[0]} or {readings[1]}."
        if readings:
            return message, f"Write {readings[0]}."
    if DAY_NUMBER.fullmatch(text):
        return f"{quoted(text)} looks like a spreadsheet’s own day number.", "Show the column as dates written 2026-03-12 before you save it as CSV."
    return message, LIKE
