"""The pages on what can be printed: all downloads, and making a poster of one's own in the browser; with the PDFs themselves."""

from __future__ import annotations

from functools import cache

from markupsafe import Markup

from ..lots import data_of
from ..lots.columns import HEADINGS_NEEDED
from ..model.reference import Reference
from .calculators import data_json
from .print_cards import MOST_CROPS, UNITS, offered
from .sheets import fonts
from .sheets.label_sheets import as_json as label_sheets
from .sheets.palette import PALETTE
from .sheets.paper import PAPER_NAMES, PAPERS
from .sheets.posters import POSTERS, Poster, code_svg, file_name, page_data, poster_pdf
from .sheets.type_sizes import type_sizes

EXAMPLE_LINES = 8  # of the demo file of lots, on the page of labels
# Measures of a sheet of labels as they are typed: name, label, what stands there first.
MEASURES = (
    ("columns", "Labels across", "3"), ("rows", "Labels down", "8"), ("width", "Width of a label", "70"), ("height", "Height of a label", "37"),
    ("left", "Paper’s left edge to the first", "0"), ("top", "Paper’s upper edge to the first", "0.5"), ("gap_x", "Gap across", "0"), ("gap_y", "Gap down", "0"),
)
PAPER_SIZES = {paper: f"{PAPER_NAMES.get(paper, paper)}, {short:g} × {long:g} mm" for paper, (short, long) in PAPERS.items()}


def posters_offered(reference: Reference) -> list[Poster]:
    """The posters of the standard set; without those of crops on a site of very many, where each would be a book."""
    return [poster for poster in POSTERS.values() if not poster.of_crops or len(reference.crops) <= MOST_CROPS]


def standard_set(reference: Reference) -> list[tuple[str, str, str]]:
    """(poster, orientation, paper) of every poster offered for download."""
    return [(poster.name, orientation, paper) for poster in posters_offered(reference) for orientation in poster.orientations for paper in PAPERS]


def add(rendered, reference: Reference, environment, root) -> None:
    """Add the pages, the posters and the typeface that the browser shows them in."""
    from . import Page

    data = cache(lambda: page_data(reference))
    for poster, orientation, paper in standard_set(reference):
        rendered.files[f"downloads/posters/{file_name(poster, paper, orientation, UNITS)}"] = lambda of=(poster, paper, orientation): poster_pdf(reference, *of, UNITS, data=data())
    for name in (*fonts.FILES.values(), fonts.LICENCE):
        rendered.files[f"assets/fonts/{name}"] = (fonts.folder() / name).read_bytes

    def page(path, template, title, description, context):
        depth = "../" * path.removesuffix(".md").removesuffix("/index").count("/") + "../"
        summary = Markup('<h1 id="top">{}</h1><p>{}</p>').format(title, description)
        rendered.pages[path] = Page(title, description, lambda: environment.get_template(template).render(root=depth, **context()), str(summary))

    page(
        "print/index.md", "print/index.html", "To print", "Posters of soil warmth, days and seed life, steps from packet to seedling, a towel test with a table to fill in; crop cards, packet labels.",
        lambda: {
            "posters": [(poster, [(o, [(paper, file_name(poster.name, paper, o, UNITS)) for paper in PAPERS]) for o in poster.orientations]) for poster in posters_offered(reference)],
            "papers": PAPER_SIZES, "sizes": type_sizes(data()) if len(reference.crops) <= MOST_CROPS else [], "cards": offered(reference),
        },
    )
    page(
        "print/poster.md", "print/poster.html", "Make your poster", "A poster of the crops you choose, in your units and on your paper, printed from the browser.",
        lambda: {
            "posters": [poster for poster in POSTERS.values() if poster.of_crops], "papers": PAPER_SIZES, "crops": [(crop["id"], crop["name"]) for crop in data()["crops"]],
            "data_json": data_json(browser_data(reference, data())),
        },
    )
    page(
        "print/labels.md", "print/labels.html", "Labels for packets", "Labels for the packets of tested lots, with the percentage and its range, printed on label sheets from the browser.",
        lambda: {"sheets": label_sheets(), "measures": MEASURES, "data_json": data_json(labels_data(reference, data()))},
    )


def labels_data(reference: Reference, data: dict) -> dict:
    """What the page of labels needs: lots are read and judged as on the page of a file of lots."""
    example = reference.demo.get("lots.csv", b"").decode("utf-8-sig").splitlines()[:EXAMPLE_LINES]
    return {
        "lots": data_of(reference), "widths": data["widths"], "palette": PALETTE, "pictures": {}, "library": data["library"], "sheets": label_sheets(),
        "papers": {paper: list(PAPERS[paper]) for paper in ("A4", "Letter")}, "crops": [{"name": crop["name"], "band": crop["band"] and {"said": crop["band"]["said"], "sow": crop["band"]["sow"]}} for crop in data["crops"]],
        "example": "\n".join([*example, ""]) if example else ",".join(HEADINGS_NEEDED) + "\n",
    }


def browser_data(reference: Reference, data: dict) -> dict:
    """What the browser needs to lay out and draw a poster of any crops."""
    return {
        **data, "papers": {paper: list(sides) for paper, sides in PAPERS.items()}, "palette": PALETTE,
        "pictures": {"code": code_svg(str(reference.library["site_url"]))},
        "posters": {poster.name: {"title": poster.title, "orientations": list(poster.orientations)} for poster in POSTERS.values() if poster.of_crops},
    }
