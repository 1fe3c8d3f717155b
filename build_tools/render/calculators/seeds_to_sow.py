"""Seeds to sow: for plants in one place, in cells or in a row, with their weight."""

from __future__ import annotations

from math import floor, log10

from ...model.reference import Crop, Reference, TableRow
from ...science.cells import known_seeds_per_cell
from ...science.outcomes import seeds_if_known
from ...science.seed_mass import GRAMS_PER_OUNCE
from ..wording import GRADE_WORDS, source_label
from . import Calculator, frame_context

PLANTS = (6, 12, 24, 72)
SHARES = (0.9, 0.8, 0.7, 0.6)
CERTAINTY = 0.9
CELL_SHARES = (0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3)
CELL_CHANCES = (0.8, 0.9, 0.95, 0.99)
# Published counts a gram, the best kind first; the last group is used only where nothing else is printed, and said to be so.
GRADES = (("regulation", "standard"), ("measured", "trial", "authority", "compilation"), ("advice",), ("common-practice", "folk-claim"))


def seeds_per_gram(reference: Reference, crop: Crop) -> dict | None:
    """Published seeds per gram: {low, high, sources, kinds, word}; None when no source that counts has any.

    Only the best kind of source is used. `kinds` are the printed names where they are not the crop's own; `word` says
    how weak the figure is, and is None for anything better than common practice. A count per ounce is turned into one
    per gram with two digits, as many as such counts carry.
    """
    found = []
    for row in crop.rows.get("seeds-per-gram", ()):
        source, span = reference.sources[row.source], _span(row)
        if span is not None and source.counts and not row.doubt:
            found.append((next(i for i, grades in enumerate(GRADES) if source.evidence in grades), span, row))
    if not found:
        return None
    best = min(grade for grade, _, _ in found)
    spans, rows = zip(*[(span, row) for grade, span, row in found if grade == best], strict=True)
    notes = [row.cells["note"] for row in rows if row.cells.get("note")]
    own = {crop.name.casefold(), *map(str.casefold, crop.other_names)}
    return {
        "low": min(low for low, _ in spans),
        "high": max(high for _, high in spans),
        "sources": _once(source_label(reference, row.source) for row in rows),
        "kinds": _once(row.cells["crop_as_printed"] for row in rows if row.cells["crop_as_printed"].casefold() not in own),
        "word": ", ".join([GRADE_WORDS[reference.sources[rows[0].source].evidence], *notes[:1]]) if best == len(GRADES) - 1 else None,
    }


def _span(row: TableRow) -> tuple[float, float] | None:
    """Fewest and most seeds per gram of a row; None for a kind printed without a count."""
    cells = row.cells
    if cells.get("seeds_per_gram_min"):
        return float(cells["seeds_per_gram_min"]), float(cells["seeds_per_gram_max"])
    if cells.get("seeds_per_ounce_min"):
        low, high = (_two_digits(float(cells[f"seeds_per_ounce_{end}"]) / GRAMS_PER_OUNCE) for end in ("min", "max"))
        return low, high
    return None


def _two_digits(value: float) -> float:
    return round(value, 1 - floor(log10(value)))


def _once(texts) -> list[str]:
    return list(dict.fromkeys(texts))


def several_in_one(reference: Reference) -> tuple[dict, set[str]]:
    """What the test rule says of seed units that hold several seeds: {fact, section, source}, and the crops of the kinds it names.

    A kind named there stands for its species, so that chard is with beet.
    """
    for source in reference.sources.values():
        for table in source.tables:
            for row in table.rows:
                if row.get("topic") == "multigerm units":
                    listed = row["fact"].partition("(")[2].partition(")")[0].casefold().split(", ")
                    species = {_species(crop) for crop in reference.crops.values() if crop.name.casefold() in listed}
                    return {"fact": row["fact"], "section": row["section"], "source": source.id}, {crop.id for crop in reference.crops.values() if _species(crop) in species}
    return {}, set()


def _species(crop: Crop) -> str:
    return " ".join(crop.botanical.split()[:2])


def calculator_data(reference: Reference) -> dict:
    """What the browser needs of each crop."""
    several = several_in_one(reference)[1]
    crops = sorted(reference.crops.values(), key=lambda crop: crop.name)
    return {"crops": {
        crop.id: {
            "name": crop.name,
            "seeds_per_gram": seeds_per_gram(reference, crop),
            "hard_seed": bool(crop.method and crop.method.hard_seed_possible),
            "several": crop.id in several,
        }
        for crop in crops
    }}


def _context(reference: Reference) -> dict:
    used = [row.source for crop in reference.crops.values() if (found := seeds_per_gram(reference, crop)) for row in crop.rows["seeds-per-gram"] if source_label(reference, row.source) in found["sources"]]
    return {
        "calculator": frame_context(calculator_data(reference)),
        "shares": [round(100 * share) for share in SHARES],
        "certainty": round(100 * CERTAINTY),
        "sown": [{"plants": plants, "seeds": [seeds_if_known(plants, CERTAINTY, share) for share in SHARES]} for plants in PLANTS],
        "chances": [round(100 * chance) for chance in CELL_CHANCES],
        "cells": [{"share": round(100 * share), "seeds": [known_seeds_per_cell(chance, share) for chance in CELL_CHANCES]} for share in CELL_SHARES],
        "several": several_in_one(reference)[0],
        "count_sources": _once(used),
    }


CALCULATOR = Calculator(
    "calculators/seeds-to-sow",
    "Seeds to sow",
    "So many came up in the test: how many seeds for the plants you want?",
    "Seeds for so many plants, cells or metres of row, with the certainty you choose and what a small test leaves open; their weight, and how far the seed you have goes.",
    "calculators/seeds_to_sow.html",
    _context,
)
