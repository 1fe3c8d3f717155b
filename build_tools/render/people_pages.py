"""The page Credits: corrections that people proposed, accepted, refused or waiting, each with the reason; and works of others that the site passes on."""

from __future__ import annotations

from markupsafe import Markup

from ..model.corrections import OUTCOMES, Correction
from ..model.reference import Reference
from ..packages import parts
from .wording import MONTHS, quantity_name

HEADINGS = {"accepted": "Accepted", "refused": "Not taken over", "waiting": "Waiting for something"}


def day_text(iso: str) -> str:
    """2026-09-12 as "12 September 2026"."""
    year, month, day = iso.split("-")
    return f"{int(day)} {MONTHS[int(month) - 1]} {year}"


def subject(reference: Reference, correction: Correction, root: str) -> Markup:
    """What a correction is about, with a link to where it is shown; a file by its name."""
    if not correction.crop:
        return Markup("<code>{}</code>").format(correction.file)
    crop = reference.crops[correction.crop]
    return Markup('<a href="{}crops/{}/#evidence">{}</a>, {}').format(root, crop.id, crop.name, quantity_name(reference, correction.quantity).lower())


def add(rendered, reference: Reference, environment, root) -> None:
    """Add the page."""
    from . import Page

    title, description = "Credits", "Corrections that people proposed, what became of each, and why; works of others that come with the site, and their licences."
    groups = [(outcome, HEADINGS[outcome], [c for c in reference.corrections if c.outcome == outcome]) for outcome in OUTCOMES]
    headings = (*((outcome, words) for outcome, words, found in groups if found), ("passed-on", "What comes with the site"))
    summary = Markup('<h1 id="top">{}</h1><p>{}</p>').format(title, description) + Markup("").join(Markup('<h2 id="{}">{}</h2>').format(*h) for h in headings)

    def body() -> str:
        return environment.get_template("correct/credits.html").render(
            root="../", groups=groups, day_text=day_text, subject=lambda c: subject(reference, c, "../"), parts=parts(),
            named=sorted({c.by for c in reference.corrections if c.by and c.outcome == "accepted"}, key=str.casefold),
        )

    rendered.pages["credits.md"] = Page(title, description, body, str(summary), headings)
