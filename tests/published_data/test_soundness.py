"""A published file that breaks its schema stops the build, with its place; the last good site stays."""

import copy
import json
import random
import shutil
from dataclasses import replace
from types import MappingProxyType

import jsonschema
import pytest
from referencing import Registry, Resource

from build_tools.render import render
from build_tools.render.published import json_files
from build_tools.render.published.crops import crop_file
from build_tools.render.published.schemas import published_schema, schema_files
from build_tools.render.published.soundness import compiled, faults, unsound
from build_tools.render.published.sources import source_file
from tests.site.test_build import copy_project, fingerprint, run


@pytest.fixture(scope="module")
def contents(reference, root):
    return {name: json.loads(published_schema(reference, name, text)) for name, text in schema_files(root).items()}


@pytest.fixture(scope="module")
def validators(contents):
    return compiled(contents)


def with_value(reference, crop_id, quantity, **changes):
    """The reference with one value of one crop changed."""
    crop = reference.crops[crop_id]
    changed = replace(crop, values=MappingProxyType({**crop.values, quantity: replace(crop[quantity], **changes)}))
    return replace(reference, crops=MappingProxyType({**reference.crops, crop_id: changed}))


def test_the_real_data_is_sound(reference, root):
    assert unsound(reference, root) == []


def test_every_json_file_of_the_site_is_held_against_a_schema(reference, root):
    checked = {path for path, _, _ in json_files.everything(reference, schema_files(root))}
    assert checked == {path for path in render(reference, root).files if path.startswith("api/")}


def test_a_broken_value_is_named_with_file_place_and_schema(reference, root):
    problems = unsound(with_value(reference, "tomato", "minimum_c", status="agreed"), root)
    assert {p.file for p in problems} == {"api/v1/crops/tomato.json", "api/v1/crops.json"}
    one = next(p for p in problems if p.file.endswith("tomato.json"))
    assert one.at == "crop.values.minimum_c.status"
    assert "crop.values.minimum_c.status does not have the form of schema/api-crop.schema.json" in one.message and '"agreed"' in one.message


@pytest.mark.parametrize("number", [float("nan"), float("inf"), -float("inf")])
def test_a_number_that_json_does_not_have_is_refused(reference, root, number):
    problems = unsound(with_value(reference, "tomato", "minimum_c", low=number, high=number), root)
    assert {p.file for p in problems} == {"api/v1/crops/tomato.json", "api/v1/crops.json"} and all("written as JSON" in p.message for p in problems)


def spoiled(change):
    def make(data):
        data = copy.deepcopy(data)
        change(data)
        return data
    return make


@pytest.mark.parametrize("change, place", [
    (lambda d: d.pop("licence"), ""), (lambda d: d.update(more=1), ""), (lambda d: d.update({"$schema": "api-crop.schema.json"}), "$schema"),
    (lambda d: d["crop"].pop("values"), "crop"), (lambda d: d["crop"]["values"].pop("light"), "crop.values"), (lambda d: d["crop"]["values"]["season"].update(value=3), "crop.values.season"),
    (lambda d: d["crop"]["values"]["minimum_c"].pop("value"), "crop.values.minimum_c"), (lambda d: d["crop"]["values"]["minimum_c"].update(value="10"), "crop.values.minimum_c.value"),
    (lambda d: d["crop"]["values"]["minimum_c"].update(line=0), "crop.values.minimum_c.line"), (lambda d: d["crop"].update(file="../../secret"), "crop.file"),
    (lambda d: d["crop"]["days_by_temperature"][0]["cells"][0].update(state="ng"), "crop.days_by_temperature.0.cells.0.state"), (lambda d: d["crop"].update(id="To mato"), "crop.id"),
])
def test_each_kind_of_break_has_its_place(reference, validators, change, place):
    found = faults(spoiled(change)(crop_file(reference, reference.crops["tomato"])), validators["api-crop"])
    assert [where for where, _ in found] == [place]


def test_both_libraries_agree_about_spoiled_files(reference, contents, validators):
    """A second opinion on the fast one: 400 files, each with one part dropped, retyped or added, seed fixed."""
    registry = Registry().with_resources((content["$id"], Resource.from_contents(content)) for content in contents.values())
    chance, invalid = random.Random(4), 0
    small = sorted(reference.sources.values(), key=lambda s: sum(len(t.rows) for t in s.tables))[:40]
    originals = [("api-crop", crop_file(reference, c)) for c in list(reference.crops.values())[:8]] + [("api-source", source_file(reference, s)) for s in small]
    slow = {name: jsonschema.Draft202012Validator(contents[f"{name}.schema.json"], registry=registry) for name in ("api-crop", "api-source")}
    for _ in range(400):
        name, data = chance.choice(originals)
        data = copy.deepcopy(data)
        part = data
        while True:
            key = chance.choice(list(part) if isinstance(part, dict) else range(len(part)))
            inner = part[key]
            if isinstance(inner, dict | list) and inner and chance.random() < 0.9:
                part = inner
                continue
            break
        action = chance.randrange(3)
        if action == 0:
            del part[key]
        elif action == 1:
            part[key] = chance.choice([None, 0, -1.5, "", "x y", True, [], {}, ["a"], {"a": 1}])
        elif isinstance(part, dict):
            part["added"] = part[key]
        fast = not faults(data, validators[name])
        assert fast == slow[name].is_valid(data), (name, key, action)
        invalid += not fast
    assert 100 < invalid < 400


def test_schemas_that_cannot_be_published_are_named(reference, root, tmp_path):
    shutil.copytree(root / "schema", tmp_path / "schema")
    crop = tmp_path / "schema" / "crop.schema.json"
    crop.write_text(crop.read_text(encoding="utf-8").replace('"$id": "crop.schema.json"', '"$id": "corp.schema.json"'), encoding="utf-8")
    problems = unsound(reference, tmp_path)
    assert [p.file for p in problems] == ["schema/crop.schema.json"] and "$id" in problems[0].message
    shutil.copy(root / "schema" / "crop.schema.json", crop)
    common = tmp_path / "schema" / "api-common.schema.json"
    common.write_text(common.read_text(encoding="utf-8").replace('"said"', '"sayd"'), encoding="utf-8")
    assert [p.file for p in unsound(reference, tmp_path)] == ["schema"]
    shutil.copy(root / "schema" / "api-common.schema.json", common)
    (tmp_path / "schema" / "api-source.schema.json").unlink()
    assert [p.file for p in unsound(reference, tmp_path)] == ["schema/api-source.schema.json"]


def test_a_broken_form_stops_the_build_and_leaves_the_last_good_site(built, root, tmp_path):
    project = copy_project(root, tmp_path)
    output = project / "build" / "site"
    shutil.copytree(built, output)
    before = fingerprint(output)
    crops = project / "build_tools" / "render" / "published" / "crops.py"
    text = crops.read_text(encoding="utf-8")
    assert text.count('"status": judged.status') == 1
    crops.write_text(text.replace('"status": judged.status', '"standing": judged.status'), encoding="utf-8")
    failed = run(project, "build")
    assert failed.returncode == 1 and "Traceback" not in failed.stderr
    assert "api/v1/crops/tomato.json:1:1  published-form" in failed.stderr and "schema/api-crop.schema.json" in failed.stderr and "standing" in failed.stderr
    assert fingerprint(output) == before and [p.name for p in output.parent.iterdir()] == ["site"]
