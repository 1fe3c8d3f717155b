"""What the lots are judged against: crops by name, the lending line, rules of the trade, published tables.

Made by the caller from plain data (`catalogue_of`); `data_of` gives that data from a Reference. The
same data, as JSON, feeds the page. Twin: docs/assets/js/lots/catalogue.js.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

PRACTICE = (
    "new_seed_percent", "life_end_percent", "cold_store_life_factor", "warm_store_life_factor",
    "retest_least_months", "retest_usual_months", "retest_most_months",
)
MOST_SUGGESTIONS = 6
# Whitespace as the browser twin has it too; the two languages' own ideas of it differ.
WHITE = re.compile("[ \t\n\r\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+")
PUNCTUATION = re.compile("[,;:/()]")
ACCENTS = re.compile("[\u0300-\u036f]")


@dataclass(frozen=True)
class CropFacts:
    """A crop as the lots need it: shown name, and seed life in years kept cool and dry (None: not known)."""

    id: str
    name: str
    seed_life_years: float | None


@dataclass(frozen=True)
class Catalogue:
    """Everything outside the file that a judgement needs.

    names: folded name → crop id; lending_line: percent; practice: values of data/quantities.yml by
    name; replicate_range and two_test_range: rows as science/replicates and science/repeated_tests take them.
    """

    crops: Mapping[str, CropFacts]
    names: Mapping[str, str]
    lending_line: float
    practice: Mapping[str, float]
    replicate_range: Sequence[Mapping]
    two_test_range: Sequence[Mapping]
    library_name: str
    library_invented: bool

    def find(self, text: str) -> str | None:
        """Id of the crop of that name or id; case, accents, hyphens and a plural s are ignored, and "Bean, snap" is snap bean."""
        wanted = fold(text)
        noun, comma, kind = wanted.partition(", ")
        for name in (wanted, f"{kind} {noun}") if comma else (wanted,):
            for form in (name, _cut(name, "s"), _cut(name, "es"), _cut(name, "ies", "y"), name + "s"):
                if form in self.names:
                    return self.names[form]
        return None

    def suggest(self, text: str) -> list[str]:
        """Shown names of the crops that may be meant, nearest first; empty when nothing is near."""
        wanted = fold(PUNCTUATION.sub(" ", text))
        if not wanted or len(wanted) > 60:
            return []
        forms = {f" {wanted} ", f" {_cut(wanted, 's')} "}
        holding = {i for name, i in self.names.items() if any(form in f" {name} " for form in forms)}
        if holding:
            # Those with the word in their first name before those that have it in another.
            first = {i for i in holding if any(form in f" {fold(self.crops[i].name)} " for form in forms)}
            ordered = [i for i in self.crops if i in first] + [i for i in self.crops if i in holding - first]
            return [self.crops[i].name for i in ordered][:MOST_SUGGESTIONS]
        held = [name for name in self.names if f" {name} " in f" {wanted} "]
        near = max(held, key=len) if held else nearest(wanted, self.names)
        return [self.crops[self.names[near]].name] if near else []


def fold(text: str) -> str:
    """A name for comparing: small letters, no accents, hyphens as spaces, single spaces."""
    plain = ACCENTS.sub("", unicodedata.normalize("NFD", text.lower())).replace("’", "'").replace("-", " ")
    return WHITE.sub(" ", plain).strip(" ")


def _cut(text: str, ending: str, instead: str = "") -> str:
    return text[: -len(ending)] + instead if text.endswith(ending) else text


def nearest(wanted: str, names) -> str | None:
    """The name with the fewest changed letters, if no more than a third of the letters; the first of equals."""
    best, fewest = None, max(1, len(wanted) // 3) + 1
    for name in names:
        if abs(len(name) - len(wanted)) < fewest:
            changes = _changes(wanted, name, fewest)
            if changes < fewest:
                best, fewest = name, changes
    return best


def _changes(a: str, b: str, limit: int) -> int:
    """Letters to add, drop or replace to make b of a (Levenshtein 1966), or `limit` when not fewer."""
    row = list(range(len(b) + 1))
    for i, letter in enumerate(a, start=1):
        above, row[0] = row[0], i
        for j, other in enumerate(b, start=1):
            above, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, above + (letter != other))
        if min(row) >= limit:
            return limit
    return row[-1]


def data_of(reference) -> dict:
    """A Reference as the plain data that `catalogue_of` and the page take. Ready for JSON."""
    return {
        "crops": {
            crop.id: {"name": crop.name, "names": list(crop.other_names), "seed_life_years": crop["seed_life_years"].low}
            for crop in sorted(reference.crops.values(), key=lambda crop: crop.name)
        },
        "practice": {name: reference.practice[name]["value"] for name in PRACTICE},
        "lending_line_percent": reference.library["lending_line_percent"],
        "library_name": reference.library["name"],
        "library_invented": bool(reference.library["invented"]),
        "replicate_range_percent": [{key: row[key] for key in ("average_high", "average_low", "four", "two")} for row in reference.replicate_range],
        "two_test_range": [dict(row) for row in reference.two_test_range],
    }


def catalogue_of(data: Mapping) -> Catalogue:
    """A Catalogue from the data of `data_of`."""
    crops, names = {}, {}
    for crop_id, crop in data["crops"].items():
        crops[crop_id] = CropFacts(crop_id, crop["name"], crop["seed_life_years"])
    # A crop's own name comes before another crop's second name.
    for crop_id, crop in data["crops"].items():
        for name in (crop["name"], crop_id):
            names.setdefault(fold(name), crop_id)
    for crop_id, crop in data["crops"].items():
        for name in crop["names"]:
            names.setdefault(fold(name), crop_id)
    return Catalogue(
        crops, names, data["lending_line_percent"], data["practice"], data["replicate_range_percent"],
        data["two_test_range"], data["library_name"], data["library_invented"],
    )
