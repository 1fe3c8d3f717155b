"""The guides, the terms they use and the figures they take in, as the model holds them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ..read import DataTree
from ..read.guide_text import GuideText


@dataclass(frozen=True)
class Figure:
    """A figure of a source's table: a number or a range (`low` = `high` for one number), in the unit of data/figures.yml.

    `source` may be the words common practice or from memory; then `printed` is empty.
    """

    source: str
    name: str
    low: float
    high: float
    unit: str
    what: str
    printed: str
    line: int


@dataclass(frozen=True)
class Term:
    """A term of the trade and what it means; `forms` are all the words that stand for it, itself first; `quantity` is the quantity it names, or empty."""

    id: str
    term: str
    forms: tuple[str, ...]
    definition: str
    quantity: str
    guide: str
    sources: tuple[str, ...]
    line: int


@dataclass(frozen=True)
class Guide:
    """A hand-written page. `crop_page` names the parts of crop pages that lead to it."""

    id: str
    title: str
    question: str
    description: str
    crop_page: tuple[str, ...]
    treatments: tuple[str, ...]
    text: GuideText
    file: str


FIGURES_FILE, TERMS_FILE = "data/figures.yml", "data/glossary.yml"


def figures_of(tree: DataTree) -> Mapping[str, Figure]:
    """Every figure, by source.name."""
    document, found = tree.singles.get("figures"), {}
    for source, figures in document.data.items() if document else ():
        for name, e in figures.items():
            low, high = e.get("low", e.get("value")), e.get("high", e.get("value"))
            found[f"{source}.{name}"] = Figure(source if source in tree.sources else source.replace("-", " "), name, low, high, e["unit"], e["what"], e.get("printed", ""), document.place((source, name))[0])
    return MappingProxyType(found)


def terms_of(tree: DataTree) -> Mapping[str, Term]:
    """Every term, by id; one that names a quantity has its definition from there."""
    quantities = tree.singles["quantities"].data["quantities"]
    document = tree.singles.get("glossary")
    return MappingProxyType({
        term: Term(term, e["term"], (e["term"], *e.get("forms", ())), e.get("definition") or quantities[e["quantity"]]["definition"], e.get("quantity", ""), e.get("guide", ""), tuple(e["sources"]), document.place((term,))[0])
        for term, e in (document.data.items() if document else ())
    })


def guides_of(tree: DataTree) -> Mapping[str, Guide]:
    """Every guide, by name, in reading order."""
    document = tree.singles.get("guides")
    return MappingProxyType({
        name: Guide(name, e["title"], e["question"], e["description"], tuple(e.get("crop_page", ())), tuple(e.get("treatments", ())), tree.guides[name], tree.guides[name].file)
        for name, e in (document.data.items() if document else ())
    })
