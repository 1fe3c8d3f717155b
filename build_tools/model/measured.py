"""Days and percentages by temperature: cells with their state, and what lies between them."""

from __future__ import annotations

from ..check.tables import GRID_C, doubts_of, tables_of
from ..read import DataTree
from ..science.emergence import days_curve, half_degrees, percent_curve
from .reference import At, Cell, MeasuredRow

WORDS = {"NG": "no germination", "NT": "not tested", "-": "not tested", "": "blank"}


def _cell(celsius: float, text: str, doubt: dict | None, percent: bool) -> Cell:
    """One printed cell: "12", "61(53)", "NG", "NT", "-" or empty; a doubt may take it out of use."""
    why = doubt["why"] if doubt else ""
    action = doubt["action"] if doubt else ""
    if action == "not-tested":
        return Cell(celsius, "not tested", None, text, why)
    if action in ("leave-out", "leave-out-percent"):
        return Cell(celsius, "doubtful", None, text, why)
    if text in WORDS:
        return Cell(celsius, WORDS[text], None, text, why)
    value = float(text.split("(")[0]) if percent else float(text.split("(")[-1].rstrip(")"))
    return Cell(celsius, "measured", value, text, why)


def measured_rows(tree: DataTree, kind: str) -> dict[str, list[MeasuredRow]]:
    """Rows of days-by-temperature or normal-seedlings-by-temperature tables, by crop id."""
    found: dict[str, list[MeasuredRow]] = {}
    for source, entry, table in tables_of(tree, kind):
        for row in table.rows:
            doubted = doubts_of(entry, table, row)
            cells = tuple(_cell(c, row[column], doubted.get(column), kind.startswith("normal")) for column, c in GRID_C.items() if column in table.columns)
            measured = MeasuredRow(source, table.file, row.line, row["note"], cells)
            for crop in filter(None, row["crop_id"].split(";")):
                found.setdefault(crop, []).append(measured)
    for rows in found.values():  # the fullest row first: it is the one drawn and interpolated
        rows.sort(key=lambda r: (-len(r.points()), r.source))
    return found


def by_temperature(days: list[MeasuredRow], percents: list[MeasuredRow]) -> tuple[At, ...]:
    """Days and percent at every half degree inside the tested temperatures, rounded to what the data carries."""
    day_points = days[0].points() if days else ()
    percent_points = percents[0].points() if percents else ()
    day_at = days_curve(*zip(*day_points)) if len(day_points) > 1 else None
    percent_at = percent_curve(*zip(*percent_points)) if len(percent_points) > 1 else None
    edges = [t for t, _ in (day_points if day_at else ())] + [t for t, _ in (percent_points if percent_at else ())]
    if not edges:
        return ()

    def at(curve, celsius):
        value = float(curve(celsius)) if curve else float("nan")
        return None if value != value else round(value, 1)

    return tuple(At(t, at(day_at, t), at(percent_at, t)) for t in half_degrees(min(edges), max(edges)))
