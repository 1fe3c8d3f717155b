"""Fixtures for the tests of what helps contributors."""

import pytest

from build_tools.contribute.crop_names import NameBook
from build_tools.read import read_tree

from .project import Project


@pytest.fixture(scope="session")
def tree(root):
    """The real data, read once."""
    return read_tree(root / "data")


@pytest.fixture(scope="session")
def book(tree):
    """The names of the real data."""
    return NameBook.of(tree)


@pytest.fixture
def project(root, tmp_path, capsys, monkeypatch):
    """A scratch copy of the data to run commands on."""
    return Project(root / "data", root, tmp_path, capsys, monkeypatch)


@pytest.fixture
def small(root, tmp_path, capsys, monkeypatch):
    """The same with the small tree of the rules' tests: Alpha bean, Beta leaf, the kind Gamma root, all invented."""
    return Project(root / "tests" / "rules" / "tree" / "data", root, tmp_path, capsys, monkeypatch)
