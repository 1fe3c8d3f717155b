"""Nothing is lost and no page scrolls sideways: at 320 px, at 200 %, with twice the text size, with wide spacing (WCAG 2.2: 1.4.4, 1.4.10, 1.4.12)."""

from __future__ import annotations

import pytest

from tests.site.access.states import STATES, State, open_page

pytestmark = pytest.mark.browser

# 1.4.10: a window of 1280 px enlarged to 400 %; 1.4.4: to 200 %; 1.4.12: its four values.
SETTINGS = {
    "320 px": (320, ""),
    "200 %": (640, ""),
    "wide spacing": (1280, "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }"),
    "wide spacing on a phone": (360, "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }"),
}
PAGES = [state for state in STATES if state.prepare is None and not state.name.endswith("on a phone")]

# What sticks out of the window without anything around it that scrolls; and texts that their boxes cut off.
LOST = """(rules) => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(rules);
  document.adoptedStyleSheets = [sheet];
  const found = [];
  if (document.documentElement.scrollWidth > innerWidth) found.push(`the page is ${document.documentElement.scrollWidth} px wide in ${innerWidth}`);
  const scrolls = (e) => { const o = getComputedStyle(e).overflowX; return (o === "auto" || o === "scroll") && e.tabIndex >= 0 || e.matches("textarea, select"); };
  for (const e of document.querySelectorAll("article.md-content__inner *, .md-header *")) {
    if (e.closest("svg") || !e.checkVisibility({ visibilityProperty: true, opacityProperty: true }) || ![...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim())) continue;
    const style = getComputedStyle(e);
    if (style.clipPath !== "none" || e.closest(".md-search, .of, .unseen, legend") !== null) continue;
    const box = e.getBoundingClientRect();
    let held = false;
    for (let at = e; at !== null && at !== document.body; at = at.parentElement) held ||= scrolls(at);
    if (!held && box.width > 0 && (box.right > innerWidth + 1 || box.left < -1)) found.push(`out of the window (${Math.round(box.left)} to ${Math.round(box.right)}): ${e.outerHTML.slice(0, 120)}`);
    const hides = style.overflowX === "hidden" || style.overflowX === "clip" || style.overflowY === "hidden" || style.overflowY === "clip";
    if (hides && !e.matches(".md-ellipsis, button, input") && (e.scrollWidth > e.clientWidth + 2 || e.scrollHeight > e.clientHeight + 4)) found.push(`cut off: ${e.outerHTML.slice(0, 120)}`);
    if (e.matches("button, summary, label, th, td") && e.scrollWidth > e.clientWidth + 2 && style.display !== "inline" && !held) found.push(`does not hold its words: ${e.outerHTML.slice(0, 120)}`);
  }
  document.adoptedStyleSheets = [];
  return found.slice(0, 8);
}"""


@pytest.mark.parametrize("state", PAGES, ids=lambda state: state.name)
def test_nothing_is_lost(looking, site, state):
    open_page(looking, site, state)
    lost = []
    for name, (width, rules) in SETTINGS.items():
        looking.set_viewport_size({"width": width, "height": 900})
        looking.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")  # pictures are drawn anew
        lost += [f"{name}: {what}" for what in looking.evaluate(LOST, rules)]
    assert not lost, "\n".join(lost)


def test_something_lost_is_found(looking, site):
    open_page(looking, site, PAGES[0])
    looking.evaluate("() => { const made = document.createElement('p'); made.textContent = 'Far too long'; made.style.width = '2000px'; document.querySelector('article.md-content__inner').append(made); const cut = document.createElement('p'); cut.textContent = 'Cut off '.repeat(30); cut.style.cssText = 'height:1em;overflow:hidden'; document.querySelector('article.md-content__inner').append(cut); }")
    found = "\n".join(looking.evaluate(LOST, ""))
    assert "the page is" in found and "out of the window" in found and "cut off" in found


# The switch of units stands in the page where there is no room above it.
SIZES = "() => [...[...document.querySelectorAll('article.md-content__inner :is(h1, p, a, label)')].filter((e) => !e.closest('.unit-switch')), ...document.querySelectorAll('.unit-switch label')].map((e) => parseFloat(getComputedStyle(e).fontSize))"
ONE_OF_A_KIND = [state for state in PAGES if state.name.split()[0] in ("calculator", "compare", "lots", "labels", "poster") or state.name in ("home", "crops/", "treatments/", "downloads/", "guide testing", "crop tomato", "fields/")]


@pytest.mark.parametrize("state", ONE_OF_A_KIND, ids=lambda state: state.name)
def test_text_twice_as_large_in_the_readers_own_browser(large_text, looking, site, state):
    """Whoever sets a text of 32 px instead of 16 gets it, and loses nothing."""
    open_page(large_text, site, state)
    assert not large_text.evaluate(LOST, "")
    large = large_text.evaluate(SIZES)
    open_page(looking, site, state)
    usual = looking.evaluate(SIZES)
    assert len(usual) > 12 and len(usual) == len(large) and all(new >= 1.99 * old for old, new in zip(usual, large))


# Words of tables that stand on two lines, but for codes, which have no place to break; and cells that their words stick out of.
BROKEN = r"""(rules) => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(rules);
  document.adoptedStyleSheets = [sheet];
  const found = [], range = document.createRange();
  const lines = (node, start, end) => { range.setStart(node, start); range.setEnd(node, end); return new Set([...range.getClientRects()].map((box) => Math.round(box.top))).size; };
  for (const cell of document.querySelectorAll(".scroll :is(th, td)")) {
    if (cell.scrollWidth > cell.clientWidth + 1) found.push(`sticks out of its cell: ${cell.textContent}`);
    const texts = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
      const node = texts.currentNode;
      if (!node.parentElement.checkVisibility() || node.data.includes("_")) continue;
      for (const { 0: word, index } of node.data.matchAll(/[\p{L}\p{N}.,°()]+/gu)) if (lines(node, index, index + word.length) > 1) found.push(`${word} is broken in: ${node.data}`);
    }
  }
  document.adoptedStyleSheets = [];
  return [...new Set(found)];
}"""


@pytest.mark.parametrize("width", [320, 360, 600, 1280])
@pytest.mark.parametrize("path", ["crops/", "compare/days/", "disagreements/", "crops/lettuce/", "crops/cowpea/"])
def test_columns_have_room_for_wide_letters(looking, site, path, width):
    """With the spacing of WCAG 2.2, 1.4.12, no word of a table breaks: about as wide as words are in DejaVu Serif, a wide typeface (measured)."""
    open_page(looking, site, State(path, path, width=width))
    assert looking.evaluate(BROKEN, SETTINGS["wide spacing"][1]) == []


def test_a_broken_word_is_found(looking, site):
    open_page(looking, site, State("crops", "crops/", width=360))
    found = "\n".join(looking.evaluate(BROKEN, ".crops th { width: 4em !important; overflow-wrap: anywhere; } .crops td { white-space: nowrap; }"))
    assert "Maximum is broken in" in found and "sticks out of its cell" in found
