"""The built site, for tests of what it passes on."""

from tests.site.conftest import built  # noqa: F401
