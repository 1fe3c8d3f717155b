"""What every published file says of itself: versions, licence, citation, units, its schema."""

from __future__ import annotations

import json

from ...model.reference import Reference
from .citation import citation

SCHEMA_VERSION = "1.1"  # of the form: 1 is that of the address api/v1/; what each version added stands in docs/api.md
API = "api/v1/"


def site_url(reference: Reference) -> str:
    """Where the site is published, with a slash at the end."""
    return str(reference.library["site_url"]).rstrip("/") + "/"


def schema_address(reference: Reference, name: str) -> str:
    """Where the schema schema/<name>.schema.json is published."""
    return f"{site_url(reference)}schema/{name}.schema.json"


def about(reference: Reference) -> dict:
    """What every JSON file says of itself."""
    library = reference.library
    said = {
        "schema_version": SCHEMA_VERSION,
        "data_version": library["data_version"],
        "licence": library["data_licence"],
        "citation": citation(reference),
        "units": {"temperature": "°C", "depth": "mm", "seed life": "years", "timing": "weeks from the average last spring frost", "shares": "percent"},
    }
    repository = str(library.get("repository_url") or "").rstrip("/")
    if repository:
        said["repository"] = {"address": repository, "edit": f"{repository}/{library.get('repository_edit_path', '')}"}
    return said


def head(reference: Reference, schema: str) -> dict:
    """The first keys of a JSON file whose schema is schema/<schema>.schema.json."""
    return {"$schema": schema_address(reference, schema), **about(reference)}


def json_text(data) -> str:
    """Indented JSON with a newline at the end. Raises ValueError for NaN and infinity."""
    return json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def json_line(data) -> str:
    """The same without spaces, for files that hold everything."""
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
