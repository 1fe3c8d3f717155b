"""Two builds of the same pages held against one another: the pages there are, what each says, where its links lead, what the search finds."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

SILENT = ("script", "style", "template")
VOID = ("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr")
FRAMES = ("404.html",)  # what a generator adds itself


@dataclass(frozen=True)
class Comparison:
    """Pages of which one side has none; pages that say something else; links that lead nowhere in the second; crops its search lacks."""

    pages: int
    missing: tuple[str, ...]
    added: tuple[str, ...]
    other_text: tuple[str, ...]
    broken: tuple[str, ...]
    not_found: tuple[str, ...]

    @property
    def alike(self) -> bool:
        return not (self.missing or self.added or self.other_text or self.broken or self.not_found)


class Reader(HTMLParser):
    """The text of a page's main part without spaces, how many charts, tables and fields stand in it, its ids, and all addresses on the page."""

    def __init__(self, html: str):
        super().__init__()
        self.open: list[str] = []
        self.texts: list[str] = []
        self.counts = dict.fromkeys(("svg", "table", "input"), 0)
        self.ids: set[str] = set()
        self.addresses: list[str] = []
        self.feed(html)
        self.close()

    @property
    def main(self) -> tuple[str, tuple[int, ...]]:
        """What the main part says and shows."""
        return "".join("".join(self.texts).split()), tuple(self.counts.values())

    def handle_starttag(self, tag, attributes):
        if "article" in self.open and tag in self.counts:
            self.counts[tag] += 1
        self.ids.update(value for name, value in attributes if name in ("id", "name") and value)
        self.addresses += [value for name, value in attributes if name in ("href", "src") and value]
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag in self.open:
            while self.open.pop() != tag:
                pass

    def handle_data(self, data):
        if "article" in self.open and not set(SILENT) & set(self.open):
            self.texts.append(data)


def compared(ours: Path, theirs: Path, crops: Iterable[str]) -> Comparison:
    """Hold the site built elsewhere against ours. `crops`: names that its search is to hold. Raises OSError."""
    own, other = _pages(ours), _pages(theirs)
    shared = sorted(own & other)
    read = {name: Reader((theirs / name).read_text(encoding="utf-8")) for name in sorted(other)}
    differing = tuple(name for name in shared if Reader((ours / name).read_text(encoding="utf-8")).main != read[name].main)
    return Comparison(len(shared), tuple(sorted(own - other)), tuple(sorted(other - own)), differing, tuple(_broken(theirs, read)), _not_found(theirs, crops))


def _pages(site: Path) -> set[str]:
    return {path.relative_to(site).as_posix() for path in site.rglob("*.html")} - set(FRAMES)


def _broken(site: Path, read: dict[str, Reader]) -> Iterable[str]:
    """page: address of every link inside the site that leads nowhere, or to a place that the page has not."""
    for name, page in read.items():
        for address in page.addresses:
            parts = urlsplit(address)
            if parts.scheme or parts.netloc or parts.path.startswith("/"):
                continue
            target = (site / name).parent / unquote(parts.path) if parts.path else site / name
            target = target / "index.html" if target.is_dir() else target
            if not target.is_file():
                yield f"{name}: {address}"
                continue
            inside = target.resolve().relative_to(site.resolve()).as_posix()
            place = unquote(parts.fragment)
            if place and "=" not in place and inside in read and place not in read[inside].ids:  # with = it is an entry of a calculator
                yield f"{name}: {address}"


def _not_found(site: Path, crops: Iterable[str]) -> tuple[str, ...]:
    """The names that no entry of the search has for its title."""
    found = [path for path in (site / "search.json", site / "search" / "search_index.json") if path.is_file()]
    if not found:
        return tuple(crops)
    data = json.loads(found[0].read_text(encoding="utf-8"))
    titles = {entry["title"] for entry in data.get("items", data.get("docs", []))}
    return tuple(name for name in crops if name not in titles)
