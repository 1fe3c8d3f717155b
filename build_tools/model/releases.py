"""Releases of the data, and what changed in each."""

from __future__ import annotations

from dataclasses import dataclass

from ..read import DataTree, Table
from ..spreadsheet import guarded

SEPARATOR = "; "  # between ids in a cell


@dataclass(frozen=True)
class ReleasedChange:
    """One change of a release. `crop` is a crop id or ""; kind and outside are words of schema/release-changes.schema.json; statuses those of check/evidence.py."""

    crop: str
    about: str
    what: str
    kind: str
    before: str
    after: str
    sources_added: tuple[str, ...]
    sources_dropped: tuple[str, ...]
    evidence_before: str
    evidence_after: str
    outside: str


@dataclass(frozen=True)
class Release:
    """A release: its version ("2026.11"), its ISO day, a text for readers, and what changed since the one before; nothing for the first."""

    version: str
    date: str
    text: str
    changes: tuple[ReleasedChange, ...]


def releases_of(tree: DataTree) -> tuple[Release, ...]:
    """Every release, newest first; none without data/releases.yml."""
    document = tree.singles.get("releases")
    entries = document.data["releases"] if document else ()
    return tuple(Release(e["version"], e["date"], e["text"], _changes(tree.releases.get(e["version"]))) for e in entries)


def _changes(table: Table | None) -> tuple[ReleasedChange, ...]:
    return tuple(
        ReleasedChange(
            row["crop"], _text(row["about"]), _text(row["what"]), row["kind"], _text(row["before"]), _text(row["after"]), _ids(row["sources_added"]), _ids(row["sources_dropped"]),
            row["evidence_before"], row["evidence_after"], row["outside"],
        )
        for row in (table.rows if table else ())
    )


def _ids(cell: str) -> tuple[str, ...]:
    return tuple(filter(None, cell.split(SEPARATOR)))


def _text(cell: str) -> str:
    """A cell without the apostrophe that keeps a spreadsheet from taking it for a formula."""
    return cell[1:] if cell[:1] == "'" and guarded(cell[1:]) == cell else cell
