"""A page opens part by part, as much in a frame as fits: all of it in the end, in its order, and nothing that is seen moves.

Frames wait here until the test lets one go, and every look at the clock finds a second gone: in no frame is there time for more than comes first.
"""

from __future__ import annotations

import http.server
import threading

import pytest

from build_tools.script_bundles import Linker
from tests.site.browser import LANDED, STANDS, watched_context
from tests.site.conftest import ROOT
from tests.site.test_readers import PAGES

pytestmark = pytest.mark.browser
SLOW = """
window.frames_waiting = [];
window.requestAnimationFrame = (work) => window.frames_waiting.push(work);
let seconds = 0;
performance.now = () => (seconds += 1) * 1000;
window.frame = () => { const works = window.frames_waiting.splice(0); works.forEach((work) => work(0)); return works.length > 0; };
"""
KEPT = "() => document.querySelectorAll('[data-later]').length"
LONG = ("", "crops/", "crops/lettuce/", "compare/days/", "disagreements/", "guides/testing/", "guides/glossary/", "sources/")


@pytest.fixture(scope="module", params=[360, 1280])
def slow(request, browser):
    """A browser whose frames wait, as wide as a phone and as a desk."""
    with watched_context(browser, scrolled=False, viewport={"width": request.param, "height": 740}, reduced_motion="reduce") as (context, trouble):
        context.add_init_script(SLOW)
        yield context
    assert trouble == []


def open_slowly(context, address):
    page = context.new_page()
    page.goto(address, wait_until="load")
    page.wait_for_function("() => 'component$' in window && document.documentElement.dataset.unit !== undefined")
    return page


# Where what is seen stands: of every element without elements inside, by its way from the top of the page.
STANDING = """() => {
  const found = {};
  const way = (one) => one === document.body ? "" : `${way(one.parentElement)}/${[...one.parentElement.children].indexOf(one)}`;
  for (const one of document.querySelectorAll(".md-content__inner *")) {
    if (one.childElementCount > 0 || one.closest("svg, select, details:not([open])") || !one.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true })) continue;
    const { left, top, width, height } = one.getBoundingClientRect();
    if (height > 0 && top + scrollY < 1500) found[way(one)] = [left, top + scrollY, width, height].map(Math.round).join(" ") + " " + one.tagName + " " + one.textContent.slice(0, 20);
  }
  return found;
}"""

SHOWN = "() => [...document.querySelectorAll('.md-content__inner *')].filter((one) => one.checkVisibility() && !one.closest('.calculator')).length"  # calculators go on by themselves


@pytest.mark.parametrize("path", LONG)
def test_what_is_seen_stays_where_it_is_until_the_page_is_whole(path, slow, site):
    page = open_slowly(slow, site + path)
    kept, seen, frames = page.evaluate(KEPT), {}, 0
    assert kept > 0
    while page.evaluate("() => window.frame()"):
        frames += 1
        now = page.evaluate(STANDING)
        assert {place: now.get(place) for place in seen} == seen
        seen = now
        assert frames < 400
    assert frames > 4 and page.evaluate(KEPT) == 0
    stands, shown = page.evaluate(STANDING), page.evaluate(SHOWN)
    page.reload()
    page.wait_for_function("() => document.documentElement.dataset.unit !== undefined")
    assert page.evaluate(KEPT) == 0, "whole at once when it is loaded again"
    assert page.evaluate(STANDING) == stands and page.evaluate(SHOWN) == shown > 100
    page.close()


def test_who_comes_to_a_heading_or_back_finds_the_page_whole(slow, site):
    for address in ("crops/lettuce/#days", "guides/testing/#top"):
        page = open_slowly(slow, site + address)
        assert page.evaluate(KEPT) == 0
        page.close()
    page = open_slowly(slow, site + "calculators/soil/#soil=1&crop=tomato&hold=5")
    assert page.evaluate(KEPT) > 0, "what is kept in an address is no place on the page"
    page.goto(site + "sources/")
    page.go_back()
    page.wait_for_function("() => document.documentElement.dataset.unit !== undefined")
    assert "hold=5" in page.url and page.evaluate(KEPT) == 0
    page.close()


@pytest.mark.parametrize("path", ["crops/lettuce/", "crops/okra/"])
def test_a_heading_named_in_the_address_is_where_the_reader_lands(path, browser, site):
    with watched_context(browser, scrolled=False, viewport={"width": 360, "height": 740}) as (context, trouble):
        page = context.new_page()
        page.goto(site + path)
        page.wait_for_function(STANDS)
        for heading in page.locator("article h2[id]").all():
            place = heading.get_attribute("id")
            page.evaluate("(place) => { location.hash = place; }", place)
            page.wait_for_function(LANDED, arg=place)
    assert trouble == []


def begin_slowly(context, address):
    """A page of which some parts are shown."""
    page = open_slowly(context, address)
    for _ in range(4):
        page.evaluate("() => window.frame()")
    assert page.evaluate(KEPT) > 10 and page.locator("h1").is_visible()
    return page


def test_what_is_not_yet_shown_is_printed(slow, site):
    page = begin_slowly(slow, site + "guides/testing/")
    on_screen = page.evaluate(SHOWN)
    page.emulate_media(media="print")
    printed = page.evaluate(SHOWN)
    while page.evaluate("() => window.frame()"):
        pass
    assert page.evaluate(KEPT) == 0 and page.evaluate(SHOWN) == printed > 2 * on_screen
    page.close()


def test_a_page_that_is_put_away_while_it_opens_is_whole(slow, site):
    """No frames come for a page that is not in sight; it is read, searched and measured all the same."""
    page = begin_slowly(slow, site + "guides/testing/")
    page.evaluate("() => document.dispatchEvent(new Event('visibilitychange'))")
    assert page.evaluate(KEPT) == 0
    page.close()


def test_nothing_is_kept_back_without_scripts(browser, site):
    with watched_context(browser, java_script_enabled=False) as (context, _):
        page = context.new_page()
        page.goto(site + "guides/testing/")
        assert page.locator("[data-later]").count() == 0 and page.locator(".md-footer").is_visible()


@pytest.mark.parametrize("path", [*PAGES, "no/such/page/"])
def test_no_page_keeps_anything_back_in_the_end(path, browser, site):
    with watched_context(browser, scrolled=False) as (context, _):
        page = context.new_page()
        page.goto(site + path)
        page.wait_for_function(STANDS)
        assert page.locator("h1").is_visible()


PAGE = """<!doctype html><title>made for this test</title><style>[data-later] {{ display: none !important }} .grid {{ display: grid }}</style>
<body><script>{slow}</script><script>{opening}</script><div class="md-container"><div class="md-content__inner">{content}"""
END = '</div><footer class="md-footer">the end</footer></div>'


def made(content):
    """A page with a container as the theme has it, whose frames wait."""
    return PAGE.format(slow=SLOW, opening=Linker(ROOT / "docs" / "assets" / "js").bundle("opening.js").text, content=content)


def test_a_large_part_that_stays_whole_has_a_frame_of_its_own(browser, tmp_path):
    """A grid, whose parts would move one another; and what is small comes in dozens."""
    (tmp_path / "page.html").write_text(made("<p>text</p>" * 30 + f'<div class="grid">{"<p>part</p>" * 60}</div>' + "<p>text</p>" * 5 + END), encoding="utf-8")
    page = browser.new_page()
    page.goto((tmp_path / "page.html").as_uri())
    seen = []
    while page.evaluate("() => window.frame()"):
        seen.append(page.evaluate("() => [...document.querySelectorAll('p, footer')].filter((one) => one.checkVisibility()).length"))
    page.close()
    assert list(dict.fromkeys(seen)) == [0, 12, 24, 30, 90, 96]


def test_fields_in_folds_are_laid_out_before_the_browser_looks_for_them(browser, tmp_path):
    """One by one, after all that is seen; otherwise they are part of the task in which a page is read to its end."""
    watched = "const laid = []; const real = Element.prototype.getBoundingClientRect; Element.prototype.getBoundingClientRect = function () { laid.push(this.name); return real.call(this); };"
    folds = "".join(f'<details{state}><summary>more</summary><label>field <input name="{name}"></label></details>' for name, state in (("first", ""), ("second", ""), ("seen", " open")))
    (tmp_path / "page.html").write_text(made("<p>text</p>" * 100 + folds + "<p>text</p>" * 100 + END).replace("<script>", f"<script>{watched}", 1), encoding="utf-8")
    page, seen = browser.new_page(), []
    page.goto((tmp_path / "page.html").as_uri())
    while page.evaluate("() => window.frame()"):
        seen.append((page.evaluate(KEPT), page.evaluate("() => laid.join(' ')")))
    page.close()
    assert [laid for kept, laid in seen if kept] == [""] * sum(kept > 0 for kept, _ in seen) and seen[-1] == (0, "first second")


def test_what_a_script_adds_once_the_page_is_read_is_there_at_once(browser, tmp_path):
    (tmp_path / "page.html").write_text(made("<section>" + "<p>text</p>" * 100 + "</section>" + END), encoding="utf-8")
    page = browser.new_page()
    page.goto((tmp_path / "page.html").as_uri())
    while page.evaluate("() => window.frame()"):
        page.evaluate("() => document.querySelector('section').prepend(Object.assign(document.createElement('b'), { textContent: 'added' }))")
        assert page.evaluate("() => document.querySelectorAll('b[data-later]').length") == 0
    assert page.locator("b:visible").count() > 5
    page.close()


def test_a_page_with_very_many_parts_takes_not_as_many_frames(browser, tmp_path):
    """Each frame lays out what stands once more: with so many parts a frame, and no more, 20,000 would take minutes."""
    (tmp_path / "page.html").write_text(made("<p>text</p>" * 20_000 + END), encoding="utf-8")
    page = browser.new_page()
    page.goto((tmp_path / "page.html").as_uri())
    frames = 0
    while page.evaluate("() => window.frame()"):
        frames += 1
    assert page.evaluate(KEPT) == 0 and 50 < frames < 300
    page.close()


def test_what_is_read_later_comes_in_its_place(browser):
    """The network brings a part in pieces: what comes inside of one that was shown is kept back too, and nothing overtakes it."""
    pieces, go_on = ["<article><section>" + "<p>first</p>" * 60, "<p>second</p>" * 60 + "</section>" + "<p>third</p>" * 60 + "</article>" + END], threading.Event()

    class Pieces(http.server.BaseHTTPRequestHandler):
        def do_GET(self):
            self.send_response(200)
            self.send_header("Content-Type", "text/html; charset=utf-8")
            self.end_headers()
            self.wfile.write(made(pieces[0]).encode())
            self.wfile.flush()
            go_on.wait(20)
            self.wfile.write(pieces[1].encode())

        def log_message(self, *_):
            pass

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Pieces)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    page = browser.new_page()
    try:
        page.goto(f"http://127.0.0.1:{server.server_address[1]}/", wait_until="commit")
        page.wait_for_function("() => document.querySelectorAll('p').length === 60")
        while page.evaluate("() => window.frame()"):
            pass
        assert page.evaluate(KEPT) == 0 and page.locator("p:visible").count() == 60
        go_on.set()
        page.wait_for_load_state()
        words = []
        while page.evaluate("() => window.frame()"):
            words = page.evaluate("() => [...document.querySelectorAll('p, footer')].filter((one) => one.checkVisibility()).map((one) => one.textContent)")
            assert words == (["first"] * 60 + ["second"] * 60 + ["third"] * 60 + ["the end"])[: len(words)]
        assert len(words) == 181 and page.evaluate(KEPT) == 0
    finally:
        go_on.set()
        page.close()
        server.shutdown()
        server.server_close()
