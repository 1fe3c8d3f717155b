"""Seed life: one bar for each source family, the reference value as a line across."""

from __future__ import annotations

from markupsafe import Markup

from ...model.reference import Crop, Reference
from ..wording import source_label, years
from .scale import Linear


ROW = 40  # pixels


def seed_life_chart(crop: Crop, reference: Reference, environment) -> Markup:
    """Inline SVG; an empty string when no source prints a seed life."""
    families = [f for f in crop["seed_life_years"].families if f.low is not None]
    if not families:
        return Markup("")
    judged = crop["seed_life_years"]
    high = max([f.high for f in families] + [judged.high or 0, 6])
    x = Linear(0, high + 0.5)
    rows = []
    for family in families:
        sources = sorted({p.source for p in family.printed})
        label = source_label(reference, sources[0])
        more = f" and {len(sources) - 1} more alike" if len(sources) > 1 else ""
        kind = "" if family.counts else " (not counted)"
        rows.append({"label": label + more + kind, "x1": x(0), "x2": x(family.low), "x3": x(family.high), "wider": round(x(family.high) - x(family.low), 3), "y": 16 + ROW * len(rows), "text": years(family.low, family.high), "counts": family.counts})
    step = 1 if high <= 8 else 2 if high <= 14 else 5
    return Markup(
        environment.get_template("charts/seed-life.svg").render(
            crop=crop, rows=rows, height=ROW * len(rows) + 50, reference_x=x(judged.low) if judged.known else None,
            ticks=[(v, x(v)) for v in range(0, int(high) + 1, step)],
            description=(f"Reference: about {years(judged.low)}. " if judged.known else "No reference value. ") + " ".join(f"{r['label']}: {r['text']}." for r in rows),
        )
    )
