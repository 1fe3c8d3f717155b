"""The page “Without a network”: the reference kept on a device, what else is stored there, and clearing it; and the manifest for installing the site."""

from __future__ import annotations

import json
import mimetypes
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup

from ..model.reference import Reference
from .calculators import data_json


@dataclass(frozen=True)
class Stored:
    """Something that pages store on the reader's device: where, under which keys (a pattern in the browser's own notation), why, how long."""

    id: str
    name: str
    store: str
    pattern: str
    why: str
    until: str


STORED = (
    Stored("pages", "The reference itself", "caches", "", "to be read without a network", "until a newer edition takes its place, or you clear it"),
    Stored("unit", "°C, °F or both", "localStorage", r"^unit$", "so that you choose once", "until you clear it"),
    Stored("colours", "Light or dark", "localStorage", r"\.__palette$", "so that you choose once", "until you clear it"),
    Stored("calculators", "What stands in a calculator", "sessionStorage", r"^[a-z-]+ /", "so that going back or loading the page again does not lose it", "until you close the tab"),
    Stored("labels", "Tests on their way to the page of labels", "sessionStorage", r"^labels-tests$", "to carry them from one page to the next", "until the page of labels opens, or you close the tab"),
)


def web_manifest(reference: Reference) -> str:
    """The Web App Manifest (W3C): under which name and picture the site is installed. Addresses in it count from the site's top."""
    library = reference.library
    icon = f"assets/{library.get('logo', 'images/favicon.png')}"
    manifest = {
        "name": str(library["name"]), "short_name": "Germination", "lang": "en", "dir": "ltr", "id": ".", "start_url": ".", "scope": ".", "display": "minimal-ui",
        "description": "Germination of vegetables, herbs and flowers, with sources.",
        "icons": [{"src": icon, "sizes": "any" if icon.endswith(".svg") else "48x48", "type": mimetypes.guess_type(icon)[0], "purpose": "any"}],
    }
    return json.dumps(manifest, ensure_ascii=False, indent=1) + "\n"


def add(rendered, reference: Reference, environment, root: Path) -> None:
    """Add the page and the manifest."""
    from . import Page

    title, description = "Without a network", "After one visit these pages work without a network. What is kept on your device, and how to clear it."
    headings = (("kept", "Kept on this device"), ("install", "On the home screen"), ("stick", "From a stick or a folder"), ("stored", "What is stored here"))
    summary = Markup('<h1 id="top">{}</h1><p>{}</p>').format(title, description) + Markup("").join(Markup('<h2 id="{}">{}</h2>').format(*h) for h in headings)
    known = [{"id": one.id, "store": one.store, "pattern": one.pattern} for one in STORED if one.pattern]

    def body() -> str:
        return environment.get_template("offline.html").render(root="../", stored=STORED, data_json=data_json(known))

    rendered.pages["offline.md"] = Page(title, description, body, str(summary), headings)
    rendered.files["manifest.webmanifest"] = lambda: web_manifest(reference)
