"""Changes of everything that is no reference value: a path in words, old → new."""

from __future__ import annotations

from collections.abc import Iterator

from .differ import Difference, differences
from .names import Names, mapping, unit_words
from .plain import arrow, brief, clean, key_words, pair
from .report import ADDED, REMOVED, VALUE, WORDING, Change

SINGLE_NAMES = {
    "library": "The library", "place": "The place", "cautions": "Cautions", "posters": "Words of posters", "quantities": "Quantities and choices", "other-kinds": "Kinds without a page",
    "seed-oil": "Oil in seed", "accepted": "Accepted findings", "corrections": "Corrections proposed",
    "figures": "Figures that guides quote", "glossary": "Words of the trade", "guides": "Titles of guides",
}
SINGLE_AREAS = {"library": "library", "place": "library", "quantities": "vocabulary"}  # the others are of area "file"


def path_words(path: tuple, names: Names) -> str:
    """A path as a reader says it: items and known ids by their names."""
    words = []
    for part in path:
        if isinstance(part, tuple):
            name = part[1]
            words.append(names.treatment(name) if any(name in tree.treatments for tree in names.trees) else names.quantity(name) if "_" in name and name.replace("_", "").isalnum() else name)
        elif any(part in tree.crops for tree in names.trees):
            words.append(names.crop(part))
        else:
            words.append(key_words(part))
    text = ", ".join(words)
    return text[:1].upper() + text[1:]


def item_changes(area: str, subject: str, name: str, difference: Difference, names: Names) -> Iterator[Change]:
    """The change of one difference."""
    path, before, after = difference.path, difference.before, difference.after
    key = next((part for part in reversed(path) if not isinstance(part, tuple)), "")
    what = path_words(path, names)
    if key == "sources" and all(value is None or isinstance(value, list) for value in (before, after)):
        old, new = ([str(s) for s in value or () if isinstance(s, str)] for value in (before, after))
        old = [names.renames["source"].get(s, s) for s in old]
        if old != new:
            added, dropped = [s for s in new if s not in old], [s for s in old if s not in new]
            yield Change(area, subject, name, what, VALUE, "; ".join(old), "; ".join(new), "" if added or dropped else "in another order", names.sources(added), names.sources(dropped))
        return
    if key in ("treatment", "crop", "about") and names.renames.get(key, {}).get(before) == after and after is not None:
        return
    texts = ["" if value is None else brief(value) for value in (before, after)]
    if difference.wording:
        shown = arrow(*(f"“{text}”" if text else "" for text in pair(*texts)))
    else:
        measured = next((part for part in reversed(path) if str(part).endswith("_c")), key)
        shown = arrow(*(unit_words(measured, value) or clean(text, 300) for value, text in zip((before, after), texts)))
    yield Change(area, subject, name, what, WORDING if difference.wording else VALUE, *texts, shown)


def single_changes(file: str, before: object, after: object, names: Names) -> Iterator[Change]:
    """Changes of a file that stands alone, such as place.yml; a file that only one version has is one change."""
    area, name = SINGLE_AREAS.get(file, "file"), SINGLE_NAMES.get(file, key_words(file).capitalize())
    if before is None or after is None:
        yield Change(area, file, name, "file of data", REMOVED if after is None else ADDED, shown=f"data/{file}.yml")
        return
    for difference in differences(before, after):
        changes = item_changes(area, file, name, difference, names)
        unit = _unit(file, difference, before, after)
        for change in changes:
            yield change if not unit else Change(**{**change.__dict__, "shown": f"{change.shown} {unit}"})


def _unit(file: str, difference: Difference, before: object, after: object) -> str:
    """The unit that a quantity or a rule of the trade names beside its number."""
    if file != "quantities" or len(difference.path) < 3 or not any(isinstance(value, (int, float)) and not isinstance(value, bool) for value in (difference.before, difference.after)):
        return ""
    entry = mapping(mapping(mapping(after).get(difference.path[0])).get(difference.path[1]))
    return clean(entry.get("unit", ""), 20) if difference.path[-1] in ("value", "lowest", "highest") else ""
