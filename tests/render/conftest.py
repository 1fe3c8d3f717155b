"""The browser and the built site of tests/site serve these tests too."""

from tests.site.conftest import browser, built  # noqa: F401
