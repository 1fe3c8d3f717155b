"""The bill of materials: the schema of CycloneDX, a second reader, and every number in it against the lock."""

import json
import re
from dataclasses import replace
from types import MappingProxyType, SimpleNamespace

import pytest
from cyclonedx.model.bom import Bom
from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator
from packageurl import PackageURL

from build_tools.commands import packages as command
from build_tools.lock_files import SITE, TEST, direct, read_lock
from build_tools.packages import parts, read_list
from build_tools.render.packages_files import SBOM, package_files, sbom_text, unsound_packages


@pytest.fixture(scope="module")
def text(reference):
    return package_files(reference)[SBOM]()


@pytest.fixture(scope="module")
def document(text):
    return json.loads(text)


@pytest.fixture(scope="module")
def everything(root, tmp_path_factory):
    """What the command writes: packages for the tests too."""
    file = tmp_path_factory.mktemp("sbom") / "all.cdx.json"
    assert command.main(root, SimpleNamespace(renew=False, advisories=None, sbom=file)) == 0
    return file.read_text(encoding="utf-8")


def test_it_has_the_form_of_the_published_schema(text, everything):
    """Schema of CycloneDX 1.6, strict, as cyclonedx-python-lib carries it."""
    validator = JsonStrictValidator(SchemaVersion.V1_6)
    assert validator.validate_str(text) is None and validator.validate_str(everything) is None
    spoiled = text.replace('"type": "library"', '"type": "libary"', 1)
    assert validator.validate_str(spoiled) is not None, "the schema is really used"


@pytest.mark.filterwarnings("default")  # the reader's own warnings
def test_another_reader_understands_it(text, root):
    bill = Bom.from_json(json.loads(text))
    pins = {(pin.name, pin.version) for pin in read_lock(root / SITE)}
    assert {(c.name, c.version) for c in bill.components} == pins
    assert bill.validate()
    for component in bill.components:
        purl = component.purl
        assert (purl.type, purl.name, purl.version) == ("pypi", component.name, component.version)
    assert not [d for d in bill.dependencies if d.ref.value is None]


def test_every_hash_of_the_lock_is_there_and_no_other(document, everything, root):
    for name, bill in ((SITE, document), (TEST, json.loads(everything))):
        hashes = {(pin.name, pin.version): list(pin.hashes) for pin in read_lock(root / name)}
        found = {(c["name"], c["version"]): [h["content"] for h in c["externalReferences"][0]["hashes"]] for c in bill["components"]}
        assert found == hashes


def test_relations_reach_everything_from_what_is_asked_for(document, root):
    edges = {d["ref"]: d["dependsOn"] for d in document["dependencies"]}
    names = {c["bom-ref"]: c["name"] for c in document["components"]}
    assert {names[ref] for ref in edges["germination-reference"]} == set(direct(root)[0])
    reached, todo = set(), ["germination-reference"]
    while todo:
        for ref in edges[todo.pop()]:
            if ref not in reached:
                reached.add(ref)
                todo.append(ref)
    assert reached == set(names)
    jinja, = (c["bom-ref"] for c in document["components"] if c["name"] == "jinja2")
    assert {names[ref] for ref in edges[jinja]} == {"markupsafe"}


def test_what_the_theme_and_plotly_bring_stands_inside_them(document):
    inside = {c["name"]: {part["name"] for part in c.get("components", ())} for c in document["components"]}
    assert {"Lunr", "RxJS", "Font Awesome Free"} <= inside["mkdocs-material"] and inside["plotly"] == {"plotly.js"}
    assert sum(map(len, inside.values())) == sum(not part.whole for part in parts())
    for component in document["components"]:
        for part in component.get("components", ()):
            assert "purl" not in part or PackageURL.from_string(part["purl"]).type == "npm"


def test_test_packages_are_left_out_of_the_site_and_marked_in_the_whole(document, everything):
    assert {c["scope"] for c in document["components"]} == {"required"}
    scopes = {c["name"]: c["scope"] for c in json.loads(everything)["components"]}
    assert scopes["pytest"] == "excluded" and scopes["jinja2"] == "required"


def test_the_same_again_whatever_the_day_and_another_number_for_another_content(text, reference, monkeypatch):
    monkeypatch.setenv("TZ", "Pacific/Auckland")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1")
    assert package_files(reference)[SBOM]() == text
    serial = re.search(r'"serialNumber": "(urn:uuid:[0-9a-f-]{36})"', text)[1]
    other = sbom_text(replace(reference, library=MappingProxyType({**reference.library, "data_version": "2031.05"})), [p for p in read_list() if p.use == "site"], {})
    assert serial not in other and '"timestamp": "2031-05-01T00:00:00Z"' in other
    assert f'"timestamp": "{str(reference.library["data_version"]).replace(".", "-")[:7]}-01T00:00:00Z"' in text


def test_no_address_of_a_registry(text, everything):
    assert "://" not in text and "://" not in everything


@pytest.mark.parametrize("spoil, words", [
    (lambda path: path.unlink(), "missing"), (lambda path: path.write_text(""), "empty"), (lambda path: path.write_text(path.read_text()[:5000]), "damaged"),
    (lambda path: path.write_text(path.read_text().replace("jinja2==3", "jinja2==4")), "not in the list of packages"),
])
def test_no_site_is_built_from_a_lock_that_is_not_the_lists(root, tmp_path, monkeypatch, spoil, words):
    from build_tools.render import packages_files

    (tmp_path / SITE).write_bytes((root / SITE).read_bytes())
    monkeypatch.setattr(packages_files, "ROOT", tmp_path)
    assert unsound_packages() == []
    spoil(tmp_path / SITE)
    problems = unsound_packages()
    assert any(words in problem.text for problem in problems) and all(problem.file == SITE and problem.hint for problem in problems)
