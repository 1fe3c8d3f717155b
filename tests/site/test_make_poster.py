"""Make your poster: choosing, the preview, the address, printing, and how near print and PDF are."""

import io
import re

import pdfplumber
import pytest
from PIL import ImageChops, ImageFilter
from PIL.Image import Transpose

from build_tools.render.sheets.paper import PAPERS

pytestmark = pytest.mark.browser
POINTS = 72 / 25.4
ADDRESS = "print/poster/"


@pytest.fixture
def maker(page, site):
    page.goto(site + ADDRESS)
    page.wait_for_selector(".sheet-page")
    return page


def names(page):
    return page.evaluate("() => [...document.querySelectorAll('.sheet-page g[role=img]')].map((g) => g.getAttribute('aria-label').split(':')[0])")


def check_only(page, *crops):
    page.get_by_role("button", name="None").click()
    for crop in crops:
        page.locator(f"input[name=crop][value={crop}]").check()


def printed(page, tmp_path):
    page.evaluate("() => { window.print = () => { window.printed = true; }; }")
    page.get_by_role("button", name="Print").click()
    page.wait_for_function("() => window.printed")
    path = tmp_path / "print.pdf"
    page.pdf(path=str(path), prefer_css_page_size=True, print_background=True)
    page.evaluate("() => window.dispatchEvent(new Event('afterprint'))")
    return path


def test_it_starts_with_all_crops(maker, reference):
    shown = [c for c in reference.crops.values() if any(c[q].known for q in ("minimum_c", "optimum_low_c", "optimum_c", "maximum_c"))]
    assert sorted(names(maker)) == sorted(c.name for c in shown)
    assert f"All {len(reference.crops)} crops" in maker.locator(".poster-said").text_content()


def test_chosen_crops_units_and_order(maker, reference):
    check_only(maker, "tomato", "lettuce", "cowpea")
    maker.get_by_label("Temperatures in").last.select_option("F")
    maker.get_by_label("Order").select_option("optimum")
    assert names(maker) == ["Lettuce", "Tomato", "Cowpea"]
    text = maker.locator(".sheet-page").text_content()
    assert "60–85" in text and "15.5" not in text
    assert "3 crops. 1 page." in maker.locator(".poster-said").text_content()


def test_days_come_upright_only(maker):
    maker.get_by_label("Poster", exact=True).select_option("days")
    assert maker.get_by_label("Held").is_disabled()
    assert "How many days" in maker.locator(".sheet-page").text_content()


def test_no_crop_no_poster(maker):
    maker.get_by_role("button", name="None").click()
    assert maker.locator(".poster-said").text_content() == "Choose at least one crop."
    assert maker.get_by_role("button", name="Print").is_disabled() and maker.locator(".sheet-preview").is_hidden()


def test_finding_a_crop_in_the_list(maker):
    maker.get_by_label("Find a crop").fill("pepp")
    assert maker.locator(".poster-list li:visible").all_inner_texts() == ["Hot pepper", "Sweet pepper"]
    maker.get_by_role("button", name="Herbs").click()
    assert set(names(maker)) <= {"Basil", "Chives", "Dill", "Fennel", "Marjoram", "Parsley", "Sage", "Summer savory"}


def test_the_address_carries_the_choice(maker, browser, site):
    check_only(maker, "tomato", "basil")
    maker.get_by_label("Poster", exact=True).select_option("seed-life")
    maker.get_by_label("Paper").select_option("24x36")
    address = maker.url
    with browser.new_context() as context:
        other = context.new_page()
        other.goto(address)
        other.wait_for_selector(".sheet-page")
        assert names(other) == ["Basil", "Tomato"]
        assert other.get_by_label("Paper").input_value() == "24x36"
        box = other.locator(".sheet-page").get_attribute("viewBox").split()
        assert float(box[3]) / float(box[2]) == pytest.approx(1.5)


@pytest.mark.parametrize("fragment", ["#poster=1&kind=nonsense&paper=<b>&crops=%", "#poster=1&crops=", "#poster=1&units", "#other"])
def test_a_strange_address_does_no_harm(page, site, fragment):
    page.goto(site + ADDRESS + fragment)
    page.wait_for_function("() => !document.querySelector('.poster-form').hidden")
    assert page.get_by_label("Poster", exact=True).input_value() == "bands"


def test_by_keyboard_alone(maker):
    maker.get_by_label("Poster", exact=True).focus()
    maker.keyboard.press("ArrowDown")
    maker.keyboard.press("ArrowDown")
    assert "How long does seed keep" in maker.locator(".sheet-page").text_content()
    for _ in range(5):
        maker.keyboard.press("Tab")
    assert maker.evaluate("() => document.activeElement.id") == "poster-find"
    maker.keyboard.press("Tab")
    maker.keyboard.press("Tab")
    maker.keyboard.press("Enter")
    maker.keyboard.press("Tab")
    while maker.evaluate("() => document.activeElement.value") != "artichoke":
        maker.keyboard.press("Tab")
    maker.keyboard.press("Space")
    assert names(maker) == ["Artichoke"]


@pytest.mark.parametrize("paper, orientation", [("A3", "portrait"), ("Letter", "landscape"), ("24x36", "portrait")])
def test_print_has_the_paper_and_nothing_else(maker, tmp_path, paper, orientation):
    maker.get_by_label("Paper").select_option(paper)
    maker.get_by_label("Held").select_option(orientation)
    sides = PAPERS[paper] if orientation == "portrait" else PAPERS[paper][::-1]
    with pdfplumber.open(printed(maker, tmp_path)) as pdf:
        assert len(pdf.pages) == 1
        assert [pdf.pages[0].width, pdf.pages[0].height] == pytest.approx([side * POINTS for side in sides], abs=1.0)
        text = pdf.pages[0].extract_text()
        assert text.startswith("How warm must the soil be?") and "Make your poster" not in text
    assert maker.locator(".sheet-preview .sheet-page").count() == 1  # back where it was


@pytest.mark.parametrize("kind, paper", [("bands", "A3"), ("days", "Letter"), ("seed-life", "Tabloid")])
def test_print_and_pdf_look_alike(maker, site, tmp_path, kind, paper):
    """Both as images of 50 dots an inch, slightly blurred: hairlines differ, nothing else."""
    maker.get_by_label("Poster", exact=True).select_option(kind)
    maker.get_by_label("Paper").select_option(paper)
    file = maker.get_by_role("link", name="The same as PDF").get_attribute("href")
    response = maker.request.get(f"{site}{ADDRESS}{file}")
    assert response.ok
    with pdfplumber.open(io.BytesIO(response.body())) as wanted, pdfplumber.open(printed(maker, tmp_path)) as got:
        assert len(wanted.pages) == len(got.pages) == 1
        images = [pdf.pages[0].to_image(resolution=50).original.convert("L") for pdf in (wanted, got)]
        words = [[w["text"] for w in pdf.pages[0].extract_words()] for pdf in (wanted, got)]
    assert sorted(words[0]) == sorted(words[1])
    assert differing(*images) < 0.005
    assert differing(images[0], images[1].transpose(Transpose.FLIP_LEFT_RIGHT)) > 0.03  # the measure does tell sheets apart


def differing(one, other):
    """Share of dots that clearly differ after a slight blur."""
    blurred = [image.filter(ImageFilter.GaussianBlur(1.5)) for image in (one, other.resize(one.size))]
    histogram = ImageChops.difference(*blurred).histogram()
    return sum(histogram[60:]) / sum(histogram)


def test_a_choice_without_a_file_offers_none(maker):
    assert maker.locator(".poster-file").is_visible()
    maker.get_by_label("Temperatures in").last.select_option("C")
    assert maker.locator(".poster-file").is_hidden()


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_it_fits_the_screen(maker, width):
    maker.set_viewport_size({"width": width, "height": 800})
    assert maker.evaluate("() => document.documentElement.scrollWidth") <= width
    small = maker.evaluate("() => [...document.querySelectorAll('.poster-form :is(select, button, input[type=search], .poster-list label)')].filter((e) => e.offsetParent && e.getBoundingClientRect().height < 43.5).map((e) => e.textContent)")
    assert small == []


def test_without_scripts_the_page_leads_to_the_files(browser, site):
    with browser.new_context(java_script_enabled=False) as context:
        page = context.new_page()
        page.goto(site + ADDRESS)
        assert page.locator("form.poster-form").is_hidden()
        page.get_by_role("link", name="posters of all crops").click()
        links = page.locator(".to-print a.file").evaluate_all("(all) => all.map((a) => a.href)")
        assert len(links) >= 40 and all(re.search(r"\.pdf$", link) for link in links)
        assert context.request.get(links[0]).body().startswith(b"%PDF-")
