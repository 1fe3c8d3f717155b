"""Units, derived once: °C is what the data holds, °F, inches and ounces are computed here."""

from __future__ import annotations

import math

MM_PER_INCH = 25.4
RULER_FRACTIONS = {0: "", 1: "⅛", 2: "¼", 3: "⅜", 4: "½", 5: "⅝", 6: "¾", 7: "⅞"}


def round_half_up(value: float, digits: int = 0) -> float:
    """Round as people do on paper: 0.5 goes up (away from zero)."""
    scale = 10**digits
    return math.copysign(math.floor(abs(value) * scale + 0.5) / scale, value)


def fahrenheit(celsius: float) -> int:
    """°C → whole °F. Half-degree °C keeps every whole °F from 32 to 110 recoverable."""
    return int(round_half_up(celsius * 1.8 + 32))


def celsius(fahrenheit_value: float) -> float:
    """°F → °C, unrounded."""
    return (fahrenheit_value - 32) / 1.8


def half_degree(celsius_value: float) -> float:
    """°C to the nearest half degree, the form the data holds and pages show."""
    return round_half_up(celsius_value * 2) / 2


def celsius_from_fahrenheit(fahrenheit_value: float) -> float:
    """°F → °C to the nearest half degree, the form the data holds."""
    return half_degree(celsius(fahrenheit_value))


def inches(mm: float, parts: int = 8) -> str:
    """Millimetres → inches as marked on a ruler, to the nearest eighth (or half or quarter, `parts` 2 or 4): 13 → "½", 38 → "1½"."""
    eighths = int(round_half_up(mm / MM_PER_INCH * parts)) * 8 // parts
    whole, part = divmod(eighths, 8)
    return f"{whole if whole or not part else ''}{RULER_FRACTIONS[part]}"


def number(value: float) -> str:
    """A number without a needless ".0"; a true minus sign."""
    text = f"{value:g}"
    return text.replace("-", "−")


def span(low: float, high: float) -> str:
    """"10–35", or one number when both ends are the same."""
    return number(low) if low == high else f"{number(low)}–{number(high)}"
