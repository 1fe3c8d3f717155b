"""The data package: valid to the standard's own library, complete, and strict enough to notice a wrong cell."""

import csv
import json
import re
import shutil

import jsonschema
import pytest
from frictionless import Package

from build_tools.render.published.package import whole_pattern

NOT_DATA = {"downloads/demo-lots.csv"}  # invented, an example to fill in


@pytest.fixture(scope="session")
def package(built):
    return json.loads((built / "datapackage.json").read_text(encoding="utf-8"))


def problems(report):
    return [(task.name, error.type, error.message) for task in report.tasks for error in task.errors] + [("package", error.type, error.message) for error in report.errors]


def test_the_package_and_every_row_of_every_resource_are_valid(built, package, reference):
    report = Package(str(built / "datapackage.json")).validate()
    assert problems(report) == [] and report.valid
    assert len(report.tasks) == len(package["resources"]) > 380
    cells = sum(cell.state != "blank" for crop in reference.crops.values() for row in crop.days + crop.percents for cell in row.cells)
    tables = [table for source in reference.sources.values() for table in source.tables]
    assert sum(task.stats["rows"] for task in report.tasks) == len(reference.crops) + len(reference.sources) + len(tables) + cells + sum(len(t.rows) for t in tables)


def test_every_csv_of_the_site_is_in_it(built, package):
    found = {path.relative_to(built).as_posix() for path in built.rglob("*.csv")}
    assert {r["path"] for r in package["resources"]} == found - NOT_DATA and NOT_DATA <= found
    names = [r["name"] for r in package["resources"]]
    assert len(set(names)) == len(names) and all(re.fullmatch(r"[a-z0-9._-]+", name) for name in names)


def test_columns_are_those_of_the_files_and_described(built, package):
    for resource in package["resources"]:
        with (built / resource["path"]).open(encoding="utf-8", newline="") as file:
            assert next(csv.reader(file)) == [f["name"] for f in resource["schema"]["fields"]], resource["path"]
        for field in resource["schema"]["fields"]:
            assert field["description"] and field["type"] in ("string", "number", "integer", "boolean"), (resource["path"], field)


def test_it_says_whose_it_is(package, reference):
    library = reference.library
    assert package["version"] == library["data_version"] and package["homepage"] == library["site_url"]
    assert [entry["name"] for entry in package["licenses"]] == [library["data_licence"]]
    assert [entry["title"] for entry in package["contributors"]] == list(library["citation_authors"])
    assert [entry["title"] for entry in package["sources"]] == [s.fields["title"] for s in reference.sources.values()]
    tables = [r for r in package["resources"] if r["path"].startswith("downloads/tables/")]
    assert [(r["title"], r["sources"][0]["title"]) for r in tables] == [(t.caption, s.fields["title"]) for s in reference.sources.values() for t in s.tables]


@pytest.mark.parametrize("path, old, new, kinds", [
    ("downloads/crops.csv", "\ntomato,", "\npepper,", {"primary-key", "constraint-error", "unique-error", "foreign-key"}),
    ("downloads/measured.csv", "\ntomato,days,", "\ntomatoe,days,", {"foreign-key"}),
    ("downloads/measured.csv", ",measured,", ",meassured,", {"constraint-error"}),
    ("downloads/measured.csv", ",5,measured,", ",five,measured,", {"type-error"}),
    ("downloads/tables/osu-harrington-2013/days-by-temperature.csv", ",NT,", ",N/T,", {"constraint-error"}),
    ("downloads/tables/osu-harrington-2013/temperature-bands.csv", "min_f", "minimum_f", {"incorrect-label"}),
    ("downloads/sources.csv", "\nosu-harrington-2013,", "\nosu-harrington-2031,", {"foreign-key"}),
])
def test_it_notices_a_wrong_cell(built, package, tmp_path, path, old, new, kinds):
    """So that the test above can fail: keys, types, words and patterns are all held."""
    wanted = {"crops", "measured", "sources", "tables"} | {r["name"] for r in package["resources"] if r["path"] == path}
    small = {**package, "resources": [r for r in package["resources"] if r["name"] in wanted]}
    for resource in small["resources"]:
        (tmp_path / resource["path"]).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(built / resource["path"], tmp_path / resource["path"])
    (tmp_path / "datapackage.json").write_text(json.dumps(small), encoding="utf-8")
    assert problems(Package(str(tmp_path / "datapackage.json")).validate()) == []
    text = (tmp_path / path).read_text(encoding="utf-8")
    assert old in text
    (tmp_path / path).write_text(text.replace(old, new, 1), encoding="utf-8")
    found = problems(Package(str(tmp_path / "datapackage.json")).validate())
    assert found and {kind for _, kind, _ in found} <= kinds, found


def test_patterns_mean_the_same_as_in_the_schemas(built, package, root):
    """Each distinct pattern, and cells near it: the schema's search and the standard's whole match agree."""
    seen = set()
    for resource in package["resources"]:
        for field in resource["schema"]["fields"]:
            pattern = field.get("constraints", {}).get("pattern")
            if pattern and resource["path"].startswith("downloads/tables/"):
                seen.add(pattern)
    assert len(seen) > 12
    cells = ["", "1", "10", "1.5", "-1", "-1.5", "NG", "NT", "-", "61(53)", "3-5", "<3", "tomato", "tomato;pepper", "Tomato", "yes", "no", "maybe", "soak", "2010-08-01", "2010-13-01", "1e-3", "1\n", " 1", "x1", "1x"]
    for schema in (root / "schema").glob("table-*.json"):
        for pattern in re.findall(r'"pattern": ("(?:[^"\\]|\\.)*")', schema.read_text(encoding="utf-8")):
            pattern = json.loads(pattern)
            body = whole_pattern(pattern)
            for cell in cells:
                known = jsonschema.Draft202012Validator({"pattern": pattern.removesuffix("$") + r"\Z"}).is_valid(cell)
                assert bool(re.fullmatch(body, cell)) == known, (pattern, cell)


@pytest.mark.parametrize("pattern", ["^a|b$", "a$", "^a", "^(a|b)$|^c$", "^a\\$", "^(a)|(b)$", "^(?=a)b"])
def test_a_pattern_that_is_not_anchored_as_a_whole_is_refused(pattern):
    with pytest.raises(ValueError, match="as a whole"):
        whole_pattern(pattern)
