"""Skeletons say everything the schemas know, read as YAML, are named by the check where they are empty, and grow into a page."""

import re

import pytest

from build_tools.check import check_data
from build_tools.check.schema_rules import SchemaSet
from build_tools.contribute.new_files import new_file
from build_tools.form import Shape, fix_yaml
from build_tools.model import build_reference
from build_tools.read.yaml_file import parse_yaml
from build_tools.render import render

EXPECTED = {  # what the check names in a fresh skeleton, key by key
    "crop": {"common", "botanical", "family", "kind", "choice"},
    "source": {"title", "publisher", "year", "copy_read", "verified", "evidence"},
    "treatment": {"name", "what", "0", "grade", "text", "sources", "cautions"},
}


@pytest.fixture(scope="module")
def schemas(root):
    return SchemaSet.load(root / "schema")


def made(root, tree, schemas, kind, name="newcomer-plant"):
    return new_file(root, tree, schemas, kind, name)


def uncommented(text):
    """The text with every key that is commented out put to use: the explanations stay comments."""
    while re.search(r"^ *# (?!yaml-language)", text, re.M):
        text = re.sub(r"^( *)# (?!yaml-language)", r"\1", text, flags=re.M)
    return text


def keys(shape):
    """Every key of a schema outside lists, with its path."""
    for key in shape.order:
        yield key
        yield from keys(shape.child(key)) if shape.child(key) and key != "times" else ()


@pytest.mark.parametrize("kind", ["crop", "source", "treatment"])
def test_a_skeleton_reads_as_yaml_is_in_form_and_names_its_schema(kind, root, tree, schemas):
    new = made(root, tree, schemas, kind)
    document, problems = parse_yaml(new.text, new.path)
    assert problems == [] and document.data["id"] == "newcomer-plant"
    first = new.text.split("\n")[0]
    assert first.startswith("# yaml-language-server: $schema=") and (root / new.path).parent.joinpath(first.split("=")[1]).resolve() == root / "schema" / f"{kind}.schema.json"
    shape = Shape(schemas.validators[kind].schema, schemas.validators[kind].schema)
    assert fix_yaml(new.text, shape, first.split("=")[1], new.path) == new.text


@pytest.mark.parametrize("kind", ["crop", "source", "treatment"])
def test_every_key_of_the_schema_stands_in_the_skeleton_and_put_to_use_reads_as_yaml(kind, root, tree, schemas):
    new = made(root, tree, schemas, kind)
    schema = schemas.validators[kind].schema
    document, problems = parse_yaml(uncommented(new.text), new.path)
    assert document is not None and problems == [], problems
    assert set(document.data) == set(schema["properties"])
    for key in schema["properties"]:
        child = Shape(schema, schema).child(key)
        if child.order and isinstance(document.data[key], dict) and "sources" not in child.order:
            assert set(document.data[key]) == set(child.order), key
    for key, entry in schema["properties"].items():
        if "description" in entry and key not in ("sources",):
            flat = re.sub(r"\s*\n[ #]*## ", " ", new.text)
            quantity = tree.singles["quantities"].data["quantities"].get(key)
            assert (quantity["definition"] if quantity else entry["description"]) in flat, key


def test_units_limits_and_choices_stand_beside_the_keys(root, tree, schemas):
    flat = re.sub(r"\s*\n[ #]*## ", " ", made(root, tree, schemas, "crop").text)
    for key, entry in tree.singles["quantities"].data["quantities"].items():
        if re.search(rf"# {key}:", flat):
            assert f"{entry['definition']} In {entry['unit']}, {entry['lowest']:g} to {entry['highest']:g}." in flat
    for choice, words in tree.singles["quantities"].data["choices"]["light"].items():
        assert f"{choice}: {words}" in flat


@pytest.mark.parametrize("kind", ["crop", "source", "treatment"])
def test_check_names_exactly_what_is_still_empty(kind, small):
    assert small.run("new", kind, "newcomer-plant") == 0
    path = {"crop": "crops/newcomer-plant.yml", "source": "sources/newcomer-plant/source.yml", "treatment": "treatments/newcomer-plant.yml"}[kind]
    _, problems = check_data(small.folder)
    assert {p.file for p in problems} == {f"data/{path}"}
    lines = small.text(path).split("\n")
    named = {re.search(r'([a-z_]+|0): *(?:""|\[\]|\{)|- ""', lines[p.line - 1]) for p in problems}
    assert all(named), [lines[p.line - 1] for p in problems]
    empty = {i + 1 for i, line in enumerate(lines) if re.search(r'(""|\[\])', line) and not line.strip().startswith("#")}
    if kind == "treatment":
        empty -= {i for i in empty if lines[i - 1].startswith("cautions")}  # a treatment without a caution may be; its list stays empty
    assert {p.line for p in problems} == empty
    assert all("empty" in p.text or "is not a value of" in p.text for p in problems), [p.text for p in problems]


def test_a_file_that_is_there_is_never_touched(project):
    before = project.text("crops/leek.yml")
    assert project.run("new", "crop", "leek") == 2 and "there already" in project.err
    assert project.text("crops/leek.yml") == before
    assert project.run("new", "source", "venango-guide") == 2
    assert project.run("new", "crop", "borage") == 0
    once = project.text("crops/borage.yml")
    assert project.run("new", "crop", "borage", "--name", "Starflower") == 2 and project.text("crops/borage.yml") == once


@pytest.mark.parametrize("name, said", [
    ("Sea Kale", "Write sea-kale."), ("../evil", "Write evil."), ("-", "is not an id"), ("a" * 41, "at most 40"), ("sea_kale", "Write sea-kale."), ("sea--kale", "Write sea-kale."), ("é", "is not an id"),
])
def test_an_id_that_can_not_be_is_refused_with_one_that_can(name, said, small):
    before = sorted(small.folder.rglob("*"))
    assert small.run("new", "crop", "--", name) == 2
    assert said in small.err and sorted(small.folder.rglob("*")) == before


def test_names_taken_and_near_ids_are_said(project):
    assert project.run("new", "crop", "aubergine", "--name", "Eggplant") == 2 and "data/crops/eggplant.yml" in project.err
    assert project.run("new", "crop", "aubergine") == 0 and '"aubergine" is also a name of Eggplant (eggplant)' in project.out
    assert project.run("new", "crop", "pepper-swet") == 0 and "pepper-sweet" in project.out


def test_a_kind_of_the_tables_is_filled_in_with_what_the_families_print(project, tree):
    assert project.run("new", "crop", "thyme") == 0
    line = next(n for n, text in enumerate(project.text("other-kinds.yml").split("\n"), start=1) if text.startswith("thyme:"))
    assert f"data/other-kinds.yml:{line} lists thyme" in project.out and "Delete that line" in project.out
    text = project.text("crops/thyme.yml")
    assert 'common: "Thyme"' in text
    for quantity in re.search(r"what most families print: ([a-z_, ]+)\.", project.out)[1].split(", "):
        assert re.search(rf"^ *{quantity}: \{{.*sources: \[[a-z]", text, re.M), quantity


def test_from_a_new_crop_and_a_new_table_to_a_page(project, root):
    """The whole way: a skeleton, a source with its table, what the check asks for, and the page."""
    assert project.run("new", "crop", "tomatillo") == 0
    assert "The tables give it official test method of" in project.out
    assert project.run("new", "source", "invented-list", "--name", "Seed that keeps (invented)") == 0
    for key, words in {"publisher": "Invented Extension", "year": "2026", "copy_read": "the page", "verified": "compared cell by cell"}.items():
        project.change("sources/invented-list/source.yml", f'\n{key}: ""', f'\n{key}: "{words}"')
    project.change("sources/invented-list/source.yml", '\nevidence: ""', "\nevidence: advice")
    table = project.file("theirs.csv", "Vegetable;Years\nHusk tomatoes;3-4\nTomatillos;3\n")
    words = ["import-table", table, "--source", "invented-list", "--kind", "seed-life", "--crops", "Husk tomatoes=tomatillo"]
    assert project.run(*words) == 0, project.out
    other = next(line for line in project.text("other-kinds.yml").split("\n") if line.startswith("tomatillo:"))
    project.change("other-kinds.yml", other + "\n", "")
    project.change("crops/tomatillo.yml", 'botanical: ""', 'botanical: "Physalis philadelphica"')
    project.change("crops/tomatillo.yml", '\n  family: ""', '\n  family: "Solanaceae"')
    project.change("crops/tomatillo.yml", '\nkind: ""', "\nkind: vegetable")
    project.change("crops/tomatillo.yml", 'choice: "", sources: [common practice]', "choice: warm, sources: [common practice]")
    assert project.run("suggest", "tomatillo", "--quantity", "seed_life_years") == 0
    pasted = re.search(r"seed_life_years: \{value: 3, .*\}", project.out)[0]
    project.change("crops/tomatillo.yml", "\n# seed_life_years: {value: 0, sources: []}", "\n" + pasted)
    tree, problems = check_data(project.folder)
    assert problems == [], problems
    body = render(build_reference(tree), root).pages["crops/tomatillo.md"].body()
    assert "Tomatillo" in body and "3 years" in body and "Physalis philadelphica" in body and "invented-list" in body
