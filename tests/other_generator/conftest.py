"""The browser and the built site of tests/site serve these tests too; the plain folder is written once."""

import pytest

from build_tools.other_generator.folder import write_pages
from build_tools.render import render
from tests.site.conftest import browser, built  # noqa: F401


@pytest.fixture(scope="session")
def rendered(root, reference):
    return render(reference, root)


@pytest.fixture(scope="session")
def folder(root, reference, rendered, tmp_path_factory):
    """The plain folder of the real site."""
    target = tmp_path_factory.mktemp("other") / "pages"
    assert write_pages(reference, rendered, root, target) == len(list((target / "pages").rglob("index.md")))
    return target
