"""The published schemas: each at the address it names, sound, and leading nowhere but to one another."""

import json

import jsonschema
import pytest

from build_tools.render.published.schemas import published_schema, schema_files


def references(part):
    """Every $ref in a schema."""
    if isinstance(part, dict):
        if isinstance(part.get("$ref"), str):
            yield part["$ref"]
        for item in part.values():
            yield from references(item)
    elif isinstance(part, list):
        for item in part:
            yield from references(item)


def test_the_id_is_the_address(schemas, built, reference, root):
    assert set(schemas) == {path.name for path in (root / "schema").glob("*.json")}
    for name, content in schemas.items():
        assert content["$id"] == f"{reference.library['site_url']}schema/{name}"
        assert content["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_each_is_a_valid_schema(schemas):
    for content in schemas.values():
        jsonschema.Draft202012Validator.check_schema(content)


def test_every_reference_resolves(schemas, registry):
    count = 0
    for name, content in schemas.items():
        resolver = registry.resolver(content["$id"])
        for address in references(content):
            assert isinstance(resolver.lookup(address).contents, dict), (name, address)
            count += 1
    assert count > 150


def test_only_the_id_differs_from_the_repository(schemas, root):
    for name, content in schemas.items():
        ours = json.loads((root / "schema" / name).read_text(encoding="utf-8"))
        assert ours.pop("$id") == name
        assert ours == {key: value for key, value in content.items() if key != "$id"}


def test_every_key_of_the_published_files_is_described(schemas, registry):
    undescribed = []

    def walk(part, resolver, place):
        if isinstance(part, dict):
            for key, value in (part.get("properties") or {}).items():
                target = resolver.lookup(value["$ref"]).contents if "$ref" in value else {}
                if not (value.get("description") or target.get("description")):
                    undescribed.append(f"{place}.{key}")
            for key, value in part.items():
                walk(value, resolver, f"{place}.{key}")
        elif isinstance(part, list):
            for item in part:
                walk(item, resolver, place)

    for name, content in schemas.items():
        if name.startswith("api-"):
            walk(content, registry.resolver(content["$id"]), name)
    assert undescribed == []


@pytest.mark.parametrize("text", [
    '{"$id": "other.schema.json"}', '{"title": "none"}', '{"$id": "crop.schema.json", "$defs": {"a": {"$id": "crop.schema.json"}}}', '{"$id":"crop.schema.json"}', '{"$id": "https://elsewhere.example/crop.schema.json"}',
])
def test_a_schema_of_another_id_is_not_published(reference, text):
    with pytest.raises(ValueError, match='written once as "\\$id": "crop.schema.json"'):
        published_schema(reference, "crop.schema.json", text)


def test_the_address_stays_a_string_whatever_the_library_calls_itself(reference, root):
    text = schema_files(root)["crop.schema.json"]
    assert json.loads(published_schema(reference, "crop.schema.json", text))["$id"].endswith("/schema/crop.schema.json")
