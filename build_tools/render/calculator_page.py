"""The germination-rate calculator: its data for the browser, its own page, and the part that crop pages include."""

from __future__ import annotations

import json

from markupsafe import Markup

from ..model.reference import Crop, Reference
from ..science.proportions import whole_percent_table


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


def calculator_context(reference: Reference, crop: Crop | None) -> dict:
    """The `calculator` variable of calculator.html; for one crop, or for all when `crop` is None."""
    crops = [crop] if crop else sorted(reference.crops.values(), key=lambda c: c.name)
    data = {
        "crops": {c.id: crop_entry(c) for c in crops},
        "lending_line_percent": reference.library["lending_line_percent"],
        "library_name": reference.library["name"],
        "replicate_range_percent": [{"average_high": r["average_high"], "average_low": r["average_low"], "four": r["four"], "two": r["two"]} for r in reference.replicate_range],
    }
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return {"crop_id": crop.id if crop else None, "heading_level": 3 if crop else 2, "data": data, "data_json": Markup(text), "ten_seeds": whole_percent_table()}


def add(rendered, reference: Reference, environment, root) -> None:
    """Add the calculator's own page."""
    from . import Page

    def body():
        return environment.get_template("calculator_page.html").render(root="../", calculator=calculator_context(reference, None))

    description = "What a count of seedlings can and cannot say: percentage with its interval, chance to meet the standard, how many to sow."
    rendered.pages["calculator.md"] = Page("Count a germination test", description, body, f'<h1 id="top">Count a germination test</h1><p>{description}</p>')
