"""The germination-rate calculator: its own page, and the part that crop pages include."""

from __future__ import annotations

from ...model.reference import Crop, Reference
from ...science.proportions import whole_percent_table
from . import Calculator, frame_context


def crop_entry(crop: Crop) -> dict:
    """What the calculator needs of a crop; absent facts are null."""
    method = crop.method
    return {
        "name": crop.name,
        "minimum_percent": crop.minimum_percent,
        "first_count_days": method.first_count_days if method else None,
        "final_count_days": method.final_count_days if method else None,
        "test_temperatures_c": method.temperatures if method else None,
        "test_low_c": method.low_c if method else None,
        "test_high_c": method.high_c if method else None,
        **{q: crop[q].low for q in ("minimum_c", "optimum_low_c", "optimum_high_c", "maximum_c")},
    }


def calculator_context(reference: Reference, crop: Crop | None = None) -> dict:
    """The `calculator` variable of count.html; for one crop, or for all when `crop` is None."""
    crops = [crop] if crop else sorted(reference.crops.values(), key=lambda c: c.name)
    data = {
        "crops": {c.id: crop_entry(c) for c in crops},
        "lending_line_percent": reference.library["lending_line_percent"],
        "library_name": reference.library["name"],
        "replicate_range_percent": list(map(dict, reference.replicate_range)),
    }
    return {**frame_context(data, crop), "ten_seeds": [{**row, "percent": 10 * row["k"]} for row in whole_percent_table(10)]}


CALCULATOR = Calculator(
    "calculator",
    "Count a germination test",
    "Some came up and some did not: how good is the lot?",
    "What a count of seedlings can and cannot say: percentage with its interval, chance to meet the standard, how many to sow.",
    "calculators/count_page.html",
    lambda reference: {"calculator": calculator_context(reference)},
)
