"""The evidence check as rules: a value outside what is published needs a reason, and a reason that is not needed goes."""

from __future__ import annotations

from ..read import DataTree
from .evidence import TOLERANCE, compare
from .meaning_rules import values_of
from .printed import collect
from ..registry import rule


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


@rule("citation-prints-otherwise")
def citation_prints_otherwise(tree: DataTree):
    """A source cited for a value prints that value; where it does not, a `note` or `departs` beside the value says why it is cited."""
    printed = collect(tree)
    for crop, document in tree.crops.items():
        for path, quantity, value in values_of(document.data):
            if "note" in value or "departs" in value:
                continue
            for index, source in enumerate(value["sources"]):
                found = [p for p in printed.get((crop, quantity), ()) if p.source == source]
                if found and not any(_prints(p, value) for p in found):
                    yield document.problem(path + ("sources", index), "citation-prints-otherwise", f'"{source}" prints {" and ".join(p.as_printed for p in found)} for {quantity}, not this value.', "Cite the source that prints it, or add `note:` with the reason.")


def _prints(item, value: dict) -> bool:
    """Whether a printed value is the reference value, or a printed range holds it."""
    if "choice" in value:
        return item.choice == value["choice"] or item.choice == "cover"
    tolerance = TOLERANCE["temperature" if "°" in item.as_printed else "other"]
    low, high = value.get("low", value.get("value")), value.get("high", value.get("value"))
    return item.low - tolerance <= high and low <= item.high + tolerance
