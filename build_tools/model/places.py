"""Where in its file each entry stands, so that a page can lead to the exact line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from ..read import Document


def lines_of(document: Document, deepest: int = 3, only: Iterable[str] | None = None) -> Mapping[str, int]:
    """Line of each entry by its path joined with dots ("steps.0"), down to `deepest` names; `only` keeps the paths under these keys."""
    kept = None if only is None else set(only)
    return MappingProxyType({
        ".".join(map(str, path)): line
        for path, (line, _) in document.places.items()
        if 0 < len(path) <= deepest and (kept is None or path[0] in kept)
    })
