"""Temperature bands of all crops on one scale: rows for the list, and the figure to explore."""

from __future__ import annotations

import json

from markupsafe import Markup

from ...model.reference import Crop, Reference
from ..calculators import data_json
from ..charts.bands import HIGH, LOW, PART_WORDS, TICKS
from ..charts.scale import Linear
from ..crop_page import reader_data
from ..rows import BandRow, band_row
from ..wording import sentence, temperature, temperature_plain
from . import about

X = Linear(LOW, HIGH)
HATCHES = {"cold": "/", "hot": "\\"}
QUANTITIES = ("minimum", "best range", "optimum", "maximum")


def open_ends(row: BandRow) -> list[tuple[float, float]]:
    """(low, high) in °C where nothing is published: below the lowest known value without a minimum, above the highest without a maximum."""
    known = [v for v in (row.minimum, row.best_low, row.optimum, row.best_high, row.maximum) if v is not None]
    ends = []
    if row.minimum is None:
        ends.append((LOW, min(known)))
    if row.maximum is None:
        ends.append((max(known), HIGH))
    return ends


def values(row: BandRow) -> list[tuple[str, float | None, float | None]]:
    """(name, low, high) of what is said of a crop, None where nothing is published."""
    return [
        ("minimum", row.minimum, row.minimum), ("best range", row.best_low, row.best_high),
        ("optimum", row.optimum, row.optimum), ("maximum", row.maximum, row.maximum),
    ]


def missing(row: BandRow) -> str:
    """"no published minimum or maximum"; empty when all four are known."""
    names = [name for name, low, _ in values(row) if low is None]
    return f"no published {' or '.join([', '.join(names[:-1]), names[-1]] if len(names) > 1 else names)}" if names else ""


def said(row: BandRow) -> Markup:
    """What is known, in both units, for the reader."""
    parts = [Markup("{} {}").format(name, temperature(low, high)) for name, low, high in values(row) if low is not None]
    words = Markup(", ").join(parts)
    return Markup("{}{}.").format(words[:1].upper() + words[1:], f"; {missing(row)}" if missing(row) else "")


def description(row: BandRow) -> str:
    """The same as plain text, for the picture's description."""
    words = ", ".join(f"{name} {temperature_plain(low, high)}" for name, low, high in values(row) if low is not None)
    return sentence(words) + (f"; {missing(row)}" if missing(row) else "") + "."


def drawn(row: BandRow) -> dict:
    """One row of the list: places in percent of the chart's width beside the words."""
    return {
        **about(row.crop), "row": row, "said": said(row), "description": description(row),
        "parts": [{"part": p["part"], "x": X(p["low"]), "width": round(X(p["high"]) - X(p["low"]), 3)} for p in row.drawn],
        "open": [(X(low), X(high)) for low, high in open_ends(row)],
        "at": None if row.optimum is None else X(row.optimum),
    }


def context(reference: Reference, crops: list[Crop]) -> dict:
    """What the template needs."""
    rows = [band_row(crop) for crop in crops]
    known = [row for row in rows if row.known]
    return {
        "rows": [drawn(row) for row in known], "unknown": [row.crop for row in rows if not row.known],
        "ticks": [(tick, X(tick)) for tick in TICKS], "data_json": data_json({row.crop.id: json.loads(reader_data(row.crop)) for row in known}),
        "partial": sum(1 for row in known if missing(row)), "part_words": PART_WORDS,
    }


def figure(reference: Reference, crops: list[Crop]):
    """(traces, layout) to explore: a bar for each part, a mark for each optimum; °C."""
    from .explore import crops_axis, layout, trace

    rows = [row for row in map(band_row, crops) if row.known]
    traces = []
    for part, word in {**PART_WORDS, "between": "no best range"}.items():
        found = [(row, p) for row in rows for p in row.drawn if p["part"] == part]
        if found:
            hatch = {"pattern": {"shape": HATCHES[part], "size": 6, "solidity": 0.25}} if part in HATCHES else {}
            traces.append(trace(
                "bar", orientation="h", name=word, y=[row.crop.name for row, _ in found], base=[p["low"] for _, p in found], x=[p["high"] - p["low"] for _, p in found],
                customdata=[[row.crop.id, p["low"], p["high"]] for row, p in found], hovertext=[_hover(row, word, p) for row, p in found], hoverinfo="text",
                marker=hatch, meta={"part": part, "fill": "--paper" if part == "between" else f"--band-{part}", "line": "--band-line", "hatch": "--paper" if part == "hot" else "--band-line"},
            ))
    best = [row for row in rows if row.optimum is not None]
    if best:
        traces.append(trace(
            "scatter", mode="markers", name="optimum", y=[row.crop.name for row in best], x=[row.optimum for row in best], customdata=[[row.crop.id, row.optimum, row.optimum] for row in best],
            hovertext=[f"{row.crop.name}: optimum {temperature_plain(row.optimum)}\n{description(row)}" for row in best], hoverinfo="text", marker={"symbol": "diamond", "size": 9}, meta={"part": "optimum", "fill": "--ink", "line": "--paper"},
        ))
    return traces, layout("warmth", "Soil temperature for germination", "celsius", (LOW, HIGH), barmode="overlay", bargap=0.25, yaxis=crops_axis(rows))


def _hover(row: BandRow, word: str, part: dict) -> str:
    """The whole band in words; the ends of the chart are no values and are not said."""
    if part["part"] == "cold":
        span = f"below {temperature_plain(part['high'])}"
    elif part["part"] == "hot":
        span = f"above {temperature_plain(part['low'])}"
    else:
        span = temperature_plain(part["low"], part["high"])
    return f"{row.crop.name}: {word}, {span}\n{description(row)}"
