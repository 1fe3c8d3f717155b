"""The forms agree with the schemas, the quantities and the library's record they are written from."""

import html
import json
import re
from dataclasses import replace
from types import MappingProxyType
from urllib.parse import parse_qs, urlsplit

import pytest
import yaml

from build_tools.render import render
from build_tools.render.correct_page import browser_data
from build_tools.render.forge_forms import FOLDER, NOT_KNOWN, SOMETHING_ELSE, correctable, crop_keys, issue_forms, table_kinds

NAMES = ("correct-a-value", "add-a-table", "add-a-crop", "config")


@pytest.fixture(scope="module")
def forms(root):
    """Name → the committed form, parsed."""
    return {name: yaml.safe_load((root / FOLDER / f"{name}.yml").read_text(encoding="utf-8")) for name in NAMES}


def field(form, name):
    return next(part for part in form["body"] if part.get("id") == name)


def options(form, name):
    return field(form, name)["attributes"]["options"]


def named(forms):
    """The values that the form for a correction names."""
    words = field(forms["correct-a-value"], "quantity")["attributes"]["description"]
    return words.removeprefix("One of these, or your own words: ").removesuffix(".").split("; ")


def test_the_library_s_address_of_the_form_names_a_form_there_is(root, reference):
    template = parse_qs(urlsplit(reference.library["form_path"]).query)["template"]
    assert template == ["correct-a-value.yml"] and (root / FOLDER / template[0]).is_file()


def test_fields_that_an_address_fills_in_are_text(forms):
    """The host fills in nothing else; a list named in the address may bring up an empty form."""
    assert {part["type"] for part in forms["correct-a-value"]["body"] if "id" in part} == {"input", "textarea"}


@pytest.mark.parametrize("name", NAMES[:3])
def test_no_two_fields_share_an_id_or_a_label(name, forms):
    parts = [part for part in forms[name]["body"] if "id" in part]
    for key in (lambda part: part["id"], lambda part: part["attributes"]["label"]):
        assert len({key(part) for part in parts}) == len(parts)


def test_committed_forms_are_the_generated_ones(root, reference):
    written = issue_forms(reference, root)
    folder = root / FOLDER
    assert {f"{FOLDER}/{path.name}": path.read_bytes().decode() for path in folder.iterdir()} == written


def test_the_same_bytes_every_time(root, reference):
    assert issue_forms(reference, root) == issue_forms(reference, root)


def test_a_correction_can_be_about_every_key_of_a_crop_file(root, reference, forms):
    """Walked here without the generator's own function: each key, and each member of a group of quantities."""
    schema = json.loads((root / "schema" / "crop.schema.json").read_text(encoding="utf-8"))
    offered = named(forms)
    for key, shape in schema["properties"].items():
        for name, its in (shape["properties"].items() if key in ("temperature", "timing") else [(key, shape)]):
            expected = reference.quantities[name]["name"] if name in reference.quantities else its["title"]
            assert expected in offered, name


def test_a_correction_can_be_about_nothing_unknown_or_twice(root, reference, forms):
    offered = named(forms)
    assert offered == list(correctable(reference, root).values()) and {entry["name"] for entry in reference.quantities.values()} <= set(offered)
    assert len(set(offered)) == len(offered), "two keys with one name could not be told apart"


def test_what_a_page_wants_corrected_can_be_chosen(root, reference, forms):
    """Every value that "correct this" names on a page is known to the page that fills the form in, in the form's own words."""
    pages = render(reference, root).pages
    crops = [name for name in pages if name.startswith("crops/")]
    looked_at = [*crops[::10], *(f"crops/{crop}.md" for crop in ("tomato", "spinach", "bean-snap")), "treatments/index.md", "sources.md", "disagreements.md"]
    asked = {value for page in map(pages.__getitem__, looked_at) for link in re.findall(r"correct/\?[^\"#]*", str(page.body())) for value in parse_qs(html.unescape(link).split("?", 1)[1]).get("quantity", [])}
    assert len(asked) > 15
    known = browser_data(reference, root)
    assert asked <= set(known["quantities"])
    assert {known["quantities"][quantity] for quantity in correctable(reference, root)} == set(named(forms))
    assert asked >= {"minimum_c", "seed_life_years", "light", "days", "pretreatments"}


def test_what_sources_disagree_about_can_be_corrected(root, reference):
    """The words of `disagreements.about` are keys that the form knows, but for those that name a group or the official test."""
    schema = json.loads((root / "schema" / "crop.schema.json").read_text(encoding="utf-8"))
    about = set(schema["properties"]["disagreements"]["items"]["properties"]["about"]["enum"])
    assert about - set(correctable(reference, root)) == {"timing", "test"}


def test_every_kind_of_table_can_be_sent(root, forms):
    kinds = {path.name.removeprefix("table-").removesuffix(".schema.json"): json.loads(path.read_text(encoding="utf-8"))["title"] for path in (root / "schema").glob("table-*.schema.json")}
    assert len(kinds) >= 30 and table_kinds(root) == kinds
    offered = options(forms["add-a-table"], "kind")
    assert sorted(offered[:-2]) == sorted(kinds.values()) and offered[-2:] == [NOT_KNOWN, SOMETHING_ELSE]
    assert len(set(offered)) == len(offered)


def test_what_is_asked_of_a_source_is_what_its_schema_needs(root, forms):
    schema = json.loads((root / "schema" / "source.schema.json").read_text(encoding="utf-8"))
    asked = {part["id"]: part["validations"]["required"] for part in forms["add-a-table"]["body"] if part.get("id") in schema["properties"]}
    by_the_keeper = {"id", "verified", "evidence", "family"}
    assert {key for key, needed in asked.items() if needed} == set(schema["required"]) - by_the_keeper
    assert {"title", "authors", "publisher", "year", "address", "where", "copy_read"} == set(asked)


def test_a_new_crop_is_asked_what_the_schema_allows(root, reference, forms):
    schema = json.loads((root / "schema" / "crop.schema.json").read_text(encoding="utf-8"))["properties"]
    form = forms["add-a-crop"]
    assert options(form, "kind") == schema["kind"]["enum"]
    seasons = schema["season"]["allOf"][1]["properties"]["choice"]["enum"]
    assert [text.split(":")[0] for text in options(form, "season")] == [*seasons, NOT_KNOWN]
    lines = field(form, "values")["attributes"]["value"].splitlines()
    for key, entry in reference.quantities.items():
        if key in crop_keys({"properties": schema}, reference.quantities):
            assert f"{entry['name']} ({entry['unit']}):" in lines


def test_fields_are_filled_in_by_these_names(forms):
    """The page Correct a value fills these in through the address; whoever renames one renames it there."""
    assert [part["id"] for part in forms["correct-a-value"]["body"] if "id" in part] == ["crop", "quantity", "shown", "should_be", "source", "file"]


@pytest.mark.parametrize("name", NAMES[:3])
def test_each_form_says_what_is_public_and_under_which_licence(name, forms, reference):
    words = " ".join(part["attributes"].get("value", "") for part in forms[name]["body"] if part["type"] == "markdown")
    assert "public" in words and reference.library["contact_email"] in words
    assert reference.library["data_licence"] in words and "MIT" in words


def test_a_library_that_adopts_the_reference_gets_its_own_forms(root, reference):
    library = MappingProxyType({**reference.library, "name": "Hollow Lane Library (invented)", "site_url": "https://seeds.example.net/", "contact_email": "box@example.net", "data_licence": "CC0-1.0"})
    written = issue_forms(replace(reference, library=library), root)
    config = yaml.safe_load(written[f"{FOLDER}/config.yml"])
    assert config["contact_links"] == [{**config["contact_links"][0], "name": "Hollow Lane Library (invented)", "url": "https://seeds.example.net/"}]
    for name in NAMES[:3]:
        text = written[f"{FOLDER}/{name}.yml"]
        assert "box@example.net" in text and "CC0-1.0" in text and str(reference.library["contact_email"]) not in text


def test_a_new_quantity_appears_and_a_key_without_a_name_is_refused(root, reference):
    schema = json.loads((root / "schema" / "crop.schema.json").read_text(encoding="utf-8"))
    more = {**reference.quantities, "chill_days": {"name": "Days of chilling", "unit": "days"}}
    schema["properties"]["chill_days"] = {"$ref": "#/$defs/value"}
    assert crop_keys(schema, more)["chill_days"] == "Days of chilling"
    with pytest.raises(ValueError, match='"chill_days" is not in data/quantities.yml and has no title'):
        crop_keys(schema, reference.quantities)


def test_awkward_names_stay_one_text(root, reference):
    """A name with signs that YAML would read otherwise comes back as it was."""
    awkward = "No: *yes* #1 “seed” & 'life' - {x}"
    quantities = {key: dict(entry) for key, entry in reference.quantities.items()}
    quantities["seed_life_years"]["name"] = awkward
    written = issue_forms(replace(reference, quantities=MappingProxyType(quantities)), root)
    assert awkward in named({"correct-a-value": yaml.safe_load(written[f"{FOLDER}/correct-a-value.yml"])})
