"""The CSV files, read back with pandas and with csv, hold what the model holds."""

import csv
import io
from dataclasses import replace
from types import MappingProxyType

import pandas as pd
import pytest

from build_tools.model.build import CHOICES, QUANTITIES
from build_tools.render.published.columns import MEASURED, SOURCES, TABLES, crop_fields
from build_tools.render.published.csv_files import (
    crop_rows,
    csv_text,
    guarded_columns,
    measured_rows,
    printed_table,
    source_rows,
    table_rows,
)
from build_tools.render.published.package import column_field


def read(built, path):
    return pd.read_csv(built / path, keep_default_na=False, dtype=str)


def as_number(text):
    return None if text == "" else float(text)


def test_crops(built, reference):
    table = read(built, "downloads/crops.csv").set_index("id")
    assert list(table.index) == list(reference.crops)
    for crop in reference.crops.values():
        row = table.loc[crop.id]
        assert (row["common_name"], row["botanical_name"], row["family"], row["kind"], row["file"]) == (crop.name, crop.botanical, crop.family, crop.kind, crop.file)
        assert row["other_names"] == "; ".join(crop.other_names)
        for quantity in QUANTITIES:
            judged, cell = crop[quantity], row[quantity]
            assert row[f"{quantity}_status"] == judged.status and row[f"{quantity}_sources"] == "; ".join(judged.sources)
            if quantity in CHOICES:
                assert cell == (judged.choice or "")
            elif not judged.known:
                assert cell == ""
            else:
                ends = [float(end) for end in cell.split(" to ")]
                assert (ends[0], ends[-1]) == (judged.low, judged.high)
        assert as_number(row["official_minimum_percent"]) == crop.minimum_percent
        assert as_number(row["final_count_days"]) == (crop.method.final_count_days if crop.method else None)


def test_measured(built, reference):
    table = read(built, "downloads/measured.csv")
    rows = [
        (crop.id, what, row.source, cell.celsius, cell.state, cell.value, cell.as_printed, cell.doubt, row.file, row.line)
        for crop in reference.crops.values() for what, found in (("days", crop.days), ("percent_normal_seedlings", crop.percents)) for row in found for cell in row.cells if cell.state != "blank"
    ]
    read_back = [(r.crop, r.what, r.source, float(r.celsius), r.state, as_number(r.value), r.as_printed, r.in_doubt, r.file, int(r.line)) for r in table.itertuples()]
    assert read_back == rows and len(rows) > 400


def test_sources_and_tables(built, reference):
    table = read(built, "downloads/sources.csv").set_index("id")
    assert list(table.index) == list(reference.sources)
    for source in reference.sources.values():
        assert {key: table.loc[source.id, key] for key in table.columns} == {key: str(source.fields.get(key, "")) for key in table.columns}
    tables = read(built, "downloads/tables.csv")
    assert [(r.source, r.file, r.kind, r.caption, r.columns.split("; "), int(r.row_count), int(r.doubt_count)) for r in tables.itertuples()] == [
        (s.id, t.file, t.kind, t.caption, list(t.columns), len(t.rows), len(t.doubts)) for s in reference.sources.values() for t in s.tables
    ]
    assert all((built / r.csv).is_file() for r in tables.itertuples())


def test_printed_tables(built, reference, root):
    """Byte for byte the repository's, but for the few with a cell such as +7 F, which differ by an apostrophe only."""
    differ = 0
    for source in reference.sources.values():
        for table in source.tables:
            published = (built / "downloads" / "tables" / source.id / table.file).read_bytes()
            if published == (root / "data" / "sources" / source.id / table.file).read_bytes():
                continue
            differ += 1
            rows = list(csv.DictReader(io.StringIO(published.decode())))
            assert [{k: v.removeprefix("'") for k, v in row.items()} for row in rows] == [{k: v.removeprefix("'") for k, v in row.items()} for row in table.rows]
            assert any(v.startswith("'") for row in rows for v in row.values())
            assert not any(v.startswith(("=", "+", "@")) for row in rows for v in row.values())
    assert differ <= 10


@pytest.mark.parametrize("make, fields", [(crop_rows, None), (measured_rows, MEASURED), (source_rows, SOURCES), (table_rows, TABLES)])
def test_described_columns_are_the_columns(reference, make, fields):
    assert list(next(iter(make(reference)))) == [f["name"] for f in (fields or crop_fields(reference))]


def with_cell(reference, source_id, file, column, cell):
    source = reference.sources[source_id]
    tables = tuple(replace(t, rows=(MappingProxyType({**t.rows[0], column: cell}), *t.rows[1:])) if t.file == file else t for t in source.tables)
    return replace(source, tables=tables), next(t for t in tables if t.file == file)


@pytest.mark.parametrize("cell", ["=cmd|' /C calc'!A0", "+1+1", "@SUM(A1)", "-1+1", "\tx", "=HYPERLINK(\"http://x.example\")"])
def test_a_formula_in_a_printed_table_is_guarded(reference, root, cell):
    source, table = with_cell(reference, "osu-harrington-2013", "temperature-bands.csv", "crop_as_printed", cell)
    assert guarded_columns(table) == {"crop_as_printed"}
    rows = list(csv.DictReader(io.StringIO(printed_table(root, source, table).decode())))
    assert rows[0]["crop_as_printed"] == "'" + cell and rows[1] == dict(table.rows[1])


def test_a_guarded_cell_still_fits_its_pattern():
    schema = {"properties": {"a": {"items": {"pattern": "^(-?[0-9]+(e-?[0-9]+)?)?$"}}}}
    assert column_field("a", schema, marked=True)["constraints"]["pattern"] == "'?((-?[0-9]+(e-?[0-9]+)?)?)"
    assert column_field("a", schema, marked=False)["constraints"]["pattern"] == "(-?[0-9]+(e-?[0-9]+)?)?"


def test_text_with_commas_quotes_and_new_lines_comes_back():
    rows = [{"a": 'one, "two"\nthree', "b": "\u2013 <b>"}, {"a": "", "b": "'"}]
    assert list(csv.DictReader(io.StringIO(csv_text(rows)))) == rows
