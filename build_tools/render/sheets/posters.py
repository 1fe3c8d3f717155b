"""Posters by name: which there are, in what order crops stand, their pages and their PDF."""

from __future__ import annotations

import io
from dataclasses import dataclass
from functools import lru_cache
from importlib.metadata import version

from ... import kept
from ...model.reference import Reference
from ..drawings import DRAWINGS, standalone
from . import days_poster, rows_poster, steps_poster
from .fonts import widths
from .paper import ORIENTATIONS, PAPER_NAMES, poster_sheet
from .poster_data import library, poster_data
from .type import Type
from .typeset import pdf

CODE, CODE_SVG = {"error": "m", "micro": False}, {"border": 0, "xmldecl": False, "svgclass": None, "lineclass": None}
ORDERS = ("name", "minimum", "optimum")


@dataclass(frozen=True)
class Poster:
    """A kind of poster: the orientations in which it can be had, and whether crops can be chosen."""

    name: str
    title: str
    orientations: tuple[str, ...]
    of_crops: bool


POSTERS = {
    poster.name: poster
    for poster in (
        Poster("bands", "Temperature bands", ORIENTATIONS, True),
        Poster("days", "Days to emergence", ("portrait",), True),
        Poster("seed-life", "Seed life", ORIENTATIONS, True),
        Poster("steps", "From packet to seedling", ORIENTATIONS, False),
        Poster("towel-test", "Towel test", ("portrait",), False),
    )
}


def chosen(data: dict, crops: list[str] | None, order: str) -> list[dict]:
    """The crops of a poster, by name, or from cold to warm with those that have no such value last."""
    entries = [crop for crop in data["crops"] if crops is None or crop["id"] in crops]
    if order == "name":
        return entries
    def value(crop):
        return None if crop["band"] is None else crop["band"]["order"][order]
    return [crop for _, crop in sorted(enumerate(entries), key=lambda pair: (value(pair[1]) is None, value(pair[1]) or 0.0, pair[0]))]


def poster_pages(data: dict, poster: str, paper: str, orientation: str, units: str, crops: list[str] | None = None, order: str = "name") -> list[list[dict]]:
    """Pages of marks of a poster of crops; `data` is poster_data with the widths of letters. KeyError for unknown names.

    Twin: posterPages in docs/assets/js/sheets/posters.js.
    """
    type_, sheet, entries = Type(data["widths"]), poster_sheet(paper, orientation), chosen(data, crops, order)
    if poster == "days":
        return days_poster.pages(type_, sheet, data, units, entries)
    kind = {"bands": rows_poster.Bands, "seed-life": rows_poster.Life}[poster]
    return rows_poster.pages(type_, sheet, orientation, kind(data, units), entries)


def steps_pages_of(reference: Reference, poster: str, paper: str, orientation: str, units: str) -> list[list[dict]]:
    """Pages of marks of a poster of steps."""
    make = {"steps": steps_poster.steps_pages, "towel-test": steps_poster.towel_pages}[poster]
    return make(Type(widths()), poster_sheet(paper, orientation), reference, library(reference), units, {d.id: d.description for d in DRAWINGS.values()})


def page_data(reference: Reference) -> dict:
    """poster_data with the widths of letters: all that a layout of crops needs."""
    return {**poster_data(reference), "widths": widths()}


def poster_pdf(reference: Reference, poster: str, paper: str, orientation: str, units: str, crops: list[str] | None = None, order: str = "name", data: dict | None = None) -> bytes:
    """The PDF of a poster. `data`, when many are made, is page_data(reference). KeyError for unknown names."""
    own, kind = library(reference), POSTERS[poster]
    pictures = {"code": code_svg(own["site"])}
    if kind.of_crops:
        pages = poster_pages(data or page_data(reference), poster, paper, orientation, units, crops, order)
    else:
        pages = steps_pages_of(reference, poster, paper, orientation, units)
        pictures |= {d: standalone(d) for d in DRAWINGS}
    title = f"{kind.title}, {PAPER_NAMES.get(paper, paper)}"
    return pdf(pages, poster_sheet(paper, orientation), title=title, author=own["name"], description=f"Germination reference, data version {own['version']}", pictures=pictures)


@lru_cache(maxsize=8)
def code_svg(address: str) -> str:
    """The code to scan for an address, as SVG, black on white; the sheet leaves the quiet zone around it."""
    name = kept.key(version("segno").encode(), repr((CODE, CODE_SVG)).encode(), address.encode())
    found = kept.get("codes", name)
    if found is None:
        import segno

        out = io.BytesIO()
        segno.make(address, **CODE).save(out, kind="svg", **CODE_SVG)
        found = out.getvalue()
        kept.put("codes", name, found)
    return found.decode("utf-8")


def file_name(poster: str, paper: str, orientation: str, units: str) -> str:
    """What a poster's file is called: bands-A3-F.pdf, bands-A3-landscape-both.pdf."""
    return "-".join([poster, paper, *(["landscape"] if orientation == "landscape" else []), units]) + ".pdf"
