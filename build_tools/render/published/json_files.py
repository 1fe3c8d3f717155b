"""Which JSON files there are: their path, their schema and what makes them. Written from here, and checked from here."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ...model.reference import Reference
from .about import API
from .crops import crop_file, crops_file
from .sources import source_file, sources_file, tables_file
from .vocabulary import index_file, quantities_file, treatments_file


def whole_files(reference: Reference, schemas: Mapping[str, str]) -> dict[str, tuple]:
    """Path → (schema, function that makes the data) of the files that list everything of a kind, but the one of all crops."""
    return {
        f"{API}index.json": ("api-index", lambda: index_file(reference, schemas)),
        f"{API}sources.json": ("api-sources", lambda: sources_file(reference)),
        f"{API}tables.json": ("api-tables", lambda: tables_file(reference)),
        f"{API}treatments.json": ("api-treatments", lambda: treatments_file(reference)),
        f"{API}quantities.json": ("api-quantities", lambda: quantities_file(reference)),
    }


def source_files(reference: Reference) -> dict[str, tuple]:
    """The same for each source."""
    return {f"{API}sources/{s.id}.json": ("api-source", lambda s=s: source_file(reference, s)) for s in reference.sources.values()}


def crop_files(reference: Reference) -> dict[str, tuple]:
    """The same for each crop."""
    return {f"{API}crops/{c.id}.json": ("api-crop", lambda c=c: crop_file(reference, c)) for c in reference.crops.values()}


def everything(reference: Reference, schemas: Mapping[str, str]) -> Iterator[tuple[str, str, dict]]:
    """(path, schema, data) of every JSON file, made one at a time; the file of all crops comes crop by crop."""
    for path, (schema, make) in {**whole_files(reference, schemas), **source_files(reference), **crop_files(reference)}.items():
        data = make()
        yield path, schema, data
        if schema == "api-crop":
            yield f"{API}crops.json", "api-crops", crops_file(reference, [data["crop"]])
