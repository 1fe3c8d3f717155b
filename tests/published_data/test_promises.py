"""Within v1 nothing that a version promised goes away, and nothing new comes without a new version and a line in the change log."""

import copy
import re

import pytest

from build_tools.render.published.about import SCHEMA_VERSION
from tests.published_data.forms import TYPES, broken, form_now, plain, promised


@pytest.fixture(scope="module")
def now(reference, root):
    return plain(form_now(reference, root))


@pytest.mark.parametrize("version", sorted(promised()))
def test_what_a_version_promised_still_holds(now, version):
    assert broken(promised()[version], now) == []


def test_what_is_new_has_a_version_of_its_own(now):
    assert promised()[SCHEMA_VERSION] == now, "Raise SCHEMA_VERSION, add to the changes in docs/api.md, then run: python3 -m tests.published_data.write_promised"


def test_every_version_is_in_the_change_log(root):
    text = (root / "docs" / "api.md").read_text(encoding="utf-8").split("{ #changes }")[1]
    listed = re.findall(r"^\*\*([0-9.]+)\*\*", text, re.MULTILINE)
    assert listed == sorted(promised(), key=lambda version: [int(part) for part in version.split(".")], reverse=True)


@pytest.mark.parametrize("spoil, said", [
    (lambda f: f["json"]["api-crop"].pop("crop.values.minimum_c.status"), "crop.values.minimum_c.status is gone"),
    (lambda f: f["json"]["api-crop"]["crop.values.minimum_c.value"].update(types=["string"]), "is ['string']"),
    (lambda f: f["json"]["api-crop"]["crop.file"].update(types=["null", "string"]), "is ['null', 'string']"),
    (lambda f: f["json"]["api-crop"]["crop.values.light.status"]["words"].remove("departs"), "no longer says departs"),
    (lambda f: f["csv"]["downloads/crops.csv"].remove("light"), "columns gone or moved"),
    (lambda f: f["csv"]["downloads/measured.csv"].insert(0, "new"), "columns gone or moved"),
    (lambda f: f["json"].pop("api-tables"), "api-tables: tables is gone"),
])
def test_a_broken_promise_is_noticed(now, spoil, said):
    changed = copy.deepcopy(now)
    spoil(changed)
    assert any(said in line for line in broken(promised()[SCHEMA_VERSION], changed))


def test_the_form_is_that_of_the_files(now, api):
    """Every path and type that occurs in the built files is in the form: it is no list beside the truth."""
    strange = set()

    def walk(value, name, path):
        paths = now["json"][name]
        starred = [path, re.sub(r"\.[^.\[\]]+$", ".*", path)]
        known = next((p for p in starred if p in paths), None)
        if known is None:
            strange.add(f"{name}: {path}")
            return
        kinds = set(paths[known]["types"])
        if TYPES[type(value)] not in kinds | ({"integer"} if "number" in kinds else set()):
            strange.add(f"{name}: {path} {TYPES[type(value)]}")
        for key, item in value.items() if isinstance(value, dict) else ():
            base = known if known.endswith(".*") or path == known else path
            walk(item, name, f"{base}.{key}".lstrip("."))
        for item in value if isinstance(value, list) else ():
            walk(item, name, f"{known}[]")

    for content in api.values():
        walk(content, content["$schema"].rsplit("/", 1)[1].removesuffix(".schema.json"), "")
    assert strange == set()
