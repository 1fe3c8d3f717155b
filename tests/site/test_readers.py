"""What a first visit costs a reader: what is sent, and that nothing moves under the thumb. How long it takes is measured by `bench`."""

from __future__ import annotations

import gzip
import http.server
import json
import re

import pytest

from build_tools.bench import first_visit
from build_tools.bench_readers import NETWORK, SEEN, TRACED, longest_traced, serve_zipped, serving

MOST_SENT = 200_000  # bytes gzipped, of a page with everything it asks for by itself
PAGES = [
    "", "crops/", "crops/lettuce/", "crops/leek/", "guides/", "guides/testing/", "guides/glossary/", "treatments/", "compare/warmth/", "compare/days/", "compare/seed-life/",
    "calculators/", "calculator/", "print/", "print/poster/", "print/labels/", "correct/", "offline/", "sources/", "disagreements/", "methods/", "downloads/", "fields/", "checks/", "credits/",
]


def sent(page):
    return sum(len(gzip.compress(path.read_bytes(), 6)) for path in (page, *first_visit(page)))


def test_no_page_sends_more_than_its_share(built):
    heavy = {path.parent.relative_to(built).as_posix(): sent(path) for path in built.rglob("index.html") if sent(path) > MOST_SENT}
    assert heavy == {}


@pytest.mark.browser
def test_the_files_counted_are_those_that_a_browser_asks_for(built, browser):
    with serve_zipped(built) as base:
        for name in ("", "crops/lettuce/", "calculators/soil/"):
            context, asked = browser.new_context(), set()
            context.on("request", lambda request: asked.add(request.url.removeprefix(base)))
            context.new_page().goto(base + name, wait_until="networkidle")
            context.close()
            wanted = {path.relative_to(built).as_posix() for path in first_visit(built / name / "index.html")}
            assert asked | {"manifest.webmanifest"} == wanted | {name}, name  # the manifest is asked for where sites can be installed


def calculators(built):
    return sorted(f"calculators/{path.parent.name}/" for path in (built / "calculators").glob("*/index.html"))


@pytest.mark.browser
@pytest.mark.parametrize("width", [360, 1280])
def test_nothing_moves_while_a_page_loads(width, built, browser):
    """The sum of layout shifts, as the browser reckons it, with the network slow enough that a page is seen before its scripts have come; good is below 0.1, ours is to be below 0.02."""
    moved = {}
    with serve_zipped(built) as base:
        context = browser.new_context(viewport={"width": width, "height": 740})
        page = context.new_page()
        page.add_init_script(SEEN)
        client = context.new_cdp_session(page)
        client.send("Network.enable")
        for name in [*PAGES, *calculators(built)]:
            client.send("Network.setCacheDisabled", {"cacheDisabled": True})
            client.send("Network.emulateNetworkConditions", NETWORK)
            page.goto(base + name, wait_until="load")
            page.wait_for_timeout(250)
            moved[name] = page.evaluate("() => window.seen.shift")
        context.close()
    assert len(moved) > 35 and {name: round(value, 3) for name, value in moved.items() if value >= 0.02} == {}


@pytest.mark.browser
def test_room_that_is_kept_is_given_back_without_scripts(built, browser):
    """Where scripts are off, no blank places stand where forms would be, and what stands in for them is shown."""
    with serve_zipped(built) as base:
        context = browser.new_context(java_script_enabled=False, viewport={"width": 360, "height": 740})
        page = context.new_page()
        for name in ("calculator/", "crops/", "compare/warmth/", "print/poster/", "correct/"):
            page.goto(base + name)
            assert page.locator("form[hidden]").count() and not page.locator("article form:visible").count(), name
            assert all(form.evaluate("(form) => form.getBoundingClientRect().height") == 0 for form in page.locator("article form[hidden]").all()), name
        page.goto(base + "offline/")
        assert page.locator(".offline-static").is_visible()
        context.close()


def test_pictures_have_their_size_said(built):
    for path in built.rglob("*.html"):
        for picture in re.findall(r"<img\b[^>]*>", path.read_text(encoding="utf-8")):
            assert re.search(r'\bwidth="\d+"', picture) and re.search(r'\bheight="\d+"', picture), (path, picture)


def test_typefaces_are_the_reader_s_own_or_from_this_site(built):
    """Only the page that makes posters loads any, of the site itself."""
    for sheet in built.rglob("*.css"):
        for address in re.findall(r"url\(([^)]*)\)", sheet.read_text(encoding="utf-8")):
            address = address.strip("\"' ")
            assert address.startswith("data:") or (sheet.parent / address).resolve().is_file(), (sheet, address)


@pytest.mark.browser
def test_the_longest_task_is_read_from_what_the_browser_wrote(browser, tmp_path):
    """A script that runs for 200 ms counts, and so does a large page without any script, beside a small one."""
    (tmp_path / "busy.html").write_text("<!doctype html><title>busy</title><p>text<script>const end = performance.now() + 200; while (performance.now() < end);</script>", encoding="utf-8")
    (tmp_path / "still.html").write_text("<!doctype html><title>still</title><p>text", encoding="utf-8")
    (tmp_path / "large.html").write_text("<!doctype html><title>large</title>" + "<div style='display:grid'><p>some text <b>of a page</b></p></div>" * 20_000, encoding="utf-8")
    longest = {}
    with serving(tmp_path, http.server.SimpleHTTPRequestHandler) as base:
        for name in ("busy", "still", "large"):
            page = browser.new_page()
            browser.start_tracing(page=page, categories=TRACED)
            page.goto(f"{base}{name}.html")
            page.wait_for_timeout(300)
            trace = browser.stop_tracing()
            page.close()
            longest[name] = longest_traced(trace, f"{base}{name}.html")
            with pytest.raises(ValueError, match="not in the trace"):
                longest_traced(trace, base + "other.html")
    assert longest["busy"] >= 200 and longest["still"] < longest["busy"] and longest["large"] > 2 * longest["still"]


def test_a_task_counts_from_when_the_page_s_own_document_begins():
    """A new tab has an empty document first, of the same frame; what the browser does between that and the page is none of the page's."""
    def event(name, at, took=None, **args):
        return {"name": name, "ph": "R" if took is None else "X", "pid": 1, "tid": 2, "ts": at * 1000, "args": args} | ({} if took is None else {"dur": took * 1000})

    events = [
        event("navigationStart", 0, frame="A", data={"documentLoaderURL": "http://127.0.0.1/"}), event("domLoading", 10, frame="A"), event("RunTask", 90, 70),
        event("domLoading", 150, frame="A"), event("domLoading", 170, frame="of a picture"), event("RunTask", 160, 30), event("ThreadControllerImpl::RunTask", 200, 20), event("RunTask", 300, 90) | {"tid": 3},
    ]
    assert longest_traced(json.dumps({"traceEvents": events}).encode(), "http://127.0.0.1/") == 30
