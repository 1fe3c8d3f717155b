"""The page of labels: from typed rows, from the count calculator, from a file of lots; wrong input, keyboard, address, print."""

import pdfplumber
import pytest

from build_tools.render.sheets.label_sheets import LABEL_SHEETS

pytestmark = pytest.mark.browser
POINTS = 72 / 25.4
ADDRESS = "print/labels/"
ROWS = "lot,crop,tested,seeds,normal\nA1,Tomato,2026-03-12,50,36\nA2,Lettuce,2026-03-12,10,10\n"


@pytest.fixture
def labels(page, site):
    page.goto(site + ADDRESS)
    page.wait_for_selector(".sheet-page")
    return page


def said(page):
    return page.evaluate("() => [...document.querySelectorAll('.sheet-page g[role=img]')].map((g) => g.getAttribute('aria-label'))")


def type_rows(page, rows):
    page.get_by_label("Lots and tests").evaluate("(area, text) => { area.value = text; area.dispatchEvent(new Event('input', {bubbles: true})); }", rows)


def wait_for(page, count):
    page.wait_for_function("(n) => document.querySelectorAll('.sheet-preview:not([hidden]) .sheet-page g[role=img]').length === n", arg=count)


def test_typed_rows_become_labels(labels):
    type_rows(labels, ROWS)
    wait_for(labels, 2)
    # 72 % (58–83 %) and 100 % (72–100 %): Wilson's interval for 36 of 50 and 10 of 10, as statsmodels gives it.
    assert said(labels)[0].startswith("Tomato; 72 % (58–83 %) of 50 seeds; lot A1, tested 2026-03-12")
    assert said(labels)[1].startswith("Lettuce; 100 % (72–100 %) of 10 seeds")
    assert labels.locator("#labels-said").text_content() == "2 labels on 1 page of A4."


def test_the_example_is_said_to_be_invented(labels):
    assert "invented" in labels.locator("#labels-tests-hint").text_content()
    assert "Wrenfield Seed Library (invented)" not in said(labels)[0] or "(invented)" in said(labels)[0]
    assert len(said(labels)) == 6


def test_a_row_that_cannot_be_read_is_told_and_the_rest_is_shown(labels):
    type_rows(labels, ROWS + "A3,Tomatoe,2026-03-12,50,36\nA4,Tomato,2026-03-12,50,51\n")
    wait_for(labels, 2)
    problems = labels.locator(".labels-problems li").all_inner_texts()
    assert len(problems) == 2 and problems[0].startswith("Line 4: ") and "Tomato" in problems[0] and problems[1].startswith("Line 5: ")


def test_nothing_typed(labels):
    type_rows(labels, "")
    labels.wait_for_function("() => document.querySelector('.sheet-preview').hidden")
    assert "No lot could be read yet." in labels.locator("#labels-said").text_content()
    assert labels.get_by_role("button", name="Print").is_disabled()


@pytest.mark.parametrize("field, typed, words", [
    ("First free label", "25", "a whole number from 1 to 24"), ("First free label", "", "a whole number from 1 to 24"), ("Labels for each lot", "1.5", "a whole number from 1 to 100"), ("Labels for each lot", "-2", "from 1 to 100"),
])
def test_wrong_numbers_are_explained_at_the_field(labels, field, typed, words):
    labels.get_by_label(field).fill(typed)
    labels.wait_for_function("() => document.querySelector('.sheet-preview').hidden")
    assert labels.get_by_label(field).get_attribute("aria-invalid") == "true"
    described = labels.get_by_label(field).get_attribute("aria-describedby")
    assert words in labels.locator(f"#{described}").text_content()


@pytest.mark.parametrize("field, typed, words", [("Width of a label", "80", "30.0 mm more than A4 has"), ("Width of a label", "wide", "a number from 0 to 420"), ("Labels down", "0", "a whole number from 1 to 30"), ("Height of a label", "8", "too small")])
def test_own_measures_that_do_not_fit(labels, field, typed, words):
    labels.get_by_label("Sheet of labels").select_option("own")
    wait_for(labels, 6)
    labels.get_by_label(field).fill(typed)
    labels.wait_for_function("() => document.querySelector('.sheet-preview').hidden")
    assert words in labels.locator(".labels-own").text_content()


def test_the_address_carries_rows_and_sheet(labels, browser):
    type_rows(labels, ROWS)
    labels.get_by_label("Sheet of labels").select_option("Letter-2x5")
    labels.get_by_label("Labels for each lot").fill("2")
    wait_for(labels, 4)
    labels.wait_for_function("() => location.hash.includes('copies=2')")
    with browser.new_context() as context:
        other = context.new_page()
        other.goto(labels.url)
        wait_for(other, 4)
        assert said(other) == said(labels) and other.get_by_label("Sheet of labels").input_value() == "Letter-2x5"


@pytest.mark.parametrize("fragment", ["#labels=1&tests=%E0%A4%A&start=2", "#labels=1&sheet=nonsense&copies", "#labels=1&tests=<script>"])
def test_a_strange_address_does_no_harm(page, site, fragment):
    page.goto(site + ADDRESS + fragment)
    page.wait_for_function("() => document.querySelector('#labels-said').textContent !== ''")
    assert page.get_by_label("Sheet of labels").input_value() == "A4-3x8" and page.locator("article script:not([type]):not([src])").count() == 0


def test_by_keyboard_alone(labels):
    labels.get_by_label("Lots and tests").focus()
    labels.keyboard.press("Tab")
    labels.keyboard.press("Tab")
    assert labels.evaluate("() => document.activeElement.id") == "labels-sheet"
    labels.keyboard.press("Home")
    labels.keyboard.press("Tab")
    labels.keyboard.press("Control+A")
    labels.keyboard.type("21")
    labels.wait_for_function("() => document.querySelectorAll('.sheet-page').length === 2 && location.hash.includes('start=21')")
    assert labels.get_by_label("Sheet of labels").input_value() == "A4-3x7"


@pytest.mark.parametrize("name", ["A4-3x8", "Letter-3x10"])
def test_print_puts_every_label_on_its_place(labels, tmp_path, name):
    type_rows(labels, ROWS)
    labels.get_by_label("Sheet of labels").select_option(name)
    labels.get_by_label("First free label").fill("5")
    labels.wait_for_function("(name) => location.hash.includes('start=5') && location.hash.includes(name)", arg=name)
    wait_for(labels, 2)
    labels.evaluate("() => { window.print = () => { window.printed = true; }; }")
    labels.get_by_role("button", name="Print").click()
    labels.wait_for_function("() => window.printed")
    path = tmp_path / "labels.pdf"
    labels.pdf(path=str(path), prefer_css_page_size=True, print_background=True)
    sheet = LABEL_SHEETS[name]
    with pdfplumber.open(path) as pdf:
        assert len(pdf.pages) == 1
        for index, word in ((4, "Tomato"), (5, "Lettuce")):
            found = next(w for w in pdf.pages[0].extract_words() if w["text"].startswith(word))
            x, y = sheet.place(index)
            assert 0 < found["x0"] / POINTS - x < 7 and 0 < found["top"] / POINTS - y < 8


def test_the_count_calculator_leads_here_with_its_count(page, site):
    page.goto(site + "calculator/")
    page.wait_for_selector(".calculator-actions:not([hidden])")
    page.get_by_label("Crop").select_option("tomato")
    link = page.get_by_role("link", name="Label for the packet")
    link.click()
    wait_for(page, 1)
    assert said(page)[0].startswith("Tomato; 80 % (49–94 %) of 10 seeds; lot my lot")  # 8 of 10, the calculator's own example


def test_no_label_without_a_crop(page, site):
    page.goto(site + "calculator/")
    page.wait_for_selector(".calculator-actions:not([hidden])")
    assert page.get_by_label("Crop").input_value() == ""
    assert page.locator(".label-link").is_hidden()


def test_a_file_of_lots_leads_here(page, site, reference):
    page.goto(site + "calculators/lots/")
    page.get_by_role("button", name="Use the demo file").click()
    page.wait_for_selector(".lots-results:not([hidden])")
    page.get_by_role("button", name="Labels for these lots").click()
    page.wait_for_url("**/print/labels/**")
    lots = {line.split(",")[0] for line in reference.demo["lots.csv"].decode("utf-8-sig").splitlines()[1:] if line}
    wait_for(page, len(lots))
    assert page.evaluate("() => sessionStorage.length") == 0


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_it_fits_the_screen(labels, width):
    labels.get_by_label("Sheet of labels").select_option("own")
    labels.set_viewport_size({"width": width, "height": 800})
    assert labels.evaluate("() => document.documentElement.scrollWidth") <= width
    small = labels.evaluate("() => [...document.querySelectorAll('.labels-form :is(select, button, input[type=text], .labels-outline label)')].filter((e) => e.offsetParent && e.getBoundingClientRect().height < 43.5).map((e) => e.id)")
    assert small == []


def test_without_scripts_it_says_what_to_do(browser, site):
    with browser.new_context(java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(site + ADDRESS)
        assert page.locator("form.labels-form").is_hidden() and "build_tools labels FILE.csv" in page.locator("article.make-labels").inner_text()
