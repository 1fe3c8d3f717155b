"""Changes of crops: values with their sources and evidence, then everything else in their files."""

from __future__ import annotations

from collections.abc import Iterator

from ..check.evidence import Comparison, compare
from ..check.printed import collect
from ..read import DataTree
from .differ import differences, same
from .names import (
    Names,
    change_words,
    mapping,
    span_words,
    value_csv,
    value_words,
    values_in,
)
from .others import item_changes
from .plain import arrow, clean, pair
from .report import COMES_IN, EVIDENCE, MOVES_OUT, STAYS_OUT, VALUE, WORDING, Change

VALUE_KEYS = ("season", "seed_life_years", "sowing_depth_mm", "light", "frost_class", "temperature", "timing")


class Evidence:
    """How the values of one version stand to what its tables print; sources that cannot be trusted to be whole are left out."""

    def __init__(self, tree: DataTree, without: set[str]):
        sources = {name: source for name, source in tree.sources.items() if name not in without}
        self.printed = collect(DataTree(tree.crops, sources, tree.treatments, tree.singles))

    def of(self, crop: str, quantity: str, value: dict | None) -> Comparison | None:
        """None where there is no value."""
        return None if value is None else compare(value, self.printed.get((crop, quantity), ()))


def outside_of(before: Comparison | None, after: Comparison | None) -> str:
    """Whether a value leaves the published span, lies outside it as before, or comes back."""
    was, now = (comparison is not None and comparison.status == "departs" for comparison in (before, after))
    return {(False, True): MOVES_OUT, (True, True): STAYS_OUT, (True, False): COMES_IN if after is not None else "", (False, False): ""}[was, now]


def crop_changes(old_id: str, new_id: str, before: object, after: object, evidence: tuple[Evidence, Evidence], names: Names) -> Iterator[Change]:
    """Every change of one crop; `before` and `after` are the data of its file."""
    old, new = dict(values_in(before)), dict(values_in(after))
    for quantity in dict.fromkeys([*old, *new]):
        yield from _value_changes(old_id, new_id, quantity, old.get(quantity), new.get(quantity), evidence, names)
    rest = [{key: value for key, value in mapping(data).items() if key not in VALUE_KEYS and key != "id"} for data in (before, after)]
    for difference in differences(*rest):
        yield from item_changes("crop", new_id, names.crop(new_id), difference, names)


def _value_changes(old_id: str, new_id: str, quantity: str, before: dict | None, after: dict | None, evidence: tuple[Evidence, Evidence], names: Names) -> Iterator[Change]:
    renames = names.renames["source"]
    was, now = evidence[0].of(old_id, quantity, before), evidence[1].of(new_id, quantity, after)
    cited = [renames.get(s, s) for s in before["sources"]] if before else []
    citing = after["sources"] if after else []
    moved = any(not same((before or {}).get(key), (after or {}).get(key)) for key in ("low", "high", "choice"))
    status = (was.status if was else "", now.status if now else "")
    common = {"area": "crop", "subject": new_id, "name": names.crop(new_id), "evidence_before": status[0], "evidence_after": status[1]}
    spanned = outside_of(was, now)
    if moved or cited != citing or status[0] != status[1]:
        added, dropped = [s for s in citing if s not in cited], [s for s in cited if s not in citing]
        kind = VALUE if moved or cited != citing else EVIDENCE
        shown = change_words(quantity, before, after) if moved else f"{value_words(quantity, after)}, unchanged"
        if not moved and cited != citing and not added and not dropped:
            shown += "; its sources stand in another order"
        about = spanned if moved or spanned != STAYS_OUT else ""
        yield Change(
            **common, quantity=quantity, words_before=value_words(quantity, before), words_after=value_words(quantity, after), what=names.quantity(quantity), kind=kind, before=value_csv(before), after=value_csv(after), shown=shown, sources_added=names.sources(added), sources_dropped=names.sources(dropped),
            outside=about, span=span_words(quantity, now or was) if about else "", reason=clean((after or {}).get("departs", "")) if about in (MOVES_OUT, STAYS_OUT) else "",
        )
    for key, word in (("note", "note"), ("departs", "reason for departing")):
        a, b = clean((before or {}).get(key, "")), clean((after or {}).get(key, ""))
        if a != b and (after is not None or before is not None):
            yield Change(area="crop", subject=new_id, name=common["name"], what=f"{names.quantity(quantity)}, {word}", kind=WORDING, before=a, after=b, shown=arrow(*(f"“{t}”" if t else "" for t in pair(a, b))))
