"""The evidence check as rules: a value outside what is published needs a reason, and a reason that is not needed goes."""

from __future__ import annotations

from ..read import DataTree
from .evidence import collect, compare
from .meaning_rules import values_of
from .registry import rule


@rule("departs-without-reason")
def departs_without_reason(tree: DataTree):
    """A reference value outside the span of all independent families says why, in `departs`."""
    printed = collect(tree)
    for crop, document in tree.crops.items():
        for path, quantity, value in values_of(document.data):
            comparison = compare(value, printed.get((crop, quantity), ()))
            if comparison.status == "departs" and "departs" not in value:
                yield document.problem(path, "departs-without-reason", f"{quantity} is {comparison.shown}, outside what the sources print ({comparison.span_text}).", "Correct it, or add `departs:` with the reason.")


@rule("departs-not-needed")
def departs_not_needed(tree: DataTree):
    """A `departs` reason stands only beside a value that really lies outside the published span."""
    printed = collect(tree)
    for crop, document in tree.crops.items():
        for path, quantity, value in values_of(document.data):
            if "departs" in value and compare(value, printed.get((crop, quantity), ())).status != "departs":
                yield document.problem(path + ("departs",), "departs-not-needed", f"{quantity} lies inside what the sources print.", "Move the text to `note`, or delete it.")
