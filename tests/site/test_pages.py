"""The built site in real Chromium: crop pages, index filter, unit switch, search, the reader's temperature."""

import json
import re

import pytest
from playwright.sync_api import expect

from tests.site.browser import STANDS, watched_context

pytestmark = pytest.mark.browser


def test_crop_page_answers_first(page, site):
    page.goto(site + "crops/lettuce/")
    expect(page.locator("h1")).to_have_text("Lettuce")
    answer = page.locator("p.short")
    expect(answer).to_contain_text("Sow when the soil stays above")
    expect(answer).to_contain_text("Seed keeps about")
    assert page.locator("dl.glance dt").all_inner_texts() == ["Soil", "Depth", "Light", "Days", "Seed keeps", "First"]
    for anchor in answer.locator("a").evaluate_all("links => links.map(a => a.getAttribute('href'))"):
        assert page.locator(anchor).count() == 1, anchor


def test_charts_have_title_description_and_table(page, site):
    page.goto(site + "crops/tomato/")
    for name in ("bands", "emergence", "life"):
        chart = page.locator(f"svg.chart-{name}")
        assert chart.get_attribute("role") == "img"
        title, description = chart.get_attribute("aria-labelledby").split()
        assert len(page.locator(f"#{title}").text_content()) > 10 and len(page.locator(f"#{description}").text_content()) > 40
    assert page.locator("details.data table").count() >= 2


def test_an_unknown_value_is_said_not_hidden(page, site, reference):
    crop = next(c for c in reference.crops.values() if not c["sowing_depth_mm"].known)
    page.goto(site + f"crops/{crop.id}/")
    expect(page.locator("#depth ~ p:not(.guides)").first).to_contain_text("no published value found")


def test_unit_switch_shows_one_unit_and_is_remembered(page, site):
    page.goto(site + "crops/tomato/")
    first = page.locator("dl.glance .t").first
    expect(first.locator(".tc")).to_be_visible()
    expect(first.locator(".tf")).to_be_visible()
    page.get_by_label("°F", exact=True).check(force=True)
    expect(first.locator(".tc")).to_be_hidden()
    assert "(" not in first.inner_text() and first.inner_text().endswith("°F")
    page.goto(site + "crops/carrot/")
    expect(page.locator("dl.glance .t .tc").first).to_be_hidden()
    page.get_by_label("°C", exact=True).check(force=True)
    expect(page.locator("dl.glance .t .tf").first).to_be_hidden()
    page.get_by_label("both", exact=True).check(force=True)
    expect(page.locator("dl.glance .t .tf").first).to_be_visible()


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two CSS colours "rgb(r, g, b)" (WCAG 2.2, relative luminance)."""

    def luminance(colour):
        parts = [int(v) / 255 for v in re.findall(r"\d+", colour)[:3]]
        linear = [v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", ["crops/spinach/", "sources/", "treatments/"])
def test_folded_text_is_readable(scheme, path, browser, site):
    """The theme colours folded text on its own: in the dark scheme it once was black on black. WCAG 2.2: at least 4.5."""
    context = browser.new_context(color_scheme=scheme)
    page = context.new_page()
    page.goto(site + path)
    page.wait_for_function(STANDS)
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    paper = page.evaluate("getComputedStyle(document.body).backgroundColor")
    colours = set(page.evaluate("[...document.querySelectorAll('article details :is(p, li, td, th, dd, dt, summary)')].map(e => getComputedStyle(e).color)"))
    assert colours and all(contrast(colour, paper) >= 4.5 for colour in colours), (paper, colours)
    context.close()


def test_cautions_are_open_on_screen_and_in_print(page, site):
    page.goto(site + "crops/spinach/")
    cautions = page.locator("#first ~ section .caution")
    assert cautions.count() >= 2
    for media in ("screen", "print"):
        page.emulate_media(media=media)
        expect(cautions.first).to_be_visible()
        expect(page.get_by_text("food grade").first).to_be_visible()


def test_going_back_to_the_index_keeps_the_filter(page, site):
    page.goto(site + "crops/")
    page.locator("#filter-text").fill("tomatoes")
    assert page.locator("table.index tbody tr:visible").count() == 1
    page.locator("table.index tbody tr:visible a").click()
    page.wait_for_url("**/crops/tomato/")
    page.go_back()
    assert page.locator("#filter-text").input_value() in ("", "tomatoes")
    shown = page.locator("table.index tbody tr:visible").count()
    assert shown == (1 if page.locator("#filter-text").input_value() else page.locator("table.index tbody tr").count())


def test_readers_temperature_changes_sentence_and_mark(page, site):
    page.goto(site + "crops/lettuce/")
    page.locator("#reader-c").fill("10")
    expect(page.locator(".reader-answer")).to_contain_text("At 10 °C (50 °F)")
    expect(page.locator(".reader-answer")).to_contain_text("5–9 days")  # 7 days ÷ and × 1.3
    expect(page.locator("#reader-f")).to_have_value("50")
    page.locator("#reader-f").fill("95")
    expect(page.locator(".reader-answer")).to_contain_text("too hot")
    page.locator("#reader-c").fill("50.5")
    expect(page.locator(".reader-answer")).to_contain_text("Is the unit right?")
    page.locator("#reader-c").fill("")
    expect(page.locator(".reader-answer")).to_contain_text("Type a temperature")


def test_index_filter(page, site, reference):
    page.goto(site + "crops/")
    rows = page.locator("table.index tbody tr")
    assert rows.count() == len(reference.crops)
    visible = page.locator("table.index tbody tr:visible")
    page.locator("#filter-text").fill("aubergine")
    assert visible.locator("th a").all_inner_texts() == ["Eggplant"]
    page.locator("#filter-text").fill("")
    page.locator("#filter-kind").select_option("flower")
    assert visible.count() == sum(c.kind == "flower" for c in reference.crops.values())
    page.locator("#filter-kind").select_option("")
    page.locator("#filter-season").select_option("warm")
    assert visible.count() == sum(c["season"].choice == "warm" for c in reference.crops.values())
    page.locator("#filter-season").select_option("")
    page.locator("#filter-warmth").fill("4.5")
    names = visible.locator("th a").all_inner_texts()
    assert "Spinach" in names and "Tomato" not in names
    page.locator("#filter-unit").select_option("f")
    page.locator("#filter-warmth").fill("95")
    names = visible.locator("th a").all_inner_texts()
    assert "Cucumber" in names and "Lettuce" not in names
    page.locator("#filter-warmth").fill("400")
    expect(page.locator(".filter-count")).to_contain_text("is the unit right?")


def test_home_find_box(page, site):
    page.goto(site)
    page.locator("#find").fill("courgette")
    visible = page.locator("li[data-words]:visible a")
    assert visible.count() == 1
    page.locator("#find").press("Enter")
    page.wait_for_url("**/crops/squash-summer/")
    page.goto(site)
    page.locator("#find").fill("zzz")
    expect(page.locator(".find-count")).to_contain_text("No crop of that name")


@pytest.mark.parametrize("word", ["rutabaga", "swede"])
def test_search_finds_a_crop_by_either_name(browser, site, word):
    with watched_context(browser, site, viewport={"width": 1280, "height": 900}) as (context, trouble):
        page = context.new_page()
        page.goto(site)
        box = page.locator("input.md-search__input")
        box.click()
        box.press_sequentially(word)
        expect(page.locator(".md-search-result__link[href*='crops/rutabaga']").first).to_be_visible(timeout=15_000)
        assert trouble == []


@pytest.mark.parametrize("path", ["", "crops/", "crops/tomato/", "crops/spinach/", "calculator/", "treatments/", "sources/", "disagreements/", "methods/", "downloads/"])
def test_no_page_is_wider_than_a_phone(path, browser, site):
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(site + path)
    page.wait_for_function(STANDS)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    context.close()


def test_index_and_crop_page_work_without_scripts(browser, site, reference):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(site + "crops/")
    assert page.locator("table.index tbody tr:visible").count() == len(reference.crops)
    assert not page.locator("form.filter").is_visible()
    page.goto(site + "crops/pepper-sweet/")
    assert page.locator("svg.chart-bands").is_visible() and page.locator("svg.chart-emergence").is_visible()
    assert not page.locator("form.reader").is_visible()
    context.close()


def test_page_data_as_json_equals_the_model(page, site, reference):
    page.goto(site + "crops/beet/")
    address = page.locator("a", has_text="data as JSON").get_attribute("href")
    data = json.loads(page.request.get(page.evaluate("href => new URL(href, location.href).href", address)).text())
    beet = reference.crops["beet"]
    assert data["crop"]["values"]["minimum_c"]["value"] == beet["minimum_c"].low
    assert {"schema_version", "data_version", "licence", "citation"} <= set(data)


def test_the_evidence_table_points_to_the_line_of_the_data_file(page, site, reference, root):
    page.goto(site + "crops/tomato/")
    row = page.locator("table.evidence tr", has=page.locator("th", has_text="Maximum soil temperature"))
    address = row.locator("a.line").get_attribute("href")
    assert address.startswith(reference.library["repository_url"])
    line = int(re.search(r"#L(\d+)$", address)[1])
    assert "maximum_c:" in (root / "data/crops/tomato.yml").read_text(encoding="utf-8").splitlines()[line - 1]
