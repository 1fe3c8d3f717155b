"""The built site of tests/site, read as a program would read it."""

from __future__ import annotations

import json

import jsonschema
import pytest
from referencing import Registry, Resource

from tests.site.conftest import built  # noqa: F401


def parsed(text: str):
    """JSON as the standard has it: no NaN, no infinity, no key twice."""
    def refuse(word):
        raise AssertionError(f"{word} is not JSON")

    def once(pairs):
        keys = [key for key, _ in pairs]
        assert len(keys) == len(set(keys)), f"a key stands twice: {keys}"
        return dict(pairs)

    return json.loads(text, parse_constant=refuse, object_pairs_hook=once)


@pytest.fixture(scope="session")
def api(built):  # noqa: F811
    """Path below api/v1/ → parsed content of every JSON file there."""
    folder = built / "api" / "v1"
    return {path.relative_to(folder).as_posix(): parsed(path.read_text(encoding="utf-8")) for path in sorted(folder.rglob("*.json"))}


@pytest.fixture(scope="session")
def schemas(built):  # noqa: F811
    """File name → content of every published schema."""
    return {path.name: parsed(path.read_text(encoding="utf-8")) for path in sorted((built / "schema").iterdir())}


@pytest.fixture(scope="session")
def registry(schemas):
    """The published schemas by their addresses; nothing is fetched."""
    return Registry().with_resources((content["$id"], Resource.from_contents(content)) for content in schemas.values())


@pytest.fixture(scope="session")
def validator(schemas, registry):
    """Address of a schema → its validator, of the library that the site itself does not use for this."""
    return lambda address: jsonschema.Draft202012Validator(schemas[address.rsplit("/", 1)[1]], registry=registry)
