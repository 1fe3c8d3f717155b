"""The page Correct a value: where a correction can go, and what the browser needs to prepare it."""

from __future__ import annotations

from pathlib import Path

from markupsafe import Markup

from ..model.build import CHOICES, QUANTITIES
from ..model.reference import Reference
from .calculators import data_json
from .forge_forms import correctable
from .wording import STATUS_WORDS, source_label

# What else on a page may be corrected; the form has no words of its own for these.
OTHER_SUBJECTS = {"official-method": "Official test method", "minimum-germination": "Minimum germination", "practice": "Rule of the trade"}


def browser_data(reference: Reference, root: Path) -> dict:
    """What the page's script needs: the addresses, and the words for ids."""
    library = reference.library
    return {
        "repository": str(library.get("repository_url", "")).rstrip("/"), "edit_path": library.get("repository_edit_path", ""), "form_path": library.get("form_path", ""),
        "email": library["contact_email"], "library": library["name"], "licence": library["data_licence"], "data_version": library["data_version"], "site": library["site_url"],
        "quantities": correctable(reference, root) | OTHER_SUBJECTS,
        "units": {key: q["unit"] for key, q in reference.quantities.items() if key in QUANTITIES},
        "choices": {key: list(reference.choices[key]) for key in CHOICES},
        "statuses": STATUS_WORDS, "sources": {source: source_label(reference, source) for source in reference.sources},
    }


def add(rendered, reference: Reference, environment, root: Path) -> None:
    """Add the page."""
    from . import Page

    title, description = "Correct a value", "Say that a value is wrong, or printed otherwise elsewhere: by e-mail without an account, by a form, or in the data file itself."
    summary = Markup('<h1 id="top">{}</h1><p>{}</p>').format(title, description)

    def body() -> str:
        return environment.get_template("correct/index.html").render(root="../", data_json=data_json(browser_data(reference, root)))

    rendered.pages["correct.md"] = Page(title, description, body, str(summary), (("what", "What it is about"), ("better", "What it should be"), ("ways", "Three ways to send it")))
