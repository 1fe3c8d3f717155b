"""The browser for the twin tests: the same one as the site tests use."""

from tests.site.conftest import browser  # noqa: F401  (a fixture)
