"""Beside every value stands a link to the exact line it comes from; fields, credits and the page for corrections say what the data says."""

import dataclasses
import json
import re
from html import unescape
from types import MappingProxyType
from urllib.parse import parse_qs, urlsplit

import pytest
import yaml

from build_tools.check.schema_rules import SchemaSet
from build_tools.read import read_tree, read_yaml
from build_tools.render import render
from build_tools.render.correct_links import correct_address
from build_tools.render.fields_page import kinds, schemas
from build_tools.render.people_pages import day_text
from build_tools.render.schema_keys import merged

LINK = re.compile(r'<a class="correct" href="([^"]+)">correct this<span class="of"> of ([^<]+)</span></a>')


@pytest.fixture(scope="module")
def rendered(reference, root):
    return render(reference, root)


@pytest.fixture(scope="module")
def tree(root):
    return read_tree(root / "data")


def links(html):
    """(file, line, quantity, crop, spoken words) of each "correct this" on a page."""
    found = []
    for address, words in LINK.findall(html):
        parts = urlsplit(unescape(address))
        assert parts.path.endswith("correct/") and not parts.fragment
        given = {key: value for key, (value,) in parse_qs(parts.query, strict_parsing=True).items()}
        found.append((given["file"], int(given["line"]), given.get("quantity", ""), given.get("crop", ""), unescape(words)))
    assert html.count('class="correct"') == len(found), "a link of another shape"
    return found


@pytest.fixture(scope="module")
def crop_links(rendered, reference):
    return {crop: links(rendered.pages[f"crops/{crop}.md"].body()) for crop in reference.crops}


def test_every_entry_of_a_crop_has_a_link_to_its_line(crop_links, reference):
    for crop in reference.crops.values():
        places = {(file, line) for file, line, *_ in crop_links[crop.id]}
        wanted = {(crop.file, crop.lines["names"])} | {(crop.file, judged.line) for judged in crop.values.values()}
        wanted |= {(crop.file, entry.line) for entry in (*crop.cautions, *crop.notes, *crop.disagreements, *crop.pretreatments)}
        wanted |= {(m.file, m.line) for m in (*crop.methods, *crop.minimums)} | {(r.file, r.line) for r in (*crop.days[:1], *crop.percents[:1])}
        for kind in ("days-usual", "measured-life", "treatment-evidence", "sowing-thresholds", "thermodormancy"):
            wanted |= {(r.file, r.line) for r in crop.rows.get(kind, ())}
        wanted |= {(reference.treatments[e.about].file, c.line) for e in crop.pretreatments if e.advice in ("worth-doing", "may-help") for c in reference.treatments[e.about].cautions}
        assert wanted <= places, (crop.id, sorted(wanted - places)[:5])


def test_each_link_leads_to_the_line_that_holds_the_value(crop_links, reference, root):
    texts = {}
    for crop, found in crop_links.items():
        for file, line, quantity, named, words in found:
            assert named == crop
            lines = texts.setdefault(file, (root / file).read_text(encoding="utf-8").splitlines())
            assert 0 < line <= len(lines), (file, line)
            judged = reference.crops[crop].values.get(quantity)
            if file == f"data/crops/{crop}.yml" and judged is not None and judged.known:
                assert lines[line - 1].strip().startswith(f"{quantity}:"), (crop, quantity, lines[line - 1])
            elif file == f"data/crops/{crop}.yml" and quantity in ("disagreements", "pretreatments", "cautions", "notes") and line > 1:
                assert lines[line - 1].startswith("  - "), (crop, quantity, lines[line - 1])


def test_a_crops_links_can_be_told_apart_by_ear(crop_links):
    for crop, found in crop_links.items():
        heard = {}
        for file, line, _, _, words in found:
            if words.startswith("disagreement on"):
                continue  # two on the same value may follow one another
            assert heard.setdefault(words, (file, line)) == (file, line), (crop, words)


def test_treatments_sources_doubts_and_definitions_have_their_links(rendered, reference, root):
    treatments = {(file, line) for file, line, *_ in links(rendered.pages["treatments/index.md"].body())}
    for t in reference.treatments.values():
        assert {(t.file, line) for key, line in t.lines.items() if re.fullmatch(r"what|(steps|evidence|cautions)\.\d+", key)} <= treatments, t.id
        assert not t.times.ways or (t.file, t.lines["times"]) in treatments
    sources = {(file, line) for file, line, *_ in links(rendered.pages["sources.md"].body())}
    doubts = {(file, line) for file, line, *_ in links(rendered.pages["disagreements.md"].body())}
    for s in reference.sources.values():
        lines = (root / s.file).read_text(encoding="utf-8").splitlines()
        assert {(s.file, s.lines[key]) for key in ("title", "copy_read", "notes", "historical", "doubtful") if key in s.fields} <= sources, s.id
        assert lines[s.lines["title"] - 1].startswith("title:")
        for table in s.tables:
            assert (s.file, table.line) in sources and {(s.file, line) for line in table.doubt_lines} <= doubts
            assert table.file in lines[table.line - 1] + lines[min(table.line, len(lines) - 1)]
            assert all("row:" in lines[line - 1] for line in table.doubt_lines)
    for crop in reference.crops.values():
        assert {(crop.file, w.line) for w in crop.disagreements} <= doubts
    words = (root / "data/quantities.yml").read_text(encoding="utf-8").splitlines()
    found = {line for _, line, *_ in links(rendered.fragments["definitions"])}
    for group in (reference.quantities, reference.practice, *reference.choices.values()):
        for key in group:
            assert any(words[line - 1].strip().startswith(f"{key}:") for line in found), key


def test_an_address_carries_text_that_cannot_break_it():
    assert correct_address("../", "data/crops/a.yml", 3, "x&y=<z>", "a b") == "../correct/?crop=a+b&quantity=x%26y%3D%3Cz%3E&file=data/crops/a.yml&line=3"


def without_host(reference, *keys):
    return dataclasses.replace(reference, library=MappingProxyType({k: v for k, v in reference.library.items() if k not in keys}))


def test_without_a_repository_host_only_the_mail_is_offered(reference, root):
    bare = render(without_host(reference, "repository_url", "repository_edit_path", "form_path"), root)
    page, crop = bare.pages["correct.md"].body(), bare.pages["crops/tomato.md"].body()
    assert 'id="by-mail"' in page and "mailto:seeds@example.org?subject=Correction" in page
    assert 'id="by-form"' not in page and 'id="by-file"' not in page and "Three ways" not in page
    assert 'class="line"' not in crop and "Edit data/crops/tomato.yml" not in crop and len(links(crop)) > 50
    no_form = render(without_host(reference, "form_path"), root).pages["correct.md"].body()
    assert 'id="by-file"' in no_form and 'id="by-form"' not in no_form


@pytest.mark.parametrize("left_out, sound", [
    ((), True), (("form_path",), True), (("repository_url", "repository_edit_path", "form_path"), True),
    (("repository_url",), False), (("repository_edit_path",), False), (("repository_url", "repository_edit_path"), False),
])
def test_the_keys_of_the_repository_host_go_together(root, reference, left_out, sound):
    validator = SchemaSet.load(root / "schema").validators["library"]
    data = {key: value for key, value in reference.library.items() if key not in left_out}
    assert {error.validator for error in validator.iter_errors(data)} == (set() if sound else {"dependentRequired"})


@pytest.mark.parametrize("path", ["javascript:x", "issues/new?x=<b>", "../new", "//evil.example", "issues/new#x y", "/issues/new"])
def test_an_odd_address_of_the_form_is_refused(root, reference, path):
    assert not SchemaSet.load(root / "schema").validators["library"].is_valid({**reference.library, "form_path": path})


def test_the_page_explains_all_three_ways_without_scripts(rendered, reference):
    body = rendered.pages["correct.md"].body()
    addresses = re.findall(r'href="((?:https|mailto):[^"]+)"', body)
    host = reference.library["repository_url"]
    assert [unescape(a) for a in addresses] == [f"mailto:{reference.library['contact_email']}?subject=Correction", f"{host}/{reference.library['form_path']}", host]
    assert "Where they are off, write these things" in body and "where that is printed" in body


# Fields


def properties(schema, node=None, path=()):
    """(path, node) of every property of a schema, wherever it stands."""
    node = schema if node is None else node
    if isinstance(node, dict):
        for key, value in node.get("properties", {}).items():
            yield (*path, key), value
        for key, value in node.items():
            if key not in ("if", "then", "else"):  # conditions repeat keys
                yield from properties(schema, value, (*path, key) if key != "properties" else path)
    elif isinstance(node, list):
        for value in node:
            yield from properties(schema, value, path)


def test_every_property_of_every_schema_is_described_and_on_the_page(rendered, reference, root):
    page = unescape(re.sub(r"</?code>", "`", rendered.pages["fields.md"].body()))
    shown = {k.id: {key.path.replace("[]", "").split(".")[-1] for _, keys in k.parts for key in keys} for k in kinds(reference, root)}
    assert len(shown) >= 35
    for kind, schema in schemas(root).items():
        assert f'id="{kind}"' in page
        for path, node in properties(schema):
            words = merged(schema, node).get("description", "")
            assert len(words) > 4, f"{kind}: {'.'.join(path)} has no description"
            assert path[-1] in shown[kind], f"{kind}: {'.'.join(path)} is not on the page"
        for _, keys in next(k for k in kinds(reference, root) if k.id == kind).parts:
            for key in keys:
                assert key.description and key.description in page and f"`{key.path}`" in page, (kind, key.path)


def keys_used(data):
    if isinstance(data, dict):
        for key, value in data.items():
            yield key
            yield from keys_used(value)
    elif isinstance(data, list):
        for value in data:
            yield from keys_used(value)


def test_every_key_and_column_used_in_the_data_is_on_the_page(tree, reference, root):
    shown = {k.id: {key.path.replace("[]", "").split(".")[-1] for _, keys in k.parts for key in keys} for k in kinds(reference, root)}
    for kind, documents in (("crop", tree.crops.values()), ("treatment", tree.treatments.values()), ("source", [s.document for s in tree.sources.values()])):
        for document in documents:
            assert set(keys_used(document.data)) <= shown[kind], document.file
    named_freely = {"quantities": {*reference.quantities, *reference.practice, *(w for words in reference.choices.values() for w in words)}, "other-kinds": set(tree.singles["other-kinds"].data), **{name: set(tree.singles[name].data) for name in ("seed-oil", "cautions", "glossary", "guides")}, "figures": {*tree.singles["figures"].data, *(name for figures in tree.singles["figures"].data.values() for name in figures)}}
    columns = set(tree.singles["quantities"].data["table_columns"])
    for name, document in tree.singles.items():
        assert set(keys_used(document.data)) - named_freely.get(name, set()) - columns <= shown[name], name
    for source in tree.sources.values():
        for entry in source.document.data.get("tables", ()):
            kind = f"table-{entry['kind']}"
            extra = set() if kind != "table-plain" else set(source.tables[entry["file"]].columns)
            assert set(source.tables[entry["file"]].columns) - extra <= shown[kind], (source.document.file, entry["file"])


def test_examples_are_of_the_real_data(reference, root):
    crop = next(k for k in kinds(reference, root) if k.id == "crop")
    keys = {(part, key.path): key for part, found in crop.parts for key in found}
    assert keys["", "id"].example == '"artichoke"' or keys["", "id"].example in reference.crops
    assert yaml.safe_load(keys["", "kind"].example) in ("vegetable", "herb", "flower")
    assert keys["", "season"].allowed == ("cool", "warm") and keys["", "season"].uses == "choice" and keys["", "season"].needed
    assert keys["value", "value"].needed and not keys["value", "departs"].needed
    assert float(keys["value", "value"].example) > 0
    missing = [path for (part, path), key in keys.items() if not key.example]
    assert missing in ([], ["departs"]), missing


# The first line of each file, by which an editor completes keys


def test_every_data_file_names_its_schema_on_the_first_line(root):
    seen = 0
    for path in sorted((root / "data").rglob("*.yml")):
        relative = path.relative_to(root / "data")
        kind = {"crops": "crop", "treatments": "treatment", "sources": "source"}.get(relative.parts[0], path.stem)
        first = path.read_text(encoding="utf-8").split("\n", 1)[0]
        assert first == f"# yaml-language-server: $schema={'../' * len(relative.parts)}schema/{kind}.schema.json", relative
        assert (path.parent / first.split("$schema=")[1]).resolve() == root / "schema" / f"{kind}.schema.json"
        assert (root / "schema" / f"{kind}.schema.json").is_file()
        seen += 1
    assert seen > 400


# Credits


def test_credits_show_every_correction_with_its_reason(rendered, reference):
    body = unescape(re.sub(r"<[^>]+>", "", rendered.pages["credits.md"].body()))
    assert {c.outcome for c in reference.corrections} == {"accepted", "refused", "waiting"}
    for c in reference.corrections:
        assert c.proposed in body and c.reason in body and c.by in body and day_text(c.date) in body
    assert body.count("This entry is invented") == sum(c.invented for c in reference.corrections)


def test_credits_without_corrections(reference, root):
    body = render(dataclasses.replace(reference, corrections=()), root).pages["credits.md"].body()
    assert "Nothing has been proposed yet" in body and "With thanks" not in body


def test_corrections_agree_with_the_data(reference, root):
    """The examples speak of the real data: what they say was done is there."""
    by_outcome = {c.outcome: c for c in reference.corrections}
    refused = by_outcome["refused"]
    source = reference.sources[refused.sources[0]]
    assert any(d["printed"] == "20" and d["row"].startswith("Wheat") and d["action"] == "leave-out" for t in source.tables for d in t.doubts)
    assert "Aubergine" in reference.crops["eggplant"].other_names
    assert any("Oregon" in w.text and "Three years" in w.text for w in reference.crops["tomato"].disagreements)
    document, problems = read_yaml(root / "data" / "corrections.yml", "data/corrections.yml")
    assert problems == [] and len(document.data["corrections"]) == len(reference.corrections)


def test_the_browsers_words_for_values(rendered, reference):
    data = json.loads(re.search(r'id="correct-data">(.*?)</script>', rendered.pages["correct.md"].body(), re.DOTALL)[1])
    assert set(data["units"]) <= set(data["quantities"]) and set(data["choices"]) <= set(data["quantities"])
    assert data["email"] == reference.library["contact_email"] and data["sources"].keys() == reference.sources.keys()
