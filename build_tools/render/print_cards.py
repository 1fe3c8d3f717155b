"""The files of cards and record sheets that the site offers, and where a crop's card is among them."""

from __future__ import annotations

from functools import cache

from ..model.reference import Reference
from .rows import by_name
from .sheets.card_text import card_data
from .sheets.cards import cards_file_name, cards_pdf
from .sheets.cut_sheets import CUT_SHEETS
from .sheets.record_sheet import RECORD_PAPERS, record_file_name, record_pdf

FOLDER = "downloads/cards/"
UNITS = "both"  # °C and °F stand side by side in the files offered; one alone is a matter of the command or the browser
MOST_CROPS = 300  # a site with more crops offers no cards of all: they would take longer than its pages; the command makes those wanted


def add(rendered, reference: Reference, environment, root) -> None:
    """Add the files; crop pages find theirs by the template global `card_pages`, {crop id: page of the file of one card a page}."""
    data = cache(lambda: card_data(reference))
    for paper in RECORD_PAPERS:
        rendered.files[FOLDER + record_file_name(paper)] = lambda paper=paper: record_pdf(reference, paper)
    environment.globals["card_pages"] = {}
    if len(reference.crops) <= MOST_CROPS:
        for sheet in CUT_SHEETS:
            rendered.files[FOLDER + cards_file_name(sheet, UNITS)] = lambda sheet=sheet: cards_pdf(reference, sheet, UNITS, data=data())
        environment.globals["card_pages"] = {crop.id: page for page, crop in enumerate(by_name(reference), start=1)}


def offered(reference: Reference) -> list[tuple[str, str]]:
    """(title, path in the site) of every file, cards first."""
    cards = [(sheet.title, FOLDER + cards_file_name(sheet.id, UNITS)) for sheet in CUT_SHEETS.values()] if len(reference.crops) <= MOST_CROPS else []
    return cards + [(f"Record of a towel test, {paper}", FOLDER + record_file_name(paper)) for paper in RECORD_PAPERS]
