"""The pages about the files: sizes and examples are the real ones, hostile text stays text, the same data gives the same bytes."""

import hashlib
import html
import json
import os
import re
import subprocess
import sys
from dataclasses import replace
from types import MappingProxyType

import pytest

from build_tools.render import Rendered, downloads
from build_tools.render.environment import make_environment
from build_tools.render.published.about import SCHEMA_VERSION
from build_tools.render.published.crops import crop_json
from build_tools.render.published.page import OFFERED, size_text, spread

HOSTILE = '</code></pre></script><img src=x onerror=canary()>{{ 7*7 }}[[api-crop]]'


def test_sizes_on_the_page_are_those_of_the_files(built):
    page = (built / "downloads" / "index.html").read_text(encoding="utf-8")
    for path in OFFERED:
        assert f'<a href="../{path}">{path.split("/")[-1]}</a> ({size_text((built / path).stat().st_size)})' in page, path


@pytest.mark.parametrize("size, text", [(0, "0 bytes"), (999, "999 bytes"), (1000, "1 kB"), (47_400, "47 kB"), (999_499, "999 kB"), (999_500, "1.0 MB"), (1_250_000, "1.2 MB")])
def test_sizes_in_words(size, text):
    assert size_text(size) == text


def examples(page):
    return {path: html.unescape(text) for path, text in re.findall(r'<a href="\.\./([^"]+)">[^<]*</a>[^<]*</p>\s*<pre[^>]*><code>(.*?)</code></pre>', page, re.DOTALL)}


def inside(part, whole):
    """Whether everything in `part` stands in `whole`; lists may be cut."""
    if isinstance(part, dict):
        return isinstance(whole, dict) and all(key in whole and inside(value, whole[key]) for key, value in part.items())
    if isinstance(part, list) and any(isinstance(item, dict) for item in part):
        return all(any(inside(item, other) for other in whole) for item in part)
    return part == whole


def test_examples_are_cut_from_the_real_files(built):
    found = examples((built / "api" / "index.html").read_text(encoding="utf-8"))
    assert len(found) == 5
    for path, text in found.items():
        real = (built / path).read_text(encoding="utf-8")
        if path.endswith(".json"):
            assert inside(json.loads(text), json.loads(real)), path
        else:
            assert all(line in real.split("\n") for line in text.split("\n")), path


def test_no_place_for_a_fragment_is_left_over(built):
    assert "[[" not in re.sub(r"<script.*?</script>", "", (built / "api" / "index.html").read_text(encoding="utf-8"), flags=re.DOTALL)


def test_the_change_log_begins_with_this_version(built):
    page = (built / "api" / "index.html").read_text(encoding="utf-8")
    assert re.search(r'id="changes".*?<strong>([\d.]+)</strong>', page, re.DOTALL)[1] == SCHEMA_VERSION


def test_every_kind_of_file_is_listed_with_its_schema(built, api):
    page = html.unescape((built / "api" / "index.html").read_text(encoding="utf-8"))
    listed = dict(re.findall(r'<th scope="row"><a href="\.\./(api/v1/[^"]+)">[^<]+(?:<id>[^<]*)?</a></th><td>[^<]*</td><td><a href="\.\./schema/([^"]+)">', page))
    assert {path: api[path.removeprefix("api/v1/")]["$schema"].rsplit("/", 1)[1] for path in listed} == listed
    assert {content["$schema"].rsplit("/", 1)[1] for content in api.values()} == set(listed.values())


def test_downloads_lead_to_it(built):
    page = (built / "downloads" / "index.html").read_text(encoding="utf-8")
    assert 'href="../api/"' in page.split("<article", 1)[1]


@pytest.mark.parametrize("data", [{}, [], {"a": []}, {"a": ["x" * 200, {"b": None, "c": [1, 2.5, True]}]}, [[["y" * 120]]], {"ü": "</pre>"}])
def test_spread_json_is_the_same_json(data):
    assert json.loads(spread(data)) == data


@pytest.fixture
def hostile(reference, root):
    """The published files of a reference whose first crop has hostile names, notes and cautions."""
    first = next(c for c in reference.crops.values() if c.days and c["minimum_c"].known)
    value = replace(first["minimum_c"], note=HOSTILE)
    crop = replace(first, name=HOSTILE, other_names=(HOSTILE, "=cmd|' /C calc'!A0"), botanical="=1+1", values=MappingProxyType({**first.values, "minimum_c": value}), lines=first.lines)
    changed = replace(reference, crops=MappingProxyType({crop.id: crop}))
    rendered = Rendered()
    downloads.add(rendered, changed, make_environment(changed), root)
    rendered.files[f"api/v1/crops/{crop.id}.json"] = lambda: crop_json(changed, crop)
    return crop, rendered


def test_hostile_text_is_verbatim_in_json_guarded_in_csv_and_text_on_the_page(hostile):
    crop, rendered = hostile
    one = json.loads(rendered.files[f"api/v1/crops/{crop.id}.json"]())["crop"]
    assert one["names"]["common"] == HOSTILE and one["values"]["minimum_c"]["note"] == HOSTILE
    assert json.loads(rendered.files["api/v1/crops.json"]())["crops"][0] == one
    table = rendered.files["downloads/crops.csv"]()
    assert ",'=1+1," in table and ",=1+1," not in table
    for fragment in (*rendered.fragments.values(), rendered.pages["downloads.md"].body()):
        assert "<img" not in fragment and "</script>" not in fragment
    assert html.escape(HOSTILE, quote=False)[:40] in rendered.fragments["api-crop"]


def test_a_reference_without_tables_still_has_its_files(reference, root):
    crop = replace(next(iter(reference.crops.values())), days=(), percents=(), methods=(), minimums=(), rows=MappingProxyType({}))
    bare = replace(reference, crops=MappingProxyType({crop.id: crop}), sources=MappingProxyType({"one": replace(next(iter(reference.sources.values())), id="one", tables=(), crops=())}))
    rendered = Rendered()
    downloads.add(rendered, bare, make_environment(bare), root)
    assert json.loads(rendered.files["api/v1/tables.json"]())["tables"] == []
    for make in rendered.files.values():
        assert make() is not None
    assert rendered.pages["downloads.md"].body()


WRITE = """
import hashlib, sys
from pathlib import Path
from build_tools.model import load
from build_tools.render import Rendered, downloads
from build_tools.render.environment import make_environment
root = Path(sys.argv[1])
reference, problems = load(root)
assert reference, problems
rendered = Rendered()
downloads.add(rendered, reference, make_environment(reference), root)
digest = hashlib.sha256()
for name in sorted(rendered.files):
    content = rendered.files[name]()
    digest.update(name.encode() + b"\\0" + (content if isinstance(content, bytes) else content.encode()))
print(len(rendered.files), digest.hexdigest())
"""


def test_the_same_data_gives_the_same_bytes(root, built, reference):
    """Under another hash seed, time zone and language; and as in the built site."""
    said = [
        subprocess.run([sys.executable, "-c", WRITE, str(root)], cwd=root, env={**os.environ, **env}, capture_output=True, text=True, check=True).stdout
        for env in ({"PYTHONHASHSEED": "1", "TZ": "UTC", "LC_ALL": "C"}, {"PYTHONHASHSEED": "99", "TZ": "Pacific/Auckland", "LC_ALL": "C.UTF-8"})
    ]
    rendered = Rendered()
    downloads.add(rendered, reference, make_environment(reference), root)
    digest = hashlib.sha256()
    for name in sorted(rendered.files):
        digest.update(name.encode() + b"\0" + (built / name).read_bytes())
    assert said[0] == said[1] == f"{len(rendered.files)} {digest.hexdigest()}\n"
