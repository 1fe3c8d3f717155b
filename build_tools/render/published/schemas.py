"""The JSON Schemas as published: each at the address that its $id names."""

from __future__ import annotations

import json
from pathlib import Path

from ...model.reference import Reference
from .about import site_url

FOLDER = "schema/"


def schema_files(root: Path) -> dict[str, str]:
    """File name → text of every schema of <root>/schema, by name."""
    return {path.name: path.read_text(encoding="utf-8") for path in sorted((root / "schema").glob("*.schema.json"))}


def published_schema(reference: Reference, name: str, text: str) -> str:
    """The schema's text with its $id made absolute; nothing else is changed.

    References between schemas are relative, and so lead to the published ones. Raises ValueError when the $id is not the file's name.
    """
    relative, absolute = f'"$id": {json.dumps(name)}', f'"$id": {json.dumps(site_url(reference) + FOLDER + name)}'
    if json.loads(text).get("$id") != name or text.count(relative) != 1:
        raise ValueError(f"The $id of this schema has to be its file's name, written once as {relative}.")
    return text.replace(relative, absolute)
