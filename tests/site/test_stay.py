"""Who comes to a heading stays with it while calculators above it grow, in browsers that do not see to that themselves: so older Safari (from memory), and Firefox misses (seen in 153)."""

import pytest

from tests.site.browser import pass_on, watched_context

pytestmark = pytest.mark.browser
NO_ANCHOR = """document.addEventListener("DOMContentLoaded", () => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync("* { overflow-anchor: none !important; }");
  document.adoptedStyleSheets.push(sheet);
});"""
TOP = "() => Math.round(document.getElementById('evidence').getBoundingClientRect().top)"
STAND_STILL = "() => document.querySelector('.calculator-rest:not([aria-busy])') !== null && document.querySelector('.calculator[data-answered]') !== null"
GROW = "() => { const more = document.createElement('div'); more.style.height = '500px'; document.querySelector('article').prepend(more); }"


@pytest.fixture
def page(browser):
    with watched_context(browser, viewport={"width": 360, "height": 740}) as (context, trouble):
        context.add_init_script(NO_ANCHOR)
        yield context.new_page()
    assert trouble == []


def come(page, address):
    page.goto(address)
    page.wait_for_function(STAND_STILL)
    pass_on(page, 50)


@pytest.mark.parametrize("crop", ["lettuce", "tomato", "cosmos"])
def test_at_the_heading_once_all_stands(crop, page, site):
    come(page, f"{site}crops/{crop}/#evidence")
    assert 0 <= page.evaluate(TOP) < 120


def test_until_the_reader_moves(page, site):
    come(page, site + "crops/lettuce/#evidence")
    first = page.evaluate(TOP)
    page.evaluate(GROW)
    page.wait_for_function(f"(first) => ({TOP})() === first", arg=first)
    page.mouse.move(180, 400)
    page.mouse.wheel(0, -120)
    page.wait_for_function(f"(first) => ({TOP})() === first + 120", arg=first)
    page.evaluate(GROW)
    pass_on(page, 100)
    assert page.evaluate(TOP) == first + 620


def test_not_for_long(page, site):
    come(page, site + "crops/lettuce/#evidence")
    first = page.evaluate(TOP)
    pass_on(page, 3200)
    page.evaluate(GROW)
    pass_on(page, 100)
    assert page.evaluate(TOP) == first + 500


@pytest.mark.parametrize("path", ["crops/lettuce/", "calculators/storage/"])
def test_loaded_again_and_come_back_to(path, page, site):
    """The last heading of a page, below all that grows, is where it was."""
    come(page, site + path)
    page.evaluate("() => [...document.querySelectorAll('h2[id]')].at(-1).scrollIntoView()")
    place = "() => [Math.round([...document.querySelectorAll('h2[id]')].at(-1).getBoundingClientRect().top), scrollY > 3000]"
    first = page.evaluate(place)
    pass_on(page, 400)
    page.evaluate("() => { history.scrollRestoration = 'manual'; }")  # as a browser that goes to the end of what stands so far, and stays there
    for again in (page.reload, lambda: (page.goto(site + "downloads/"), page.go_back())):
        again()
        page.wait_for_function(STAND_STILL)
        page.wait_for_function(f"(first) => Math.abs(({place})()[0] - first) <= 1 && scrollY > 3000", arg=first[0])
    assert first[1]


def test_loaded_again_elsewhere(page, site):
    come(page, site + "crops/lettuce/#evidence")
    page.mouse.move(180, 400)
    page.mouse.wheel(0, -100_000)
    page.wait_for_function("() => scrollY === 0")
    page.mouse.wheel(0, 900)
    page.wait_for_function("() => scrollY === 900")
    page.reload()
    page.wait_for_function(STAND_STILL)
    pass_on(page, 100)
    assert page.evaluate("() => scrollY") == 900
