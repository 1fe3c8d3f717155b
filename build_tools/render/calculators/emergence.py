"""Days to emergence at the reader's temperature, with the errors of the curve it is read from."""

from __future__ import annotations

from collections import Counter
from functools import lru_cache

from ...model.reference import MeasuredRow, Reference
from ...science.emergence import percent_curve
from ...science.held_out import MODELS, errors, held_out_pairs, point_errors
from ..charts.emergence import cell_text
from . import Calculator, frame_context
from .warmth import crops_json, example_crop


def table_measured(reference: Reference, what: str) -> tuple[str, list[tuple[str, MeasuredRow]]]:
    """(source, [(names of the crops it stands for, row)]) of the table with most rows among the first of each crop; `what` is "days" or "percents"."""
    firsts: dict[tuple[str, int], tuple[list[str], MeasuredRow]] = {}
    for crop in sorted(reference.crops.values(), key=lambda c: c.name.casefold()):
        for row in getattr(crop, what)[:1]:
            firsts.setdefault((row.file, row.line), ([], row))[0].append(crop.name)
    if not firsts:
        return "", []
    source = Counter(row.source for _, row in firsts.values()).most_common(1)[0][0]
    return source, [(", ".join(names), row) for names, row in firsts.values() if row.source == source]


@lru_cache(maxsize=2)
def _errors(rows: tuple) -> dict[str, dict[str, float]]:
    return {name: errors(held_out_pairs(rows, model)) for name, model in MODELS.items()}


def model_errors(reference: Reference) -> dict[str, dict[str, float]]:
    """Errors of each model of days by its name, over the table with most rows; empty without one."""
    _, rows = table_measured(reference, "days")
    points = tuple(row.points() for _, row in rows)
    return _errors(points) if held_out_pairs(points, MODELS[next(iter(MODELS))]) else {}


def used_errors(reference: Reference) -> dict[str, float] | None:
    """Errors of the curve in use, the first of the models."""
    found = model_errors(reference)
    return next(iter(found.values())) if found else None


def percent_errors(reference: Reference) -> dict[str, float] | None:
    """Errors in points of the curve through percentages, over the table of percentages with most rows."""
    _, rows = table_measured(reference, "percents")
    pairs = held_out_pairs([row.points() for _, row in rows], percent_curve)
    return point_errors(pairs) if pairs else None


def warmth_data(reference: Reference) -> dict:
    """What every calculator about warmth gives the browser: crops, the example, the errors of the curve."""
    return {"crops": crops_json(reference), "example_crop": example_crop(reference), "held_out": used_errors(reference)}


def context(reference: Reference) -> dict:
    source, rows = table_measured(reference, "days")
    temperatures = sorted({cell.celsius for _, row in rows for cell in row.cells})
    return {
        "calculator": frame_context({**warmth_data(reference), "give_up": reference.practice["give_up_times"]}),
        "source": source,
        "temperatures": temperatures,
        "rows": [{"name": name, "cells": [_short(row, celsius) for celsius in temperatures], "note": row.note} for name, row in rows],
        "errors": [{"name": name, **{key: round(value, 2) for key, value in found.items()}} for name, found in model_errors(reference).items()],
        "percent_errors": {key: round(value) for key, value in (percent_errors(reference) or {}).items()},
    }


def _short(row: MeasuredRow, celsius: float) -> str:
    """A cell for a wide table: the days alone, "none", "not tested"."""
    cell = next((c for c in row.cells if c.celsius == celsius), None)
    text = cell_text(cell, "days")
    return f"{cell.value:g}" if cell and cell.state == "measured" else {"no germination": "none"}.get(text, text)


CALCULATOR = Calculator(
    "calculators/emergence",
    "Days to emergence",
    "How warm is it: how many come up, and in how many days?",
    "Days to emergence and percentage of seedlings for a crop at your soil temperature, from measured tables, as a range, never beyond what was tested.",
    "calculators/emergence.html",
    context,
)
