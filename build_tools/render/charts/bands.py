"""The temperature-band chart: the reference band on top, one thin bar for every source that prints a band."""

from __future__ import annotations

from markupsafe import Markup

from ...model.reference import Crop, Reference
from ...units import celsius
from ..wording import source_label, temperature_plain
from .scale import Linear

LOW, HIGH = -4.0, 46.0
ROWS_TOP, ROW = 96, 34  # pixels: baseline of the first source, height of one
PERCENT_A_LETTER = 2.2  # of a phone's width
TICKS = (0, 10, 20, 30, 40)
PART_WORDS = {"cold": "too cold", "slow": "slow", "best": "best", "fading": "warm", "hot": "too hot"}


def reference_parts(crop: Crop) -> list[dict]:
    """The parts of the reference band that the known values allow: {part, low, high} in °C, cold to hot."""
    minimum, maximum = crop["minimum_c"].low, crop["maximum_c"].low
    best_low, best_high = crop["optimum_low_c"].low, crop["optimum_high_c"].low
    if best_low is None and crop["optimum_c"].known:
        best_low, best_high = crop["optimum_c"].low - 1, crop["optimum_c"].low + 1
    parts = []
    if minimum is not None:
        parts.append({"part": "cold", "low": LOW, "high": minimum})
        if best_low is not None and best_low > minimum:
            parts.append({"part": "slow", "low": minimum, "high": best_low})
    if best_low is not None:
        parts.append({"part": "best", "low": best_low, "high": best_high})
    if maximum is not None:
        if best_high is not None and maximum > best_high:
            parts.append({"part": "fading", "low": best_high, "high": maximum})
        parts.append({"part": "hot", "low": maximum, "high": HIGH})
    return parts


def _number(cells, name):
    """A printed band column in °C, whichever unit it is printed in; None when empty."""
    if cells.get(f"{name}_f"):
        return celsius(float(cells[f"{name}_f"]))
    return float(cells[f"{name}_c"]) if cells.get(f"{name}_c") else None


def source_bands(crop: Crop, reference: Reference) -> list[dict]:
    """Rows of the chart: each printed band or germination temperature, as {source, label, low, high, best_low, best_high, optimum}, and where it stands."""
    rows, seen = [], []
    for kind, names in (("temperature-bands", ("min", "max", "opt_low", "opt_high", "opt")), ("germination-temperature", (None, None, "temp_low", "temp_high", None))):
        for row in crop.rows.get(kind, ()):
            low, high, best_low, best_high, optimum = (None if n is None else _number(row.cells, n) for n in names)
            if best_high is None:
                best_high = best_low
            if optimum is None and best_low is not None and best_low == best_high:
                optimum = best_low
            band = {"source": row.source, "label": source_label(reference, row.source), "low": low, "high": high, "best_low": best_low, "best_high": best_high, "optimum": optimum, "counts": reference.sources[row.source].counts, "doubt": row.doubt}
            if any(v is not None for v in (low, high, best_low, optimum)) and band not in seen:
                seen.append(band)
                rows.append({**band, "file": row.file, "line": row.line})
    return rows


def _words(row: dict) -> str:
    parts = [f"{word} {temperature_plain(row[key])}" for key, word in (("low", "minimum"), ("optimum", "optimum"), ("high", "maximum")) if row[key] is not None]
    if row["best_low"] is not None and row["best_low"] != row["best_high"]:
        parts.insert(1 if row["low"] is not None else 0, f"range {temperature_plain(row['best_low'], row['best_high'])}")
    return ", ".join(parts)


def _word(part: dict, x: Linear) -> dict:
    """The word of a part and its middle; no word where the part is too narrow for it on a phone."""
    word, low, high = PART_WORDS[part["part"]], x(part["low"]), x(part["high"])
    return {"word": word if high - low > len(word) * PERCENT_A_LETTER else "", "middle": round((low + high) / 2, 3)}


def _places(row: dict, x: Linear) -> dict:
    """Where a row's span, best range and optimum stand, in percent of the width."""
    known = [row[key] for key in ("low", "best_low", "optimum", "best_high", "high") if row[key] is not None]
    best = row["best_low"] is not None
    return {"x1": x(min(known)), "x2": x(max(known)), "b1": x(row["best_low"]) if best else None, "b2": x(row["best_high"]) if best else None, "o": None if row["optimum"] is None else x(row["optimum"])}


def band_chart(crop: Crop, reference: Reference, environment) -> Markup:
    """Inline SVG; an empty string when nothing is known about warmth."""
    parts, rows = reference_parts(crop), source_bands(crop, reference)
    if not parts and not rows:
        return Markup("")
    x = Linear(LOW, HIGH)
    known = [f"{label} {temperature_plain(crop[q].low)}" for q, label in (("minimum_c", "minimum"), ("optimum_c", "optimum"), ("maximum_c", "maximum")) if crop[q].known]
    return Markup(
        environment.get_template("charts/bands.svg").render(
            crop=crop,
            parts=[{**p, "x": x(p["low"]), "width": round(x(p["high"]) - x(p["low"]), 3), **_word(p, x)} for p in parts],
            optimum=x(crop["optimum_c"].low) if crop["optimum_c"].known else None,
            rows=[{**r, **_places(r, x), "y": ROWS_TOP + ROW * i} for i, r in enumerate(rows)],
            height=ROWS_TOP + ROW * len(rows) + 34,
            ticks=[(tick, x(tick)) for tick in TICKS],
            description=f"Reference: {', '.join(known) or 'no published minimum, optimum or maximum'}. " + " ".join(f"{r['label']}: {_words(r)}." for r in rows),
        )
    )
