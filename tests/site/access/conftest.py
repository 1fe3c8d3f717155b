"""A tab for looking at pages: no motion, the theme's page for lost addresses where a host would show it."""

from __future__ import annotations

from urllib.parse import urlsplit

import pytest

from tests.site.browser import find_chromium, launch_flags, watched_context


@pytest.fixture(scope="session")
def looked_at(browser, site, reference):
    """(tab, what went wrong in it): shared by the tests here; emptied by `looking`."""
    prefix = urlsplit(reference.library["site_url"]).path.strip("/")
    with watched_context(browser, site, locale="en-GB", viewport={"width": 1280, "height": 900}, reduced_motion="reduce") as (context, trouble):
        # The page for lost addresses names its files from the top of the host; there the site is a folder of the library's address.
        context.route(f"{site}{prefix}/**", lambda route: _at_the_host(route, site, prefix))
        yield context.new_page(), trouble


def _at_the_host(route, site, prefix):
    answer = route.fetch(url=site + route.request.url.removeprefix(f"{site}{prefix}/"))
    if answer.status == 404 and route.request.resource_type == "document":
        answer = route.fetch(url=site + "404.html")
    route.fulfill(response=answer)


@pytest.fixture
def looking(looked_at):
    """The tab; fails the test on console errors and requests to other hosts."""
    page, trouble = looked_at
    trouble.clear()
    yield page
    page.emulate_media(color_scheme="null", forced_colors="null")
    if page.url.startswith("http"):
        page.evaluate("() => { localStorage.clear(); sessionStorage.clear(); }")
    assert trouble == []


@pytest.fixture(scope="module")
def large_text(browser, site):
    """A tab of a browser whose reader has set text of 32 px, twice the usual."""
    other = browser.browser_type.launch(executable_path=find_chromium(), args=[*launch_flags(), "--blink-settings=defaultFontSize=32"], headless=True)
    with watched_context(other, site, locale="en-GB", viewport={"width": 1280, "height": 900}, reduced_motion="reduce") as (context, trouble):
        yield context.new_page()
        assert trouble == []
    other.close()
