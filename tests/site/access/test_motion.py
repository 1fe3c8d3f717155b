"""Nothing moves for whoever asked for less motion; where the system sets the colours, drawings and the focus are still there (WCAG 2.2: 2.3.3, 1.4.11)."""

from __future__ import annotations

import pytest

from tests.site.access.keys import FOCUSED
from tests.site.access.states import State, explore, menu, open_page, search
from tests.site.browser import watched_context

pytestmark = pytest.mark.browser

MOVING = """() => {
  const seconds = (list) => Math.max(...list.split(", ").map((one) => one.endsWith("ms") ? parseFloat(one) / 1000 : parseFloat(one)));
  const found = [];
  for (const e of document.querySelectorAll("*")) for (const part of [null, "::before", "::after"]) {
    const style = getComputedStyle(e, part);
    if (seconds(style.transitionDuration) > 0.017 || style.animationName !== "none" && seconds(style.animationDuration) > 0.017 || style.scrollBehavior === "smooth") found.push(`${e.outerHTML.slice(0, 80)} ${part ?? ""}`);
  }
  return [...found, ...document.getAnimations().map((one) => `runs: ${one.effect?.target?.outerHTML.slice(0, 80)}`)];
}"""
MOVED = (
    State("guide", "guides/warmth/"), State("crop", "crops/tomato/"), State("calculator", "calculators/sowing-times/"), State("explore", "compare/warmth/", explore),
    State("search", "guides/warmth/", search), State("menu", "guides/warmth/", menu, 360), State("search on a phone", "guides/warmth/", search, 360),
)


@pytest.mark.parametrize("state", MOVED, ids=lambda state: state.name)
def test_nothing_moves(looking, site, state):
    open_page(looking, site, state)
    assert looking.evaluate(MOVING) == []


def test_without_the_wish_the_theme_moves(browser, site):
    """So the test above can see motion."""
    with watched_context(browser, site, viewport={"width": 360, "height": 900}) as (context, _):
        page = context.new_page()
        open_page(page, site, MOVED[5])
        assert len(page.evaluate(MOVING)) > 5


def test_jumps_arrive_at_once(looking, site):
    open_page(looking, site, State("guide", "guides/warmth/"))
    landed = looking.evaluate("""async () => {
      const frame = () => new Promise((done) => requestAnimationFrame(done));
      document.querySelector(".md-sidebar--secondary a[href='#sure']").click();
      await frame(); await frame();
      const first = scrollY;
      for (let i = 0; i < 30; i += 1) await frame();
      return [first, scrollY];
    }""")
    assert landed[0] == landed[1] > 500
    top = looking.locator(".md-top")
    looking.mouse.wheel(0, -200)
    top.wait_for()
    looking.evaluate("() => { window.seen = []; addEventListener('scroll', () => window.seen.push(scrollY)); }")
    top.click()
    looking.wait_for_function("() => scrollY === 0")
    assert len(looking.evaluate("() => window.seen")) <= 2  # one jump, not a glide


# Lines and points of drawings, and what their least contrast with the page is to be.
DRAWN = (".chart .curve", ".chart .point", ".chart .source-best", ".chart .source-span", ".chart .optimum", ".interval-picture :is(.range, .curve.main)", ".interval-picture .estimate", ".timeline .bar")
CONTRASTS = """(selectors) => {
  const canvas = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
  const light = (colour) => {
    canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1);
    return [...canvas.getImageData(0, 0, 1, 1).data].slice(0, 3).map((c) => c / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)).reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
  };
  const page = light(getComputedStyle(document.body).backgroundColor);
  const ratio = (colour) => { const one = light(colour); return (Math.max(one, page) + 0.05) / (Math.min(one, page) + 0.05); };
  return selectors.flatMap((selector) => [...document.querySelectorAll(selector)].slice(0, 5).map((e) => {
    const style = getComputedStyle(e);
    return [selector, Math.max(...[style.fill, style.stroke].filter((c) => c !== "none").map(ratio))];
  }));
}"""


@pytest.mark.parametrize("chosen", ["follow", "paper", "night"])
@pytest.mark.parametrize("system", ["light", "dark"])
def test_drawings_and_focus_where_the_system_sets_the_colours(browser, site, system, chosen):
    """Whatever scheme was chosen on the site before."""
    with watched_context(browser, site, locale="en-GB", viewport={"width": 1280, "height": 900}, color_scheme=system, forced_colors="active", reduced_motion="reduce") as (context, trouble):
        page = context.new_page()
        seen = set()
        for path in ("crops/lettuce/", "calculators/sowing-times/", "calculators/old-seed/", "calculator/"):
            open_page(page, site, State("forced", path))
            for _ in range({"follow": 0, "paper": 1, "night": 2}[chosen]) if path == "crops/lettuce/" else ():
                page.locator("[data-md-component=palette] label:not([hidden])").click()
            wanted = {"follow": {"light": "paper", "dark": "night"}[system]}.get(chosen, chosen)
            page.wait_for_function("(wanted) => document.body.dataset.mdColorScheme === wanted", arg=wanted)
            for selector, contrast in page.evaluate(CONTRASTS, list(DRAWN)):
                assert contrast >= 3, (path, selector, contrast)
                seen.add(selector)
            page.locator("article.md-content__inner :is(input, select):visible").first.focus()
            page.keyboard.press("Tab")
            at = page.evaluate(FOCUSED, "article.md-content__inner")
            assert at["contrast"] >= 3, (path, at)
        assert seen == set(DRAWN)
        chosen_unit, other = page.locator(".unit-switch label:has(:checked)"), page.locator(".unit-switch label:not(:has(:checked))").first
        assert chosen_unit.evaluate("(e) => getComputedStyle(e).backgroundColor") != other.evaluate("(e) => getComputedStyle(e).backgroundColor")
        assert trouble == []
