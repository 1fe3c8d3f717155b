"""Days until seedlings come up, crop by tested temperature: shades for the table, and the figure to explore."""

from __future__ import annotations

from markupsafe import Markup

from ...model.reference import Cell, Crop, Reference
from ...units import half_degree, span
from ..charts.emergence import MARKS, cell_text
from ..rows import DaysRow, days_row, tested_temperatures
from ..sheets.poster_data import SHADES, shade
from ..wording import temperature, temperature_plain
from . import about

DASHES = ("solid", "dash", "dot", "dashdot", "longdash", "longdashdot")
SYMBOLS = ("circle", "square", "diamond", "triangle-up", "triangle-down", "cross", "star")
INKS = ("--ink", "--good", "--bad", "--warn", "--accent", "--ink-soft")  # each stands out from the paper like text
TICKS = (1, 2, 3, 5, 7, 10, 14, 20, 30, 50, 70, 100, 150, 200)
START = 6  # crops in the figure at first: more lines than that are hard to follow
STATES = {"no germination": "none", "not tested": "untested", "doubtful": "doubt", "blank": "untested"}


def key() -> list[tuple[int, str]]:
    """(shade, its days in words)."""
    words = [f"up to {SHADES[0]} days", *(f"{low + 1}–{high} days" for low, high in zip(SHADES, SHADES[1:], strict=False)), f"over {SHADES[-1]} days"]
    return list(enumerate(words, start=1))


def drawn_cell(cell: Cell | None) -> dict:
    """One cell of the table: {text, look, words}; `words` say what a sign means to who cannot see it, empty for plain numbers."""
    if cell is None:
        return {"text": "", "look": "untested", "words": "not printed"}
    if cell.state == "measured":
        return {"text": f"{cell.value:g}", "look": f"shade-{shade(cell.value)}", "words": "in doubt" if cell.doubt else "", "doubt": bool(cell.doubt)}
    words = {"–": "not tested", "?": "in doubt"}.get(MARKS[cell.state], "in doubt" if cell.doubt else "")
    return {"text": MARKS[cell.state], "look": STATES[cell.state], "words": words, "doubt": bool(cell.doubt) and cell.state == "no germination"}


def usual_text(row: DaysRow) -> Markup:
    """Days as advised or usual, each with its temperature (to the half degree) where one is given; the same said twice stands once."""
    found = []
    for usual in row.usual:
        days = f"{span(usual['low'], usual['high'])} day{'' if usual['high'] == 1 else 's'}"
        at = Markup(" at {}").format(temperature(*(half_degree(usual[end]) for end in ("low_c", "high_c")))) if usual["low_c"] is not None else Markup("")
        text = Markup("{}{}").format(days, at)
        if text not in found:
            found.append(text)
    return Markup("; ").join(found)


def drawn(row: DaysRow, tested: list[float]) -> dict:
    """One row of a table."""
    cells = {cell.celsius: cell for cell in row.cells}
    measured = [cell for cell in row.cells if cell.state == "measured"]
    return {
        **about(row.crop), "row": row, "cells": [(c, drawn_cell(cells.get(c))) for c in tested], "usual": usual_text(row),
        "coldest": min((cell.celsius for cell in measured), default=None),
        "said": [(cell.celsius, cell_text(cell, "days"), cell.doubt) for cell in row.cells],
        "usual_sources": sorted({usual["source"] for usual in row.usual}),
    }


def context(reference: Reference, crops: list[Crop]) -> dict:
    """What the template needs."""
    rows = [days_row(reference, crop) for crop in crops]
    tested = tested_temperatures(rows)
    measured = [row for row in rows if row.cells]
    return {
        "tested": tested, "key": key(), "measured": [drawn(row, tested) for row in measured],
        "advised": [drawn(row, tested) for row in rows if not row.cells and row.usual], "unknown": [row.crop for row in rows if not row.cells and not row.usual],
        "doubts": [(row.crop, cell) for row in measured for cell in row.cells if cell.doubt], "sources": sorted({row.source for row in measured}),
    }


def figure(reference: Reference, crops: list[Crop]):
    """(traces, layout) to explore: a line of measured days for each crop, and marks where none came up; °C, days."""
    from .explore import layout, trace

    rows = [row for row in (days_row(reference, crop) for crop in crops) if row.cells]
    traces = []
    for index, row in enumerate(rows):
        measured = [cell for cell in row.cells if cell.state == "measured"]
        look = {"fill": INKS[index % len(INKS)], "line": INKS[index % len(INKS)]}
        traces.append(trace(
            "scatter", mode="lines+markers", name=row.crop.name, x=[cell.celsius for cell in measured], y=[cell.value for cell in measured], customdata=[[row.crop.id, cell.celsius, cell.value] for cell in measured],
            hovertext=[_hover(row, cell) for cell in measured], hoverinfo="text", line={"dash": DASHES[index % len(DASHES)], "width": 2}, marker={"symbol": SYMBOLS[index % len(SYMBOLS)], "size": 9}, meta={"part": "days", **look},
        ))
    none = [(row, cell) for row in rows for cell in row.cells if cell.state == "no germination"]
    if none:
        traces.append(trace(
            "scatter", mode="markers", name="none came up", yaxis="y2", x=[cell.celsius for _, cell in none], y=["none"] * len(none), customdata=[[row.crop.id, cell.celsius, None] for row, cell in none],
            hovertext=[_hover(row, cell) for row, cell in none], hoverinfo="text", marker={"symbol": "x-thin-open", "size": 11}, meta={"part": "none", "fill": "--ink", "line": "--ink", "together": True},
        ))
    widest = sorted(rows, key=lambda row: (-sum(cell.state == "measured" for cell in row.cells), row.crop.name.casefold()))[:START]
    tested = tested_temperatures(rows)
    axes = {
        "yaxis": {"title": {"text": "days until seedlings come up"}, "type": "log", "domain": [0, 0.9], "tickvals": list(TICKS), "ticktext": [f"{tick}" for tick in TICKS], "fixedrange": True, "automargin": True},
        "yaxis2": {"domain": [0.93, 1], "type": "category", "fixedrange": True, "automargin": True},
    }
    ends = (tested[0] - 2, tested[-1] + 2) if tested else (0, 40)
    return traces, layout("days", "Days until seedlings come up, as measured", "celsius", ends, begin=[row.crop.id for row in widest], **axes)


def _hover(row: DaysRow, cell: Cell) -> str:
    doubt = f"\nIn doubt: {cell.doubt}" if cell.doubt else ""
    return f"{row.crop.name}: {cell_text(cell, 'days')} at {temperature_plain(cell.celsius)}{doubt}"
