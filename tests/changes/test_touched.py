"""What is touched is exact: one value changed, and these pages, charts, sheets and files differ, and no others."""

import time

import pytest

from build_tools.changes import opened
from build_tools.changes.compare import compare_versions

from .conftest import ROOT, Project

ALPHA = "crops/alpha.yml"
FIELDS = "Fields of the data files"  # shows whole files as examples


@pytest.fixture
def touched(project):
    """touched((file, old, new), …): what the edits of the sound tree touch."""

    def run(*edits, back: bool = False):
        kept = project.before()
        for edit in edits:
            project.edit(*edit)
        report = project.compare(*((project.root, kept) if back else (kept,)), whole=True)
        assert report.touched.why_not == ""
        return {word: set(names) - {FIELDS} for word, names in report.touched.groups}, report

    return run


def test_one_value_touches_exactly_what_shows_it(touched):
    found, _ = touched(("crops/beta.yml", "seed_life_years: {value: 4,", "seed_life_years: {value: 5,"))
    assert found == {
        "pages": {"Beta leaf", "Crops", "Seed life, crop by crop", "Age and test together", "Old seed and storage", "A file of lots", "Make your poster", "Labels for packets"},
        "charts": {"Beta leaf, seed life", "Seed life, crop by crop"}, "posters": {"Seed life"}, "cards": {"Beta leaf"},
        "downloads": {"downloads/crops.csv", "api/v1/crops.json", "api/v1/crops/beta.json", "compare/seed-life/figure.json"},
    }


def test_a_printed_cell_touches_what_is_measured(touched):
    found, _ = touched(("sources/table-one/days.csv", "Alpha,alpha,NG,NG,30,20,10,", "Alpha,alpha,NG,NG,30,20,11,"), back=True)
    assert "Alpha bean" in found["pages"] and "Beta leaf" not in found["pages"] and "Seed life, crop by crop" not in found["pages"]
    assert found["charts"] == {"Alpha bean, days and percentages"} and found["posters"] == {"Days to emergence"} and found["cards"] == set()
    assert {"downloads/tables/table-one/days.csv", "downloads/measured.csv"} <= found["downloads"] and "downloads/crops.csv" not in found["downloads"]


def test_words_of_a_poster_touch_that_poster_only(touched):
    found, _ = touched(("posters.yml", 'title: "Is it still good?"', 'title: "Is it good still?"'))
    assert found == {"pages": set(), "charts": set(), "posters": {"From packet to seedling"}, "cards": set(), "downloads": set()}


def test_definitions_touch_the_hand_written_page_that_shows_them(touched):
    found, _ = touched(("quantities.yml", "How many years good seed", "How many full years good seed"))
    assert found["pages"] == {"Methods"} and found["posters"] == found["cards"] == found["charts"] == set()


def test_a_new_data_version_and_a_moved_line_touch_nothing_and_are_said(touched):
    found, report = touched(("library.yml", 'data_version: "2026.11"', 'data_version: "2026.09"'), (ALPHA, "kind: vegetable", "# A comment that moves the lines below.\nkind: vegetable"))
    assert not any(found.values())
    assert report.form_only == (ALPHA,) and "record" in report.touched.notes[0] and [c.shown for c in report.changes] == ["2026.11 → 2026.09"]


def test_a_new_kind_of_file_does_not_hide_what_is_touched(project):
    kept = project.before()
    (kept / "data" / "seed-oil.yml").unlink()
    project.edit("place.yml", 'last_frost: "05-08"', 'last_frost: "05-09"')
    report = project.compare(kept, whole=True)
    assert report.touched.why_not == "" and "Sowing calendar" in report.touched.pages and "Only one version has data/seed-oil.yml" in report.touched.notes[0]


def test_the_text_of_a_guide_touches_its_page_only(touched):
    found, report = touched(("docs/guides/soaking.md", "Do it the evening before", "Do it on the evening before"))
    assert found == {"pages": {"Soaking"}, "charts": set(), "posters": set(), "cards": set(), "downloads": set()}
    assert [(c.name, c.what, c.kind) for c in report.changes] == [("The guide Soaking", "text changed", "wording")]


def test_a_figure_touches_the_guides_that_take_it_in(touched):
    found, _ = touched(("figures.yml", "beta-warm: {low: 4, high: 5,", "beta-warm: {value: 4,"))
    assert found["pages"] == {"Soaking"} and not found["downloads"]


def test_a_value_of_a_crop_touches_the_guides_that_take_it_in(touched):
    found, _ = touched((ALPHA, "minimum_c: {value: 10, sources: [table-one, table-two]}", 'minimum_c: {value: 12, sources: [table-one, table-two], departs: "Measured: none came up at 10 °C."}'), back=True)
    assert {"Soaking", "Alpha bean"} <= found["pages"]


def test_guides_that_only_one_version_has_are_new_pages(project):
    kept = project.before()
    for name in ("guides", "figures", "glossary"):
        (kept / "data" / f"{name}.yml").unlink()
    for path in (kept / "docs" / "guides").iterdir():
        path.unlink()
    report = project.compare(kept, whole=True)
    assert report.touched.why_not == "" and {"Soaking (new)", "From packet to seedling (new)"} <= set(report.touched.pages)
    assert {c.name for c in report.changes if c.kind == "added"} == {"Titles of guides", "Words of the trade", "Figures that guides quote", "The guide Soaking", "The guide From packet to seedling"}


def test_nothing_is_rendered_when_no_value_and_no_text_differs(project, monkeypatch):
    kept = project.before()
    project.edit(ALPHA, "kind: vegetable", "# A comment.\nkind: vegetable")
    monkeypatch.setattr("build_tools.changes.touched.touched", lambda *_: pytest.fail("rendered"))
    assert project.compare(kept, whole=True).form_only == (ALPHA,)


def test_the_real_data_takes_under_fifteen_seconds(tmp_path):
    """Two versions of the real data, read, compared and rendered; 15 s of this process's own time, however busy the machine."""
    import shutil

    project = Project(tmp_path / "project")
    shutil.rmtree(project.data)
    shutil.copytree(ROOT / "data", project.data)
    shutil.rmtree(project.root / "docs" / "guides")
    shutil.copytree(ROOT / "docs" / "guides", project.root / "docs" / "guides")
    project.edit("crops/tomato.yml", "seed_life_years: {value: 4,", "seed_life_years: {value: 4.5,")
    start = time.process_time()
    with opened(project.root, str(ROOT)) as base, opened(project.root, None) as head:
        report = compare_versions(base, head, project.root)
    spent = time.process_time() - start
    assert report.touched.why_not == ""
    assert {"Tomato", "Seed life, crop by crop"} <= set(report.touched.pages) and report.touched.cards == ("Tomato",)
    assert report.counts["values"] == 1 and spent < 15
