"""The guides: hand-written pages in docs/guides, with every number taken from the model when the site is built."""

from __future__ import annotations

from markupsafe import Markup

from ...model.guides import Guide
from ...model.reference import Crop, Reference
from .blocks import Blocks
from .text import Written, written

ROOT = "../../"


def path_of(guide: str) -> str:
    """The page's path: the front page of the guides is their folder's own."""
    return f"guides/{guide}.md"


def root_of(guide: str) -> str:
    """The way from the guide's page to the site's top."""
    return "../" if guide == "index" else ROOT


def address_of(guide: str) -> str:
    """The guide's address from the site's top."""
    return "guides/" if guide == "index" else f"guides/{guide}/"


def add(rendered, reference: Reference, environment, root) -> None:
    """Add a page for each guide."""
    for guide in reference.guides.values():
        rendered.pages[path_of(guide.id)] = _page(reference, environment, guide)


def _page(reference: Reference, environment, guide: Guide):
    from .. import Page

    up = root_of(guide.id)
    text = written(reference, guide, up, Blocks(reference, environment, guide, up))
    body = environment.get_template("guides/guide.html").render(root=up, guide=guide, text=text, around=_around(reference, guide))
    return Page(guide.title, guide.description, lambda: body, searched(guide, text), text.headings)


def searched(guide: Guide, text: Written) -> str:
    """What the site's search reads: the guide's own words."""
    return str(Markup('<h1 id="top">{}</h1><p>{}</p>').format(guide.title, guide.question) + text.searched)


def _around(reference: Reference, guide: Guide) -> tuple[Guide | None, Guide | None]:
    """The guides before and after it."""
    order = list(reference.guides.values())
    place = order.index(guide)
    return (order[place - 1] if place else None, order[place + 1] if place + 1 < len(order) else None)


def guides_for(reference: Reference, part: str, crop: Crop | None = None) -> list[Guide]:
    """The guides that a part of a crop page leads to; for `first` also those that explain a treatment of the crop."""
    used = {entry.about for entry in crop.pretreatments} if crop and part == "first" else set()
    return [guide for guide in reference.guides.values() if part in guide.crop_page or used & set(guide.treatments)]


def safety_link(reference: Reference, root: str, hazard: str = "") -> Markup:
    """A link to the guide Safety, at the hazard where it has a part of that name; nothing on a site without that guide."""
    if "safety" not in reference.guides:
        return Markup("")
    anchor, of = (f"#{hazard}", Markup('<span class="of">: {}</span>').format(hazard.replace("-", " "))) if hazard in reference.cautions else ("", "")
    return Markup(' <a class="to-safety" href="{}{}{}">{}{}</a>').format(root, address_of("safety"), anchor, reference.guides["safety"].title, of)


def guides_on(reference: Reference, treatment: str) -> list[Guide]:
    """The guides that explain a treatment."""
    return [guide for guide in reference.guides.values() if treatment in guide.treatments]
