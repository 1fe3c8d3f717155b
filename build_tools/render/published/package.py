"""datapackage.json: every CSV file of the data with its columns, as the Data Package standard has it."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path

from ...model.reference import Reference, Source, SourceTable
from .about import SCHEMA_VERSION, json_text, site_url
from .citation import ABSTRACT, TITLE, citation
from .columns import MEASURED, SOURCES, TABLES, crop_fields
from .csv_files import guarded_columns
from .sources import table_path

NAME = "germination-reference"
ANCHORED = re.compile(r"\^(?P<body>(?:[^|()\\]|\\.|\((?:[^()\\]|\\.|\((?:[^()\\]|\\.|\((?:[^()\\]|\\.)*\))*\))*\))*)\$")


def package_json(reference: Reference, root: Path) -> str:
    """The package's description as JSON text. `root`: the project's folder, for the schemas of the tables."""
    library = reference.library
    schemas = {kind: json.loads((root / "schema" / f"table-{kind}.schema.json").read_text(encoding="utf-8")) for kind in sorted({t.kind for s in reference.sources.values() for t in s.tables})}
    return json_text({
        "profile": "tabular-data-package",
        "name": NAME,
        "id": f"{site_url(reference)}datapackage.json",
        "title": TITLE,
        "description": f"{ABSTRACT} Cite as: {citation(reference)}",
        "homepage": site_url(reference),
        "version": str(library["data_version"]),
        "schema_version": SCHEMA_VERSION,
        "licenses": [{"name": str(library["data_licence"]), "path": f"https://spdx.org/licenses/{library['data_licence']}.html"}],
        "contributors": [{"title": str(name), "role": "author"} for name in library["citation_authors"]],
        "sources": [source_entry(s) for s in reference.sources.values()],
        "keywords": ["germination", "seed", "soil temperature", "seed storage", "seed library"],
        "resources": [*_whole(reference), *(table_resource(s, t, schemas[t.kind]) for s in reference.sources.values() for t in s.tables)],
    })


def source_entry(source: Source) -> dict:
    """A source as the standard names one."""
    return {"title": str(source.fields["title"]), **({"path": str(source.fields["address"])} if source.fields.get("address") else {})}


def resource(name: str, path: str, title: str, fields: list[dict], keys: Mapping, **more) -> dict:
    """A CSV file: its name, its path from the package's file, its columns, its keys."""
    return {
        "name": name, "path": path, "profile": "tabular-data-resource", "title": title, "format": "csv", "mediatype": "text/csv", "encoding": "utf-8", **more,
        "schema": {"fields": fields, "missingValues": [""], **keys},
    }


def _whole(reference: Reference) -> list[dict]:
    def foreign(field: str, other: str, key: str = "id") -> dict:
        return {"fields": [field], "reference": {"resource": other, "fields": [key]}}

    return [
        resource("crops", "downloads/crops.csv", "Crops: every reference value with its status and sources", crop_fields(reference), {"primaryKey": ["id"]}),
        resource(
            "measured", "downloads/measured.csv", "Days and percentages of normal seedlings by temperature", MEASURED,
            {"primaryKey": ["crop", "what", "file", "line", "celsius"], "foreignKeys": [foreign("crop", "crops"), foreign("source", "sources")]},
        ),
        resource("sources", "downloads/sources.csv", "Sources: which copy was read, how it was checked", SOURCES, {"primaryKey": ["id"]}),
        resource("tables", "downloads/tables.csv", "The printed tables: where each is, and its columns", TABLES, {"primaryKey": ["source", "file"], "foreignKeys": [foreign("source", "sources")]}),
    ]


def table_resource(source: Source, table: SourceTable, schema: Mapping) -> dict:
    """A printed table: all cells are text, since a printed 28 and 28.0 differ; what a cell may be is its pattern."""
    marked = guarded_columns(table)
    fields = [column_field(column, schema, column in marked) for column in table.columns]
    return resource(f"{source.id}.{table.file.removesuffix('.csv')}", table_path(source, table), table.caption, fields, {}, sources=[source_entry(source)])


def column_field(column: str, schema: Mapping, marked: bool) -> dict:
    """A column from the JSON Schema of its kind of table. `marked`: some of its cells begin with an apostrophe against spreadsheets."""
    found = schema.get("properties", {}).get(column) or next((part for pattern, part in schema.get("patternProperties", {}).items() if re.search(pattern, column)), {})
    items = _followed(found, schema).get("items", {})
    pattern = whole_pattern(items["pattern"]) if "pattern" in items else None
    constraints = {"pattern": f"'?({pattern})" if marked else pattern} if pattern else {}
    return {"name": column, "type": "string", "description": found.get("description", ""), **({"constraints": constraints} if constraints else {})}


def whole_pattern(pattern: str) -> str:
    """A pattern of JSON Schema, which says ^ and $, as one of the standard's, which always means the whole cell.

    Raises ValueError for one that is not anchored at both ends: it would have another meaning there.
    """
    match = ANCHORED.fullmatch(pattern)
    if not match:
        raise ValueError(f'The pattern "{pattern}" is not of the form ^…$ as a whole: put ^( before it and )$ after it.')
    return match["body"]


def _followed(part: Mapping, schema: Mapping) -> Mapping:
    """The part with its reference inside the schema, if it has one, followed."""
    address = part.get("$ref", "")
    return {**schema["$defs"][address.removeprefix("#/$defs/")], **part} if address.startswith("#/$defs/") else part
