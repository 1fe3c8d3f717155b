"""Finding crops and sizes by the words people use: of a crop its id, any name, or the word that several share (“pepper”)."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

from ..model.reference import Crop, Reference
from ..problem import did_you_mean


def _plain(text: str) -> str:
    without_marks = "".join(c for c in unicodedata.normalize("NFD", text) if not unicodedata.combining(c))
    return " ".join(without_marks.casefold().replace("-", " ").split())


def _names(crop: Crop) -> list[str]:
    return [crop.id, crop.name, *crop.other_names]


def choose_crops(reference: Reference, words: Iterable[str]) -> list[str]:
    """Ids of the crops that the words name, each once, in the order of the words. ValueError naming the word that fits none."""
    found: dict[str, None] = {}
    for word in filter(None, (_plain(w) for w in words)):
        crops = reference.crops.values()
        fitting = [c.id for c in crops if word in map(_plain, _names(c))] or [c.id for c in crops if any(word in _plain(name).split() for name in _names(c))]
        if not fitting:
            known = [_plain(name) for c in crops for name in _names(c)]
            raise ValueError(f'No crop is called "{word}". {did_you_mean(word, known)}'.strip())
        found.update(dict.fromkeys(fitting))
    return list(found)


def crops_asked_for(reference: Reference, option: str | None) -> list[str] | None:
    """The crops of a command's --crops, names with commas; None for all. ValueError when it names none or an unknown one."""
    if option is None:
        return None
    chosen = choose_crops(reference, option.split(","))
    if not chosen:
        raise ValueError("--crops names no crop. Leave it out for all crops, or write for example --crops tomato,lettuce")
    return chosen


def sizes_asked_for(option: str, known: Iterable[str], what: str) -> list[str]:
    """The sizes of a command's --size, with commas; ValueError naming the one that is not known."""
    plain, found = {size.casefold(): size for size in known}, []
    for word in option.replace("×", "x").split(","):
        key = word.strip().casefold().removesuffix("in").replace(" ", "")
        if key not in plain:
            raise ValueError(f"--size {word.strip()}: there is no such {what}. Known: {', '.join(plain.values())}.")
        found.append(plain[key])
    return found
