"""How many seeds to test."""

from __future__ import annotations

from ...model.reference import Reference
from ...science.plans import (
    fixed_plan,
    operating_characteristic,
    seeds_for_half_width,
    sequential_plan,
)
from . import Calculator, frame_context

EXPECTED = (50, 80, 90)
HALF_WIDTHS = (20, 15, 10, 5)
PAIRS = ((90, 70), (80, 60), (80, 50), (70, 50))
ERRORS = (10, 5)


def context(reference: Reference) -> dict:
    """Template variables: the form's data, and tables that answer without scripts."""
    line = reference.library["lending_line_percent"]
    good, bad = min(line + 10, 95), max(line - 10, 5)
    plan = sequential_plan(good / 100, bad / 100, 0.1, 0.1, 6)
    genebank = reference.sources.get("rao-2006")
    return {
        "calculator": frame_context({"lending_line_percent": line}),
        "expected": EXPECTED,
        "widths": [{"within": h, "seeds": [seeds_for_half_width(h / 100, p / 100, 0.95) for p in EXPECTED]} for h in HALF_WIDTHS],
        "errors": ERRORS,
        "plans": [{"good": g, "bad": b, "plans": [fixed_plan(g / 100, b / 100, e / 100, e / 100) for e in ERRORS]} for g, b in PAIRS],
        "good": good,
        "bad": bad,
        "tens": plan,
        "mean_seeds": {p: round(operating_characteristic(plan, p / 100)["mean_seeds"]) for p in (good, bad)},
        "genebank": next((t for t in genebank.tables if t.file == "sequential-test.csv"), None) if genebank else None,
    }


CALCULATOR = Calculator(
    "calculators/test-size",
    "How many seeds to test",
    "How many seeds must I set, and when is a lot good enough?",
    "Plan a germination test: seeds for a range of the width you want, or to tell a good lot from a bad one, at once or in tens on the kitchen table.",
    "calculators/test_size.html",
    context,
)
