"""Fixtures shared by all tests."""

from pathlib import Path

import pytest

from build_tools.model import load
from build_tools.printers import as_text

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def root() -> Path:
    """The project's top folder."""
    return ROOT


@pytest.fixture(scope="session")
def reference():
    """The model of the real data; a problem in the data fails every test that needs it."""
    reference, problems = load(ROOT)
    assert reference is not None, as_text(problems)
    return reference
