"""The pages "Compare": every number of the rows in chart, table and figure alike; odd crops; figures that plotly takes."""

import gzip
import json
import re
from dataclasses import replace
from html.parser import HTMLParser

import plotly.graph_objects as go
import pytest

from build_tools.render import Rendered, compare
from build_tools.render.charts.bands import HIGH, LOW
from build_tools.render.compare import days, explore, seed_life
from build_tools.render.environment import make_environment
from build_tools.render import rows as crop_rows
from build_tools.render.rows import band_row, by_name, days_row, life_row
from build_tools.render.wording import temperature_plain, years

LONG = "Thirty-lettered marrowfat bean"


def made(reference, root):
    rendered = Rendered()
    compare.add(rendered, reference, make_environment(reference), root)
    return rendered


@pytest.fixture(scope="module")
def rendered(reference, root):
    return made(reference, root)


@pytest.fixture(scope="module")
def figures(rendered):
    return {name: json.loads(rendered.files[f"compare/{name}/figure.json"]()) for name in ("warmth", "days", "seed-life")}


class Rows(HTMLParser):
    """Elements with data-id: their attributes, and the elements within by tag with attributes and text."""

    def __init__(self, html):
        super().__init__()
        self.rows, self.text, self.scripts, self.tags = {}, "", [], []
        self._row, self._open = None, []
        self.feed(html)

    def handle_starttag(self, tag, attributes):
        found = dict(attributes)
        self.tags.append((tag, found))
        if tag == "script":
            self.scripts.append(found)
        if "data-id" in found:
            self._row = {"attributes": found, "within": []}
            self.rows[found["data-id"]] = self._row
        elif self._row is not None:
            self._row["within"].append([tag, found, ""])

    def handle_data(self, data):
        self.text += data
        if self._row and self._row["within"]:
            self._row["within"][-1][2] += data


@pytest.fixture(scope="module")
def pages(rendered):
    return {name: Rows(rendered.pages[f"compare/{name}.md"].body()) for name in ("warmth", "days", "seed-life")}


def test_every_crop_is_a_row_or_is_named(pages, rendered, reference):
    for name, page in pages.items():
        linked = set(re.findall(r'href="\.\./\.\./crops/([a-z0-9-]+)/', rendered.pages[f"compare/{name}.md"].body()))
        assert linked == set(reference.crops), name
        assert 0 < len(page.rows) < len(reference.crops)


def test_warmth_chart_table_and_figure_hold_the_rows_numbers(pages, figures, reference):
    figure = by_crop(figures["warmth"])
    for crop in reference.crops.values():
        row = band_row(crop)
        assert (crop.id in pages["warmth"].rows) == (crop.id in figure) == row.known
        if not row.known:
            continue
        within = pages["warmth"].rows[crop.id]["within"]
        parts = row.drawn
        rects = [(float(a["x"].rstrip("%")), float(a["width"].rstrip("%"))) for tag, a, _ in within if tag == "rect"]
        scale = 100 / (HIGH - LOW)
        assert rects == [pytest.approx(((p["low"] - LOW) * scale, (p["high"] - p["low"]) * scale), abs=0.002) for p in parts]
        assert sorted(figure[crop.id]) == sorted([*((p["part"], p["low"], p["high"]) for p in parts), *([("optimum", row.optimum, row.optimum)] if row.optimum is not None else [])])
        description = next(text for tag, _, text in within if tag == "desc")
        for low, high in ((row.minimum, row.minimum), (row.best_low, row.best_high), (row.optimum, row.optimum), (row.maximum, row.maximum)):
            assert low is None or temperature_plain(low, high) in description


def by_crop(figure):
    """{crop: [(part, low, high) of each point]}, read back from what plotly draws, not from the words beside it."""
    found = {}
    for trace in figure["data"]:
        for i, (crop, *said) in enumerate(trace["customdata"]):
            if trace["x"][i] is None:
                continue
            if trace["type"] == "bar":
                drawn = (trace["base"][i], trace["base"][i] + trace["x"][i])
                assert trace["meta"]["part"] in ("life", "range") or list(drawn) == said
            elif trace["meta"]["part"] == "days":
                drawn = (trace["x"][i], trace["y"][i])
            else:
                drawn = (trace["x"][i], trace["x"][i])
            found.setdefault(crop, []).append((trace["meta"]["part"], *drawn))
    return found


def test_days_table_and_figure_hold_the_rows_numbers(pages, figures, reference):
    rows = {crop.id: days_row(reference, crop) for crop in reference.crops.values()}
    tested = crop_rows.tested_temperatures(rows.values())
    figure = by_crop(figures["days"])
    for crop, row in rows.items():
        assert (crop in pages["days"].rows) == bool(row.cells or row.usual)
        assert (crop in figure) == bool(row.cells)
        if not row.cells:
            continue
        measured = {c.celsius: c.value for c in row.cells if c.state == "measured"}
        attributes = pages["days"].rows[crop]["attributes"]
        assert {c: float(attributes[f"data-at-{c:g}"]) for c in tested if attributes[f"data-at-{c:g}"]} == measured
        assert {x: y for part, x, y in figure[crop] if part == "days"} == measured
        assert {x for part, x, _ in figure[crop] if part == "none"} == {c.celsius for c in row.cells if c.state == "no germination"}
        cells = [(a.get("class"), text) for tag, a, text in pages["days"].rows[crop]["within"] if tag == "td"][: len(tested)]
        for celsius, (look, text) in zip(tested, cells, strict=True):
            cell = next(c for c in row.cells if c.celsius == celsius)
            assert look == {"measured": f"shade-{days.shade(cell.value or 0)}", "no germination": "none", "not tested": "untested", "doubtful": "doubt"}[cell.state]
            assert text.split()[:1] == ([f"{cell.value:g}"] if cell.state == "measured" else ["none"] if cell.state == "no germination" else [])


def test_shades_have_the_bounds_that_the_key_names():
    assert days.key() == [(1, "up to 3 days"), (2, "4–7 days"), (3, "8–14 days"), (4, "15–30 days"), (5, "over 30 days")]
    assert [days.shade(v) for v in (1, 3, 4, 7, 8, 14, 15, 30, 31, 172)] == [1, 1, 2, 2, 3, 3, 4, 4, 5, 5]


def test_seed_life_chart_and_figure_hold_the_rows_numbers(pages, figures, reference):
    rows = [life_row(crop) for crop in reference.crops.values()]
    most = seed_life.most_years([row for row in rows if row.known])
    figure = by_crop(figures["seed-life"])
    for row in rows:
        crop = row.crop.id
        assert (crop in pages["seed-life"].rows) == (crop in figure) == row.known
        if row.known:
            within = pages["seed-life"].rows[crop]["within"]
            bar = next(a for tag, a, _ in within if tag == "rect")
            assert float(bar["width"].rstrip("%")) == pytest.approx(row.low / most * 100, abs=0.002)
            assert ("life", 0, row.low) in figure[crop]
            assert [v for part, v, _ in figure[crop] if part == "span"] == ([row.span_low, row.span_high] if row.families else [])
            said = next(text for tag, a, text in within if tag == "p" and a.get("class") == "compare-facts")
            assert years(row.low) in said and (not row.families or years(row.span_low, row.span_high) in said)


def test_every_point_tells_crop_and_both_units_when_pointed_at(figures):
    for name, figure in figures.items():
        for trace in figure["data"]:
            assert len(trace["hovertext"]) == len(trace["customdata"]) == len(trace["x"]) == len(trace["y"])
            for words in trace["hovertext"]:
                assert "year" in words if name == "seed-life" else "°C (" in words and "°F)" in words


def test_plotly_takes_the_figures_and_they_name_no_colour(figures, rendered):
    for name, figure in figures.items():
        go.Figure(figure)  # raises on any key or value that plotly does not know
        text = rendered.files[f"compare/{name}/figure.json"]()
        assert "template" not in figure["layout"] and "#" not in text and "http" not in text
        assert len(gzip.compress(text.encode())) < 12_000
        for trace in figure["data"]:
            assert trace["meta"]["fill"].startswith("--") and trace["meta"]["line"].startswith("--")


def test_lines_of_days_differ_by_more_than_colour(figures):
    looks = [(t["line"]["dash"], t["marker"]["symbol"]) for t in figures["days"]["data"] if t["meta"]["part"] == "days"]
    assert len(set(looks)) == len(looks) > 20


def test_the_script_to_explore_is_that_of_the_installed_package_under_its_hash(rendered):
    import hashlib
    from pathlib import Path

    import plotly

    content = (Path(plotly.__file__).parent / "package_data" / "plotly.min.js").read_bytes()
    library = explore.library()
    assert library.file == f"assets/js/plotly-{hashlib.sha256(content).hexdigest()[:12]}.min.js"
    assert rendered.files[library.file]() == content
    assert library.whole_mb == round(len(content) / 1e6, 1)
    assert library.sent_mb == pytest.approx(len(gzip.compress(content, 6)) / 1e6, abs=0.15)


def test_pages_need_no_script_style_or_other_host(rendered, pages):
    for name, page in pages.items():
        body = rendered.pages[f"compare/{name}.md"].body()
        assert " style=" not in body and "<style" not in body and "plotly" not in "".join(s.get("src", "") for s in page.scripts)
        assert all(s.get("type") == "application/json" or s.get("src") == "../../assets/js/compare/main.js" for s in page.scripts)
        for tag, attributes in page.tags:  # what needs scripts is hidden without
            if tag in ("form", "section") and attributes.get("class") in ("compare-form", "compare-line", "explore"):
                assert "hidden" in attributes
        assert rendered.pages[f"compare/{name}.md"].summary.startswith('<h1 id="top">')
        ids = re.findall(r'\bid="([^"]+)"', body)
        assert len(ids) == len(set(ids))


def with_values(crop, **values):
    """The crop with other reference values; None takes one away."""
    changed = dict(crop.values)
    for quantity, value in values.items():
        changed[quantity] = replace(crop[quantity], low=value, high=value, status="none" if value is None else "from memory", families=() if quantity == "seed_life_years" else crop[quantity].families)
    return replace(crop, values=changed)


def odd_reference(reference):
    tomato, endive = reference.crops["tomato"], reference.crops["endive"]
    crops = {
        "one": replace(with_values(tomato, maximum_c=None), id="one", name=LONG, kind="herb"),
        "two": replace(with_values(endive, minimum_c=None, seed_life_years=12.5), id="two", name="Z & <b>", days=(), rows={}),
        "three": replace(with_values(tomato, minimum_c=None, optimum_low_c=None, optimum_high_c=None, optimum_c=None, maximum_c=None, seed_life_years=None), id="three", name="Nothing known", days=(), percents=(), rows={}),
    }
    return replace(reference, crops=crops)


def test_three_odd_crops(reference, root):
    odd = made(odd_reference(reference), root)
    page = odd.pages["compare/warmth.md"].body()
    rows = Rows(page).rows
    assert set(rows) == {"one", "two"} and LONG in page and "Z &amp; &lt;b&gt;" in page and "<b>" not in page
    no_maximum = rows["one"]["within"]
    assert [a["class"] for tag, a, _ in no_maximum if tag == "line" and "open-end" in a.get("class", "")] == ["open-end"]
    assert "no published maximum" in next(text for tag, _, text in no_maximum if tag == "desc")
    assert "Nothing known</a>." in page
    life = odd.pages["compare/seed-life.md"].body()
    assert "12.5 years" in life and ">10<" in life
    table = odd.pages["compare/days.md"].body()
    assert "Z &amp; &lt;b&gt;</a>, " in table or "Z &amp; &lt;b&gt;</a>." in table
    for name in ("warmth", "days", "seed-life"):
        go.Figure(json.loads(odd.files[f"compare/{name}/figure.json"]()))


def test_no_crop_with_a_value_still_makes_pages(reference, root):
    bare = replace(reference, crops={"three": odd_reference(reference).crops["three"]})
    empty = made(bare, root)
    for name in ("warmth", "days", "seed-life"):
        assert "Nothing known" in empty.pages[f"compare/{name}.md"].body()
        assert json.loads(empty.files[f"compare/{name}/figure.json"]())["layout"]["meta"]["name"] == name


def test_three_hundred_crops(reference, root):
    crops = by_name(reference)
    many = {f"copy-{i}": replace(crops[i % len(crops)], id=f"copy-{i}", name=f"{crops[i % len(crops)].name} {i}") for i in range(300)}
    large = made(replace(reference, crops=many), root)
    page = large.pages["compare/warmth.md"].body()
    assert set(Rows(page).rows) == {crop.id for crop in many.values() if band_row(crop).known}
    assert len(gzip.compress(page.encode())) < 120_000
    figure = json.loads(large.files["compare/warmth/figure.json"]())
    assert len(by_crop(figure)) == len(Rows(page).rows)
