"""What the published families would give for each value of a crop. Nothing is averaged: every suggestion is printed by a source.

A family of reprints has one say, whatever the number of its members. The value that most families print is the suggestion;
values with as many families are alternatives.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ..check.evidence import LEAVES_OPEN, TOLERANCE, compare
from ..check.meaning_rules import TEMPERATURES, values_of
from ..check.printed import Printed, collect
from ..model.build import CHOICES, QUANTITIES
from ..read import DataTree
from ..units import half_degree, round_half_up

RANGES = ("sowing_depth_mm", "sow_outdoors_weeks", "sow_indoors_weeks", "plant_out_weeks", "transplant_age_weeks")

Value = float | str | tuple[float, float]


@dataclass(frozen=True)
class Option:
    """A value for the crop file, in its own unit and form; the families that print it; the sources to cite."""

    value: Value
    families: tuple[str, ...]
    sources: tuple[str, ...]


@dataclass(frozen=True)
class Suggestion:
    """What is published about one value of a crop.

    present: the mapping in the crop file, or None; printed: everything printed; options: the suggestion, and its equals when
    families tie, in rising order; counted: whether they come from families that count; span: lowest and highest of those, or None.
    """

    crop: str
    quantity: str
    present: dict | None
    printed: tuple[Printed, ...]
    options: tuple[Option, ...]
    counted: bool
    span: tuple[float, float] | None
    families: int
    status: str

    @property
    def stands(self) -> str:
        """How the present value stands to the options: same | alternative | left open | differs | none published | not given."""
        if not self.options:
            return "none published"
        if self.present is None:
            return "not given"
        now = value_of(self.present)
        same = [self.options.index(option) for option in self.options if _equal(option.value, now, self.quantity)]
        if same:
            return "same" if len(self.options) == 1 else "alternative"
        open_to = {choice for option in self.options for choice in LEAVES_OPEN.get(str(option.value), ())}
        return "left open" if now in open_to else "differs"


def value_of(mapping: dict) -> Value:
    """The value of a mapping of a crop file: a number, a choice, or (low, high)."""
    if "choice" in mapping:
        return mapping["choice"]
    return mapping["value"] if "value" in mapping else (mapping["low"], mapping["high"])


def suggestions(tree: DataTree, crop: str, quantities: Sequence[str] = QUANTITIES) -> list[Suggestion]:
    """A Suggestion for each quantity, in the order given. `crop` may be of data/other-kinds.yml, or any id that tables name."""
    document = tree.crops.get(crop)
    present = {quantity: value for _, quantity, value in values_of(document.data)} if document else {}
    printed = collect(tree)
    return [_suggestion(tree, crop, quantity, present.get(quantity), printed.get((crop, quantity), ())) for quantity in quantities]


def out_of_order(found: Sequence[Suggestion]) -> list[str]:
    """Sentences about suggested temperatures that do not rise as they should, since different families lead for each. Ties are passed over."""
    values = {s.quantity: s.options[0].value for s in found if len(s.options) == 1 and s.quantity in TEMPERATURES}
    present = [quantity for quantity in TEMPERATURES if quantity in values]
    return [f"Taken together they can't stand: {warmer} {values[warmer]:g} lies below {colder} {values[colder]:g}, since other families lead for each. Follow one family for both."
            for colder, warmer in zip(present, present[1:]) if values[colder] > values[warmer]]


def _suggestion(tree: DataTree, crop: str, quantity: str, present: dict | None, printed: Sequence[Printed]) -> Suggestion:
    counting = [item for item in printed if item.counts] or list(printed)
    groups: dict[str, list[Printed]] = defaultdict(list)
    for item in counting:
        groups[item.family].append(item)
    forms = _forms(tree, quantity)
    said = {family: _most_printed(items, forms) for family, items in groups.items()}
    votes = {value: tuple(sorted(f for f, values in said.items() if any(_equal(value, other, quantity) for other in values))) for values in said.values() for value in values}
    exact = Counter(value for values in said.values() for value in values)
    best = max(((len(families), exact[value]) for value, families in votes.items()), default=None)
    options = tuple(Option(value, votes[value], _sources(counting, value, forms)) for value in sorted((v for v in votes if (len(votes[v]), exact[v]) == best), key=_rising))
    numbers = [end for item in counting if item.low is not None for end in (item.low, item.high)]
    return Suggestion(
        crop, quantity, present, tuple(printed), options, any(item.counts for item in printed),
        (min(numbers), max(numbers)) if numbers else None, len(groups), compare(present, printed).status if present else "none",
    )


def _forms(tree: DataTree, quantity: str) -> Callable[[Printed], tuple[Value, ...]]:
    """How a printed value is written in a crop file: half degrees, the decimals of the quantity, ranges as pairs.

    A range printed for a quantity that is one number gives both its ends.
    """
    if quantity in CHOICES:
        return lambda item: (item.choice,) if item.choice else ()
    decimals = tree.singles["quantities"].data["quantities"][quantity]["decimals"]

    def number(value: float) -> float:
        rounded = half_degree(value) if quantity.endswith("_c") else round_half_up(value, decimals)
        return int(rounded) if rounded == int(rounded) else rounded

    if quantity in RANGES:
        return lambda item: ((number(item.low), number(item.high)),)
    return lambda item: tuple(dict.fromkeys((number(item.low), number(item.high))))


def _most_printed(items: Sequence[Printed], forms) -> set[Value]:
    """The value that most members of a family print; several when they tie."""
    counts = Counter(value for item in items for value in forms(item))
    most = max(counts.values(), default=0)
    return {value for value, count in counts.items() if count == most}


def _equal(a: Value, b: Value, quantity: str) -> bool:
    """Whether two values are the same within the tolerance of the evidence check."""
    if isinstance(a, str) or isinstance(b, str):
        return a == b
    pairs = zip(a, b) if isinstance(a, tuple) and isinstance(b, tuple) else [(a, b)]
    tolerance = TOLERANCE["temperature" if quantity.endswith("_c") else "other"]
    return all(abs(x - y) <= tolerance for x, y in pairs)


def _sources(items: Sequence[Printed], value: Value, forms) -> tuple[str, ...]:
    """The sources that print exactly the value; where none does, those whose printed range ends on it."""
    exact = [item.source for item in items if forms(item) == (value,)]
    return tuple(dict.fromkeys(exact or [item.source for item in items if value in forms(item)]))


def _rising(value: Value):
    return value if isinstance(value, tuple) else (value,)
