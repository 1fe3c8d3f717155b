"""How to cite: the committed file is the generated one, and fits the Citation File Format."""

import json
from dataclasses import replace
from importlib.resources import files
from types import MappingProxyType

import jsonschema
import pytest
import yaml

from build_tools.render.published.about import about
from build_tools.render.published.citation import citation, citation_cff

HOSTILE = '</script><img src=x onerror=a()> "quoted": [x] # not a comment\nauthors: null'


@pytest.fixture(scope="module")
def validator():
    """The schema of CFF 1.2.0 (doi 10.5281/zenodo.5171937), as the package check-jsonschema carries it."""
    schema = json.loads((files("check_jsonschema") / "builtin_schemas" / "vendor" / "citation-file-format.json").read_text(encoding="utf-8"))
    return jsonschema.validators.validator_for(schema)(schema)


def with_library(reference, **changes):
    library = {**reference.library, **changes}
    return replace(reference, library=MappingProxyType({key: value for key, value in library.items() if value is not None}))


def test_the_committed_file_and_the_published_one_are_the_generated_one(reference, root, built):
    text = citation_cff(reference)
    assert (root / "CITATION.cff").read_text(encoding="utf-8") == text, "CITATION.cff is stale; run: python3 -m build_tools renew"
    assert (built / "CITATION.cff").read_text(encoding="utf-8") == text


def test_it_fits_the_format(reference, validator):
    fields = yaml.safe_load(citation_cff(reference))
    assert list(validator.iter_errors(fields)) == []
    assert list(validator.iter_errors({**fields, "license": "none such"})), "the schema notices a licence that is none"
    library = reference.library
    assert (fields["version"], fields["license"], fields["url"]) == (library["data_version"], library["data_licence"], library["site_url"])
    assert [author["name"] for author in fields["authors"]] == list(library["citation_authors"])


@pytest.mark.parametrize("author", [HOSTILE, "null", "2026", "yes", "- a", "& b", "*c", "O'Neil", "Ünïcode Library", "trailing: "])
def test_any_name_comes_back_as_it_is(reference, validator, author):
    fields = yaml.safe_load(citation_cff(with_library(reference, citation_authors=[author])))
    assert fields["authors"] == [{"name": author}] and list(validator.iter_errors(fields)) == []


def test_without_a_repository_none_is_named(reference, validator):
    private = with_library(reference, repository_url=None, repository_edit_path=None)
    fields = yaml.safe_load(citation_cff(private))
    assert "repository-code" not in fields and list(validator.iter_errors(fields)) == []
    assert "repository" not in about(private) and "repository" in about(reference)


def test_the_line_names_authors_version_and_address(reference):
    assert citation(with_library(reference, citation_authors=["A", "B"], data_version="2027.01")) == f"A, B: Germination reference, data version 2027.01. {reference.library['site_url']}"
