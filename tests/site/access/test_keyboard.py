"""Every control of every page that has some is reached by Tab, in order, seen there, and left again (WCAG 2.2: 2.1.1, 2.1.2, 2.4.1, 2.4.3, 2.4.7, 2.4.11)."""

from __future__ import annotations

import pytest

from tests.site.access.keys import FOCUSED, check_walk, walk
from tests.site.access.states import CALCULATORS, CORRECT, State, calculator_path, explore, file_of_lots, open_page, spoil, typed_correction, wrong_labels
from tests.site.browser import STANDS

pytestmark = pytest.mark.browser

WALKED = (
    *(State(f"calculator {name}", calculator_path(name)) for name in CALCULATORS),
    *(State(f"calculator {name} on a phone", calculator_path(name), spoil, 360) for name in ("count", "daily-counts", "soil", "sowing-times")),
    *(State(f"compare {name}", f"compare/{name}/", explore) for name in ("warmth", "days", "seed-life")),
    State("lots", "calculators/lots/", file_of_lots),
    State("labels", "print/labels/", wrong_labels),
    State("poster", "print/poster/"),
    State("correct", CORRECT, typed_correction),
    State("crop", "crops/lettuce/"),
    State("crop on a phone", "crops/lettuce/", width=360),
    State("home", ""),
    State("crops", "crops/"),
)


@pytest.mark.parametrize("state", WALKED, ids=lambda state: state.name)
def test_every_control_is_reached_in_order_and_seen(looking, site, state):
    open_page(looking, site, state)
    check_walk(walk(looking))


def focus(page):
    """What has the focus, in words."""
    return page.evaluate("() => document.activeElement.getAttribute('aria-label') || document.activeElement.innerText.trim()")


def test_the_skip_link_comes_first_and_leads_past_the_menus(looking, site):
    open_page(looking, site, State("guide", "guides/warmth/"))
    looking.keyboard.press("Tab")
    at = looking.evaluate(FOCUSED, "body")
    assert focus(looking) == "Skip to content" and at["seen"] and at["contrast"] >= 3
    looking.keyboard.press("Enter")
    looking.keyboard.press("Tab")
    assert looking.evaluate(FOCUSED, "article.md-content__inner")["within"]


@pytest.mark.parametrize("width", [1280, 1000, 360])
@pytest.mark.parametrize("path", ["", "guides/warmth/", "crops/tomato/"])
def test_what_is_above_the_page_is_reached_and_seen(looking, site, path, width):
    open_page(looking, site, State("above", path, width=width))
    walked = walk(looking, ".md-header")
    check_walk(walked)
    assert len(walked.places) == {1280: 4, 1000: 4, 360: 3}[width]  # library or menu, colours, search, units; on a phone the units stand in the page
    if width == 1280:
        check_walk(walk(looking, ".md-tabs"))


def test_the_contents_beside_a_guide_show_the_focus(looking, site):
    open_page(looking, site, State("guide", "guides/warmth/"))
    walked = walk(looking, ".md-sidebar--secondary")
    check_walk(walked)
    assert len(walked.places) > 5


def test_the_menu_of_a_narrow_screen_by_keys_alone(looking, site):
    open_page(looking, site, State("guide", "guides/warmth/", width=360))
    menu_button = looking.get_by_role("button", name="Menu")
    menu_button.focus()
    assert menu_button.get_attribute("aria-expanded") == "false" and not looking.locator(".md-sidebar--primary a").first.is_visible()
    for key in ("Enter", "Space"):
        looking.keyboard.press(key)
        assert menu_button.get_attribute("aria-expanded") == "true" and focus(looking) == "Home"
        looking.keyboard.press("Escape")
        assert menu_button.get_attribute("aria-expanded") == "false" and focus(looking) == "Menu"
    looking.keyboard.press("Enter")
    walked = walk(looking, ".md-sidebar--primary")
    check_walk(walked)
    assert len(walked.places) > 20
    looking.wait_for_function("() => !document.getElementById('__drawer').checked")  # the focus has left it


@pytest.mark.parametrize("width", [1280, 360])
def test_search_by_keys_alone(looking, site, width):
    open_page(looking, site, State("guide", "guides/warmth/", width=width))
    if width == 360:
        looking.get_by_role("button", name="Search", exact=True).focus()
        looking.keyboard.press("Enter")
    else:
        looking.keyboard.press("/")
    box = looking.locator("input.md-search__input")
    looking.wait_for_function("() => document.activeElement.matches('input.md-search__input')")
    looking.keyboard.type("lettuce")
    looking.locator(".md-search-result__link").first.wait_for(timeout=20_000)
    looking.keyboard.press("ArrowDown")
    at = looking.evaluate(FOCUSED, ".md-search")
    assert at["within"] and at["seen"] and at["contrast"] >= 3 and "md-search-result__link" in at["html"]
    looking.keyboard.press("Escape")
    looking.wait_for_function("() => !document.getElementById('__search').checked")
    assert not looking.locator(".md-search-result__link").first.is_visible()
    if width == 360:
        assert focus(looking) == "Search" and not box.is_visible()


def test_enter_and_space_work_folds_buttons_and_boxes(looking, site):
    open_page(looking, site, State("count", "calculator/"))
    fold = looking.locator(".calculator-form summary").first
    for key, is_open in (("Enter", False), ("Space", True)):
        fold.focus()
        looking.keyboard.press(key)
        assert fold.evaluate("(one) => one.parentElement.open") is is_open
    add = looking.locator(".add-row")
    for count, key in ((2, "Enter"), (3, "Space")):
        add.focus()
        looking.keyboard.press(key)
        assert looking.locator(".entry-row").count() == count
        assert looking.evaluate("() => document.activeElement.closest('.entry-row').querySelector('legend').textContent") == f"{looking.locator('.rows').get_attribute('data-row-name')} {count}"
    remove = looking.locator(".remove-row").last
    remove.focus()
    looking.keyboard.press("Enter")
    assert looking.locator(".entry-row").count() == 2 and looking.evaluate("() => document.activeElement.matches('.entry-row input')")
    open_page(looking, site, State("poster", "print/poster/"))
    box = looking.locator(".poster-list input").first
    before = box.is_checked()
    box.focus()
    looking.keyboard.press("Space")
    assert box.is_checked() is not before


def test_what_a_key_reaches_in_a_wide_table_is_whole_in_sight(looking, site):
    """WCAG 2.2, 2.4.11 and 2.4.12: not hidden, not even in part; a browser by itself leaves a link where only a corner of its box shows."""
    looking.set_viewport_size({"width": 360, "height": 900})
    looking.goto(site + "crops/lettuce/")
    looking.wait_for_function("() => document.documentElement.dataset.unit !== undefined")
    looking.wait_for_function(STANDS)
    looking.evaluate("() => document.querySelector('.evidence').parentElement.focus()")
    hidden = []
    for _ in range(30):
        looking.keyboard.press("Tab")
        hidden += looking.evaluate("() => { const one = document.activeElement, room = one.closest('.scroll').getBoundingClientRect(); return [...one.getClientRects()].filter((r) => r.left < room.left - 1 || r.right > room.right + 1).map(() => one.textContent); }")
    assert hidden == []
