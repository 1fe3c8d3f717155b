"""Soak and treatment times: what each treatment needs, when it is done, and for what it is not."""

from __future__ import annotations

from ...model.reference import Crop, Reference, TableRow, Treatment, Words
from ...model.treatment_times import Span, TimedStep, Way
from ...science.dilution import (
    METRIC_CUP_ML,
    METRIC_TABLESPOON_ML,
    US_CUP_ML,
    US_TABLESPOON_ML,
    mixed_strength,
    stock_needed,
    topped_up_strength,
)
from ...units import celsius, number, span
from ..list_pages import by_name
from ..short_answer import NAMED
from ..wording import ADVICE_WORDS, GRADE_WORDS, source_label
from . import Calculator, frame_context

HOT_WATER, SOAK = "hot-water", "soak"
SLIGHT = 1e-9  # so that half a hundredth goes up
BOTTLES = (1, 1.5, 2, 2.5, 3)
SEEDS = [("raw", "raw, not treated"), ("treated", "treated or dyed"), ("coated", "pelleted or coated"), ("primed", "primed"), ("old", "old or weak")]


def offered(treatment: Treatment) -> bool:
    """Whether the page can be asked for it: it has times, or the reason for having none."""
    return bool(treatment.times.ways or treatment.times.reason)


def baths(reference: Reference, crop: Crop) -> list[dict]:
    """The published hot-water tables of a crop, those first that its own page cites: temperatures in both units as printed.

    Doubted rows and sources that are not counted are left out. The unit that a source does not print is converted to a tenth.
    """
    cited = [source for entry in crop.pretreatments if entry.about == HOT_WATER for source in entry.sources]
    rows = [r for r in crop.rows.get("treatment-evidence", ()) if r.cells["treatment"] == HOT_WATER and r.cells.get("minutes") and reference.sources[r.source].counts and not r.doubt]
    rows.sort(key=lambda r: (cited.index(r.source) if r.source in cited else len(cited), r.source, r.line))
    return [_bath(row) for row in rows]


def _bath(row: TableRow) -> dict:
    cells = row.cells
    warming = {"c": round(celsius(float(cells["preheat_f"])), 1), "f": float(cells["preheat_f"]), "minutes": float(cells["preheat_min"])} if cells.get("preheat_f") else None
    fahrenheit = float(cells["temp_f"]) if cells.get("temp_f") else round(float(cells["temp_c"]) * 1.8 + 32, 1)
    return {"source": row.source, "note": cells.get("note", ""), "warming": warming, "bath": {"c": float(cells["temp_c"]), "f": fahrenheit, "minutes": float(cells["minutes"])}}


def _said(words: Words) -> dict:
    found = {"text": words.text, "from": list(words.sources)}
    if words.grade:
        found["grade"] = words.grade
    if words.advice:
        found["advice"] = words.advice
    return found


def _step(step: TimedStep) -> dict:
    found = {"label": step.label, "text": step.text, "from": list(step.sources)}
    if step.lasts:
        found["lasts"] = {"low": step.lasts.low, "high": step.lasts.high, "unit": step.lasts.unit, "inAll": step.lasts.in_all}
    for key, value in (("table", step.from_table), ("until", step.until), ("at", step.at_c), ("look", step.look_every)):
        if value is not None:
            found[key] = value
    return found


def _way(way: Way) -> dict:
    return {"id": way.id, "name": way.name, "crops": list(way.crops), "withoutCrop": way.without_crop, "steps": [_step(s) for s in way.steps], "note": way.note}


def _in_weeks(treatment: Treatment) -> bool:
    """Whether it takes weeks or months: then a packet may print weeks of its own."""
    units = {step.lasts.unit for way in treatment.times.ways for step in way.steps if step.lasts}
    return bool(units & {"weeks", "months"})


def _treatment(treatment: Treatment) -> dict:
    times = treatment.times
    return {
        "name": treatment.name,
        "what": treatment.what,
        "laboratory": treatment.laboratory_only,
        "cautions": [_said(w) for w in treatment.cautions],
        "evidence": [_said(w) for w in treatment.evidence],
        "ways": [_way(w) for w in times.ways],
        "amounts": {key: {("from" if k == "sources" else k): v for k, v in value.items()} for key, value in times.amounts.items()},
        "notFor": [{"crops": list(n.crops), "seed": n.seed, "text": n.text, "from": list(n.sources)} for n in times.not_for],
        "countsAs": list(times.counts_as),
        "reason": {"text": times.reason[0], "from": list(times.reason[1])} if times.reason else None,
        "dangerous": treatment.hazard,
        "ownWeeks": _in_weeks(treatment),
    }


def _crop(reference: Reference, crop: Crop) -> dict:
    low, high, one = crop["optimum_low_c"].low, crop["optimum_high_c"].low, crop["optimum_c"].low
    said: dict[str, list] = {}
    for entry in crop.pretreatments:
        if offered(reference.treatments[entry.about]):
            said.setdefault(entry.about, []).append(_said(entry))
    found = {"name": crop.name, "said": said, "lastCount": crop.method.final_count_days if crop.method else None}
    if low is not None and high is not None or one is not None:
        found["best"] = [low, high] if low is not None and high is not None else [one, one]
    if tables := baths(reference, crop):
        found["baths"] = tables
    return found


def _soaking_findings(crop: Crop) -> int:
    return sum(row.cells["treatment"] == SOAK for row in crop.rows.get("treatment-evidence", ()))


def calculator_data(reference: Reference) -> dict:
    """What the browser gets: treatments, what is said of each crop, hot-water tables, names of sources."""
    crops = sorted(reference.crops.values(), key=lambda crop: crop.name)
    data = {
        "crops": {crop.id: _crop(reference, crop) for crop in crops},
        "treatments": {t.id: _treatment(t) for t in by_name(reference.treatments) if offered(t)},
        "gentle": list(NAMED),
        "advice": ADVICE_WORDS,
        "grades": GRADE_WORDS,
        "seeds": dict(SEEDS),
        "exampleCrop": max(crops, key=_soaking_findings).id,
        "kinds": {kind: entry["name"] for kind, entry in reference.other_kinds.items()},
    }
    data["kinds"] = {kind: name for kind, name in data["kinds"].items() if any(kind in way.crops for t in reference.treatments.values() for way in t.times.ways)}
    data["sources"] = {source: source_label(reference, source) for source in sorted(_cited(data))}
    return data


def _cited(node) -> set[str]:
    """Every source id under a `from` or as the `source` of a bath."""
    if isinstance(node, dict):
        own = set(node.get("from", ())) | ({node["source"]} if isinstance(node.get("source"), str) else set())
        return own.union(*(_cited(value) for value in node.values()))
    return set().union(*(_cited(value) for value in node)) if isinstance(node, (list, tuple)) else set()


def span_text(lasts: Span) -> str:
    """"8–12 hours", "up to 12 hours in all", "1 month"."""
    unit = lasts.unit[:-1] if lasts.high == 1 else lasts.unit
    amount = f"up to {number(lasts.high)}" if lasts.low is None else span(lasts.low, lasts.high)
    return f"{amount} {unit}{' in all' if lasts.in_all else ''}"


def step_time(step: TimedStep) -> str:
    """How long a step lasts, in words; empty for the last one."""
    if step.lasts:
        return span_text(step.lasts)
    return {"warming": "as the table says", "bath": "as the table says"}.get(step.from_table, "") or ("until the last count of the official test" if step.until else "")


def ready_rows(reference: Reference) -> list[dict]:
    """A row for each way of each treatment: the table that answers without scripts."""
    def named(way: Way) -> str:
        if way.crops:
            return ", ".join(reference.crops[c].name if c in reference.crops else reference.other_kinds[c]["name"] for c in way.crops)
        return "other kinds" if way.without_crop else "any crop not named otherwise"

    return [
        {"treatment": t, "crops": named(way), "way": way, "steps": [(s, step_time(s)) for s in way.steps], "sources": list(dict.fromkeys(s for step in way.steps for s in step.sources))}
        for t in by_name(reference.treatments) for way in t.times.ways if not any(s.from_table for s in way.steps)
    ]


def bath_rows(reference: Reference) -> list[tuple[Crop, dict]]:
    """Crops with a hot-water table that may be used: those not advised against."""
    return [(crop, bath) for crop in sorted(reference.crops.values(), key=lambda c: c.name.casefold())
            if not any(e.about == HOT_WATER and e.advice == "avoid" for e in crop.pretreatments) for bath in baths(reference, crop)]


def spoon_rows(tablespoons: float, cups: float, wanted: float) -> list[dict]:
    """What the spoon recipe gives from bottles of several strengths, in percent, and millilitres of each in a litre of `wanted` %."""
    volume, water = tablespoons * US_TABLESPOON_ML, cups * US_CUP_ML
    return [{"bottle": b, "added": mixed_strength(b, volume, water), "topped": topped_up_strength(b, volume, water) + SLIGHT, "in_a_litre": stock_needed(b, wanted, 1000)} for b in BOTTLES]


def _context(reference: Reference) -> dict:
    treatments = by_name(reference.treatments)
    dilutes = next((t for t in treatments if "bottle" in t.times.amounts), None)
    amounts = dilutes.times.amounts if dilutes else {}
    return {
        "calculator": frame_context(calculator_data(reference)),
        "choices": [("", "the one best supported for the crop")] + [(t.id, f"{t.name} (no recipe here)" if t.times.reason else t.name) for t in treatments if offered(t)],
        "seeds": SEEDS,
        "ready": ready_rows(reference),
        "baths": bath_rows(reference),
        "dilutes": dilutes,
        "spoon_rows": spoon_rows(amounts["spoons"]["tablespoons"], amounts["spoons"]["cups"], amounts["strength"]["usual_percent"]) if amounts else [],
        "spoons_ml": amounts["spoons"]["tablespoons"] * US_TABLESPOON_ML if amounts else 0,
        "measures": [("us", f"US: {US_TABLESPOON_ML:.1f} and {US_CUP_ML:.0f} mL"), ("metric", f"metric: {METRIC_TABLESPOON_ML:g} and {METRIC_CUP_ML:g} mL")],
        "cup_ml": US_CUP_ML,
        "strongest": f"{number(amounts['bottle']['strongest_percent'])} % or weaker." if amounts else "",
        "dangerous": [t for t in treatments if t.hazard],
        "unoffered": [t for t in treatments if t.times.reason],
    }


CALCULATOR = Calculator(
    "calculators/treatment-times",
    "Soak and treatment times",
    "How long to soak, dip or chill, how much of what, and when to take it out?",
    "Amounts and a list with clock times for soaking, nicking, chilling, peroxide, hot water and other treatments before sowing, with the cautions and what trials found.",
    "calculators/treatment_times.html",
    _context,
)
