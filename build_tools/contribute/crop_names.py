"""Which crop a printed name means: by the names of the crop files, and by how our own tables have read the same name."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from difflib import SequenceMatcher

from ..check.tables import tables_of
from ..lots.catalogue import fold
from ..problem import did_you_mean
from ..read import DataTree

WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)?")
PLURALS = (("ies", "y", 5), ("shes", "sh", 6), ("ches", "ch", 6), ("oes", "o", 5), ("sses", "ss", 6))  # ending, singular, least letters
NEAR = 0.55  # likeness of letters from which a name is worth showing


def singular(word: str) -> str:
    """The word without its plural ending: radishes, tomatoes, cherries, beans; asparagus and cress stay."""
    for ending, instead, least in PLURALS:
        if word.endswith(ending) and len(word) >= least:
            return word[: -len(ending)] + instead
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us", "is")) and len(word) > 3 else word


def key(text: str) -> str:
    """A name for comparing: singular words in alphabetical order, so that "Beans, Snap" is "snap bean"."""
    return " ".join(sorted(singular(word) for word in WORD.findall(fold(text))))


@dataclass(frozen=True)
class Match:
    """What a printed name was taken for: ids joined by ";" ("" when it has none), by what right, and what else our tables made of it."""

    ids: str
    how: str
    others: tuple[tuple[str, int], ...] = ()


@dataclass
class NameBook:
    """Names by crop and the readings of our own tables.

    shown: id → name for people; names: key → ids; printed: (kind of table or "", key) → how often each crop_id stands beside it.
    """

    shown: dict[str, str] = field(default_factory=dict)
    names: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    printed: dict[tuple[str, str], Counter[str]] = field(default_factory=lambda: defaultdict(Counter))

    @classmethod
    def of(cls, tree: DataTree, without: str = "") -> NameBook:
        """The names of a data tree; the tables of the source `without` are not asked. Files of an unsound shape are passed over."""
        book = cls()
        for crop, names in _all_names(tree):
            book.shown[crop] = names[0]
            for name in (*names, crop):
                book.names[key(name)].add(crop)
        for source, entry, table in tables_of(tree):
            if source == without or not {"crop_as_printed", "crop_id"} <= set(table.columns):
                continue
            for row in table.rows:
                if key(row["crop_as_printed"]):
                    for kind in ("", entry.get("kind", "")):
                        book.printed[kind, key(row["crop_as_printed"])][row["crop_id"]] += 1
        return book

    def find(self, text: str, kind: str = "") -> Match | None:
        """What a printed name means, in a table of that kind; None when nothing is known or our tables are divided."""
        wanted = key(text)
        readings = self.printed.get((kind, wanted)) or self.printed.get(("", wanted)) or Counter()
        named = self.names.get(wanted, set())
        one = next(iter(named)) if len(named) == 1 else None
        ranked = sorted(readings.items(), key=lambda item: (-item[1], item[0]))
        if ranked and ranked[0][0]:
            best, most = ranked[0]
            rivals = [ids for ids, count in ranked[1:] if count == most and ids]
            if not rivals:
                return Match(best, f"as in {most} row{'s' if most != 1 else ''} of our tables", tuple(ranked[1:]))
            if one not in (best, *rivals):
                return None
        if one:
            return Match(one, "by name", tuple(ranked))
        if ranked and not ranked[0][0]:
            return Match("", "has no id in our tables either", tuple(ranked[1:]))
        return None

    def nearest(self, text: str, count: int = 3) -> list[str]:
        """The ids whose names are nearest to the text, nearest first; those that share a word come before those of like letters."""
        wanted = key(text)
        words = set(wanted.split())
        scores: dict[str, float] = {}
        for name, ids in self.names.items():
            shared = len(words & set(name.split()))
            score = SequenceMatcher(None, wanted, name).ratio() + (shared > 0)
            for crop in ids:
                scores[crop] = max(scores.get(crop, 0), score)
        near = sorted((crop for crop, score in scores.items() if score >= NEAR), key=lambda crop: (-scores[crop], crop))
        return near[:count]

    def meant(self, words: str) -> list[str]:
        """Ids of what words typed by a person mean: a name exactly, else every name that holds the word ("pepper").

        ValueError naming the nearest when nothing is called so.
        """
        wanted = key(words)
        exact = self.names.get(wanted, set())
        found = exact or {crop for name, ids in self.names.items() if wanted and set(wanted.split()) <= set(name.split()) for crop in ids}
        if not found:
            near = ", ".join(f"{self.shown[crop]} ({crop})" for crop in self.nearest(words))
            raise ValueError(f'No crop or other kind is called "{words}". {f"Nearest: {near}." if near else did_you_mean(words, self.shown)}'.strip())
        return sorted(found)


def _all_names(tree: DataTree) -> Iterator[tuple[str, list[str]]]:
    """(id, its names, the common one first) of every crop and other kind."""
    for crop, document in tree.crops.items():
        names = document.data.get("names") if isinstance(document.data, dict) else None
        names = names if isinstance(names, dict) else {}
        other = names.get("other")
        yield crop, [str(names.get("common") or crop), *(map(str, other) if isinstance(other, list) else ())]
    others = tree.singles["other-kinds"].data if "other-kinds" in tree.singles else {}
    for kind, entry in others.items() if isinstance(others, dict) else ():
        yield kind, [str(entry.get("name") or kind) if isinstance(entry, dict) else kind]
