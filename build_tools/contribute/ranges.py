"""The lowest and highest of what a cell prints, when only one reading is possible: "7-10", "3 to 5", "10+", "1-1 1/2", "2 to 3 weeks"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from ..units import MM_PER_INCH, round_half_up

NUMBER = r"(?:\d{1,3}(?:,\d{3})+|\d+(?:\.\d+)?)"
AMOUNT = rf"(?:{NUMBER}\s+\d/[1-9]\d?|\d/[1-9]\d?|{NUMBER})"
FRACTIONS = {"⅛": "1/8", "¼": "1/4", "⅜": "3/8", "½": "1/2", "⅝": "5/8", "¾": "3/4", "⅞": "7/8"}
UNITS = r"(?:°|º)?\s*(?:days?|weeks?|wks?|years?|yrs?|months?|inch(?:es)?|in\.?|\"|″|”|mm|cm|°?\s*[fc])?"
ONE = re.compile(rf"(?:about|ca\.?|c\.|approx\.?|~)?\s*({AMOUNT})\s*({UNITS})")
TWO = re.compile(rf"({AMOUNT})\s*({UNITS})\s*(?:-|–|—|to|or)\s*({AMOUNT})\s*({UNITS})")
OPEN = re.compile(rf"({AMOUNT})\s*({UNITS})\s*(?:\+|or more|and more|and over|or over)|(?:at least|over|more than)\s+({AMOUNT})\s*({UNITS})")
WORDS = {word: str(number) for number, word in enumerate("one two three four five six seven eight nine ten eleven twelve".split(), start=1)}
MONTHS = "jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec"
DATE = re.compile(rf"\d{{1,2}}[-/. ](?:{MONTHS})[a-z]*(?:[-/. ]\d{{2,4}})?|(?:{MONTHS})[a-z]*[-/. ]\d{{1,4}}|\d{{4}}-\d{{2}}-\d{{2}}(?: 00:00(?::00)?)?|\d{{1,2}}/\d{{1,2}}/\d{{2,4}}", re.I)
FIRST_UNIT = {"d": "days", "w": "weeks", "y": "years", "m": "months", "i": "inch", '"': "inch", "″": "inch", "”": "inch"}


@dataclass(frozen=True)
class Filled:
    """Printed column, the two that are filled from it, and what they hold: days | years | inch (as mm) | plain | temperature."""

    printed: str
    low: str
    high: str
    holds: str


def is_date(cell: str) -> bool:
    """Whether the whole cell is a date such as a spreadsheet makes of 7-10 ("10-Jul", "2026-07-10")."""
    return DATE.fullmatch(cell.strip()) is not None


def pairs(columns: Iterable[str], unit: str = "") -> list[Filled]:
    """What can be filled in a kind of table with these columns; `unit` ("f", "c" or "") is that of ranges of temperature that say none."""
    columns = set(columns)
    found = []
    for printed in sorted(c for c in columns if c.endswith("_as_printed")):
        stem = printed.removesuffix("_as_printed")
        if stem == "depth_in":
            ends = ("depth_mm_min", "depth_mm_max", "inch")
        elif stem == "opt_range" and unit:
            ends = (f"opt_low_{unit}", f"opt_high_{unit}", "temperature")
        elif stem == "temp":
            ends = ("temp_low_{}", "temp_high_{}", "temperature")
        else:
            ends = (f"{stem}_min", f"{stem}_max", stem if stem in ("days", "years") else "plain")
        if {ends[0].format("c"), ends[1].format("c")} <= columns or {ends[0].format("f"), ends[1].format("f")} <= columns:
            found.append(Filled(printed, *ends))
    return found


def read_range(cell: str, holds: str) -> tuple[str, str, str] | None:
    """(lowest, highest, unit of temperature or "") of a printed cell as the data writes numbers; None when it can be read in more than one way.

    The highest is "" for an open range. Inches become whole millimetres, weeks become days. A falling range is not read.
    """
    text = _plain(cell)
    if holds == "inch" and text in ("surface", "on surface", "on the surface", "surface sow"):
        return "0", "0", ""
    if found := TWO.fullmatch(text):
        first, unit, second, last_unit = found.groups()
        unit, last_unit = _unit(unit), _unit(last_unit)
        if unit and last_unit and unit != last_unit:
            return None
        ends: tuple[str, str] = (first, second)
        unit = unit or last_unit
    elif found := OPEN.fullmatch(text):
        ends, unit = (found[1] or found[3], ""), _unit(found[2] or found[4] or "")
    elif found := ONE.fullmatch(text):
        ends, unit = (found[1], found[1]), _unit(found[2])
    else:
        return None
    factor = _factor(unit, holds)
    if factor is None:
        return None
    values = [_amount(end) * factor if end else None for end in ends]
    if values[1] is not None and values[0] > values[1]:
        return None
    low, high = ("" if value is None else _written(value, holds) for value in values)
    return low, high, unit if unit in ("f", "c") else ""


def _plain(cell: str) -> str:
    text = " ".join(cell.casefold().replace("\u00a0", " ").replace("\u2044", "/").split())
    for sign, written in FRACTIONS.items():
        text = text.replace(sign, f" {written}")
    text = re.sub(r"\s+", " ", text).strip()
    return re.sub(r"[a-z]+", lambda word: WORDS.get(word[0], word[0]), text)


def _unit(text: str) -> str:
    """One word for a unit: days, weeks, years, months, inch, mm, cm, f, c, or ""."""
    plain = text.replace("°", "").replace("º", "").strip()
    if plain in ("", "f", "c", "mm", "cm"):
        return plain
    return FIRST_UNIT[plain[0]]


def _factor(unit: str, holds: str) -> float | None:
    """What a number in that unit is multiplied by; None when the column holds something else."""
    allowed = {
        "days": {"": 1.0, "days": 1.0, "weeks": 7.0},
        "years": {"": 1.0, "years": 1.0},
        "inch": {"": MM_PER_INCH, "inch": MM_PER_INCH, "mm": 1.0, "cm": 10.0},
        "temperature": {"": 1.0, "f": 1.0, "c": 1.0},
        "plain": {"": 1.0},
    }
    return allowed[holds].get(unit)


def _amount(text: str) -> float:
    """1 1/2, 3/4, 2,520 or 12.5 as a number."""
    total = 0.0
    for part in text.replace(",", "").split():
        top, _, bottom = part.partition("/")
        total += float(top) / float(bottom) if bottom and float(bottom) else float(top)
    return total


def _written(value: float, holds: str) -> str:
    return f"{round_half_up(value):.0f}" if holds == "inch" else f"{round(value, 2):.10g}"
