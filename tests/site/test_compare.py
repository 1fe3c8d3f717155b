"""The pages "Compare" in real Chromium: the line, order and filter, the address, the chart to explore; by mouse and by keyboard alone."""

import io
import re
import xml.etree.ElementTree as ElementTree

import pytest
from PIL import Image
from playwright.sync_api import expect

from build_tools.render.charts.bands import HIGH, LOW
from build_tools.render.rows import band_row, days_row, life_row
from tests.site.browser import STANDS, pass_on, watched_context

pytestmark = pytest.mark.browser
PAGES = ("warmth", "days", "seed-life")
SHOWN = ".compare-list > :not([hidden])"
# Interactive things smaller than 44 px in either direction; links within a sentence are exempt (WCAG 2.2, 2.5.8), labels make their boxes larger.
SMALL = """() => { const found = [...document.querySelectorAll("article.compare :is(a, button, input, select, summary)")]
  .filter((e) => e.checkVisibility() && !e.closest("p:not(.explore-units, .compare-only), figcaption, details li") || e.matches(".compare-form *, .compare-line *, .explore button"))
  .filter((e) => e.checkVisibility())
  .map((e) => (e.type === "checkbox" || e.type === "radio") ? e.closest("label") : e);
  if (found.length < 60) return [`only ${found.length} found`];
  return found.map((e) => [e.outerHTML.slice(0, 80), e.getBoundingClientRect()])
  .filter(([, box]) => Math.round(box.height) < 44 || Math.round(box.width) < 44).map(([html, box]) => `${html} ${box.width} x ${box.height}`); }"""


def names(page, within=""):
    return page.locator(f"{within}{SHOWN} .compare-crop").all_text_contents()


def ids(page):
    return page.locator(SHOWN).evaluate_all("rows => rows.map(row => row.dataset.id)")


def count(page):
    return page.locator(".compare-count").text_content()


@pytest.mark.parametrize("name", PAGES)
def test_whole_without_scripts(name, browser, site, reference):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(site + f"compare/{name}/")
    known = {"warmth": [c for c in reference.crops.values() if band_row(c).known], "days": [c for c in reference.crops.values() if days_row(reference, c).cells or days_row(reference, c).usual], "seed-life": [c for c in reference.crops.values() if life_row(c).known]}[name]
    assert len(names(page)) == len(known) > 50
    for hidden in (".compare-form", ".compare-line", ".explore"):
        assert not page.locator(hidden).is_visible()
    if name != "days":
        assert page.locator(".compare-chart").first.is_visible() and page.locator(".compare-facts").first.is_visible()
    page.locator("details.data summary").click()
    assert page.locator("details.data td").first.is_visible()
    context.close()


def test_the_line_says_what_to_expect_of_each_crop(page, site):
    page.goto(site + "compare/warmth/")
    page.get_by_label("My soil is at", exact=True).fill("10")
    said = page.locator("#crop-lettuce .compare-said")
    expect(said).to_have_text("Good; about 5–9 days; nearly all good seed comes up.")  # as on the crop's own page: 7 days ÷ and × 1.3
    expect(page.locator("#crop-cowpea .compare-said")).to_contain_text("Colder than the best published temperature")
    expect(page.locator("#crop-watermelon .compare-said")).to_contain_text("Too cold")
    expect(page.get_by_label("My soil temperature in degrees Fahrenheit")).to_have_value("50")
    expect(page.locator("#crop-lettuce .reader-mark")).to_have_attribute("x1", f"{(10 - LOW) / (HIGH - LOW) * 100:g}%")
    page.get_by_label("My soil temperature in degrees Fahrenheit").fill("95")
    expect(said).to_contain_text("Too hot")
    expect(page.locator(".compare-holds")).to_contain_text("35 °C (95 °F)")
    page.get_by_label("My soil is at", exact=True).fill("")
    expect(page.locator(".line-said")).to_have_text("Type a temperature as a number, such as 15.")
    expect(said).to_be_hidden()
    page.get_by_label("My soil is at", exact=True).fill("99")  # out of any soil: the browser's own limit or our words
    assert page.locator("#crop-lettuce .reader-mark").get_attribute("visibility") == "hidden"


def test_the_same_words_as_on_the_crops_own_page(page, site):
    page.goto(site + "compare/warmth/#compare=1&at=20")
    words = page.locator("#crop-tomato .compare-said").text_content()
    page.goto(site + "crops/tomato/")
    page.locator("#reader-c").fill("20")
    assert page.locator(".reader-answer").text_content().split(": ", 1)[1].lower() == words.lower()


def test_order_moves_the_rows_and_unknown_come_last(page, site, reference):
    page.goto(site + "compare/warmth/")
    rows = {c.id: band_row(c) for c in reference.crops.values() if band_row(c).known}
    assert names(page) == sorted(names(page), key=str.casefold)
    for order, value in (("minimum", lambda r: r.minimum), ("optimum", lambda r: r.optimum)):
        page.get_by_label("Order").select_option(order)
        got = [value(rows[i]) for i in ids(page)]
        known = [v for v in got if v is not None]
        assert known == sorted(known) and got[: len(known)] == known
        assert f"{len(got) - len(known)} without a published {order} come last" in count(page)
    page.get_by_label("Order").select_option("name")
    assert names(page) == sorted(names(page), key=str.casefold) and "last" not in count(page)


def test_filter_and_only_the_good(page, site, reference):
    page.goto(site + "compare/warmth/")
    page.get_by_label("Name").fill("aubergine")
    assert names(page) == ["Eggplant"] and count(page).startswith("1 of ")
    page.get_by_label("Name").fill("")
    page.get_by_label("Kind").select_option("herb")
    assert set(ids(page)) == {c.id for c in reference.crops.values() if c.kind == "herb" and band_row(c).known}
    page.get_by_label("Season").select_option("warm")
    assert set(ids(page)) == {c.id for c in reference.crops.values() if c.kind == "herb" and band_row(c).known and c["season"].choice == "warm"}
    page.get_by_label("Kind").select_option("")
    page.get_by_label("Season").select_option("")
    page.get_by_label("Only those").check()
    page.get_by_label("My soil is at", exact=True).fill("10")

    def good(row, celsius):
        if row.best_low is None:
            return (row.minimum is None or celsius >= row.minimum) and (row.maximum is None or celsius <= row.maximum) and row.optimum is not None and abs(celsius - row.optimum) <= 2
        return row.best_low <= celsius <= row.best_high and (row.minimum is None or celsius >= row.minimum) and (row.maximum is None or celsius <= row.maximum)

    for celsius in (5, 10, 21.5, 36):
        page.get_by_label("My soil is at", exact=True).fill(str(celsius))
        assert set(ids(page)) == {c.id for c in reference.crops.values() if good(band_row(c), celsius)}, celsius
    page.get_by_label("Name").fill("zzz")
    assert count(page).startswith("No crop fits")


def test_the_line_is_dragged_by_mouse_and_by_keys(page, site):
    page.goto(site + "compare/warmth/")
    chart = page.locator("#crop-beet .compare-chart")
    chart.scroll_into_view_if_needed()
    box = chart.bounding_box()
    page.mouse.move(box["x"] + box["width"] * 0.5, box["y"] + 14)
    page.mouse.down()
    expect(page.locator("#line-c")).to_have_value("21")  # the middle of -4 to 46
    page.mouse.move(box["x"] + box["width"] * 0.28, box["y"] + 60)
    expect(page.locator("#line-c")).to_have_value("10")
    page.mouse.up()
    page.mouse.move(box["x"] + box["width"] * 0.9, box["y"] + 14)
    expect(page.locator("#line-c")).to_have_value("10")
    page.locator("#line-range").focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("#line-c")).to_have_value("10.5")
    assert chart.evaluate("e => getComputedStyle(e).touchAction") == "pan-y"


def test_a_finger_scrolls_and_only_drags_sideways(browser, site):
    with watched_context(browser, site, viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True) as (context, trouble):
        page = context.new_page()
        page.goto(site + "compare/warmth/")
        dispatch = """([kind, x, y]) => document.querySelector("#crop-beet .compare-chart").dispatchEvent(
          new PointerEvent(kind, {pointerType: "touch", clientX: x, clientY: y, bubbles: true, pointerId: 5}))"""
        box = page.locator("#crop-beet .compare-chart").bounding_box()
        x, y = box["x"] + box["width"] / 2, box["y"] + 10
        page.evaluate(dispatch, ["pointerdown", x, y])
        page.evaluate(dispatch, ["pointermove", x + 2, y + 40])
        expect(page.locator("#line-c")).to_have_value("15")
        page.evaluate(dispatch, ["pointermove", x + 20, y + 40])
        expect(page.locator("#line-c")).not_to_have_value("15")
        page.evaluate(dispatch, ["pointerup", x + 20, y + 40])
        assert trouble == []


def test_the_address_carries_the_choice_and_survives_a_reload(page, site):
    page.goto(site + "compare/warmth/")
    pass_on(page, 400)
    assert "#" not in page.url  # untouched, the address stays plain
    page.get_by_label("My soil is at", exact=True).fill("12.5")
    page.get_by_label("Order").select_option("optimum")
    page.get_by_label("Kind").select_option("vegetable")
    page.get_by_label("Only those").check()
    before = names(page)
    page.wait_for_url("**/#compare=1&kind=vegetable&sort=optimum&only=1&at=12.5")
    page.reload()
    assert names(page) == before and len(before) > 3
    expect(page.locator("#line-c")).to_have_value("12.5")
    page.evaluate("location.hash = '#compare=1&sort=constructor&kind=%E0%A4%A&at=x'")  # a link that someone else made
    page.wait_for_function("() => document.getElementById('compare-sort').value === 'name'")
    assert len(names(page)) > len(before)


def test_days_by_a_tested_temperature(page, site, reference):
    page.goto(site + "compare/days/")
    rows = {c.id: days_row(reference, c) for c in reference.crops.values()}
    measured = page.locator(".days-table tbody tr")
    for celsius in (10, 25):
        page.get_by_label("Order").select_option(f"at-{celsius}")
        got = [next((c.value for c in rows[i].cells if c.celsius == celsius and c.state == "measured"), None) for i in measured.evaluate_all("rows => rows.map(r => r.dataset.id)")]
        known = [v for v in got if v is not None]
        assert known == sorted(known) and got[: len(known)] == known and len(known) > 5
        assert f"without days measured at {celsius} °C come last" in count(page)
    page.get_by_label("Order").select_option("coldest")
    first = measured.first.get_attribute("data-id")
    assert min(c.celsius for c in rows[first].cells if c.state == "measured") == 0
    page.get_by_label("Kind").select_option("flower")
    assert measured.filter(visible=True).count() == sum(bool(rows[c.id].cells) for c in reference.crops.values() if c.kind == "flower")


def test_days_marks_the_columns_beside_the_readers_temperature(page, site):
    page.goto(site + "compare/days/")
    marked = page.locator(".days-table thead th.beside")
    field = page.get_by_label("My soil is at", exact=True)
    for typed, columns, words in (("15", ["15"], "was tested"), ("17", ["15", "20"], "lies between two tested ones"), ("-3", ["0"], "colder than any tested"), ("42", ["40"], "warmer than any tested")):
        field.fill(typed)
        assert marked.evaluate_all("heads => heads.map(h => h.dataset.at)") == columns
        expect(page.locator(".line-said")).to_contain_text(words)
    assert page.locator("#crop-lettuce td.beside").count() == 1
    expect(page.locator("#crop-lettuce")).to_contain_text("49")


def test_days_scroll_inside_themselves_with_the_name_in_view(browser, site):
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(site + "compare/days/")
    page.wait_for_function(STANDS)
    region = page.get_by_role("region", name="Days by soil temperature")
    region.evaluate("e => { e.scrollLeft = 300; }")
    assert region.get_attribute("tabindex") == "0" and region.evaluate("e => e.scrollLeft") == 300
    head, box = page.locator("#crop-lettuce th").bounding_box(), region.bounding_box()
    assert abs(head["x"] - box["x"]) < 2
    context.close()


def test_seed_life_words_for_an_age(page, site, reference):
    page.goto(site + "compare/seed-life/")
    page.get_by_label("My seed is", exact=True).fill("4")
    life = {c.id: life_row(c) for c in reference.crops.values() if life_row(c).known}
    for crop, row in life.items():
        words = page.locator(f"#crop-{crop} .compare-said").text_content()
        assert words.startswith("Younger than" if 4 < row.low else "At " if 4 <= row.high else "Beyond "), (crop, words)
        assert "test" in words
    page.get_by_label("Order").select_option("longest")
    got = [life[i].high for i in ids(page)]
    assert got == sorted(got, reverse=True)
    page.get_by_label("My seed is", exact=True).fill("2019")
    expect(page.locator(".line-said")).to_contain_text("not the year of harvest")
    page.get_by_label("My seed is", exact=True).fill("2")
    page.wait_for_url("**/#compare=1&sort=longest&age=2")


def test_the_unit_switch_holds_here_too(page, site):
    page.goto(site + "compare/warmth/")
    page.get_by_label("°F", exact=True).first.check(force=True)
    facts = page.locator("#crop-tomato .compare-facts").inner_text()
    assert "°F" in facts and "°C" not in facts
    expect(page.locator(".compare-holds")).to_contain_text("at 59 °F.")
    page.goto(site + "compare/days/")
    expect(page.locator(".days-table thead .tc").first).to_be_hidden()
    expect(page.locator(".days-table thead .tf").first).to_be_visible()


@pytest.mark.parametrize("width", [320, 360, 1280])
@pytest.mark.parametrize("name", PAGES)
def test_no_wider_than_the_screen_and_large_enough_to_touch(name, width, browser, site):
    context = browser.new_context(viewport={"width": width, "height": 740})
    page = context.new_page()
    page.goto(site + f"compare/{name}/")
    page.locator(".compare-line").wait_for()
    page.wait_for_function(STANDS)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.evaluate(SMALL) == []
    if width != 360:
        open_explorer(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert page.evaluate(SMALL) == []
    context.close()


def open_explorer(page):
    page.locator(".explore-open").focus()
    page.keyboard.press("Enter")
    page.wait_for_selector(".explore-chart .main-svg", timeout=30_000)
    page.wait_for_function("() => document.activeElement.id === 'explore'", timeout=15_000)


def drawn(page):
    """What plotly holds: names on the axis of crops, the span of the other axis."""
    return page.evaluate("() => { const c = document.querySelector('.explore-chart'); return {crops: [...new Set(c.data.flatMap((t) => t.customdata.map((d) => d[0])))], range: c.layout.xaxis.range, title: c.layout.xaxis.title.text}; }")


@pytest.fixture
def explorer(page, site):
    fetched = []

    def note(request):
        fetched.append(request.url)

    page.on("request", note)
    page.goto(site + "compare/warmth/")
    page.wait_for_timeout(300)
    assert not any("plotly" in url or "figure.json" in url for url in fetched), "nothing is loaded before it is asked for"
    open_explorer(page)
    page.remove_listener("request", note)
    assert sum("plotly-" in url for url in fetched) == 1 and all(url.startswith((site, "blob:", "data:")) for url in fetched)
    return page


def test_opened_by_keyboard_it_says_so_and_takes_the_focus(explorer):
    expect(explorer.locator(".explore-said")).to_have_text("The chart is there, with 69 of 69 crops.")
    assert explorer.locator(".explore-said").get_attribute("aria-live") == "polite"
    assert explorer.locator(".explore-chart svg a").count() == 0


def test_crops_are_picked_by_keyboard(explorer):
    explorer.get_by_role("button", name="None", exact=True).press("Enter")
    expect(explorer.locator(".explore-said")).to_contain_text("No crop is chosen")
    assert explorer.get_by_role("button", name="Save as SVG").is_disabled()
    for crop in ("tomato", "lettuce"):
        explorer.locator(f".explore-list input[value={crop}]").press("Space")
    expect(explorer.locator(".explore-said")).to_contain_text("with 2 of 69 crops")
    assert set(drawn(explorer)["crops"]) == {"tomato", "lettuce"}
    explorer.get_by_label("Kind").select_option("herb")
    explorer.get_by_role("button", name="Those shown above").press("Enter")
    expect(explorer.locator(".explore-said")).to_contain_text(f"with {len(ids(explorer))} of 69 crops")
    assert set(drawn(explorer)["crops"]) == set(ids(explorer))


def test_zoom_and_unit_by_keyboard(explorer):
    explorer.get_by_label("from", exact=True).fill("5")
    explorer.get_by_label("to", exact=True).fill("25")
    explorer.keyboard.press("Enter")
    explorer.wait_for_function("() => document.querySelector('.explore-chart').layout.xaxis.range[1] === 25")
    assert drawn(explorer)["range"] == [5, 25]
    explorer.locator("input[name=explore-unit][value=f]").press("Space")
    expect(explorer.get_by_label("from", exact=True)).to_have_value("41")
    explorer.wait_for_function("() => document.querySelector('.explore-chart').layout.xaxis.title.text.includes('°F')")
    assert drawn(explorer)["range"] == [41, 77]
    minimum = explorer.evaluate("() => { const t = document.querySelector('.explore-chart').data.find((d) => d.meta.part === 'cold'); const i = t.customdata.findIndex((d) => d[0] === 'tomato'); return t.base[i] + t.x[i]; }")
    assert minimum == pytest.approx(50)  # 10 °C
    explorer.get_by_label("to", exact=True).fill("30")
    explorer.keyboard.press("Tab")
    expect(explorer.locator(".explore-zoomed")).to_contain_text("the smaller first")
    explorer.get_by_role("button", name="Whole scale").press("Enter")
    expect(explorer.get_by_label("to", exact=True)).to_have_value("114.8")
    expect(explorer.locator(".explore-zoomed")).to_be_empty()


def test_zoom_by_mouse_is_told_in_the_fields(explorer):
    explorer.get_by_role("button", name="None", exact=True).click()
    explorer.locator(".explore-list input[value=tomato]").check()
    explorer.locator(".explore-list input[value=pea]").check()
    plot = explorer.locator(".explore-chart .nsewdrag").first
    plot.scroll_into_view_if_needed()
    box = plot.bounding_box()
    explorer.mouse.move(box["x"] + box["width"] * 0.2, box["y"] + box["height"] / 2)
    explorer.mouse.down()
    explorer.mouse.move(box["x"] + box["width"] * 0.6, box["y"] + box["height"] / 2, steps=5)
    explorer.mouse.up()
    expect(explorer.locator("#explore-from")).not_to_have_value("-4")
    assert float(explorer.locator("#explore-from").input_value()) == pytest.approx(LOW + 0.2 * (HIGH - LOW), abs=0.5)
    assert float(explorer.locator("#explore-to").input_value()) == pytest.approx(LOW + 0.6 * (HIGH - LOW), abs=0.5)


def test_pointing_tells_in_words_and_both_units(explorer):
    bar = explorer.locator(".explore-chart .barlayer .trace").nth(2).locator("path").first
    bar.scroll_into_view_if_needed()
    box = bar.bounding_box()
    explorer.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    expect(explorer.locator(".explore-chart .hoverlayer .hovertext")).to_contain_text(re.compile(r"Arugula: best, 18–22 °C \(64–72 °F\)"))


def test_saved_pictures_hold_what_is_chosen(explorer):
    explorer.get_by_role("button", name="None", exact=True).click()
    for crop in ("tomato", "cowpea"):
        explorer.locator(f".explore-list input[value={crop}]").check()
    expect(explorer.locator(".explore-said")).to_contain_text("with 2 of 69")
    with explorer.expect_download() as started:
        explorer.get_by_role("button", name="Save as SVG").press("Enter")
    assert started.value.suggested_filename == "warmth-crops.svg"
    text = started.value.path().read_text(encoding="utf-8")
    words = "".join(ElementTree.fromstring(text).itertext())
    assert "Tomato" in words and "Cowpea" in words and "Lettuce" not in words and "Soil temperature for germination" in words and "°C" in words
    with explorer.expect_download() as started:
        explorer.get_by_role("button", name="Save as PNG").press("Enter")
    assert started.value.suggested_filename == "warmth-crops.png"
    picture = Image.open(io.BytesIO(started.value.path().read_bytes())).convert("RGB")
    assert picture.width > 1000
    seen = dict((colour, n) for n, colour in picture.getcolors(1 << 24))
    assert seen.get((61, 112, 72), 0) > 2000 and seen.get((230, 207, 134), 0) > 2000  # best and slow of tomato, in the colours of the page


def test_colours_follow_the_scheme(explorer):
    paper = "() => document.querySelector('.explore-chart').layout.paper_bgcolor"
    assert explorer.evaluate(paper) == "#fbfaf5"
    explorer.evaluate("document.body.dataset.mdColorScheme = 'night'")
    explorer.wait_for_function("() => document.querySelector('.explore-chart').layout.paper_bgcolor === '#171b18'")
    best = explorer.evaluate("() => document.querySelector('.explore-chart').data.find((t) => t.meta.part === 'best').marker.color")
    assert best == "#8fcb97"


def test_every_figure_draws_what_it_is_asked(page, site, reference):
    for name, part in (("days", "days"), ("seed-life", "life")):
        page.goto(site + f"compare/{name}/")
        open_explorer(page)
        page.get_by_role("button", name="All", exact=True).click()
        page.wait_for_function("() => /with (\\d+) of \\1 crops/.test(document.querySelector('.explore-said').textContent)")
        held = page.evaluate("part => document.querySelector('.explore-chart').data.filter((t) => t.meta.part === part).flatMap((t) => t.customdata.map((d, i) => [d[0], t.x[i], t.y[i]]))", part)
        if name == "days":
            assert sorted(map(tuple, held)) == sorted((c.id, cell.celsius, cell.value) for c in reference.crops.values() for cell in days_row(reference, c).cells if cell.state == "measured")
        else:
            assert {(crop, x) for crop, x, _ in held} == {(c.id, life_row(c).low) for c in reference.crops.values() if life_row(c).known}


@pytest.mark.parametrize("missing", ["**/plotly-*.min.js", "**/figure.json"])
def test_without_connection_a_plain_sentence_and_the_static_chart_stay(missing, browser, site):
    context = browser.new_context()
    page = context.new_page()
    page.route(missing, lambda route: route.abort())
    page.goto(site + "compare/warmth/")
    page.locator(".explore-open").click()
    expect(page.locator(".explore-said")).to_contain_text("could not be loaded")
    assert page.locator(".explore-room").is_hidden() and page.locator("#crop-tomato .compare-chart").is_visible()
    page.unroute(missing)
    page.locator(".explore-open").click()  # a second try works
    expect(page.locator(".explore-said")).to_contain_text("The chart is there", timeout=30_000)
    context.close()


def test_links_from_the_crops_lead_here(page, site):
    page.goto(site + "crops/")
    page.get_by_role("link", name="beside one another").click()
    page.wait_for_url("**/compare/warmth/")
    page.goto(site + "crops/rhubarb/")
    page.get_by_role("link", name="Beside all others").click()
    page.wait_for_url("**/compare/warmth/#crop-rhubarb")
    expect(page.locator("#crop-rhubarb")).to_be_in_viewport()
    page.get_by_role("link", name="Days", exact=True).first.click()
    page.wait_for_url("**/compare/days/")
