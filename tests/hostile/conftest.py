"""The whole site built once from data with a harmful text in every free field."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.site.conftest import browser  # noqa: F401  (a fixture)

from .harm import Page
from .spoiled import names_of_any_letters, spoiled_project


@dataclass(frozen=True)
class Spoiled:
    """The project with harmful texts, its built site, and what was put where: {place: text}."""

    project: Path
    site: Path
    given: dict[str, str]
    pages: dict[str, Page]


@pytest.fixture(scope="session")
def spoiled(root, tmp_path_factory) -> Spoiled:
    from build_tools.site import build

    project = tmp_path_factory.mktemp("spoiled") / "project"
    project.mkdir()
    given = spoiled_project(root, project).given
    with warnings.catch_warnings(), names_of_any_letters():
        warnings.simplefilter("default")  # the site generator's own warnings fail its own tests
        status = build(project, project.parent / "site")
    assert status == 0, "harmful texts stopped the build; see the captured output"
    site = project.parent / "site"
    return Spoiled(project, site, given, {path.relative_to(site).as_posix(): Page(path.read_text(encoding="utf-8")) for path in sorted(site.rglob("*.html"))})
