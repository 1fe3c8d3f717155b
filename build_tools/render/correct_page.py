"""The page Correct a value: where a correction can go, and what the browser needs to prepare it."""

from __future__ import annotations

import json
from pathlib import Path

from markupsafe import Markup

from ..model.build import CHOICES, QUANTITIES
from ..model.reference import Reference
from .calculators import data_json
from .wording import STATUS_WORDS, source_label

# What else on a page may be corrected, beside the keys of a crop's file.
OTHER_SUBJECTS = {
    "days": "Days by temperature", "percent": "Seedlings by temperature", "official-method": "Official test method",
    "minimum-germination": "Minimum germination", "practice": "Rule of the trade",
}


def quantity_names(reference: Reference, schema: dict) -> dict[str, str]:
    """Name for readers of every key of a crop's file: that of data/quantities.yml, else the title in the schema."""
    keys = schema["properties"]
    inner = {key for group in ("temperature", "timing") for key in keys[group]["properties"]}
    names = {key: str(keys[key]["title"]) for key in keys if "title" in keys[key]}
    return names | {key: str(reference.quantities[key]["name"]) for key in (*keys, *inner) if key in reference.quantities}


def browser_data(reference: Reference, root: Path) -> dict:
    """What the page's script needs: the addresses, and the words for ids."""
    library = reference.library
    schema = json.loads((root / "schema" / "crop.schema.json").read_text(encoding="utf-8"))
    return {
        "repository": str(library.get("repository_url", "")).rstrip("/"), "edit_path": library.get("repository_edit_path", ""), "form_path": library.get("form_path", ""),
        "email": library["contact_email"], "library": library["name"], "licence": library["data_licence"], "data_version": library["data_version"], "site": library["site_url"],
        "quantities": OTHER_SUBJECTS | quantity_names(reference, schema),
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
