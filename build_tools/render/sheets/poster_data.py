"""What posters say, in every unit: made once from the rows, for the typesetter here and for the page “Make your poster”."""

from __future__ import annotations

from collections.abc import Iterable

from ...model.reference import Cell, Reference
from ...units import celsius, fahrenheit, half_degree, span
from ..charts.bands import HIGH, LOW, PART_WORDS
from ..charts.emergence import MARKS
from ..rows import (
    BandRow,
    DaysRow,
    LifeRow,
    band_row,
    by_name,
    days_row,
    life_row,
    sow_from,
    tested_temperatures,
)
from ..wording import MONTHS, source_label, years

UNITS = ("C", "F", "both")
TICKS_C, TICKS_F = (0, 10, 20, 30, 40), (40, 60, 80, 100)
SHADES = (3, 7, 14, 30)  # last day of each shade but the palest, which has no end: our own bounds
BAND_QUANTITIES = ("minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c")


def poster_data(reference: Reference) -> dict:
    """JSON of everything a poster of any crops can say.

    library: name, address, site, version; crops: by name {id, name, kind, season, band, days, life}; `tested`: °C of the measured tables.
    Temperatures are {"c": text, "f": text}; places on the scale of warmth stay numbers in °C.
    """
    crops = by_name(reference)
    days = {crop.id: days_row(reference, crop) for crop in crops}
    life = {crop.id: life_row(crop) for crop in crops}
    return {
        "library": library(reference),
        "scale": {"low": LOW, "high": HIGH, "ticks": {"c": [[t, f"{t}"] for t in TICKS_C], "f": [[celsius(t), f"{t}"] for t in TICKS_F]}, "words": PART_WORDS},
        "shades": list(SHADES),
        "tested": [_both(t) for t in tested_temperatures(days.values())],
        "most_years": max([6.0, *(value for row in life.values() for value in (row.high, row.span_high) if value is not None)]),
        "crops": [
            {"id": crop.id, "name": crop.name, "kind": crop.kind, "season": crop["season"].choice, "band": _band(reference, band_row(crop)), "days": _days(reference, days[crop.id]), "life": _life(reference, life[crop.id])}
            for crop in crops
        ],
    }


def library(reference: Reference) -> dict:
    """Whose sheet it is, and from which data."""
    own = reference.library
    return {"name": own["name"], "address": own["address_line"], "site": own["site_url"], "version": own["data_version"], "date": data_month(str(own["data_version"])), "invented": bool(own["invented"])}


def data_month(version: str) -> str:
    """The month of a data version: "2026.11" → "November 2026"; empty when it names none."""
    year, _, month = version.partition(".")
    month = month.split(".")[0]
    return f"{MONTHS[int(month) - 1]} {year}" if month.isdigit() and 1 <= int(month) <= 12 else ""


def _both(value: float, high: float | None = None) -> dict:
    high = value if high is None else high
    return {"c": span(half_degree(value), half_degree(high)), "f": span(fahrenheit(value), fahrenheit(high))}


def _labels(reference: Reference, sources: Iterable[str]) -> list[str]:
    return sorted({source_label(reference, source) for source in sources})


def _band(reference: Reference, row: BandRow) -> dict | None:
    if not row.known:
        return None
    crop, none = row.crop, {"c": "–", "f": "–"}
    sow, _ = sow_from(reference, crop)
    best = none
    if row.best_low is not None:
        best = _both(row.best_low, row.best_high)
    elif row.optimum is not None:
        best = {unit: f"near {text}" for unit, text in _both(row.optimum).items()}
    said = [none if row.minimum is None else _both(row.minimum), best, none if row.maximum is None else _both(row.maximum)]
    return {
        "parts": [[part["part"], part["low"], part["high"]] for part in row.drawn], "optimum": row.optimum, "said": said, "sow": none if sow is None else _both(sow),
        "order": {"minimum": row.minimum, "optimum": row.optimum}, "sources": _labels(reference, (s for q in BAND_QUANTITIES for s in crop[q].sources)),
    }


def _days(reference: Reference, row: DaysRow) -> dict | None:
    usual = row.usual[0] if row.usual else None
    if not row.cells and usual is None:
        return None
    return {
        "cells": [[_both(cell.celsius)["c"], *_cell(cell)] for cell in row.cells],
        "usual": usual and {"days": span(usual["low"], usual["high"]), "at": None if usual["low_c"] is None else _both(usual["low_c"], usual["high_c"])},
        "sources": [source_label(reference, row.source)] if row.cells else [usual["source"]],
    }


def _cell(cell: Cell) -> tuple[int, str]:
    """(shade from 1, the fewest days; 0 without days), the text)."""
    doubt = " ?" if cell.doubt and cell.state != "doubtful" else ""
    if cell.state != "measured":
        return 0, MARKS[cell.state] + doubt
    return shade(cell.value), f"{cell.value:g}{doubt}"


def shade(days: float) -> int:
    """1 (up to SHADES[0] days) to len(SHADES) + 1 (over SHADES[-1] days)."""
    return 1 + sum(days > last for last in SHADES)


def _life(reference: Reference, row: LifeRow) -> dict | None:
    if not row.known:
        return None
    return {
        "low": row.low, "high": row.high, "span": None if row.span_low is None else [row.span_low, row.span_high],
        "text": years(row.low, row.high), "sources": _labels(reference, row.crop["seed_life_years"].sources),
    }
