"""The words of posters, with the rules of the trade filled in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..units import number


@dataclass(frozen=True)
class PosterStep:
    """A step: its heading, what to do, the id of the drawing that shows it, its sources."""

    title: str
    text: str
    drawing: str
    sources: tuple[str, ...]


@dataclass(frozen=True)
class PosterWords:
    title: str
    lead: str
    steps: tuple[PosterStep, ...]
    cautions: tuple[tuple[str, tuple[str, ...]], ...]


def poster_words(document: Mapping, practice: Mapping[str, Mapping]) -> dict[str, PosterWords]:
    """data/posters.yml by poster; {name} becomes that practice's value."""
    values = {name: number(entry["value"]) for name, entry in practice.items()}
    return {
        name: PosterWords(
            words["title"], words["lead"],
            tuple(PosterStep(step["title"], step["text"].format_map(values), step["drawing"], tuple(step["sources"])) for step in words["steps"]),
            tuple((caution["text"], tuple(caution["sources"])) for caution in words["cautions"]),
        )
        for name, words in document.items()
    }
