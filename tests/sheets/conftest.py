"""The browser of tests/site serves these tests too."""

from tests.site.conftest import browser, built, page, site, tab, watched  # noqa: F401
