"""Everything as CSV and JSON, with schema version, licence and citation; and the page that offers it."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Mapping
from pathlib import Path

from ..model.build import QUANTITIES
from ..model.reference import Crop, Judged, Reference
from ..spreadsheet import guarded
from .wording import value_csv

SCHEMA_VERSION = "1.0"


def about(reference: Reference) -> dict:
    """What every JSON file says of itself."""
    library = reference.library
    return {
        "schema_version": SCHEMA_VERSION,
        "data_version": library["data_version"],
        "licence": library["data_licence"],
        "citation": citation(reference),
        "units": {"temperature": "°C", "depth": "mm", "seed life": "years", "timing": "weeks from the average last spring frost", "shares": "percent"},
    }


def citation(reference: Reference) -> str:
    """How to cite the data, in one line."""
    library = reference.library
    return f"{', '.join(library['citation_authors'])}: Germination reference, data version {library['data_version']}. {library['site_url']}"


def judged_json(judged: Judged) -> dict | None:
    """A reference value with how it stands to each family; None when there is none."""
    if not judged.known:
        return None
    value = {"choice": judged.choice} if judged.choice else {"value": judged.low} if judged.low == judged.high else {"low": judged.low, "high": judged.high}
    return {
        **value, "sources": list(judged.sources), "status": judged.status, **({"note": judged.note} if judged.note else {}), **({"departs": judged.departs} if judged.departs else {}),
        "families": [
            {"family": f.family, "counts": f.counts, "stands": f.stands, **({"choices": list(f.choices)} if f.low is None else {"low": f.low, "high": f.high}), "printed": [{"source": p.source, "as_printed": p.as_printed, **({"in_doubt": p.doubt} if p.doubt else {})} for p in f.printed]}
            for f in judged.families
        ],
    }


def crop_data(crop: Crop) -> dict:
    """A crop as plain data."""
    def measured(rows):
        return [{"source": r.source, "cells": [{"celsius": c.celsius, "state": c.state, "value": c.value, "as_printed": c.as_printed, **({"in_doubt": c.doubt} if c.doubt else {})} for c in r.cells if c.state != "blank"]} for r in rows]

    return {
        "id": crop.id, "names": {"common": crop.name, "other": list(crop.other_names), "botanical": crop.botanical, "family": crop.family}, "kind": crop.kind,
        "values": {q: judged_json(crop[q]) for q in QUANTITIES},
        "days_by_temperature": measured(crop.days),
        "percent_normal_seedlings_by_temperature": measured(crop.percents),
        "official_methods": [{"source": m.source, "kind": m.kind_as_printed, "substrata": list(m.substrata), "temperatures": m.temperatures, "first_count_days": m.first_count_days, "final_count_days": m.final_count_days} for m in crop.methods],
        "minimum_germination": [{"source": m.source, "kind": m.kind_as_printed, "percent": m.percent} for m in crop.minimums],
        "pretreatments": [{"treatment": w.about, "advice": w.advice, "evidence": w.grade, "text": w.text, "sources": list(w.sources)} for w in crop.pretreatments],
        **{name: [{"text": w.text, "sources": list(w.sources)} for w in getattr(crop, name)] for name in ("cautions", "disagreements", "notes")},
    }


def _json(data) -> str:
    return json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def crop_json(reference: Reference, crop: Crop) -> str:
    """The crop page's data as JSON text."""
    return _json({**about(reference), "crop": crop_data(crop)})


def csv_text(rows: Iterable[Mapping[str, object]]) -> str:
    """Rows with the same keys as CSV text; every cell guarded."""
    rows = [{key: guarded(str(value)) for key, value in row.items()} for row in rows]
    out = io.StringIO()
    writer = csv.DictWriter(out, rows[0].keys(), lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


def crop_rows(reference: Reference) -> Iterable[dict]:
    """One row a crop: names and every reference value, with its status and sources."""
    for crop in reference.crops.values():
        row = {"id": crop.id, "common_name": crop.name, "other_names": "; ".join(crop.other_names), "botanical_name": crop.botanical, "family": crop.family, "kind": crop.kind}
        for quantity in QUANTITIES:
            judged = crop[quantity]
            row |= {quantity: value_csv(judged), f"{quantity}_status": judged.status, f"{quantity}_sources": "; ".join(judged.sources)}
        method, minimum = crop.method, crop.minimum_percent
        row |= {"official_minimum_percent": "" if minimum is None else f"{minimum:g}"}
        row |= {"first_count_days": method and method.first_count_days or "", "final_count_days": method and method.final_count_days or ""}
        yield row


def measured_table(reference: Reference) -> Iterable[dict]:
    """Long form: one row for each printed cell of the temperature tables."""
    for crop in reference.crops.values():
        for what, found in (("days", crop.days), ("percent_normal_seedlings", crop.percents)):
            for row in found:
                for c in row.cells:
                    if c.state != "blank":
                        yield {"crop": crop.id, "what": what, "source": row.source, "celsius": c.celsius, "state": c.state, "value": "" if c.value is None else f"{c.value:g}", "as_printed": c.as_printed, "in_doubt": c.doubt}


def source_rows(reference: Reference) -> Iterable[dict]:
    """One row a source."""
    keys = ("authors", "title", "publisher", "year", "address", "where", "copy_read", "verified", "evidence", "family", "independence", "historical", "doubtful", "notes")
    for source in reference.sources.values():
        yield {"id": source.id, **{key: source.fields.get(key, "") for key in keys}}


def all_crops_json(reference: Reference) -> str:
    """All crops in one file, without indentation: about half the size."""
    crops = ",\n".join(json.dumps(crop_data(c), ensure_ascii=False, separators=(",", ":"), allow_nan=False) for c in reference.crops.values())
    return json.dumps(about(reference), ensure_ascii=False)[:-1] + ', "crops": [\n' + crops + "\n]}\n"


def sources_json(reference: Reference) -> str:
    """All sources in one file, with the doubts about their tables."""
    return _json({**about(reference), "sources": [{**s.fields, "tables": [{"file": t.file, "kind": t.kind, "caption": t.caption, "doubts": [dict(d) for d in t.doubts]} for t in s.tables]} for s in reference.sources.values()]})


def index_json(reference: Reference) -> str:
    """The list of crops and where the data of each is."""
    return _json({**about(reference), "crops": [{"id": c.id, "name": c.name, "address": f"crops/{c.id}.json"} for c in reference.crops.values()]})


def add(rendered, reference: Reference, environment, root: Path) -> None:
    """Add the download files and their page."""
    from . import Page

    whole = {
        "downloads/crops.csv": lambda: csv_text(crop_rows(reference)),
        "downloads/measured.csv": lambda: csv_text(measured_table(reference)),
        "downloads/sources.csv": lambda: csv_text(source_rows(reference)),
       
        "api/v1/crops.json": lambda: all_crops_json(reference), "api/v1/sources.json": lambda: sources_json(reference), "api/v1/index.json": lambda: index_json(reference),
    }
    rendered.files.update(whole)
    for source in reference.sources.values():
        for table in source.tables:
            rendered.files[f"downloads/tables/{source.id}/{table.file}"] = (root / "data" / "sources" / source.id / table.file).read_bytes
    for path in sorted((root / "schema").glob("*.json")):
        rendered.files[f"schema/{path.name}"] = path.read_bytes

    def body():
        return environment.get_template("downloads.html").render(root="../", citation=citation(reference), schema_version=SCHEMA_VERSION, tables=sum(len(s.tables) for s in reference.sources.values()))

    description = "All data as CSV and JSON, with schema version, licence and citation."
    rendered.pages["downloads.md"] = Page("Downloads", description, body, f'<h1 id="top">Downloads</h1><p>{description}</p>')
