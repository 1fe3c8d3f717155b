"""A real Chromium for tests: finding one, starting it once, serving folders to it."""

from __future__ import annotations

import contextlib
import functools
import http.server
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from build_tools.bench_readers import serving

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome",
         "msedge")
MAC_PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
)
WINDOWS_PLACES = (
    r"Google\Chrome\Application\chrome.exe",
    r"Chromium\Application\chrome.exe",
    r"Microsoft\Edge\Application\msedge.exe",
)
FLAGS = ("--headless", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync")
LAID_OUT = """{
  const sheet = new CSSStyleSheet();
  sheet.replaceSync("* { content-visibility: visible !important; }");
  document.adoptedStyleSheets.push(sheet);
  document.addEventListener("DOMContentLoaded", () => document.dispatchEvent(new Event("visibilitychange")));
}"""
STANDS = "() => document.querySelector('[data-later]') === null"  # no part of the page waits for a frame
# What has this id is at the top, or as near to it as the end of the page lets it come.
LANDED = "(place) => { const top = document.getElementById(place).getBoundingClientRect().top; return top >= 0 && (top < 150 || scrollY + innerHeight >= document.documentElement.scrollHeight - 2); }"
HOW_TO_GET_ONE = (
    "no Chromium-like browser found: install one (Debian: apt-get install chromium), or set "
    "CHROMIUM to its executable, and have the Python package playwright installed"
)


def pass_on(page, milliseconds: int) -> None:
    """Until so long has passed by the page's own clock: on a busy machine too, what was set to run sooner has run."""
    page.evaluate("(time) => new Promise((done) => setTimeout(done, time))", milliseconds)


def find_chromium() -> str | None:
    """Path of a Chromium-like browser, or None.

    Order: environment variable CHROMIUM, the names on PATH, the usual places of macOS and
    Windows, the copy that Playwright downloaded, if any. A CHROMIUM that does not exist is an
    error (FileNotFoundError) rather than a silent fall-back.
    """
    named = os.environ.get("CHROMIUM")
    if named:
        found = shutil.which(named)
        if found is None:
            raise FileNotFoundError(f"CHROMIUM names {named!r}, which is not an executable")
        return found
    for name in NAMES:
        found = shutil.which(name)
        if found:
            return found
    for place in _usual_places():
        if place.is_file():
            return str(place)
    return _downloaded_by_playwright()


def _usual_places() -> list[Path]:
    if sys.platform == "darwin":
        return [Path(place) for place in MAC_PLACES]
    if sys.platform == "win32":
        roots = [os.environ.get(name) for name in
                 ("ProgramFiles", "ProgramFiles(x86)", "LocalAppData")]
        return [Path(root, place) for root in roots if root for place in WINDOWS_PLACES]
    return []


def _downloaded_by_playwright() -> str | None:
    if sys.platform == "darwin":
        cache = Path.home() / "Library" / "Caches"
    elif sys.platform == "win32":
        cache = Path(os.environ.get("LocalAppData", Path.home()))
    else:
        cache = Path.home() / ".cache"
    folder = Path(os.environ.get("PLAYWRIGHT_BROWSERS_PATH") or cache / "ms-playwright")
    for name in ("chrome", "headless_shell", "Chromium", "chrome.exe"):
        for path in sorted(folder.glob(f"chromium*/**/{name}"), reverse=True):
            if path.is_file() and os.access(path, os.X_OK):
                return str(path)
    return None


def _fetched() -> str | None:
    """Let Playwright fetch its own Chromium, once; None when that does not work here."""
    print("No Chromium found; trying to fetch one (up to five minutes) …", file=sys.stderr, flush=True)
    try:
        subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], capture_output=True, timeout=300, check=True)
    except (OSError, subprocess.SubprocessError):
        return None
    return _downloaded_by_playwright()


def launch_flags() -> list[str]:
    """Command-line flags; the sandbox is off only where it cannot work: as root."""
    as_root = hasattr(os, "geteuid") and os.geteuid() == 0
    return [*FLAGS, "--no-sandbox"] if as_root else list(FLAGS)


class _Shared:
    """The one running browser: Playwright allows a single synchronous driver a process."""

    users = 0
    driver = None
    browser = None


@contextlib.contextmanager
def shared_browser() -> Iterator:
    """The browser, started by the first user and closed by the last.

    Raises RuntimeError with a plain reason when there is no browser or no Playwright.
    """
    if _Shared.users == 0:
        _start()
    _Shared.users += 1
    try:
        yield _Shared.browser
    finally:
        _Shared.users -= 1
        if _Shared.users == 0:
            _Shared.browser.close()
            _Shared.driver.stop()


def _start() -> None:
    try:
        from playwright.sync_api import sync_playwright
    except ImportError as error:
        raise RuntimeError(HOW_TO_GET_ONE) from error
    executable = find_chromium() or _fetched()
    if executable is None:
        raise RuntimeError(HOW_TO_GET_ONE)
    driver = sync_playwright().start()
    try:
        browser = driver.chromium.launch(
            executable_path=executable, args=launch_flags(), headless=True
        )
    except Exception:
        driver.stop()
        raise
    # What a page keeps on the device would answer for the next page of a test; the tests of that ask for it.
    browser.new_context = functools.partial(browser.new_context, service_workers="block")
    _Shared.driver, _Shared.browser = driver, browser


class _QuietHandler(http.server.SimpleHTTPRequestHandler):
    # Windows may have other types in its registry, and a module of another type is refused.
    extensions_map = {
        **http.server.SimpleHTTPRequestHandler.extensions_map,
        ".js": "text/javascript", ".mjs": "text/javascript", ".css": "text/css",
        ".svg": "image/svg+xml", ".json": "application/json",
    }

    def do_GET(self):
        # Browsers ask for this by themselves; a missing one is no fault of the page under test.
        if self.path == "/favicon.ico" and not Path(self.directory, "favicon.ico").is_file():
            self.send_response(204)
            self.end_headers()
            return
        super().do_GET()

    def log_message(self, format, *arguments):
        pass


def serve(folder: Path) -> contextlib.AbstractContextManager[str]:
    """Serve a folder on this machine only; yields the base address, ending in a slash."""
    return serving(folder, _QuietHandler)


@contextlib.contextmanager
def watched_context(browser, base: str = "", scrolled: bool = True, **options) -> Iterator:
    """A fresh browser context that remembers trouble.

    Yields (context, trouble): `trouble` gains a line for each console error, uncaught error and
    request to any host but the one of `base` (with no base: any host but 127.0.0.1).
    `scrolled`: what is laid out once it comes near the screen, or in one of the next frames, is
    laid out at once, as for a reader who has scrolled there; without it the text of such parts
    can't be read by `inner_text`.
    """
    trouble: list[str] = []
    context = browser.new_context(**options)
    if scrolled:
        context.add_init_script(LAID_OUT)
    allowed = base or "http://127.0.0.1"

    def on_request(request):
        if not request.url.startswith((allowed, "data:", "blob:", "about:")):
            trouble.append(f"request to {request.url}")

    def on_page(page):
        page.on("console", lambda message: trouble.append(f"console: {message.text}")
                if message.type == "error" else None)
        page.on("pageerror", lambda error: trouble.append(f"uncaught: {error}"))

    context.on("request", on_request)
    context.on("page", on_page)
    try:
        yield context, trouble
    finally:
        context.close()
