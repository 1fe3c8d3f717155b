"""What the calculators on warmth know of a crop: its band, the curves through what was measured, and usual days."""

from __future__ import annotations

import math

from ...model.reference import Crop, MeasuredRow, Reference
from ...science.emergence import cubics
from ...units import celsius
from ..wording import source_label

BAND = ("minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c")


def crop_warmth(reference: Reference, crop: Crop) -> dict:
    """JSON of one crop: name, season, band (°C, None where not published), days, percent, usual.

    `days` and `percent` are None without two measured temperatures, else {"curve", "cells", "none_below", "none_above", "source"};
    `usual` lists days printed without a measurement: {"low", "high", "low_c", "high_c", "source"}, °C None where none is given.
    """
    return {
        "name": crop.name,
        "season": crop["season"].choice,
        "band": {key: crop[key].low for key in BAND},
        "days": _measured(reference, crop.days, logarithm=True),
        "percent": _measured(reference, crop.percents, logarithm=False),
        "usual": usual_days(reference, crop),
    }


def _measured(reference: Reference, rows: tuple[MeasuredRow, ...], *, logarithm: bool) -> dict | None:
    points = rows[0].points() if rows else ()
    if len(points) < 2:
        return None
    temperatures, values = zip(*points, strict=True)
    none = [cell.celsius for cell in rows[0].cells if cell.state == "no germination"]
    return {
        "curve": _short(cubics(temperatures, [math.log(v) for v in values] if logarithm else values)),
        "cells": [[cell.celsius, cell.state, cell.value] for cell in rows[0].cells if cell.state != "blank"],
        "none_below": max((c for c in none if c < temperatures[0]), default=None),
        "none_above": min((c for c in none if c > temperatures[-1]), default=None),
        "source": source_label(reference, rows[0].source),
        "note": rows[0].note,
    }


def _short(curve: dict) -> dict:
    """The curve with nine decimals: the page gets shorter, the days stay the same to a second."""
    return {"knots": curve["knots"], "cubics": [[round(value, 9) for value in cubic] for cubic in curve["cubics"]]}


def usual_days(reference: Reference, crop: Crop) -> list[dict]:
    """Days as advised or usual, from sources that count, those that name a temperature first."""
    found = []
    for kind in ("germination-temperature", "days-usual"):
        for row in crop.rows.get(kind, ()):
            cells = row.cells
            if not cells.get("days_min") or not reference.sources[row.source].counts:
                continue
            low, high = (_celsius(cells, end) for end in ("low", "high"))
            found.append({
                "low": float(cells["days_min"]), "high": float(cells.get("days_max") or cells["days_min"]),
                "low_c": low, "high_c": high if high is not None else low, "source": source_label(reference, row.source),
            })
    return sorted(found, key=lambda row: row["low_c"] is None)


def _celsius(cells, end: str) -> float | None:
    if cells.get(f"temp_{end}_c"):
        return float(cells[f"temp_{end}_c"])
    return round(celsius(float(cells[f"temp_{end}_f"])), 1) if cells.get(f"temp_{end}_f") else None


def crops_json(reference: Reference) -> dict[str, dict]:
    """crop_warmth of every crop by id, in order of names."""
    return {crop.id: crop_warmth(reference, crop) for crop in sorted(reference.crops.values(), key=lambda c: c.name.casefold())}


def example_crop(reference: Reference) -> str:
    """The crop a reader meets first: the one with most measured temperatures whose band is wholly known, the last of them by name."""
    known = [c for c in reference.crops.values() if c.days and all(c[key].known for key in ("minimum_c", "optimum_low_c", "maximum_c"))]
    return max(known, key=lambda c: (len(c.days[0].points()) + len(c.percents[0].points() if c.percents else ()), c.id), default=next(iter(reference.crops.values()))).id
