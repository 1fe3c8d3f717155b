"""Differences between two documents of the data as paths, whatever their shape: items of lists are matched by what they are about."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher

from .plain import brief, clean

IDENTITY = (("id",), ("row", "column"), ("file",), ("treatment",), ("about",), ("name",), ("title",), ("label",))
CHOICE_KEYS = {"choice", "kind", "grade", "advice", "evidence", "unit", "action", "treatment", "about", "drawing", "id", "seed", "from_table", "until", "data_version", "last_frost", "first_frost", "file", "column", "printed", "crops", "counts_as", "logo", "data_licence"}
SAME = 0.5  # share of letters in common from which two texts are one text reworded


@dataclass(frozen=True)
class Difference:
    """A path (keys, and items as ("item", words)) and what stood and stands there; None for nothing. `wording` tells a text from a value."""

    path: tuple
    before: object
    after: object
    wording: bool


def is_wording(key: object, *values: object) -> bool:
    """Whether what differs is a text: no number, no yes or no, no choice from a list, no list of sources."""
    found = [value for value in values if value is not None]
    if key in CHOICE_KEYS or key == "sources":
        return False
    if all(isinstance(value, dict) for value in found):
        return any(isinstance(inner, str) and name not in CHOICE_KEYS for value in found for name, inner in value.items()) and not any(isinstance(inner, (int, float)) for value in found for inner in value.values())
    if all(isinstance(value, list) for value in found):
        return all(is_wording(key, item) for value in found for item in value)
    return all(isinstance(value, str) for value in found)


def same(before: object, after: object) -> bool:
    """Equal for readers: spaces inside a text, the order of keys and 10 for 10.0 do not count; true is not 1."""
    if isinstance(before, str) and isinstance(after, str):
        return clean(before) == clean(after)
    if isinstance(before, dict) and isinstance(after, dict):
        return before.keys() == after.keys() and all(same(before[key], after[key]) for key in before)
    if isinstance(before, list) and isinstance(after, list):
        return len(before) == len(after) and all(map(same, before, after))
    return isinstance(before, bool) == isinstance(after, bool) and before == after


def differences(before: object, after: object, path: tuple = ()) -> Iterator[Difference]:
    """Every difference below a path."""
    key = next((part for part in reversed(path) if not isinstance(part, tuple)), "")
    if same(before, after):
        return
    if isinstance(before, dict) and isinstance(after, dict):
        for name in dict.fromkeys([*before, *after]):
            yield from differences(before.get(name), after.get(name), (*path, name))
    elif isinstance(before, list) and isinstance(after, list) and key != "sources" and not _numbers(before, after):
        yield from _items(before, after, path, key)
    else:
        yield Difference(path, before, after, is_wording(key, before, after))


def _numbers(before: list, after: list) -> bool:
    return all(isinstance(value, (int, float)) for value in before + after)


def _items(before: list, after: list, path: tuple, key: object) -> Iterator[Difference]:
    matched = match(before, after)
    order = [new for old, new in matched if old is not None and new is not None]
    for old, new in matched:
        a, b = None if old is None else before[old], None if new is None else after[new]
        yield from differences(a, b, (*path, ("item", label(b if a is None else a, (old if old is not None else new) + 1))))
    if order != sorted(order):
        yield Difference((*path, "order"), ", ".join(label(item, i + 1) for i, item in enumerate(before)), ", ".join(label(item, i + 1) for i, item in enumerate(after)), False)


def label(item: object, place: int) -> str:
    """What an item is called: its name, title or what it is about; else its place in the list."""
    if isinstance(item, dict):
        for keys in (("name",), ("title",), ("label",), ("id",), ("treatment",), ("about",), ("file",), ("row", "column")):
            if all(isinstance(item.get(key), str) for key in keys):
                return clean(", ".join(item[key] for key in keys), 80)
    return f"number {place}"


def match(before: list, after: list) -> list[tuple[int | None, int | None]]:
    """Pairs of places, in the order of `before` and then of what is new: equal items, then those about the same thing, then texts alike."""
    left, right, pairs = list(range(len(before))), list(range(len(after))), {}

    def take(test):
        for old in list(left):
            new = next((n for n in right if test(before[old], after[n])), None)
            if new is not None:
                pairs[old] = new
                left.remove(old)
                right.remove(new)

    take(same)
    for keys in IDENTITY:
        take(lambda a, b, keys=keys: isinstance(a, dict) and isinstance(b, dict) and all(key in a and key in b and same(a[key], b[key]) for key in keys))
    if len(left) * len(right) <= 400:
        take(alike)
    return [(old, pairs.get(old)) for old in range(len(before))] + [(None, new) for new in right]


def alike(before: object, after: object) -> bool:
    """Whether the second is likely the first reworded."""
    a, b = (clean(value.get("text", brief(value)) if isinstance(value, dict) else brief(value), 2000).split() for value in (before, after))
    return SequenceMatcher(None, a, b, autojunk=False).ratio() >= SAME if a and b else False


def leaves(value: object, path: tuple = ()) -> Iterator[tuple[tuple, str]]:
    """(path, text) of every leaf, for telling how alike two documents are."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from leaves(inner, (*path, index))
    else:
        yield path, clean(value)


def renamed(before: dict[str, object], after: dict[str, object], least: float = 0.6) -> dict[str, str]:
    """{old id: new id} of documents that went and came with nearly the same content; the most alike pairs first.

    Alike is the share of leaves, the id left out, that both have in the same place.
    """
    gone, new = [k for k in before if k not in after], [k for k in after if k not in before]
    held = {("b", k): {leaf for leaf in leaves(before[k]) if leaf[0] != ("id",)} for k in gone} | {("a", k): {leaf for leaf in leaves(after[k]) if leaf[0] != ("id",)} for k in new}
    scores = []
    for old in gone:
        for other in new:
            a, b = held["b", old], held["a", other]
            share = len(a & b) / max(len(a | b), 1)
            if share >= least:
                scores.append((-share, old, other))
    found: dict[str, str] = {}
    for _, old, other in sorted(scores):
        if old not in found and other not in found.values():
            found[old] = other
    return found
