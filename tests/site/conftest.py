"""Fixtures for tests in a real browser."""

from __future__ import annotations

import os
import warnings
from pathlib import Path

import pytest

from tests.site.browser import serve, shared_browser, watched_context

pytest.register_assert_rewrite("tests.site.calculators")  # before a test imports it

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="session")
def browser():
    """A running Chromium. Without one: skipped with the reason, but a failure where CI=true."""
    manager = shared_browser()
    try:
        running = manager.__enter__()
    except RuntimeError as error:
        if os.environ.get("CI", "").lower() == "true":
            pytest.fail(str(error))
        pytest.skip(str(error))
    yield running
    manager.__exit__(None, None, None)


@pytest.fixture(scope="session")
def built(tmp_path_factory):
    """Folder of the real site, built once."""
    from build_tools.site import build

    folder = tmp_path_factory.mktemp("built") / "site"
    with warnings.catch_warnings():
        warnings.simplefilter("default")  # the site generator's own warnings fail its own tests
        status = build(ROOT, folder)
    assert status == 0, "the site could not be built; see the captured output"
    return folder


@pytest.fixture(scope="session")
def site(built):
    """Address of the real site, served on this machine."""
    with serve(built) as base:
        yield base


@pytest.fixture(scope="session")
def modules():
    """Address of the modules that the pages' scripts are linked from, each to be imported alone."""
    with serve(ROOT / "docs" / "assets" / "js") as base:
        yield base


@pytest.fixture(scope="session")
def watched(browser):
    """One context for all pages: the site's own files are fetched and compiled once, not for every test."""
    with watched_context(
        browser, locale="en-GB", viewport={"width": 1280, "height": 900},
        permissions=["clipboard-read", "clipboard-write"],
    ) as (context, trouble):
        yield context, trouble


@pytest.fixture(scope="session")
def tab(watched):
    """The one tab that tests take turns with."""
    return watched[0].new_page()


@pytest.fixture
def page(watched, tab, request):
    """The tab, with nothing remembered from the test before; fails the test on console errors or foreign requests.

    A module with KEEPS_THE_PAGE goes on with the page as it is (Sheet.open makes it new); for others it is emptied.
    """
    trouble = watched[1]
    trouble.clear()
    tab.set_viewport_size({"width": 1280, "height": 900})
    tab.emulate_media(media="null", color_scheme="null")
    yield tab
    if tab.url.startswith("http"):
        tab.evaluate("() => { localStorage.clear(); sessionStorage.clear(); }")
    if not getattr(request.module, "KEEPS_THE_PAGE", False):
        tab.goto("about:blank")
    assert trouble == []
