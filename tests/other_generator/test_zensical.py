"""Another site generator makes the same site of the plain folder. It is no part of the project: without it this is skipped; `pages --try` brings it."""

import re
import shutil
import tomllib

import pytest

from build_tools.commands.pages import ENVIRONMENT, LOCK
from build_tools.other_generator import compare, zensical
from build_tools.set_up import python_of
from tests.site.browser import serve, watched_context

KINDS = ("crops/[a-z-]+", "guides/[a-z-]+", "calculators/[a-z-]+", "compare/[a-z-]+", "treatments|sources|disagreements|methods|fields|checks|api|credits|correct|contributing")


@pytest.fixture(scope="module")
def elsewhere(root, folder, tmp_path_factory):
    """The site as Zensical builds it, from a copy of the plain folder."""
    python = python_of(root / ENVIRONMENT)
    if not zensical.installed(python):
        pytest.skip(f"Zensical is not installed in {ENVIRONMENT}; python3 -m build_tools pages --try brings it")
    place = tmp_path_factory.mktemp("zensical") / "pages"
    shutil.copytree(folder, place)
    built = zensical.build(place, python)
    assert built.well, built.said
    return built.site


def test_it_has_the_same_pages_with_the_same_main_part_and_no_broken_link(built, elsewhere, reference):
    found = compare.compared(built, elsewhere, [crop.name for crop in reference.crops.values()])
    assert found.pages > 120 and found.alike, found


def test_ten_pages_of_each_kind_read_the_same(built, elsewhere):
    """The same by another way: only the text, of pages chosen by their address."""
    for kind in KINDS:
        names = [p.parent.relative_to(built).as_posix() for p in sorted(built.rglob("index.html"))]
        chosen = [name for name in names if re.fullmatch(kind, name)][:10]
        assert chosen
        for name in chosen:
            texts = [compare.Reader((site / name / "index.html").read_text(encoding="utf-8")).main[0] for site in (built, elsewhere)]
            assert texts[0] == texts[1] and len(texts[0]) > 500, name


def test_its_search_finds_a_crop_and_a_calculator_works_in_a_browser(browser, elsewhere):
    with serve(elsewhere) as base, watched_context(browser, base, viewport={"width": 1280, "height": 900}) as (context, trouble):
        page = context.new_page()
        page.goto(base + "calculators/test-size/")
        page.get_by_text("Set 62 seeds").first.wait_for(timeout=15_000)
        page.goto(base)
        page.keyboard.press("/")
        page.wait_for_timeout(500)
        page.keyboard.type("tomato")
        page.locator("a[href*='crops/tomato/']").last.wait_for(timeout=15_000)
        assert trouble == []


def test_its_lock_file_holds_hashes_and_no_host_and_the_site_needs_none_of_it(root):
    text = (root / LOCK).read_text(encoding="utf-8")
    packages = re.split(r"\n(?=\S)", text.strip())
    assert any(p.startswith("zensical==0.") for p in packages) and all("--hash=sha256:" in p for p in packages) and "://" not in text
    groups = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    assert [name.split(">=")[0] for name in groups["dependency-groups"]["other-generator"]] == ["zensical"]
    assert all("zensical" not in (root / name).read_text(encoding="utf-8") for name in ("requirements.lock", "requirements-test.lock"))
