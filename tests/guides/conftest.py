"""Guides made up for a test, on the small sound tree."""

from __future__ import annotations

import shutil
from dataclasses import replace

import pytest
from markupsafe import Markup

from build_tools.model import build_reference
from build_tools.read import read_tree
from build_tools.read.guide_text import GuideText
from build_tools.render.guides.text import written
from tests.rules.trees import HERE


@pytest.fixture(scope="session")
def small():
    """The model of the small sound tree."""
    return build_reference(read_tree(HERE / "tree" / "data"))


@pytest.fixture(scope="session")
def page(small):
    """page(text): that text as the guide Soaking of the small tree, written as HTML."""

    def run(text: str, guide: str = "soaking", reference=None):
        of = reference or small
        return written(of, replace(of.guides[guide], text=GuideText("docs/guides/soaking.md", text)), "../../", lambda pull: Markup("<aside>{}</aside>").format(pull.raw))

    return run


@pytest.fixture
def project(root, tmp_path):
    """A copy of the project to change: data, guides, schemas."""
    for name in ("data", "docs/guides", "schema"):
        shutil.copytree(root / name, tmp_path / name)
    return tmp_path
