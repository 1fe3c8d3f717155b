"""Everything as CSV and JSON, with schemas, versions, licence and citation; and the page that offers it."""

from __future__ import annotations

from pathlib import Path

from markupsafe import Markup

from ..model.reference import Reference
from .packages_files import package_files
from .published.about import API, about, json_text
from .published.citation import citation, citation_cff
from .published.crops import all_crops_json, crop_json
from .published.csv_files import csv_text, printed_table, whole_tables
from .published.json_files import source_files, whole_files
from .published.package import package_json
from .published.page import HEADINGS, downloads_body, fragments
from .published.schemas import FOLDER, published_schema, schema_files
from .published.sources import table_path

__all__ = ["about", "add", "citation", "crop_json", "csv_text"]


def add(rendered, reference: Reference, environment, root: Path) -> None:
    """Add the download files and their page; the file of each crop comes with its page."""
    from . import Page

    schemas = schema_files(root)
    rendered.files |= {
        "CITATION.cff": lambda: citation_cff(reference),
        "datapackage.json": lambda: package_json(reference, root),
        **whole_tables(reference),
        f"{API}crops.json": lambda: all_crops_json(reference),
        **package_files(reference),
    }
    for path, (_, make) in {**whole_files(reference, schemas), **source_files(reference)}.items():
        rendered.files[path] = lambda make=make: json_text(make())
    for source in reference.sources.values():
        for table in source.tables:
            rendered.files[table_path(source, table)] = lambda source=source, table=table: printed_table(root, source, table)
    for name, text in schemas.items():
        rendered.files[FOLDER + name] = lambda name=name, text=text: published_schema(reference, name, text)

    description = "All data as CSV and JSON, with schema version, licence and citation."
    summary = Markup('<h1 id="top">Downloads</h1><p>{}</p>').format(description) + Markup("").join(Markup('<h2 id="{}">{}</h2>').format(*heading) for heading in HEADINGS)
    rendered.pages["downloads.md"] = Page("Downloads", description, lambda: downloads_body(reference, environment, rendered.files), str(summary), HEADINGS)
    rendered.fragments |= fragments(reference, environment)
