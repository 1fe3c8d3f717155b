"""Plain words for texts, numbers and paths of the data: one line each, nothing hidden in them, and of a long text only what changed."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from difflib import SequenceMatcher

from ..units import number

LONGEST = 300  # letters of a text that is shown whole
AROUND = 4  # words shown on each side of what changed
MOST_WORDS = 3000  # a longer text is not compared word by word
KEY_WORDS = {
    "pretreatments": "treatments", "sow_outdoors_weeks": "sow outdoors", "names": "names", "common": "common name", "other": "other names", "departs": "reason for departing", "why": "why",
    "about": "about", "at_c": "temperature", "not_for": "not for", "no_recipe": "reason for giving no times", "counts_as": "counts as", "look_every": "time between looks",
    "data_version": "data version", "monthly_mean_air_c": "mean air temperature of each month", "other-kinds": "kinds without a page", "seed-oil": "seed oil",
}


def clean(text: object, most: int = 0) -> str:
    """One line without control or hidden characters, cut to `most` letters when given."""
    kept = "".join(" " if letter.isspace() else letter for letter in str(text) if letter.isspace() or unicodedata.category(letter)[0] != "C")
    line = " ".join(kept.split())
    return line[: most - 1] + "…" if most and len(line) > most else line


def key_words(key: object) -> str:
    """A key as words."""
    return KEY_WORDS.get(str(key), clean(str(key).replace("_", " ").replace("-", " "), 80))


def scalar(value: object) -> str:
    """A leaf in words: numbers with a true minus, true and false as yes and no."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        return number(value) if abs(value) < 1e12 else "a number beyond all bounds"
    return clean(value)


def brief(value: object) -> str:
    """Anything in one line: texts first, then the rest as key: value."""
    if isinstance(value, Mapping):
        texts = [scalar(value[key]) for key in ("name", "text", "why") if isinstance(value.get(key), str)]
        rest = [f"{key_words(key)}: {brief(inner)}" for key, inner in value.items() if key not in ("name", "text", "why", "id")]
        return "; ".join([*texts, *rest])
    if isinstance(value, (list, tuple)):
        return ", ".join(brief(inner) for inner in value)
    return scalar(value)


def pair(before: str, after: str) -> tuple[str, str]:
    """Both texts as shown: whole when short, else only what changed with some words around it and … for the rest."""
    if max(len(before), len(after)) <= 80:
        return before, after
    old, new = before.split(), after.split()
    if max(len(old), len(new)) > MOST_WORDS or not old or not new:
        return clean(before, LONGEST), clean(after, LONGEST)
    groups = list(SequenceMatcher(None, old, new, autojunk=len(old) > 400).get_grouped_opcodes(AROUND))
    return _shown(old, [(group[0][1], group[-1][2]) for group in groups]), _shown(new, [(group[0][3], group[-1][4]) for group in groups])


def _shown(words: list[str], parts: list[tuple[int, int]]) -> str:
    """The parts (from, to) of the words, with … for what is left out."""
    texts, last = [], 0
    for start, end in parts:
        texts += (["…"] if start > last else []) + words[start:end]
        last = end
    return clean(" ".join(texts + (["…"] if last < len(words) else [])), 2 * LONGEST)


def arrow(before: str, after: str) -> str:
    """old → new, with a word for what is absent."""
    return f"{before or 'nothing'} → {after or 'nothing'}"
