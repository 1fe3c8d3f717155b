"""The JSON files: as promised, true to the data files, and all of them found from the index."""

import csv
import re
from pathlib import PurePosixPath
from urllib.parse import urljoin

import pytest
import yaml

from build_tools.model.build import QUANTITIES
from build_tools.read.csv_file import read_csv

BASE = "https://here.example/api/v1/"


def test_every_file_fits_the_schema_it_names(api, validator, reference):
    assert len(api) == len(reference.crops) + len(reference.sources) + 6
    for path, content in api.items():
        errors = [f"{error.json_path}: {error.message[:200]}" for error in validator(content["$schema"]).iter_errors(content)]
        assert not errors, (path, errors[:3])


def test_every_file_says_what_it_is(api, built, reference):
    library = reference.library
    for path, content in api.items():
        assert list(content)[:5] == ["$schema", "schema_version", "data_version", "licence", "citation"], path
        assert content["$schema"].startswith(f"{library['site_url']}schema/api-"), path
        assert (built / content["$schema"].removeprefix(str(library["site_url"]))).is_file(), path
        assert (content["data_version"], content["licence"]) == (library["data_version"], library["data_licence"])
        assert str(library["data_version"]) in content["citation"] and all(author in content["citation"] for author in library["citation_authors"])


def test_all_addresses_of_the_index_exist(api, built):
    listed = {entry["address"] for key in ("files", "crops", "sources", "tables", "schemas") for entry in api["index.json"][key]}
    found = {urljoin(BASE, address) for address in listed}
    for address in found:
        assert (built / address.removeprefix("https://here.example/")).is_file(), address
    below = {BASE + path for path in api} - {BASE + "index.json"}
    assert below <= found, f"not in the index: {below - found}"
    assert {f"https://here.example/schema/{path.name}" for path in (built / "schema").iterdir()} <= found
    tables = {"https://here.example/" + path.relative_to(built).as_posix() for path in (built / "downloads" / "tables").rglob("*.csv")}
    assert tables and tables <= found


def test_addresses_inside_other_files_are_relative_to_the_file(api, built, schemas):
    seen = 0
    for path, content in api.items():
        tables = content.get("tables") or [t for s in content.get("sources", [content.get("source", {})]) for t in s.get("tables", ())]
        for table in tables if path != "index.json" else ():
            for key in {"csv", "json", "schema"} & set(table):
                assert (built / urljoin(BASE + path, table[key]).removeprefix("https://here.example/")).is_file(), (path, table[key])
                seen += 1
    assert seen > 1000


def published_value(value):
    """A published value as the data file writes it."""
    ends = {"low": value["value"], "high": value["value"]} if "value" in value else {key: value[key] for key in ("low", "high", "choice") if key in value}
    return ends | {key: value[key] for key in ("sources", "note", "departs") if key in value}


def written_value(value):
    return {("low" if key == "value" else key): item for key, item in value.items()} | ({"high": value["value"]} if "value" in value else {})


def test_every_crop_equals_its_data_file(api, root, reference):
    files = sorted((root / "data" / "crops").glob("*.yml"))
    assert len(files) >= 80 and {f"crops/{file.stem}.json" for file in files} == {path for path in api if path.startswith("crops/")}
    checked = 0
    for file in files:
        text = file.read_text(encoding="utf-8")
        data, crop = yaml.safe_load(text), api[f"crops/{file.stem}.json"]["crop"]
        written = {q: v for q, v in {**data, **data.get("temperature", {}), **data.get("timing", {})}.items() if q in QUANTITIES}
        assert {q for q, v in crop["values"].items() if v is not None} == set(written)
        for quantity, value in written.items():
            published = crop["values"][quantity]
            assert published_value(published) == written_value(value), (file.stem, quantity)
            assert published["file"] == f"data/crops/{file.name}"
            assert text.split("\n")[published["line"] - 1].strip().startswith(f"{quantity}:"), (file.stem, quantity)
            checked += 1
        names = data["names"]
        assert (crop["id"], crop["kind"]) == (data["id"], data["kind"])
        assert crop["names"] == {"common": names["common"], "other": names.get("other", []), "botanical": names["botanical"], "family": names["family"], "sources": names["sources"], "line": crop["names"]["line"]}
        for key in ("pretreatments", "cautions", "disagreements", "notes"):
            assert [{k: v for k, v in entry.items() if k not in ("file", "line")} for entry in crop[key]] == data.get(key, []), (file.stem, key)
    assert checked > 600


def test_all_crops_in_one_file_are_the_single_ones(api):
    whole = api["crops.json"]["crops"]
    assert [api[f"crops/{crop['id']}.json"]["crop"] for crop in whole] == whole
    assert len(whole) == len(api["index.json"]["crops"])


def test_what_is_printed_stands_where_it_says(api, root):
    """Measured cells, methods, minimums and the families' values: the line named is the crop's row of that table, holding that very text."""
    rows, seen = {}, 0

    def row_at(file, line):
        if file not in rows:
            table, problems = read_csv(root / file, file)
            assert not problems
            rows[file] = {row.line: row for row in table.rows}
        return rows[file][line]

    for path, content in api.items():
        crop = content.get("crop") or {}
        for measured in crop.get("days_by_temperature", []) + crop.get("percent_normal_seedlings_by_temperature", []):
            row = row_at(measured["file"], measured["line"])
            assert crop["id"] in row["crop_id"].split(";")
            for cell in measured["cells"]:
                assert row[f"f{cell['celsius'] * 1.8 + 32:.0f}"] == cell["as_printed"], (path, cell)
                assert (cell["value"] is not None) == (cell["state"] == "measured")
                seen += 1
        for entry in crop.get("official_methods", []):
            row = row_at(entry["file"], entry["line"])
            assert crop["id"] in row["crop_id"].split(";") and (row["crop_as_printed"], row["first_count_days"]) == (entry["kind"], str(entry["first_count_days"] or ""))
        for entry in crop.get("minimum_germination", []):
            row = row_at(entry["file"], entry["line"])
            assert crop["id"] in row["crop_id"].split(";") and float(row["min_percent"]) == entry["percent"]
        for value in filter(None, crop.get("values", {}).values()):
            for family in value["families"]:
                for printed in family["printed"]:
                    assert crop["id"] in row_at(printed["file"], printed["line"])["crop_id"].split(";")
                    assert PurePosixPath(printed["file"]).parent.name == printed["source"]
                    seen += 1
    assert seen > 2000


def test_numbers_of_a_family_enclose_what_its_sources_print(api):
    seen = 0
    for content in api.values():
        for value in filter(None, (content.get("crop") or {}).get("values", {}).values()):
            for family in value["families"]:
                if "low" in family:
                    assert family["low"] == min(p["low"] for p in family["printed"]) and family["high"] == max(p["high"] for p in family["printed"])
                    seen += 1
                else:
                    assert set(family["choices"]) == {p["choice"] for p in family["printed"]}
    assert seen > 300


def test_a_known_value_and_what_two_families_print(api):
    """Tomato, lowest soil temperature: 50 °F in J. F. Harrington's table as Oregon State University Extension reprints it (2013, reviewed 2024)."""
    value = api["crops/tomato.json"]["crop"]["values"]["minimum_c"]
    harrington = next(f for f in value["families"] if f["family"] == "harrington")
    printed = {p["source"]: p for p in harrington["printed"]}
    assert value["value"] == 10 and harrington["stands"] == "inside" and harrington["counts"]
    assert (printed["osu-harrington-2013"]["as_printed"], printed["osu-harrington-2013"]["low"]) == ("50 °F", 10)


def test_rows_of_each_source_are_those_of_its_files(api, root, reference):
    count = 0
    for source in reference.sources.values():
        for table in api[f"sources/{source.id}.json"]["source"]["tables"]:
            lines = (root / table["repository_file"]).read_text(encoding="utf-8")
            rows = list(csv.DictReader(lines.splitlines()))
            assert [row["cells"] for row in table["rows"]] == rows and table["row_count"] == len(rows)
            assert [row["line"] for row in table["rows"]] == sorted({row["line"] for row in table["rows"]})
            first = next(csv.reader([lines.split("\n")[table["rows"][0]["line"] - 1]]))
            assert first == list(rows[0].values())
            count += len(rows)
    assert count > 5000


def test_sources_equal_their_data_files(api, root):
    together = {source["id"]: source for source in api["sources.json"]["sources"]}
    for folder in (root / "data" / "sources").iterdir():
        written = yaml.safe_load((folder / "source.yml").read_text(encoding="utf-8"))
        for published in (together[folder.name], api[f"sources/{folder.name}.json"]["source"]):
            assert {key: published[key] for key in written if key != "tables"} == {key: value for key, value in written.items() if key != "tables"}
            assert [(t["file"], t["kind"], t["caption"]) for t in published["tables"]] == [(t["file"], t["kind"], t["caption"]) for t in written.get("tables", [])]
            lines = (folder / "source.yml").read_text(encoding="utf-8").split("\n")
            assert all(lines[line - 1].lstrip("- ").startswith(f"{key}:") for key, line in published["lines"].items())
            for table, entry in zip(published["tables"], written.get("tables", []), strict=True):
                assert [{k: v for k, v in doubt.items() if k != "line"} for doubt in table["doubts"]] == entry.get("doubts", [])
                assert all(lines[doubt["line"] - 1].lstrip().startswith("- row:") for doubt in table["doubts"])


def test_treatments_bring_their_cautions_and_quantities_their_meaning(api, reference, root):
    treatments = {t["id"]: t for t in api["treatments.json"]["treatments"]}
    assert set(treatments) == set(reference.treatments)
    for name, treatment in treatments.items():
        written = yaml.safe_load((root / "data" / "treatments" / f"{name}.yml").read_text(encoding="utf-8"))
        assert [c["text"] for c in treatment["cautions"]] == [c["text"] for c in written["cautions"]] and treatment["steps"] == written["steps"]
        assert treatment["cautions"] or not treatment["hazard"]
    written = yaml.safe_load((root / "data" / "quantities.yml").read_text(encoding="utf-8"))
    assert api["quantities.json"]["quantities"] == written["quantities"] and api["quantities.json"]["choices"] == written["choices"]
    named = {entry["treatment"] for path, content in api.items() if path.startswith("crops/") for entry in content["crop"]["pretreatments"]}
    assert named <= set(treatments)


@pytest.mark.parametrize("key", ["sources", "treatment", "about", "neighbours"])
def test_ids_lead_somewhere(api, reference, key):
    """Whatever a crop's file names as a source, treatment, quantity or crop is there."""
    known = {
        "sources": set(reference.sources) | {"common practice", "from memory"}, "treatment": set(reference.treatments),
        "about": set(QUANTITIES) | {"days", "percent", "timing", "pretreatments", "test"}, "neighbours": set(reference.crops),
    }[key]
    seen = set()

    def walk(value):
        if isinstance(value, dict):
            if key in value:
                seen.update(value[key] if isinstance(value[key], list) else [value[key]])
            for item in value.values():
                walk(item)
        elif isinstance(value, list):
            for item in value:
                walk(item)

    for path, content in api.items():
        if path.startswith("crops/"):
            walk(content["crop"])
    assert len(seen) > 3 and seen <= known, seen - known


def test_the_page_of_a_crop_is_where_its_file_says(api, built, reference):
    for path, content in api.items():
        if path.startswith("crops/"):
            page = content["crop"]["page"].removeprefix(str(reference.library["site_url"]))
            assert (built / page / "index.html").is_file() and re.fullmatch(r"crops/[a-z0-9-]+/", page)
