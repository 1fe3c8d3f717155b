"""Old seed and storage: two stores compared by the seed viability equation and by rules of thumb."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ...model.reference import Crop, Reference, SeedOil
from ...model.viability import ViabilityConstants
from ...science.viability import equilibrium_moisture, probit_days
from ...units import celsius_from_fahrenheit, number
from ..wording import sentence, source_label
from . import Calculator, frame_context


@dataclass(frozen=True)
class Store:
    """A common store of the table: °C, and the air (°C, % humidity) that the seed is in balance with."""

    name: str
    celsius: float
    air_celsius: float
    humidity: float


# The first is what the others are compared with. Air between 15 and 25 °C, so that oily seed is inside its limits too.
COMMON = (
    Store("open in a room, 20 °C (68 °F), 50 % humidity", 20, 20, 50),
    Store("open in a warm damp room, 25 °C (77 °F), 65 % humidity", 25, 25, 65),
    Store("in a jar at 20 °C (68 °F), closed in air of 20 °C (68 °F) and 35 %", 20, 20, 35),
    Store("in a jar at 5 °C (41 °F), closed in air of 20 °C (68 °F) and 35 %", 5, 20, 35),
)


def set_entry(row: ViabilityConstants) -> dict:
    """One set of constants as the browser gets it."""
    return {"name": row.reference, "from": row.source, "single": row.single_temperature, "k": [row.ke, row.cw, row.ch, row.cq], "note": row.note, "doubt": row.doubt}


def crop_entry(crop: Crop, reference: Reference, labels: dict[str, int]) -> dict:
    """What the browser needs of a crop. `labels` numbers the names of families and grows; years are [number, low, high, counts]."""
    known, viability, life = reference.viability.constants.get(crop.id, ()), reference.viability, crop["seed_life_years"]
    usable = viability.usable(crop.id)
    oil, upper = reference.seed_oil.get(crop.id), viability.limits.upper_moisture.get(crop.id) if viability.limits else None
    years = [(_family_label(f, reference), f.low, f.high, int(f.counts)) for f in life.families if f.low is not None]
    sealed = [float(row.cells["max_moisture_percent"]) for row in crop.rows.get("sealed-moisture", ())]
    return {
        "name": crop.name,
        "life": [life.low, life.high] if life.known else None,
        "years": [[labels.setdefault(label, len(labels)), *rest] for label, *rest in years],
        "sets": [set_entry(row) for row in usable],
        "doubtful": [set_entry(row) for row in known] if known and not usable else [],
        "oil": {"percent": oil.percent, "how": how_known(oil, reference)} if oil else None,
        "sealed": min(sealed) if sealed else None,
        "upper": upper.high if upper else None,
    }


def how_known(oil: SeedOil, reference: Reference) -> str:
    """Where an oil content comes from, in words: "assumed by us", "from memory", or the names of its sources."""
    return " and ".join("assumed by us" if source == "common practice" else source_label(reference, source) for source in oil.sources)


def _family_label(family, reference: Reference) -> str:
    sources = sorted({printed.source for printed in family.printed})
    return source_label(reference, sources[0]) + (f" and {len(sources) - 1} alike" if len(sources) > 1 else "")


def ratios(reference: Reference, crop: Crop) -> list[tuple[float, float]] | None:
    """(lowest, highest) by the sound sets of constants of how many times as long seed keeps in each of COMMON as in the first.

    None where there is no set, no oil content, or a moisture outside the limits of the equation.
    """
    viability = reference.viability
    rows = [row for row in viability.usable(crop.id) if not row.doubt]
    oil = reference.seed_oil.get(crop.id)
    if not rows or oil is None or viability.limits is None:
        return None
    moistures = [equilibrium_moisture(store.humidity / 100, store.air_celsius, oil.percent / 100) for store in COMMON]
    if not all(viability.limits.moisture.low <= m <= viability.limits.moisture.high for m in moistures):
        return None
    days = [[probit_days(m, store.celsius, row.ke, row.cw, row.ch, row.cq) for store, m in zip(COMMON, moistures, strict=True)] for row in rows]
    return [(min(d[i] / d[0] for d in days), max(d[i] / d[0] for d in days)) for i in range(len(COMMON))]


def times_text(low: float, high: float) -> str:
    """"4.3–5.1 times", "12 times"; a ratio never with more than two digits."""

    def one(value):
        return f"{value:.0f}" if value >= 10 else f"{value:.1f}" if value >= 0.95 else f"{value:.2f}"

    return f"{one(low)} times" if one(low) == one(high) else f"{one(low)}–{one(high)} times"


def context(reference: Reference) -> dict:
    """Template variables: the form's data, and tables that answer without scripts."""
    viability, labels = reference.viability, {}
    crops = sorted(reference.crops.values(), key=lambda c: c.name.casefold())
    entries = {crop.id: crop_entry(crop, reference, labels) for crop in crops}
    table = [(crop, len([r for r in viability.usable(crop.id) if not r.doubt]), found[1:]) for crop in crops if (found := ratios(reference, crop))]
    example = max(table, key=lambda found: (found[0].id in viability.limits.upper_moisture, found[1], len(found[0].rows.get("seed-life", ()))), default=(None,))[0]  # its limits known best
    sources = {row.source for rows in viability.constants.values() for row in rows}
    limits, rules = viability.limits, viability.rules
    return {
        "calculator": frame_context({
            "crops": entries,
            "families": list(labels),
            "set_sources": {source: f"{reference.sources[source].fields['title']} ({reference.sources[source].fields['verified']})" for source in sorted(sources)},
            "example_crop": example.id if example else "",
            "sealed_source": next((source_label(reference, row.source) for crop in crops for row in crop.rows.get("sealed-moisture", ())), ""),
            "lending_line_percent": reference.library["lending_line_percent"],
            "limits": limits and {
                **{name: [span.low, span.high] for name in ("celsius", "moisture", "humidity") for span in (getattr(limits, name),)},
                "starchy": [limits.starchy_celsius.low, limits.starchy_celsius.high], "oily": [limits.oily_celsius.low, limits.oily_celsius.high], "oily_from": reference.practice["oily_seed_percent"]["value"],
            },
            "rules": rules and {
                "points": rules.moisture_points, "fahrenheit": rules.fahrenheit, "sum": rules.sum_limit, "ice": rules.freezing_moisture,
                "source": source_label(reference, rules.source), "sum_source": source_label(reference, rules.sum_source),
            },
        }),
        "stores": COMMON,
        "table": [(crop, sets, [times_text(*pair) for pair in found]) for crop, sets, found in table],
        "constants": [(crop, row) for crop in crops for row in viability.constants.get(crop.id, ())],
        "set_sources": sorted(sources),
        "facts": [(_in_both_units(f.fact), f.source) for f in viability.facts],
        "limits": limits,
        "rules": rules,
        "rule_step": _difference(rules.fahrenheit) if rules else "",
    }


def _difference(fahrenheit: float) -> str:
    """A difference of temperatures in both units: there is no 32 in it."""
    return f"{fahrenheit / 1.8:.1f} °C ({fahrenheit:g} °F)"


def _in_both_units(fact: str) -> str:
    """A fact as a sentence, its °F in both units; remarks on other sources, which stand beside it, are left out."""
    text = re.sub(r"(\d+) F cooler", lambda m: f"{_difference(float(m[1]))} cooler", re.sub(r"(?<=\d)-(?=\d)", "–", re.sub(r" \(DIFFERS [^)]*\)", "", fact)))
    return sentence(re.sub(r"(\d+) F\b", lambda m: f"{number(celsius_from_fahrenheit(float(m[1])))} °C ({m[1]} °F)", text)).replace("degrees F", "°F").replace("Degrees F", "°F")


CALCULATOR = Calculator(
    "calculators/storage",
    "Old seed and storage",
    "Shed or jar in the refrigerator: how many times as long does seed keep, and how long is my lot still good?",
    "Two stores side by side: how many times as long seed keeps in the better one, and what a tested lot is expected to do, by the seed viability equation, rules of thumb and published years.",
    "calculators/storage.html",
    context,
)
