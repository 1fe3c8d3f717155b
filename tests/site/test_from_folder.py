"""The built folder opened from a stick (`file:`): pages, links, search, calculators, charts, posters, files of lots."""

from __future__ import annotations

import json
import shutil

import pytest

from build_tools import from_folder
from tests.site.browser import STANDS

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def stick(built, tmp_path_factory):
    """A copy in a folder with an awkward name, and nothing that serves it."""
    folder = tmp_path_factory.mktemp("a stick") / "seed & soil #1 ü"
    shutil.copytree(built, folder)
    return folder


@pytest.fixture
def tab(browser):
    """A page that fails the test on console errors, failed requests, and requests for anything but files."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page, trouble = context.new_page(), []
    page.on("console", lambda message: trouble.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: trouble.append(str(error)))
    context.on("request", lambda request: trouble.append(request.url) if not request.url.startswith(("file:", "data:", "blob:")) else None)
    yield page
    context.close()
    assert trouble == []


def open_page(tab, stick, path=""):
    tab.goto((stick / path / "index.html").as_uri())
    tab.wait_for_function(STANDS)


def test_links_lead_to_pages_not_to_lists_of_files(tab, stick):
    open_page(tab, stick)
    tab.locator(".find input").fill("lettuce")
    tab.locator(".crop-list a", has_text="Lettuce").first.click()
    tab.wait_for_url("**/crops/lettuce/index.html")
    tab.locator(".md-tabs a", has_text="Calculators").click()
    tab.wait_for_url("**/calculators/index.html")
    tab.locator(".md-header a.md-logo").click()
    tab.wait_for_url(lambda url: url.endswith("ü/index.html") or url.endswith("%C3%BC/index.html"))


def test_enter_in_the_find_box_and_from_the_keyboard(tab, stick):
    open_page(tab, stick)
    tab.locator(".find input").fill("leek")
    tab.keyboard.press("Enter")
    tab.wait_for_url("**/crops/leek/index.html")
    tab.locator(".md-tabs a", has_text="Crops").focus()
    tab.keyboard.press("Enter")
    tab.wait_for_url("**/crops/index.html")


def test_search(tab, stick):
    open_page(tab, stick, "crops/leek")
    tab.keyboard.press("/")
    tab.locator(".md-search__input").press_sequentially("chill")
    result = tab.locator(".md-search-result__link").first
    result.wait_for()
    assert "matching documents" in tab.locator(".md-search-result__meta").inner_text()
    result.click()
    tab.wait_for_url("**/index.html?h=chill*")
    tab.locator("mark", has_text="chill").first.wait_for()


def test_a_calculator_answers(tab, stick):
    open_page(tab, stick, "calculator")
    tab.get_by_label("Seeds set").first.fill("50")
    tab.get_by_label("Normal seedlings").first.fill("40")
    tab.locator("section.calculator").get_by_text("80 % (67–89 %)").first.wait_for()  # Wilson, 40 of 50: scipy says 66.96-88.76


@pytest.mark.parametrize("page", ["warmth", "days", "seed-life"])
def test_the_charts_to_explore(tab, stick, page):
    open_page(tab, stick, f"compare/{page}")
    tab.locator(".explore-open").click()
    tab.locator(".explore-chart .main-svg").first.wait_for()
    assert "The chart is there" in tab.locator(".explore-said").inner_text()


def test_a_file_of_lots_is_judged_and_handed_on(tab, stick):
    open_page(tab, stick, "calculators/lots")
    tab.locator(".lots-demo").click()
    tab.locator(".lots-output").get_by_text("W24-001").first.wait_for()
    tab.locator(".lots-labels").click()
    tab.wait_for_url("**/print/labels/index.html*")
    tab.get_by_text("W24-001").first.wait_for()


def test_the_page_for_corrections_compares(tab, stick, reference):
    lettuce = reference.crops["lettuce"]
    tab.goto((stick / "correct" / "index.html").as_uri() + f"?crop=lettuce&quantity=maximum_c&file={lettuce.file}&line={lettuce['maximum_c'].line}")
    tab.get_by_label("It should be").fill("95 °F")
    tab.locator(".correct-verdict").get_by_text("printed").first.wait_for()


def test_a_poster_is_drawn(tab, stick):
    open_page(tab, stick, "print/poster")
    tab.locator("article svg text").first.wait_for()


def test_the_page_without_a_network_says_so(tab, stick):
    open_page(tab, stick, "offline")
    tab.get_by_text("These pages are opened from a folder").wait_for()


def test_scripts_hand_over_what_the_files_hold(built):
    """Read back without a browser: the text behind the equals sign is the file's own."""
    found = 0
    for pattern in from_folder.FETCHED:
        for file in built.glob(pattern):
            script = file.with_name(f"{file.name}.js").read_text(encoding="utf-8")
            start, _, text = script.partition(" = ")
            assert start == "document.currentScript.content" and text.endswith(";\n")
            held = json.loads(text[:-2])
            text = file.read_text(encoding="utf-8")
            assert held == (json.loads(text) if file.suffix == ".json" else text), file
            found += 1
    assert found > 80
