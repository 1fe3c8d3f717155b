"""The page that offers the files, and the examples on the page for those who write programs."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping

from ...model.reference import Reference
from ..packages_files import SBOM
from .about import API, SCHEMA_VERSION
from .citation import citation
from .columns import MEASURED
from .crops import crop_file
from .csv_files import csv_text, measured_rows
from .sources import source_file, tables_file

OFFERED = (
    "downloads/crops.csv", "downloads/measured.csv", "downloads/sources.csv", "downloads/tables.csv",
    f"{API}index.json", f"{API}crops.json", f"{API}sources.json", f"{API}tables.json", f"{API}treatments.json", f"{API}quantities.json",
    "datapackage.json", "CITATION.cff", SBOM,
)
WIDEST = 100  # letters in a line of an example
HEADINGS = (("tables", "Tables for a spreadsheet"), ("programs", "Data for programs"), ("cite", "Cite it"), ("built-with", "What the site is built with"))


def size_text(size: int) -> str:
    """Bytes as a reader wants them: 900 bytes, 47 kB, 1.2 MB."""
    if size < 1000:
        return f"{size} bytes"
    return f"{size / 1000:.0f} kB" if size < 999_500 else f"{size / 1_000_000:.1f} MB"


def sizes(files: Mapping[str, Callable]) -> dict[str, str]:
    """The sizes of the offered files, by making each."""
    def size(content: str | bytes) -> int:
        return len(content if isinstance(content, bytes) else content.encode())

    return {path: size_text(size(files[path]())) for path in OFFERED}


def downloads_body(reference: Reference, environment, files: Mapping[str, Callable]) -> str:
    """The page Downloads."""
    return environment.get_template("downloads.html").render(
        root="../", citation=citation(reference), schema_version=SCHEMA_VERSION, tables=sum(len(s.tables) for s in reference.sources.values()), sizes=sizes(files),
    )


def fragments(reference: Reference, environment) -> dict[str, str]:
    """The list of files and the examples for docs/api.md, cut from the real files. A part without an example is left empty."""
    def excerpt(path: str, text: str, cut: str) -> str:
        return environment.get_template("published/excerpt.html").render(path=path, text=text.rstrip("\n"), cut=cut)

    found = {"api-files": environment.get_template("published/file_list.html").render(root="../", files=file_list(reference))}
    crop = next((c for c in reference.crops.values() if c.days and c["minimum_c"].known and c["minimum_c"].families), None) or next(iter(reference.crops.values()))
    value = crop_file(reference, crop)
    judged = value["crop"]["values"]["minimum_c"]
    if judged:
        judged = {**judged, "families": judged["families"][:1]}
    found["api-crop"] = excerpt(f"{API}crops/{crop.id}.json", spread({**value, "crop": {"id": crop.id, "names": value["crop"]["names"], "values": {"minimum_c": judged}}}), "cut to one value and one family of its sources")
    source = next((s for s in reference.sources.values() if s.tables and crop.id in s.crops), None)
    if source:
        whole = source_file(reference, source)["source"]
        table = {**whole["tables"][0], "doubts": whole["tables"][0]["doubts"][:1], "rows": whole["tables"][0]["rows"][:1]}
        found["api-source"] = excerpt(f"{API}sources/{source.id}.json", spread({"source": {"id": source.id, "title": source.fields["title"], "copy_read": source.fields["copy_read"], "tables": [table]}}), "cut to one table and its first row")
        entry = next(t for t in tables_file(reference)["tables"] if t["source"] == source.id)
        found["api-tables"] = excerpt(f"{API}tables.json", spread({"tables": [{**entry, "doubts": entry["doubts"][:1]}]}), "cut to one table")
    rows = [row for row in measured_rows(reference) if row["crop"] == crop.id][:3]
    if rows:
        found["api-csv"] = excerpt("downloads/measured.csv", csv_text(rows), "the first rows of one crop")
    found["api-package"] = excerpt("datapackage.json", spread({"resources": [{"name": "measured", "path": "downloads/measured.csv", "schema": {"fields": MEASURED[:2]}}]}), "cut to two columns of one table")
    return {name: found.get(name, "") for name in ("api-files", "api-crop", "api-source", "api-tables", "api-csv", "api-package")}


def spread(data, indent: int = 0) -> str:
    """JSON text with short objects, and lists of words or numbers, on one line, for reading on a page."""
    flat = json.dumps(data, ensure_ascii=False)
    plain = not isinstance(data, dict | list) or isinstance(data, list) and not any(isinstance(item, dict | list) for item in data)
    if plain or len(flat) + indent <= WIDEST:
        return flat
    pad = " " * (indent + 2)
    parts = [f"{pad}{json.dumps(key, ensure_ascii=False)}: {spread(value, indent + 2)}" for key, value in data.items()] if isinstance(data, dict) else [pad + spread(item, indent + 2) for item in data]
    ends = "{}" if isinstance(data, dict) else "[]"
    return ends[0] + "\n" + ",\n".join(parts) + "\n" + " " * indent + ends[1]


def file_list(reference: Reference) -> list[dict]:
    """address, what, link and schema of each kind of JSON file, and of the data package."""
    crop, source = next(iter(reference.crops)), next(iter(reference.sources))
    listed = (
        ("index.json", "What there is, and where", "", "index"), ("crops/<id>.json", "One crop", f"crops/{crop}.json", "crop"), ("crops.json", "All crops", "", "crops"),
        ("sources/<id>.json", "One source, with the rows of its tables", f"sources/{source}.json", "source"), ("sources.json", "All sources, without rows", "", "sources"),
        ("tables.json", "All printed tables: what each is, its columns, where it is", "", "tables"),
        ("treatments.json", "Treatments before sowing, with their cautions", "", "treatments"), ("quantities.json", "What the numbers and words mean", "", "quantities"),
    )
    return [{"address": API + address, "what": what, "link": API + (link or address), "schema": f"api-{schema}.schema.json"} for address, what, link, schema in listed] + [
        {"address": "datapackage.json", "what": "All CSV files with their columns", "link": "datapackage.json", "schema": ""},
    ]
