"""Sources and their printed tables as plain data."""

from __future__ import annotations

from ...model.reference import Reference, Source, SourceTable
from .about import API, head

TABLES = "downloads/tables/"


def table_path(source: Source, table: SourceTable) -> str:
    """The site's path of a printed table as CSV."""
    return f"{TABLES}{source.id}/{table.file}"


def source_file(reference: Reference, source: Source) -> dict:
    """One source with the rows of its tables, as printed."""
    return {**head(reference, "api-source"), "source": source_data(source, rows=True)}


def sources_file(reference: Reference) -> dict:
    """All sources in one file, with the doubts about their tables and without their rows."""
    return {**head(reference, "api-sources"), "sources": [source_data(s, rows=False) for s in reference.sources.values()]}


def tables_file(reference: Reference) -> dict:
    """Every printed table: where it is, what it is, its columns."""
    return {**head(reference, "api-tables"), "tables": [
        {"source": s.id, **table_data(s, t, up="../../"), "json": f"sources/{s.id}.json", "schema": f"../../schema/table-{t.kind}.schema.json"} for s in reference.sources.values() for t in s.tables
    ]}


def source_data(source: Source, rows: bool) -> dict:
    """A source as written in source.yml, and what follows from it; with the rows for its own file, without for the file of all."""
    up = "../" * ((API + "sources/" if rows else API).count("/"))
    return {
        **source.fields, "counts": source.counts, "repository_file": source.file, "lines": dict(source.lines), "crops": list(source.crops), "cited_by": list(source.cited_by),
        "tables": [{**table_data(source, t, up), **({"rows": row_data(t)} if rows else {})} for t in source.tables],
    }


def table_data(source: Source, table: SourceTable, up: str) -> dict:
    """A printed table without its rows. `up` leads from the file this goes into to the site's top."""
    return {
        "file": table.file, "kind": table.kind, "caption": table.caption, **({"notes": table.notes} if table.notes else {}), "columns": list(table.columns), "row_count": len(table.rows),
        "csv": up + table_path(source, table), "repository_file": f"data/sources/{source.id}/{table.file}", "doubts": [{**d, "line": line} for d, line in zip(table.doubts, table.doubt_lines, strict=True)],
    }


def row_data(table: SourceTable) -> list[dict]:
    """The rows with their lines in the file."""
    return [{"line": line, "cells": dict(row)} for line, row in zip(table.row_lines, table.rows, strict=True)]
