"""Rendered pages hold what the model holds, say what is missing, and let no text of the data become markup."""

import json
import re
import shutil
from html.parser import HTMLParser

import pandas as pd
import pytest

from build_tools.check import check_tree
from build_tools.check.schema_rules import SchemaSet
from build_tools.model import build_reference
from build_tools.model.build import QUANTITIES
from build_tools.read import read_tree
from build_tools.render import render
from build_tools.render.charts.bands import HIGH, LOW, reference_parts
from build_tools.render.charts.scale import Linear, Log
from build_tools.spreadsheet import guarded
from tests.rules.trees import copy_sound


@pytest.fixture(scope="session")
def rendered(reference, root):
    return render(reference, root)


class Text(HTMLParser):
    """The visible text of a page, and the tags it holds."""

    def __init__(self, html):
        super().__init__()
        self.text, self.tags = "", []
        self.feed(html)

    def handle_data(self, data):
        self.text += data

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))


def test_every_measured_number_is_on_its_page(rendered, reference):
    for crop in reference.crops.values():
        text = Text(rendered.pages[f"crops/{crop.id}.md"].body()).text
        for row in crop.days[:1]:
            for cell in row.cells:
                if cell.state == "measured":
                    assert f"{cell.value:g} day" in text, (crop.id, cell)
        for row in crop.percents[:1]:
            for cell in row.cells:
                if cell.state == "measured":
                    assert f"{cell.value:g} %" in text, (crop.id, cell)


def test_a_missing_value_is_said_for_every_quantity(rendered, reference):
    for crop in reference.crops.values():
        missing = sum(not crop[q].known for q in QUANTITIES)
        assert rendered.pages[f"crops/{crop.id}.md"].body().count("no published value found") >= missing, crop.id


def test_every_source_shown_on_a_page_is_an_entry_of_the_sources_page(rendered, reference):
    entries = set(re.findall(r'<details class="source" id="([^"]+)"', rendered.pages["sources.md"].body()))
    assert entries == set(reference.sources)
    for crop in reference.crops.values():
        assert set(re.findall(r"sources/#([a-z0-9-]+)", rendered.pages[f"crops/{crop.id}.md"].body())) <= entries


def test_band_parts_are_the_models_numbers(reference):
    tomato = reference.crops["tomato"]
    parts = {p["part"]: (p["low"], p["high"]) for p in reference_parts(tomato)}
    assert parts["slow"] == (tomato["minimum_c"].low, tomato["optimum_low_c"].low)
    assert parts["best"] == (tomato["optimum_low_c"].low, tomato["optimum_high_c"].low)
    assert parts["hot"] == (tomato["maximum_c"].low, HIGH) and parts["cold"][0] == LOW


def test_points_of_the_chart_stand_where_the_numbers_say(rendered, reference):
    html = rendered.pages["crops/carrot.md"].body()
    svg = re.search(r'<svg class="chart chart-emergence".*?</svg>\n<details|<svg class="chart chart-emergence".*?<text class="tick"', html, re.S)[0]
    places = {(float(x), t) for x, t in re.findall(r'<text class="point-label" x="([\d.]+)%"[^>]*>([\d.]+)</text>', svg)}
    x = Linear(-2.0, 44.0)
    for row in (reference.crops["carrot"].days[0], reference.crops["carrot"].percents[0]):
        for celsius, value in row.points():
            assert (x(celsius), f"{value:g}") in places


def test_scales():
    assert [Linear(0, 10)(v) for v in (-1, 0, 5, 10, 11)] == [0, 0, 50, 100, 100]
    assert [round(Log(1, 100, 0, 2)(v), 6) for v in (1, 10, 100, 0.1)] == [0, 1, 2, 0]


def test_downloads_read_back_with_pandas(rendered, reference):
    from io import StringIO

    crops = pd.read_csv(StringIO(rendered.files["downloads/crops.csv"]()), index_col="id")
    assert list(crops.index) == list(reference.crops)
    for crop in reference.crops.values():
        for quantity in ("minimum_c", "optimum_c", "maximum_c", "seed_life_years"):
            value = crops.loc[crop.id, quantity]
            assert (pd.isna(value) and not crop[quantity].known) or float(value) == crop[quantity].low
    measured = pd.read_csv(StringIO(rendered.files["downloads/measured.csv"]()))
    assert set(measured["state"]) == {"measured", "no germination", "not tested", "doubtful"}
    assert len(pd.read_csv(StringIO(rendered.files["downloads/sources.csv"]()))) == len(reference.sources)


def test_json_files_hold_the_same_crops_and_say_what_they_are(rendered, reference):
    whole = json.loads(rendered.files["api/v1/crops.json"]())
    assert [c["id"] for c in whole["crops"]] == list(reference.crops)
    one = json.loads(rendered.files["api/v1/crops/pea.json"]())
    assert one["crop"] == next(c for c in whole["crops"] if c["id"] == "pea")
    for data in (whole, one, json.loads(rendered.files["api/v1/sources.json"]()), json.loads(rendered.files["api/v1/index.json"]())):
        assert data["schema_version"] == "1.1" and data["licence"] and data["citation"] and data["data_version"]


@pytest.mark.parametrize("cell, kept", [("=cmd", "'=cmd"), ("+1", "'+1"), ("@x", "'@x"), ("-2", "-2"), ("-2.5", "-2.5"), ("-x", "'-x"), ("-", "-"), ("-8 to -6", "-8 to -6"), ("-1+cmd", "'-1+cmd"), ("a=b", "a=b"), ("", "")])
def test_a_cell_that_looks_like_a_formula_is_guarded(cell, kept):
    assert guarded(cell) == kept


HOSTILE = '<script>alert(1)</script>{{ 7*7 }}"><b onclick=x>[x](javascript:y)</script>'


@pytest.fixture
def odd(tmp_path, root):
    """The small good tree with hostile text, and a crop about which almost nothing is known."""
    copy_sound(tmp_path)
    shutil.copytree(root / "schema", tmp_path / "schema")
    crop = tmp_path / "data" / "crops" / "alpha.yml"
    text = crop.read_text(encoding="utf-8").replace('"Soaked seed came up two days sooner in one trial."', json.dumps(HOSTILE))
    crop.write_text(text, encoding="utf-8")
    bare = '# yaml-language-server: $schema=../../schema/crop.schema.json\nid: beta\nnames:\n  common: "Beta leaf"\n  botanical: "Beta inventa"\n  family: "Inventaceae"\n  sources: [from memory]\nkind: herb\nseason: {choice: cool, sources: [common practice]}\n'
    (tmp_path / "data" / "crops" / "beta.yml").write_text(bare, encoding="utf-8")
    tree = read_tree(tmp_path / "data")
    assert check_tree(tree, SchemaSet.load(tmp_path / "schema")) == []
    return render(build_reference(tree), tmp_path)


def test_text_of_the_data_never_becomes_markup(odd):
    for name, page in odd.pages.items():
        for html in (page.body(), page.summary):
            found = Text(html)
            assert not any("onclick" in attributes for _, attributes in found.tags), name
            assert all(re.search(r"assets/js/((calculators/[a-z-]+|posters|compare|labels|correct)/main|(lots|offline)/page)\.js$", attributes.get("src", "")) or attributes.get("type") == "application/json" for tag, attributes in found.tags if tag == "script"), name
            assert "49" not in re.findall(r"alert\(1\)&lt;/script&gt;(\d+)", html)
    assert HOSTILE in json.loads(odd.files["api/v1/crops/alpha.json"]())["crop"]["pretreatments"][0]["text"]


def test_a_crop_about_which_almost_nothing_is_known_still_has_a_page(odd):
    text = Text(odd.pages["crops/beta.md"].body()).text
    assert "No published soil temperature was found" in text and "no published value found" in text
