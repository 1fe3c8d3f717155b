"""Rendering: the Reference in, pages and files out, as plain text and bytes. Knows nothing of the site generator."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from ..model import Reference
from .environment import make_environment


@dataclass(frozen=True)
class Page:
    """A page: its title and description (plain text), its body and its headings as (anchor, text).

    `body` makes the HTML when it is wanted, so that thousands of pages need not be held at once; `summary` is the short
    HTML that the site's search reads, with the same anchors.
    """

    title: str
    description: str
    body: Callable[[], str]
    summary: str
    headings: tuple[tuple[str, str], ...] = ()


@dataclass
class Rendered:
    """pages: Markdown path → Page; files: site path → what makes its text or bytes; fragments: name → HTML put into hand-written pages."""

    pages: dict[str, Page] = field(default_factory=dict)
    files: dict[str, Callable[[], str | bytes]] = field(default_factory=dict)
    fragments: dict[str, str] = field(default_factory=dict)


def render(reference: Reference, root: Path) -> Rendered:
    """Everything that is generated from the data. `root` is the project folder (schemas are published as they are)."""
    from . import (
        calculators,
        checks_page,
        compare,
        correct_page,
        crop_page,
        downloads,
        fields_page,
        guides,
        list_pages,
        offline_page,
        people_pages,
        print_cards,
        print_pages,
        what_changed,
    )

    environment = make_environment(reference)
    rendered = Rendered()
    for module in (list_pages, compare, calculators, downloads, print_cards, print_pages, correct_page, fields_page, people_pages, checks_page, what_changed, guides, offline_page):
        module.add(rendered, reference, environment, root)
    for crop in reference.crops.values():
        crop_page.add(rendered, reference, environment, crop)
    return rendered
