"""Age and test together."""

from __future__ import annotations

from ...lots.catalogue import PRACTICE as AGEING_RULES
from ...model.reference import Reference
from ...science.ageing import expected_fraction
from . import Calculator, frame_context

AGES = (0, 1, 2, 3, 4, 5, 6, 8, 10)
LIVES = (1, 2, 3, 4, 5)
PRACTICE = (*AGEING_RULES, "expectation_worth_seeds")


def practice_values(reference: Reference) -> dict[str, float]:
    """The rules of the trade that ageing and retesting rest on, by key."""
    return {key: reference.practice[key]["value"] for key in PRACTICE}


def context(reference: Reference) -> dict:
    """Template variables: the form's data, and a table of expectations that answers without scripts."""
    practice = practice_values(reference)
    fresh, end = practice["new_seed_percent"] / 100, practice["life_end_percent"] / 100
    crops = sorted(reference.crops.values(), key=lambda c: c.name.casefold())
    return {
        "calculator": frame_context({
            "crops": {c.id: {"name": c.name, "seed_life_years": c["seed_life_years"].low} for c in crops},
            "example_crop": max(crops, key=lambda c: len(c.rows.get("seed-life", ()))).id,
            "practice": practice,
            "lending_line_percent": reference.library["lending_line_percent"],
        }),
        "stores": [("unknown", "Not known"), ("cool-dry", "Cool and dry in the house"), ("cold-dry", "Dry, in a jar in a refrigerator"), ("warm", "Warm, damp or changing")],
        "lives": LIVES,
        "expectations": [{"age": age, "percents": [round(100 * expected_fraction(age, life, fresh, end)) for life in LIVES]} for age in AGES],
        "practice": [reference.practice[key] for key in PRACTICE],
    }


CALCULATOR = Calculator(
    "calculators/old-seed",
    "Age and test together",
    "How old is it, how was it kept, what did the test say: still good, and until when?",
    "What to expect of seed by its age and storage, joined with a small test; the chance to meet the lending line, and when to test again.",
    "calculators/old_seed.html",
    context,
)
