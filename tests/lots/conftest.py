"""Fixtures of the tests on files of lots."""

import pytest

from build_tools.lots import catalogue_of, data_of
from tests.site.conftest import browser  # noqa: F401  (a fixture)


@pytest.fixture(scope="session")
def data(reference):
    """The catalogue as plain data: what the page gets."""
    return data_of(reference)


@pytest.fixture(scope="session")
def catalogue(data):
    return catalogue_of(data)
