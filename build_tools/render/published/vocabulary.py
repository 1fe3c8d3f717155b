"""What the numbers and words of the data mean, the treatments they name, and the index of all of it."""

from __future__ import annotations

import json
from collections.abc import Mapping

from ...model.reference import Reference, Treatment, Words
from .about import head
from .sources import table_path

# What holds everything of a kind; addresses are relative to the index.
FILES = (
    ("All crops with their values and the evidence", "crops.json"),
    ("All sources, without the rows of their tables", "sources.json"),
    ("All printed tables: where they are, their columns", "tables.json"),
    ("Treatments before sowing, with their cautions", "treatments.json"),
    ("What the quantities and choices mean", "quantities.json"),
    ("All CSV files with their columns, as a data package", "../../datapackage.json"),
    ("One row a crop", "../../downloads/crops.csv"),
    ("One row a measured cell", "../../downloads/measured.csv"),
    ("One row a source", "../../downloads/sources.csv"),
    ("One row a printed table", "../../downloads/tables.csv"),
    ("How to cite", "../../CITATION.cff"),
)


def quantities_file(reference: Reference) -> dict:
    """The quantities and choices with their definitions."""
    return {**head(reference, "api-quantities"), "quantities": _plain(reference.quantities), "choices": _plain(reference.choices)}


def treatments_file(reference: Reference) -> dict:
    """All treatments, with their cautions."""
    return {**head(reference, "api-treatments"), "treatments": [treatment_data(t) for t in reference.treatments.values()]}


def treatment_data(treatment: Treatment) -> dict:
    """A treatment as plain data."""
    def said(words: Words) -> dict:
        return {"text": words.text, "sources": list(words.sources), "file": treatment.file, "line": words.line}

    return {
        "id": treatment.id, "name": treatment.name, "what": treatment.what, "laboratory_only": treatment.laboratory_only, "hazard": treatment.hazard, "steps": list(treatment.steps),
        "evidence": [{"grade": w.grade, **said(w)} for w in treatment.evidence], "cautions": [said(w) for w in treatment.cautions], "file": treatment.file,
    }


def index_file(reference: Reference, schemas: Mapping[str, str]) -> dict:
    """What there is and where: crops and sources one by one, tables, schemas (by file name), files of everything."""
    return {
        **head(reference, "api-index"),
        "files": [{"what": what, "address": address} for what, address in FILES],
        "crops": [{"id": c.id, "name": c.name, "address": f"crops/{c.id}.json"} for c in reference.crops.values()],
        "sources": [{"id": s.id, "title": s.fields["title"], "address": f"sources/{s.id}.json"} for s in reference.sources.values()],
        "tables": [{"source": s.id, "file": t.file, "kind": t.kind, "caption": t.caption, "address": f"../../{table_path(s, t)}"} for s in reference.sources.values() for t in s.tables],
        "schemas": [{"name": name, "title": json.loads(content).get("title", name), "address": f"../../schema/{name}"} for name, content in schemas.items()],
    }


def _plain(value):
    """Mappings and sequences as JSON has them."""
    if isinstance(value, Mapping):
        return {key: _plain(item) for key, item in value.items()}
    return [_plain(item) for item in value] if isinstance(value, list | tuple) else value
