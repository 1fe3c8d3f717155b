"""What happens while a page opens: it is styled once, its parts are taken up one by one, and what is typed meanwhile counts.

Times are measured by `bench` and not asserted here; these tests count what is done.
"""

from __future__ import annotations

import pytest

from tests.site.browser import LANDED, STANDS, watched_context

pytestmark = pytest.mark.browser
MOST_STYLED = 2  # times the elements of the page; a class or a meta element set late costs one time more each, and the theme alone has five

# Timers without a delay wait until the test lets them go, one by one.
HELD = """
window.held = [];
const real = window.setTimeout;
window.setTimeout = (work, wait, ...more) => (wait ? real(work, wait, ...more) : window.held.push(work));
window.letGo = () => { const work = window.held.shift(); work?.(); return work !== undefined; };
"""


def styled(browser, address):
    """(elements whose style was worked out while the page opened, elements of the page)."""
    with watched_context(browser, scrolled=False, viewport={"width": 360, "height": 740}) as (context, _):
        page = context.new_page()
        session = browser.new_browser_cdp_session()
        events, ended = [], []
        session.on("Tracing.dataCollected", lambda event: events.extend(event["value"]))
        session.on("Tracing.tracingComplete", lambda event: ended.append(True))
        session.send("Tracing.start", {"categories": "devtools.timeline", "transferMode": "ReportEvents"})
        page.goto(address, wait_until="load")
        page.wait_for_timeout(800)
        session.send("Tracing.end")
        while not ended:
            page.wait_for_timeout(20)
        count = page.evaluate("() => document.querySelectorAll('*').length")
        session.detach()
    return sum(event["args"].get("elementCount", 0) for event in events if event["name"] == "UpdateLayoutTree"), count


@pytest.mark.parametrize("path", ["", "crops/lettuce/", "guides/testing/", "disagreements/"])
def test_a_page_is_styled_once(browser, site, path):
    done, elements = styled(browser, site + path)
    assert elements > 300 and elements * 0.3 < done < elements * MOST_STYLED, (done, elements)


def test_what_comes_early_is_what_the_theme_sets(page, site):
    """The classes and colours of the page's first script are those that the theme's script would have given."""
    page.emulate_media(color_scheme="dark")
    page.goto(site + "crops/leek/")
    page.wait_for_function("() => 'component$' in window")
    assert page.evaluate("() => [document.documentElement.className, document.documentElement.hasAttribute('data-js-focus-visible')]") == ["js js-focus-visible", True]
    assert page.evaluate("() => document.body.dataset.mdColorScheme") == "night"
    assert page.evaluate("() => __md_get('__palette').index") == 0
    page.locator("label[for=__palette_1]").click()  # light
    page.wait_for_function("() => document.body.dataset.mdColorScheme === 'paper' && !('mdColorSwitching' in document.body.dataset)")
    page.reload()
    assert page.evaluate("() => document.body.dataset.mdColorScheme") == "paper"


def test_every_part_of_the_theme_is_taken_up(page, site):
    """Search by key, contents that follow, the way back to the top."""
    page.goto(site + "methods/")
    page.wait_for_function("() => 'component$' in window")
    last = page.locator(".md-sidebar--secondary .md-nav__link").last
    page.locator(".md-content h2").last.scroll_into_view_if_needed()
    page.evaluate("() => window.scrollTo(0, document.body.scrollHeight)")
    page.wait_for_function("(link) => link.classList.contains('md-nav__link--active')", arg=last.element_handle())
    page.evaluate("() => window.scrollBy(0, -300)")
    page.locator(".md-top:not([hidden])").click()
    page.wait_for_function("() => window.scrollY === 0")
    page.keyboard.press("/")
    page.locator("input.md-search__input:focus").wait_for()


def test_what_is_folded_opens_for_print(page, site):
    page.goto(site + "sources/")
    page.wait_for_function("() => 'component$' in window")
    folds = page.locator("article details")
    assert folds.count() > 50
    page.wait_for_function("() => { window.dispatchEvent(new Event('beforeprint')); return [...document.querySelectorAll('article details')].every((fold) => fold.open); }")


@pytest.mark.parametrize("steps", range(3, 9))
def test_what_is_typed_while_a_calculator_opens_is_answered(browser, site, steps):
    """Whichever step it comes between: the last word is what was typed."""
    with watched_context(browser, locale="en-GB") as (context, trouble):
        page = context.new_page()
        page.add_init_script(HELD)
        page.goto(site + "calculator/", wait_until="load")
        form = page.locator(".calculator-form")
        for _ in range(steps):
            page.evaluate("() => window.letGo()")
        if form.get_attribute("hidden") is None:
            page.get_by_label("Normal seedlings").first.fill("7")
            typed = page.locator(".headline").inner_text()
        else:
            typed = None
        for _ in range(200):
            if not page.evaluate("() => window.letGo()"):
                break
        page.locator(".headline").wait_for()
        assert form.get_attribute("hidden") is None and page.locator(".calculator-waiting").count() == 0
        if typed is not None:
            assert page.get_by_label("Normal seedlings").first.input_value() == "7"
            assert page.locator(".headline").inner_text() == typed != ""
    assert trouble == []


def test_some_of_those_steps_come_after_the_form(browser, site):
    """The test above types while the calculator opens, not only before and after."""
    with watched_context(browser, locale="en-GB") as (context, _):
        page = context.new_page()
        page.add_init_script(HELD)
        page.goto(site + "calculator/", wait_until="load")
        seen = []
        while page.evaluate("() => window.letGo()"):
            seen.append(page.evaluate("() => [!document.querySelector('.calculator-form').hidden, document.querySelector('.headline') !== null]"))
        assert [True, False] in seen and seen[-1] == [True, True]


# Every look at the clock finds a second gone: nothing fits in a frame beside what is told at once.
SLOW = "() => { let seconds = 0; performance.now = () => (seconds += 1) * 1000; }"
BELOW = "() => document.querySelector('.calculator-rest').textContent"


@pytest.fixture
def slow_soil(browser, site):
    """Soil by date, open, on a device where every step after the headline waits to be let go."""
    with watched_context(browser, locale="en-GB") as (context, trouble):
        page = context.new_page()
        page.goto(site + "calculators/soil/#soil=1&crop=tomato&hold=5")
        page.locator(".headline").wait_for()
        page.wait_for_timeout(300)
        page.evaluate(HELD)
        page.evaluate(SLOW)
        yield page
    assert trouble == []


def test_the_headline_is_told_at_once_and_what_stands_below_it_in_tasks(slow_soil):
    page, rest = slow_soil, slow_soil.locator(".calculator-rest")
    headline, below = page.locator(".headline").text_content(), page.evaluate(BELOW)
    page.get_by_label("July", exact=True).fill("12")
    page.locator("[name=m8]").fill("12")
    told = page.locator(".headline").text_content()
    assert told != headline and page.evaluate(BELOW) == below and rest.get_attribute("aria-busy") == "true"
    steps = 0
    while page.evaluate("() => window.letGo()"):
        steps += 1
    assert steps > 10 and rest.get_attribute("aria-busy") is None
    assert page.evaluate(BELOW) != below and page.locator(".headline").text_content() == told


def test_a_wrong_figure_in_between_leaves_the_answer_whole(slow_soil):
    page, below = slow_soil, slow_soil.evaluate(BELOW)
    page.locator("[name=m7]").fill("12")
    told = page.locator(".headline").text_content()
    for _ in range(3):
        page.evaluate("() => window.letGo()")
    page.locator("[name=m8]").fill("twelve")
    while page.evaluate("() => window.letGo()"):
        pass
    mixed = page.evaluate(BELOW)
    assert mixed != below and page.locator(".headline").text_content() == told and page.locator(".stale-note").count() == 1
    page.locator("[name=m8]").fill("20.5")
    page.locator("[name=m7]").fill("12")
    while page.evaluate("() => window.letGo()"):
        pass
    whole = page.context.new_page()
    page.wait_for_function("() => location.hash.includes('m7=12&m8=20.5')")
    whole.goto(page.url)
    whole.locator(".headline").wait_for()
    assert whole.locator("[name=m7]").input_value() == "12" and whole.evaluate(BELOW) == page.evaluate(BELOW)


def test_what_is_pressed_or_printed_is_about_the_whole_answer(slow_soil):
    page, rest = slow_soil, slow_soil.locator(".calculator-rest")
    for act in (lambda: page.locator(".copy-line").click(), lambda: page.evaluate("() => window.dispatchEvent(new Event('beforeprint'))")):
        below = page.evaluate(BELOW)
        page.locator("[name=m7]").fill("12" if page.locator("[name=m7]").input_value() != "12" else "13")
        assert page.evaluate(BELOW) == below and rest.get_attribute("aria-busy") == "true"
        act()
        assert page.evaluate(BELOW) != below and rest.get_attribute("aria-busy") is None


def test_what_stays_the_same_in_an_answer_stays_where_it_is(page, site):
    """Nodes are kept, and folds that a reader opened stay open."""
    page.goto(site + "calculators/daily-counts/")
    page.locator(".headline").wait_for()
    page.locator(".more-numbers summary").click()
    page.locator(".workings summary").click()
    page.evaluate("() => { window.kept = [...document.querySelectorAll('.calculator-rest .answer-numbers, .more-numbers, .workings, .headline, .picture-slot svg > desc')]; }")
    before = page.locator(".headline").text_content()
    page.get_by_label("Seeds set").first.fill("60")
    page.locator(".calculator-rest:not([aria-busy])").wait_for(state="attached")
    assert page.locator(".headline").text_content() != before
    assert page.evaluate("() => window.kept.length > 4 && window.kept.every((node) => node.isConnected)")
    assert page.locator(".more-numbers").get_attribute("open") is not None and page.locator(".workings").get_attribute("open") is not None


def test_a_poster_chosen_before_its_typeface_has_come_stays(browser, site):
    """The preview a page opens with waits for the typeface; one that was chosen meanwhile is drawn at once, and not drawn over."""
    with watched_context(browser, locale="en-GB") as (context, trouble):
        page, waiting = context.new_page(), []
        page.route("**/*.ttf", lambda route: waiting.append(route))
        page.goto(site + "print/poster/", wait_until="domcontentloaded")
        page.locator(".poster-said", has_text="All ").wait_for()
        assert page.locator(".sheet-page").count() == 0 and page.locator(".poster-print").is_disabled()
        boxes = page.locator("input[name=crop]")
        boxes.first.uncheck()
        page.locator(".poster-said", has_text=f"{boxes.count() - 1} crops").wait_for()
        drawn = page.locator(".sheet-preview").inner_html()
        assert page.locator(".sheet-page").count() == 1 and page.locator(".poster-print").is_enabled()
        assert waiting, "the typeface was asked for"
        for route in waiting:
            route.continue_()
        page.evaluate("() => document.fonts.ready")
        page.wait_for_timeout(300)
        assert page.locator(".sheet-preview").inner_html() == drawn
    assert trouble == []


def test_what_is_below_the_screen_is_laid_out_when_it_comes_near(browser, site):
    """Skipped at first, whole once scrolled to: pictures as wide as their place, and for print at once."""
    with watched_context(browser, scrolled=False, locale="en-GB", viewport={"width": 360, "height": 740}) as (context, trouble):
        page = context.new_page()
        page.goto(site + "calculators/sowing-times/")
        page.locator(".headline").wait_for()
        skipped = "() => [...document.querySelectorAll('.calculator-rest > *')].filter((part) => part.firstElementChild && !part.firstElementChild.checkVisibility({ contentVisibilityAuto: true })).length"
        assert page.evaluate(skipped) > 1
        picture = page.locator(".calculator-rest .picture-slot svg").first
        assert picture.count() == 1, "drawn before it is near: it is read out, searched and printed"
        assert len(page.locator(".calculator-rest").text_content()) > 1000
        page.emulate_media(media="print")
        page.wait_for_function("() => { const skipped = " + skipped.removeprefix("() => ") + "; return skipped === 0; }")
        page.emulate_media(media="null")
        picture.scroll_into_view_if_needed()
        page.wait_for_function("() => { const slot = document.querySelector('.calculator-rest .picture-slot'); return Number(slot.dataset.width) === Math.round(Math.min(Math.max(slot.clientWidth, 280), 760)); }")
        page.set_viewport_size({"width": 700, "height": 740})
        page.wait_for_function("() => { const slot = document.querySelector('.calculator-rest .picture-slot'); return slot.clientWidth > 400 && Number(slot.dataset.width) === Math.round(Math.min(slot.clientWidth, 760)); }")
    assert trouble == []


SKIPPED = "() => [...document.querySelectorAll('.source')].filter((part) => !part.firstElementChild.checkVisibility({ contentVisibilityAuto: true })).length"


def test_sources_below_the_screen_are_laid_out_when_they_come_near(browser, site):
    """Skipped at first, but there for who searches the page or has it read out; whole in print; the one named in an address is where the reader lands, from outside and from one to another."""
    with watched_context(browser, scrolled=False, viewport={"width": 360, "height": 740}) as (context, trouble):
        page = context.new_page()
        page.goto(site + "sources/")
        page.wait_for_function(STANDS)
        assert page.evaluate(SKIPPED) > 200
        places = page.locator(".source[id]").evaluate_all("(parts) => parts.filter((_, i) => i % 20 === 9).map((part) => part.id)")
        assert len(places) > 10
        for place in [*places, *reversed(places)]:
            page.evaluate("(place) => { location.hash = place; }", place)
            page.wait_for_function(LANDED, arg=place)
        page.emulate_media(media="print")
        page.wait_for_function(f"() => ({SKIPPED})() === 0")
        for place in places[::4]:
            other = context.new_page()
            other.goto(site + "sources/#" + place)
            other.wait_for_function(LANDED, arg=place)
            other.close()
    assert trouble == []


def test_what_is_skipped_moves_nothing_once_it_is_laid_out(browser, site):
    """Every source of a page that was scrolled through is as high, and as far from the one before, as had all been laid out at once."""
    places = """async () => {
      for (let y = 0; y < document.documentElement.scrollHeight; y += 500) { scrollTo(0, y); await new Promise((done) => requestAnimationFrame(() => setTimeout(done))); }
      scrollTo(0, 0);
      await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
      const boxes = [...document.querySelectorAll(".source")].map((part) => part.getBoundingClientRect());
      return boxes.map((box, i) => [Math.round(i && box.top - boxes[i - 1].bottom), Math.round(box.height)]);
    }"""
    for width in (360, 1280):
        found = {}
        for scrolled in (False, True):
            with watched_context(browser, scrolled=scrolled, viewport={"width": width, "height": 740}) as (context, trouble):
                page = context.new_page()
                page.goto(site + "sources/")
                page.wait_for_function(STANDS)
                found[scrolled] = page.evaluate(places)
            assert trouble == []
        assert len(found[True]) > 200 and found[False] == found[True], width
