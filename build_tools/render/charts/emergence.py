"""Seedlings and days by temperature: points as measured, a curve between them, nothing beyond them."""

from __future__ import annotations

from markupsafe import Markup

from ...model.reference import Cell, Crop, MeasuredRow
from .scale import Linear, Log

X = Linear(-2.0, 44.0)
TICKS = (0, 10, 20, 30, 40)
STEP = 5  # °C between tested temperatures; a wider gap is drawn dashed
PERCENT_TOP, PERCENT_BOTTOM = 34, 164
DAYS_TOP, DAYS_BOTTOM = 218, 358
DAY_TICKS = (1, 3, 10, 30, 100)
MARKS = {"no germination": "none", "not tested": "–", "doubtful": "?"}


def _points(row: MeasuredRow | None, y) -> list[dict]:
    return [{"x": X(c.celsius), "y": y(c.value), "text": f"{c.value:g}", "doubt": c.doubt} for c in (row.cells if row else ()) if c.state == "measured"]


def _marks(row: MeasuredRow | None) -> list[dict]:
    return [{"x": X(c.celsius), "text": MARKS[c.state]} for c in (row.cells if row else ()) if c.state in MARKS]


def _curves(points: list[tuple[float, float]], row: MeasuredRow | None, y) -> list[dict]:
    """Polylines between measured temperatures, each {path, dashed}; x in 0…1000 of the chart's width, y in pixels."""
    if row is None:
        return []
    measured = [c.celsius for c in row.cells if c.state == "measured"]
    curves = []
    for low, high in zip(measured, measured[1:]):
        between = [(t, v) for t, v in points if low <= t <= high and v is not None]
        path = " ".join(f"{X(t) * 10:.1f},{y(v):.1f}" for t, v in between)
        curves.append({"path": path, "dashed": high - low > STEP})
    return curves


def table_rows(crop: Crop) -> list[dict]:
    """The data table under the chart: a row for each temperature with a printed cell in either table."""
    rows: dict[float, dict[str, Cell]] = {}
    for name, found in (("percent", crop.percents), ("days", crop.days)):
        for cell in found[0].cells if found else ():
            if cell.state != "blank":
                rows.setdefault(cell.celsius, {})[name] = cell
    return [{"celsius": celsius, "percent": rows[celsius].get("percent"), "days": rows[celsius].get("days")} for celsius in sorted(rows)]


def cell_text(cell: Cell | None, unit: str) -> str:
    """A cell in words: "97 %", "8 days", "no germination", "not tested", "printed 0(6): in doubt"."""
    if cell is None:
        return "not printed"
    if cell.state == "measured":
        return f"{cell.value:g}{' %' if unit == '%' else (' day' if cell.value == 1 else ' days')}"
    if cell.state == "doubtful":
        return f"printed {cell.as_printed}: in doubt"
    return cell.state


def emergence_chart(crop: Crop, environment) -> Markup:
    """Inline SVG; an empty string when nothing was measured."""
    percent_row = crop.percents[0] if crop.percents else None
    days_row = crop.days[0] if crop.days else None
    if not percent_row and not days_row:
        return Markup("")
    percent_y, days_y = Linear(0, 100, PERCENT_BOTTOM, PERCENT_TOP), Log(1, 200, DAYS_BOTTOM, DAYS_TOP)
    sentences = [
        f"{row['celsius']:g} °C: {cell_text(row['percent'], '%')}, {cell_text(row['days'], 'days')}." for row in table_rows(crop)
    ]
    return Markup(
        environment.get_template("charts/emergence.svg").render(
            crop=crop,
            ticks=[(tick, X(tick)) for tick in TICKS],
            percent_ticks=[(v, percent_y(v)) for v in (0, 50, 100)],
            day_ticks=[(v, days_y(v)) for v in DAY_TICKS],
            percents={"points": _points(percent_row, percent_y), "marks": _marks(percent_row), "curves": _curves([(a.celsius, a.percent) for a in crop.by_temperature], percent_row, percent_y)},
            days={"points": _points(days_row, days_y), "marks": _marks(days_row), "curves": _curves([(a.celsius, a.days) for a in crop.by_temperature], days_row, days_y)},
            description=" ".join(sentences),
        )
    )
