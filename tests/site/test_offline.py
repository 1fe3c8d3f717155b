"""The reference kept on a device: after one visit it works without a network, a new edition takes over whole or not at all, and it can be cleared.

Everything is done for real: a server on this machine is stopped, its files are changed or spoiled, and a browser with a worker of its own looks.
"""

from __future__ import annotations

import contextlib
import functools
import hashlib
import http.server
import json
import re
import shutil
import threading
import time

import pytest

from build_tools.offline import kept_files, write_worker

STATES = "() => navigator.serviceWorker.getRegistration().then((r) => r && [r.installing, r.waiting, r.active].map((w) => w?.state ?? null))"
PREFIX = "germination-reference "


@pytest.fixture
def small(built, tmp_path):
    """A site with few pages, so that it is kept in a second; its worker is written anew."""
    site = tmp_path / "site"
    keep = ("index.html", "404.html", "manifest.webmanifest", "offline/index.html", "crops/leek/index.html", "crops/lettuce/index.html", "assets/*/*.css", "assets/js/*.js", "assets/javascripts/**/*.js", "assets/images/*.svg", "search/*")
    for pattern in keep:
        for file in built.glob(pattern):
            if file.is_file() and "plotly" not in file.name and "lunr" not in file.parts:
                target = site / file.relative_to(built)
                target.parent.mkdir(parents=True, exist_ok=True)
                shutil.copy(file, target)
    (site / "downloads").mkdir()
    (site / "downloads" / "poster.pdf").write_bytes(b"%PDF-1.7 a poster")
    write_worker(site)
    return site


@contextlib.contextmanager
def server(folder, port=0):
    """A site that can be stopped for good: connections are refused afterwards. Yields (address, stop)."""
    class Handler(http.server.SimpleHTTPRequestHandler):
        extensions_map = {**http.server.SimpleHTTPRequestHandler.extensions_map, ".js": "text/javascript", ".webmanifest": "application/manifest+json"}

        def end_headers(self):
            self.send_header("Cache-Control", "no-store")  # what answers without a network is the worker, not the browser's own cache
            super().end_headers()

        def log_message(self, format, *arguments):
            pass

    running = http.server.ThreadingHTTPServer(("127.0.0.1", port), functools.partial(Handler, directory=str(folder)))
    thread = threading.Thread(target=running.serve_forever, daemon=True)
    thread.start()
    stopped = threading.Event()

    def stop():
        if not stopped.is_set():
            stopped.set()
            running.shutdown()
            running.server_close()
            thread.join()

    try:
        yield f"http://127.0.0.1:{running.server_address[1]}/", stop
    finally:
        stop()


@pytest.fixture
def device(browser):
    """A browser with storage of its own and workers allowed."""
    context = browser.new_context(service_workers="allow", viewport={"width": 1280, "height": 900})
    yield context
    context.close()


def visit(device, base):
    """Open the first page and wait until everything is kept."""
    page = device.new_page()
    page.goto(base)
    page.wait_for_function("() => navigator.serviceWorker.controller")
    return page


def change(site, words, with_worker=True):
    """A new edition: the leek page says so."""
    page = site / "crops" / "leek" / "index.html"
    page.write_text(re.sub(r"<h1 id=\"top\">[^<]*", f'<h1 id="top">{words}', page.read_text(encoding="utf-8"), count=1), encoding="utf-8")
    if with_worker:
        write_worker(site)


def look(page):
    """Have the browser look for a newer edition; returns when that has come to an end, whatever it was."""
    page.evaluate("""async () => {
      const kept = await navigator.serviceWorker.getRegistration();
      await kept.update().catch(() => {});
      const worker = kept.installing;
      if (worker) await new Promise((done) => worker.addEventListener("statechange", () => worker.state !== "installing" && done()));
    }""")


def heading(page, address):
    page.goto(address)
    return page.locator("h1").first.inner_text()


def editions(page):
    return page.evaluate("(prefix) => caches.keys().then((all) => all.filter((name) => name.startsWith(prefix) && !name.includes('asked for')))", PREFIX)


def test_the_list_holds_pages_and_what_they_need(built):
    kept = kept_files(built)
    pages = {path.relative_to(built).as_posix() for path in built.rglob("*.html")}
    assert pages <= kept.keys() and {"search/search_index.json", "manifest.webmanifest", "api/v1/crops/leek.json", "downloads/demo-lots.csv", "compare/days/figure.json"} <= kept.keys()
    assert any(re.fullmatch(r"assets/js/plotly-[0-9a-f]+\.min\.js", name) for name in kept), "the charts to explore"
    assert not [name for name in kept if name.endswith((".pdf", ".map", ".json.js")) or name in ("worker.js", "SHA256SUMS")]
    assert all(hashlib.sha256((built / name).read_bytes()).hexdigest() == digest for name, digest in kept.items())
    worker = (built / "worker.js").read_text(encoding="utf-8")
    assert json.loads(re.search(r"^const FILES = (\{.*\});", worker, re.M)[1]) == kept and "@" not in re.search(r'^const VERSION = "(.*)";', worker, re.M)[1]
    for path in built.rglob("index.html"):  # whatever a page loads is kept
        for name in re.findall(r'(?:src|href)="([^":?#]+\.(?:js|css|svg|png|webmanifest))"', path.read_text(encoding="utf-8")):
            assert (path.parent / name).resolve().relative_to(built.resolve()).as_posix() in kept, (path, name)


def test_the_version_is_that_of_the_files(small):
    first = (small / "worker.js").read_text()
    write_worker(small)
    assert (small / "worker.js").read_text() == first
    change(small, "Other")
    assert re.search('VERSION = "(.*)"', (small / "worker.js").read_text())[1] != re.search('VERSION = "(.*)"', first)[1]


@pytest.mark.browser
def test_the_whole_site_works_without_a_network_after_one_visit(built, device, browser):
    """Of every kind a page never opened: a crop, a guide, a calculator with an answer, the search, the explorer, lots, corrections."""
    trouble = []
    device.on("page", lambda page: page.on("console", lambda message: trouble.append(message.text) if message.type == "error" else None))
    with server(built) as (base, stop):
        page = visit(device, base)
        stop()
        with pytest.raises(Exception, match="ERR_CONNECTION_REFUSED"):  # it is truly gone
            browser.new_context().new_page().goto(base)
        assert heading(page, f"{base}crops/leek/") == "Leek"
        page.get_by_label("Seeds set").first.fill("50")
        page.get_by_label("Normal seedlings").first.fill("40")
        page.locator("section.calculator").get_by_text("80 % (67–89 %)").first.wait_for()
        assert page.evaluate("() => getComputedStyle(document.querySelector('h1')).fontFamily").startswith("Charter")
        page.keyboard.press("Escape")
        page.locator("h1").first.click()
        page.keyboard.press("/")
        page.locator(".md-search__input").press_sequentially("chill")
        page.locator(".md-search-result__link").first.click()
        page.locator("mark", has_text="chill").first.wait_for()
        page.goto(f"{base}compare/warmth/")
        page.locator(".explore-open").click()
        page.locator(".explore-chart .main-svg").first.wait_for()
        page.goto(f"{base}calculators/lots/")
        page.locator(".lots-demo").click()
        page.locator(".lots-output").get_by_text("W24-001").first.wait_for()
        page.goto(f"{base}print/poster/")
        page.locator("article svg text").first.wait_for()
        assert heading(page, f"{base}guides/testing/") and heading(page, f"{base}crops/lettuce") == "Lettuce" and page.url == f"{base}crops/lettuce/"
        assert trouble == []


@pytest.mark.browser
def test_a_poster_is_kept_once_asked_for_and_an_unknown_address_says_so(small, device):
    with server(small) as (base, stop):
        page = visit(device, base)
        ask = "(address) => fetch(address).then((answer) => answer.text(), () => null)"
        assert page.evaluate(ask, f"{base}downloads/poster.pdf") == "%PDF-1.7 a poster"
        page.wait_for_function("() => caches.match('/downloads/poster.pdf').then(Boolean)")
        stop()
        assert page.evaluate(ask, f"{base}downloads/poster.pdf") == "%PDF-1.7 a poster"
        assert page.evaluate(ask, f"{base}downloads/other.pdf") is None
        answer = page.goto(f"{base}crops/nothing/")
        assert answer.status == 404 and "404" in page.content()


@pytest.mark.browser
def test_a_new_edition_is_offered_and_takes_over_whole(small, device):
    with server(small) as (base, stop):
        page = visit(device, base)
        other = device.new_page()
        other.goto(f"{base}crops/lettuce/")
        other.get_by_label("Seeds set").first.fill("77")
        change(small, "Leek, second edition")
        look(page)
        assert heading(page, f"{base}crops/leek/") == "Leek", "until it is asked for, the old one answers"
        assert len(editions(page)) == 2
        bar = page.locator("#newer-edition")
        bar.wait_for()
        assert bar.get_attribute("role") == "status"
        bar.get_by_role("button", name="Show it").click()
        page.locator("h1", has_text="Leek, second edition").wait_for()
        page.wait_for_function("(prefix) => caches.keys().then((all) => all.filter((name) => name.startsWith(prefix)).length === 1)", arg=PREFIX)
        assert other.get_by_label("Seeds set").first.input_value() == "77", "another window is not loaded anew: what is typed there stays"
        stop()
        assert heading(page, f"{base}crops/leek/") == "Leek, second edition" and heading(page, f"{base}crops/lettuce/") == "Lettuce"


@pytest.mark.browser
def test_opening_the_site_anew_shows_the_new_edition(small, device):
    with server(small) as (base, stop):
        page = visit(device, base)
        change(small, "Leek, second edition")
        look(page)
        page.close()
        deadline = time.monotonic() + 20  # the browser lets go of the old worker in its own time
        while (page := device.new_page()) and heading(page, f"{base}crops/leek/") != "Leek, second edition" and time.monotonic() < deadline:
            page.close()
            time.sleep(0.2)
        assert page.locator("h1").first.inner_text() == "Leek, second edition"


@pytest.mark.browser
def test_what_did_not_change_is_not_fetched_again(small, device):
    with server(small) as (base, stop):
        page = visit(device, base)
        asked = []
        device.on("request", lambda request: asked.append(request.url.removeprefix(base)) if request.service_worker else None)
        change(small, "Leek, second edition")
        look(page)
        assert len(editions(page)) == 2 and asked == ["crops/leek/index.html"] or [name for name in asked if name != "worker.js"] == ["crops/leek/index.html"]


def cut_short(site):
    change(site, "Leek, second edition")
    page = site / "crops" / "leek" / "index.html"
    page.write_bytes(page.read_bytes()[:-200])


def left_out(site):
    (site / "assets" / "images" / "library.svg").write_text("<svg/>", encoding="utf-8")
    change(site, "Leek, second edition")
    (site / "assets" / "images" / "library.svg").unlink()


def no_script(site):
    change(site, "Leek, second edition", with_worker=False)
    (site / "worker.js").write_text("this is (not a script", encoding="utf-8")


def a_page_in_its_place(site):
    change(site, "Leek, second edition", with_worker=False)
    (site / "worker.js").write_text("<!doctype html><title>Sign in to this network</title>", encoding="utf-8")


def gone(site):
    change(site, "Leek, second edition", with_worker=False)
    (site / "worker.js").unlink()


def fails_to_install(site):
    change(site, "Leek, second edition", with_worker=False)
    (site / "worker.js").write_text('self.addEventListener("install", (event) => event.waitUntil(Promise.reject(new Error("no"))));', encoding="utf-8")


@pytest.mark.browser
@pytest.mark.parametrize("spoil", [cut_short, left_out, no_script, a_page_in_its_place, gone, fails_to_install])
def test_a_broken_edition_leaves_the_old_one(small, device, spoil):
    """Half an upload, a lost file, a worker that is no script: the old edition answers whole, with the site and without; the next good one is taken."""
    sound = shutil.copytree(small, small.with_name("sound"))
    with server(small) as (base, stop):
        page = visit(device, base)
        before = editions(page)
        spoil(small)
        look(page)
        assert page.evaluate(STATES)[1:] == [None, "activated"] and editions(page) == before
        assert heading(page, f"{base}crops/leek/") == "Leek" and heading(page, f"{base}crops/lettuce/") == "Lettuce"
        for file in sound.rglob("*"):  # the keeper mends it
            if file.is_file():
                shutil.copy(file, small / file.relative_to(sound))
        change(small, "Leek, third edition")
        look(page)
        page.locator("#newer-edition button").click()
        page.wait_for_load_state()
        stop()
        assert heading(page, f"{base}crops/leek/") == "Leek, third edition" and heading(page, f"{base}crops/lettuce/") == "Lettuce"


@pytest.mark.browser
def test_a_visit_cut_off_keeps_nothing_by_halves(small, device):
    """The first visit fails midway: nothing is kept, and the next visit keeps everything."""
    lost = small / "crops" / "lettuce" / "index.html"
    text = lost.read_bytes()
    lost.unlink()
    with server(small) as (base, stop):
        page = device.new_page()
        page.goto(f"{base}downloads/")
        page.evaluate("""async () => {
          const { installing } = await navigator.serviceWorker.register("/worker.js");
          await new Promise((done) => installing.addEventListener("statechange", () => installing.state === "redundant" && done()));
        }""")
        assert editions(page) == []
        lost.write_bytes(text)
        page.goto(base)
        page.wait_for_function("() => navigator.serviceWorker.controller")
        stop()
        assert heading(page, f"{base}crops/lettuce/") == "Lettuce"


@pytest.mark.browser
def test_an_emptied_store_does_no_harm(small, device):
    """Somebody, or the browser, throws the kept files away while the worker lives: pages come from the site."""
    with server(small) as (base, _):
        page = visit(device, base)
        page.evaluate("() => caches.keys().then((all) => Promise.all(all.map((name) => caches.delete(name))))")
        assert heading(page, f"{base}crops/leek/") == "Leek"


@pytest.mark.browser
def test_saving_data_is_respected(small, device):
    device.add_init_script("Object.defineProperty(navigator, 'connection', { value: { saveData: true } });")
    with server(small) as (base, _):
        page = device.new_page()
        page.goto(f"{base}offline/")
        page.get_by_text("The reference is not kept on this device.").wait_for()
        assert page.evaluate(STATES) is None
        page.get_by_role("button", name="Keep the reference on this device").click()
        page.get_by_text("The reference is kept on this device now.").wait_for()
        page.get_by_text(re.compile(r"kept on this device: \d+ files. It works without")).wait_for()
        assert page.evaluate(STATES)[2] == "activated"


@pytest.mark.browser
def test_everything_stored_is_listed_and_can_be_cleared(built, device):
    """Calculators, units, colours and tests on their way are used; whatever lies in the browser then stands on the page, and is gone when cleared."""
    with server(built) as (base, _):
        page = visit(device, base)
        page.locator(".unit-switch label", has_text="°F").click()
        page.locator("label[for=__palette_1]").click()
        for name in ("seeds-to-sow", "tray", "old-seed", "test-size", "storage", "soil", "sowing-times", "warm-spots", "treatment-times", "two-treatments", "repeated-tests", "emergence", "daily-counts"):
            page.goto(f"{base}calculators/{name}/")
            box = page.locator("section.calculator input[type=text], section.calculator input:not([type])").locator("visible=true").first
            box.fill("12")
            page.wait_for_function("(name) => Object.keys(sessionStorage).some((key) => key.endsWith(`/${name}/`))", arg=name)
        page.goto(f"{base}calculators/lots/")
        page.locator(".lots-demo").click()
        page.locator(".lots-output").get_by_text("W24-001").first.wait_for()
        page.evaluate("() => sessionStorage.setItem('labels-tests', 'lot')")  # as the page of lots leaves it
        page.goto(f"{base}offline/")
        row = {name: page.locator(f"tr[data-item={name}]") for name in ("pages", "unit", "colours", "calculators", "labels")}
        row["pages"].get_by_text(re.compile(r"\d+ files")).wait_for()
        found = page.evaluate("() => [localStorage, sessionStorage].flatMap((store) => Object.keys(store))")
        listed = json.loads(page.locator("#offline-data").text_content())
        assert len(found) >= 14 and all(any(re.search(one["pattern"], key) for one in listed) for key in found), found
        assert page.evaluate("async () => [document.cookie, (await indexedDB.databases()).length]") == ["", 0]
        assert "f" in row["unit"].locator("td").last.inner_text()
        row["unit"].get_by_role("button", name="Clear: °C, °F or both").click()
        page.get_by_text("Cleared: °c, °f or both.").wait_for()
        assert "nothing" in row["unit"].locator("td").last.inner_text() and page.evaluate("() => localStorage.getItem('unit')") is None
        page.get_by_role("button", name="Clear all of it").click()
        page.get_by_text("this site keeps nothing on this device now").wait_for()
        assert page.evaluate("async () => [localStorage.length, sessionStorage.length, (await caches.keys()).length, (await navigator.serviceWorker.getRegistrations()).length]") == [0, 0, 0, 0]
        assert page.get_by_text("The reference is not kept on this device.").is_visible()


@pytest.mark.browser
def test_a_site_being_edited_is_not_answered_by_an_old_worker(small, device):
    """While editing there is no manifest; a worker of a built site that was served at the same address before goes."""
    with server(small) as (base, _):
        page = visit(device, base)
        for file in small.rglob("*.html"):
            file.write_text(re.sub(r'<link rel="manifest"[^>]*>', "", file.read_text(encoding="utf-8")), encoding="utf-8")
        page.evaluate("() => caches.keys().then((all) => Promise.all(all.map((name) => caches.delete(name))))")
        page.goto(f"{base}crops/leek/")
        page.wait_for_function("() => navigator.serviceWorker.getRegistrations().then((all) => all.length === 0)")


@pytest.mark.browser
def test_it_can_be_installed(site, browser):
    """Chromium's own judgement: no reason against installing."""
    context = browser.new_context(service_workers="allow")
    page = context.new_page()
    page.goto(site)
    client = context.new_cdp_session(page)
    manifest = client.send("Page.getAppManifest")
    assert manifest["errors"] == [] and json.loads(manifest["data"])["name"] == "Wrenfield Seed Library (invented)"
    reasons = [error["errorId"] for error in client.send("Page.getInstallabilityErrors")["installabilityErrors"]]
    assert [reason for reason in reasons if reason != "in-incognito"] == []
    context.close()


def test_manifest_points_at_what_is_there(built):
    manifest = json.loads((built / "manifest.webmanifest").read_text(encoding="utf-8"))
    assert all((built / icon["src"]).is_file() for icon in manifest["icons"]) and manifest["start_url"] == manifest["scope"] == "."
    for path in built.rglob("index.html"):
        (address,) = re.findall(r'<link rel="manifest" href="([^"]+)">', path.read_text(encoding="utf-8"))
        assert (path.parent / address).resolve() == (built / "manifest.webmanifest").resolve()
