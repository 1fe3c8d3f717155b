"""Corrections that people proposed, and what became of them."""

from __future__ import annotations

from dataclasses import dataclass

from ..read import Document

OUTCOMES = ("accepted", "refused", "waiting")


@dataclass(frozen=True)
class Correction:
    """One proposal, about a quantity of a crop or about a file of the data.

    date: ISO day on which it came; outcome: accepted | refused | waiting; `by` is the name to thank, "" when none was wanted.
    """

    date: str
    crop: str
    quantity: str
    file: str
    proposed: str
    by: str
    outcome: str
    reason: str
    sources: tuple[str, ...]
    invented: bool
    line: int


def corrections_of(document: Document | None) -> tuple[Correction, ...]:
    """The entries of data/corrections.yml, newest first; none without the file."""
    entries = document.data["corrections"] if document else ()
    found = [
        Correction(
            e["date"], e.get("crop", ""), e.get("quantity", ""), e.get("file", ""), e["proposed"], e.get("by", ""), e["outcome"], e["reason"],
            tuple(e.get("sources", ())), bool(e.get("invented")), document.place(("corrections", index))[0],
        )
        for index, e in enumerate(entries)
    ]
    return tuple(sorted(found, key=lambda c: c.date, reverse=True))
