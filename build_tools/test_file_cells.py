"""The cells of a test file, one at a time: the value, or what is wrong with it and how to mend it.

Twin: docs/assets/js/calculators/daily-counts/file.js.
"""

from __future__ import annotations

import re

from .lots.cells import hidden, read_count, tidy
from .lots.words import quoted

LONGEST_NAME = 60  # characters
MOST_DAYS = 1000
LEAST_DAY = 0.01  # a quarter of an hour; nothing comes up sooner

DAY = re.compile(r"[0-9]{1,9}(\.[0-9]{0,9})?|\.[0-9]{1,9}")
DATE = re.compile(r"[0-9]{1,4}([-/.])[0-9]{1,2}\1[0-9]{1,4}")
# An apostrophe that spreadsheets (and the page) put before what would be taken for a formula.
GUARDED = re.compile("'[=+@-]")

Wrong = tuple[str, str]  # message, hint


def read_day(text: str, comma_separates: bool = False) -> tuple[float | None, Wrong | None]:
    """A day as days since setting the seed: (value, None) or (None, what is wrong)."""
    value = tidy(text)
    if not value:
        return None, ("Nothing stands here.", "Write the day of this count, in days since the seed was set.")
    if DATE.fullmatch(value):
        return None, (f"{quoted(value)} is a date.", "Write the days since the seed was set, such as 5.")
    if value.startswith(("-", "−", "–")):
        return None, (f"{quoted(value)} is below zero.", "Write the days since the seed was set, 0 or more.")
    point = value.replace(",", ".", 1)
    if not DAY.fullmatch(point):
        return None, (f"{quoted(value)} is not a number of days.", "Write digits, such as 5 or 5.5.")
    if "," in value and comma_separates:
        return None, (f"{quoted(value)} has a decimal comma, and commas separate the columns of this file.", f"Write {point}, or save the file with semicolons.")
    day = float(point)
    if day > MOST_DAYS:
        return None, (f"Day {value} is more than {MOST_DAYS} days after the start.", "Write days since the seed was set, not a date.")
    if 0 < day < LEAST_DAY:
        return None, (f"Day {value} is minutes after the start.", f"Write 0, or {LEAST_DAY} or more; 12 hours are 0.5.")
    return day, None


def day_text(day: float) -> str:
    """5 or 5.5: at most two decimals, none that say nothing."""
    return f"{int(day * 100 + 0.5) / 100:g}"


def bare(text: str) -> str:
    """A name without space around it and without a spreadsheet's apostrophe."""
    value = tidy(text)
    return value[1:] if GUARDED.match(value) else value


def read_name(text: str) -> tuple[str, Wrong | None]:
    """The name of a test; may be empty."""
    name = bare(text)
    if len(name) > LONGEST_NAME:
        return name, (f"{quoted(name)} has {len(name)} characters; a name has at most {LONGEST_NAME}.", "Shorten it.")
    return name, hidden(name)


def read_number(text: str, if_empty: str, least: int) -> tuple[int | None, Wrong | None]:
    """A whole number of seeds or seedlings; `if_empty` is the remedy for an empty cell."""
    value = tidy(text)
    if not value:
        return None, ("Nothing stands here.", if_empty)
    count, wrong = read_count(value)
    if wrong is None and count < least:
        return None, ("A test of 0 seeds.", "Write how many were set.")
    return count, wrong
