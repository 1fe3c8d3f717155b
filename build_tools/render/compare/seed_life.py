"""Seed life of all crops on one scale of years: rows for the list, and the figure to explore."""

from __future__ import annotations

from ...model.reference import Crop, Reference
from ..charts.scale import Linear
from ..rows import LifeRow, life_row
from ..wording import years
from . import about

LEAST_SCALE = 6  # years that the scale shows at least
WIDTH, OFFSET = 0.42, -0.5  # of a row's height: in the figure the bar stands above the line of the sources, not under it


def most_years(rows: list[LifeRow]) -> float:
    """The end of the scale."""
    return max([LEAST_SCALE, *(v for row in rows for v in (row.high, row.span_high) if v is not None)]) + 0.5


def description(row: LifeRow) -> str:
    """"About 4 years; independent sources print 3–5 years." in words."""
    if not row.families:
        return f"About {years(row.low, row.high)}; no independent table to compare."
    source = "one independent source prints" if row.families == 1 else f"{row.families} independent sources print"
    return f"About {years(row.low, row.high)}; {source} {years(row.span_low, row.span_high)}."


def drawn(row: LifeRow, x: Linear) -> dict:
    """One row of the list: places in percent of the chart's width beside the words."""
    return {
        **about(row.crop), "row": row, "description": description(row), "low": x(row.low), "wider": round(x(row.high) - x(row.low), 3),
        "span": (x(row.span_low), x(row.span_high)) if row.families else None,
    }


def context(reference: Reference, crops: list[Crop]) -> dict:
    """What the template needs."""
    rows = [life_row(crop) for crop in crops]
    known = [row for row in rows if row.known]
    most = most_years(known)
    x = Linear(0, most)
    step = 1 if most <= 12 else 5
    return {
        "rows": [drawn(row, x) for row in known], "unknown": [row.crop for row in rows if not row.known], "most": most,
        "ticks": [(tick, x(tick)) for tick in range(0, int(most) + 1, step)], "years": years,
    }


def figure(reference: Reference, crops: list[Crop]):
    """(traces, layout) to explore: a bar for the reference value, a line for the span of the independent sources; years."""
    from .explore import crops_axis, layout, trace

    rows = [row for row in map(life_row, crops) if row.known]
    traces = [trace(
        "bar", orientation="h", width=WIDTH, offset=OFFSET, name="this reference", y=[row.crop.name for row in rows], base=[0] * len(rows), x=[row.low for row in rows], customdata=[[row.crop.id, row.low, row.high] for row in rows],
        hovertext=[_hover(row) for row in rows], hoverinfo="text", meta={"part": "life", "fill": "--band-best", "line": "--band-line"},
    )]
    wider = [row for row in rows if row.high > row.low]
    if wider:
        traces.append(trace(
            "bar", orientation="h", width=WIDTH, offset=OFFSET, name="up to", y=[row.crop.name for row in wider], base=[row.low for row in wider], x=[row.high - row.low for row in wider], customdata=[[row.crop.id, row.low, row.high] for row in wider],
            hovertext=[_hover(row) for row in wider], hoverinfo="text", marker={"pattern": {"shape": "/", "size": 6, "solidity": 0.25}}, meta={"part": "range", "fill": "--band-slow", "line": "--band-line", "hatch": "--band-line"},
        ))
    spanned = [row for row in rows if row.families]
    if spanned:
        traces.append(trace(
            "scatter", mode="lines+markers", name="independent sources", connectgaps=False, x=[v for row in spanned for v in (row.span_low, row.span_high, None)], y=[row.crop.name for row in spanned for _ in range(3)],
            customdata=[[row.crop.id, row.span_low, row.span_high] for row in spanned for _ in range(3)], hovertext=[_hover(row) for row in spanned for _ in range(3)], hoverinfo="text",
            line={"width": 2}, marker={"symbol": "line-ns-open", "size": 10}, meta={"part": "span", "fill": "--ink", "line": "--ink"},
        ))
    return traces, layout("seed-life", "Years that seed keeps", "years", (0, most_years(rows)), barmode="overlay", bargap=0.25, yaxis=crops_axis(rows))


def _hover(row: LifeRow) -> str:
    return f"{row.crop.name}\n{description(row)}"
