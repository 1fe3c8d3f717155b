"""The evidence check as rules: a value outside what is published needs a reason, and a reason that is not needed goes."""

from __future__ import annotations

from ..problem import Place
from ..read import DataTree
from .evidence import TOLERANCE, compare
from .meaning_rules import WORDS_FOR_SOURCES, values_of
from .printed import collect
from ..registry import rule
from ..units import fahrenheit


@rule("departs-without-reason")
def departs_without_reason(tree: DataTree):
    """A reference value outside the span of all independent families says why, in `departs`."""
    printed = collect(tree)
    for crop, document in tree.crops.items():
        for path, quantity, value in values_of(document.data):
            comparison = compare(value, printed.get((crop, quantity), ()))
            if comparison.status == "departs" and "departs" not in value:
                yield document.problem(path, "departs-without-reason", f"{quantity} is {_with_unit(quantity, comparison.shown)}, outside what the sources print: {_with_unit(quantity, comparison.span_text)}.", "Correct it, or add `departs:` with the reason.", see=places(printed.get((crop, quantity), ())))


@rule("departs-not-needed")
def departs_not_needed(tree: DataTree):
    """A `departs` reason stands only beside a value that really lies outside the published span."""
    printed = collect(tree)
    for crop, document in tree.crops.items():
        for path, quantity, value in values_of(document.data):
            if "departs" in value and compare(value, printed.get((crop, quantity), ())).status != "departs":
                yield document.problem(path + ("departs",), "departs-not-needed", f"{quantity} lies inside what the sources print.", "Move the text to `note`, or delete it.", see=places(printed.get((crop, quantity), ())))


@rule("citation-prints-otherwise")
def citation_prints_otherwise(tree: DataTree):
    """A source cited for a value prints that value; where it does not, a `note` or `departs` beside the value says why it is cited."""
    printed = collect(tree)
    for crop, document in tree.crops.items():
        for path, quantity, value in values_of(document.data):
            if "note" in value or "departs" in value or compare(value, printed.get((crop, quantity), ())).status == "departs":
                continue  # departs-without-reason says it for all of them
            for index, source in enumerate(value["sources"]):
                found = [p for p in printed.get((crop, quantity), ()) if p.source == source]
                if found and not any(_prints(p, value) for p in found):
                    yield document.problem(path + ("sources", index), "citation-prints-otherwise", f'"{source}" prints {" and ".join(p.as_printed for p in found)} for {quantity}, not this value.', "Cite the source that prints it, or add `note:` with the reason.", see=places(found))


@rule("memory-though-printed")
def memory_though_printed(tree: DataTree):
    """A value without a source is one that no countable source prints; where one does and the value stays without, a `note` or `departs` says why."""
    printed = collect(tree)
    for crop, document in tree.crops.items():
        for path, quantity, value in values_of(document.data):
            found = [p for p in printed.get((crop, quantity), ()) if p.counts]
            if found and set(value["sources"]) <= set(WORDS_FOR_SOURCES) and "note" not in value and "departs" not in value:
                yield document.problem(path + ("sources",), "memory-though-printed", f'{quantity} is said {" and ".join(value["sources"])}, yet "{found[0].source}" prints {found[0].as_printed}.', "Cite the source that prints it, or add `note:` with the reason.", see=places(found))


def _with_unit(quantity: str, text: str) -> str:
    """A number as the message gives it; temperatures in both units, since most tables print °F."""
    if not quantity.endswith("_c"):
        return text
    return f"{text} °C ({' to '.join(f'{fahrenheit(float(part))}' for part in text.split(' to '))} °F)"


def places(printed) -> tuple[Place, ...]:
    """Where values are printed, and what: the first four."""
    return tuple(Place(item.file, item.line, 1, item.as_printed) for item in printed[:4])


def _prints(item, value: dict) -> bool:
    """Whether a printed value is the reference value, or a printed range holds it."""
    if "choice" in value:
        return item.choice == value["choice"] or item.choice == "cover"
    tolerance = TOLERANCE["temperature" if "°" in item.as_printed else "other"]
    low, high = value.get("low", value.get("value")), value.get("high", value.get("value"))
    return item.low - tolerance <= high and low <= item.high + tolerance
