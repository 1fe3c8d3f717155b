"""The CSV files: everything of a kind in one table, and the printed tables as they stand."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import chain
from pathlib import Path

from ...model.build import QUANTITIES
from ...model.reference import Reference, Source, SourceTable
from ...spreadsheet import guarded
from ..wording import value_csv
from .columns import MEASURED, SOURCES, TABLES, crop_fields
from .sources import table_path


def csv_text(rows: Iterable[Mapping[str, object]], columns: Sequence[str] = ()) -> str:
    """Rows with the same keys as CSV text; every cell guarded. `columns` are needed where there may be no row: then only the header is written."""
    rows = iter(rows)
    first = None if columns else next(rows)
    out = io.StringIO()
    writer = csv.DictWriter(out, columns or list(first), lineterminator="\n")
    writer.writeheader()
    for row in chain([first] if first else [], rows):
        writer.writerow({key: guarded(str(value)) for key, value in row.items()})
    return out.getvalue()


def whole_tables(reference: Reference) -> dict[str, Callable[[], str]]:
    """Site path → what makes the text of each table that holds everything of a kind."""
    def text(rows, fields):
        return lambda: csv_text(rows(reference), [field["name"] for field in fields])

    return {
        "downloads/crops.csv": text(crop_rows, crop_fields(reference)), "downloads/measured.csv": text(measured_rows, MEASURED),
        "downloads/sources.csv": text(source_rows, SOURCES), "downloads/tables.csv": text(table_rows, TABLES),
    }


def crop_rows(reference: Reference) -> Iterable[dict]:
    """One row a crop: names and every reference value, with its status and sources."""
    for crop in reference.crops.values():
        row = {"id": crop.id, "common_name": crop.name, "other_names": "; ".join(crop.other_names), "botanical_name": crop.botanical, "family": crop.family, "kind": crop.kind}
        for quantity in QUANTITIES:
            judged = crop[quantity]
            row |= {quantity: value_csv(judged), f"{quantity}_status": judged.status, f"{quantity}_sources": "; ".join(judged.sources)}
        method, minimum = crop.method, crop.minimum_percent
        row |= {"official_minimum_percent": "" if minimum is None else f"{minimum:g}"}
        row |= {"first_count_days": method and method.first_count_days or "", "final_count_days": method and method.final_count_days or "", "file": crop.file}
        yield row


def measured_rows(reference: Reference) -> Iterable[dict]:
    """Long form: one row for each printed cell of the temperature tables."""
    for crop in reference.crops.values():
        for what, found in (("days", crop.days), ("percent_normal_seedlings", crop.percents)):
            for row in found:
                for c in row.cells:
                    if c.state != "blank":
                        yield {
                            "crop": crop.id, "what": what, "source": row.source, "celsius": c.celsius, "state": c.state, "value": "" if c.value is None else f"{c.value:g}",
                            "as_printed": c.as_printed, "in_doubt": c.doubt, "file": row.file, "line": row.line,
                        }


def source_rows(reference: Reference) -> Iterable[dict]:
    """One row a source."""
    keys = ("authors", "title", "publisher", "year", "address", "where", "copy_read", "verified", "evidence", "family", "independence", "historical", "doubtful", "notes")
    for source in reference.sources.values():
        yield {"id": source.id, **{key: source.fields.get(key, "") for key in keys}}


def table_rows(reference: Reference) -> Iterable[dict]:
    """One row a printed table."""
    for source in reference.sources.values():
        for table in source.tables:
            yield {
                "source": source.id, "file": table.file, "kind": table.kind, "caption": table.caption, "columns": "; ".join(table.columns), "row_count": len(table.rows),
                "doubt_count": len(table.doubts), "csv": table_path(source, table), "repository_file": f"data/sources/{source.id}/{table.file}",
            }


def guarded_columns(table: SourceTable) -> set[str]:
    """Columns in which a spreadsheet could take a cell for a formula."""
    return {column for row in table.rows for column, cell in row.items() if guarded(cell) != cell}


def printed_table(root: Path, source: Source, table: SourceTable) -> bytes:
    """The table's file as it stands; only where a spreadsheet could take a cell for a formula is it written anew, with that cell guarded."""
    if guarded_columns(table) or any(guarded(column) != column for column in table.columns):
        return csv_text({column: row[column] for column in table.columns} for row in table.rows).encode()
    return (root / "data" / "sources" / source.id / table.file).read_bytes()
