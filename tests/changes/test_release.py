"""A release is recorded, read back, checked and shown; nothing is overwritten."""

import csv
import io
import json

import pytest

from build_tools.changes import CannotCompare
from build_tools.changes.release import record
from build_tools.changes.versions import opened
from build_tools.check import check_tree
from build_tools.check.schema_rules import SchemaSet
from build_tools.commands import changes as command
from build_tools.commands.__main__ import _parser
from build_tools.model import build_reference
from build_tools.model.releases import releases_of
from build_tools.problem import errors
from build_tools.read import read_tree
from build_tools.render import Rendered, what_changed
from build_tools.render.environment import make_environment

from .conftest import ROOT, Page

ALPHA = "crops/alpha.yml"
REASON = "Outside, since “Alpha”; grows, in beds."


@pytest.fixture
def edited(project):
    """The project with three changes since `before`."""
    kept = project.before()
    project.edit(ALPHA, "optimum_low_c: {value: 15.5, sources: [table-one]}", f'optimum_low_c: {{value: 18, sources: [table-one], departs: "{REASON}"}}')
    project.edit("place.yml", 'last_frost: "05-08"', 'last_frost: "05-09"')
    return kept


def release(project, kept, version="2026.12"):
    with opened(project.root, None) as head:
        return record(project.root, version, head, project.compare(kept), today="2026-12-03")


def sound(project):
    return errors(check_tree(read_tree(project.data), SchemaSet.load(ROOT / "schema")))


def test_written_and_read_back(project, edited):
    before = (project.data / "releases.yml").read_text(encoding="utf-8")
    said = release(project, edited)
    assert said == ["Release 2026.12 recorded: data/releases/2026.12.csv with 3 changes, and its entry in data/releases.yml. Mend its text there.", 'Set data_version in data/library.yml to "2026.12" (now "2026.11").']
    after = (project.data / "releases.yml").read_text(encoding="utf-8")
    entry = '  - version: "2026.12"\n    date: "2026-12-03"\n    text: "1 value and 1 text of 1 crop change; 1 value elsewhere changes; 1 value moves outside what is printed."\n'
    assert after == before.replace("releases:\n", f"releases:\n{entry}"), "everything else stays, comments too"
    assert sound(project) == []
    newest, older, first = releases_of(read_tree(project.data))
    assert (newest.version, newest.date, older.version, first.changes) == ("2026.12", "2026-12-03", "2026.11", ())
    value, reason, frost = newest.changes
    assert (value.crop, value.what, value.kind, value.before, value.after) == ("alpha", "Best range, low end", "value", "15.5 °C (60 °F)", "18 °C (64 °F)")
    assert (value.evidence_before, value.evidence_after, value.outside) == ("single family", "departs", "moves outside")
    assert reason.kind == "wording" and reason.after == REASON and (frost.crop, frost.about, frost.after) == ("", "The place", "05-09")


def test_the_table_has_the_columns_of_its_schema(project, edited):
    release(project, edited)
    schema = json.loads((ROOT / "schema" / "release-changes.schema.json").read_text(encoding="utf-8"))
    rows = list(csv.reader(io.StringIO((project.data / "releases" / "2026.12.csv").read_text(encoding="utf-8"))))
    assert rows[0] == list(schema["properties"]) and len(rows) == 4


def test_every_kind_of_change_makes_a_sound_table(project):
    """Sources and tables that go, a crop renamed, a cell put right, texts that look like formulas: all of it passes the checks of a release."""
    kept = project.before()
    project.edit("sources/table-two/life.csv", "Beta,beta,3-5,3,5", "Beta,beta,3-6,3,6")
    project.edit("sources/table-two/source.yml", 'publisher: "Invented College"', 'publisher: "=Invented; College"')
    project.edit("crops/alpha.yml", '"Soaked seed came up two days sooner in one trial."', '"=cmd; “quoted”, \\"again\\""')
    text = (project.data / "crops" / "beta.yml").read_text(encoding="utf-8").replace("id: beta", "id: beta-leaf")
    (project.data / "crops" / "beta.yml").unlink()
    project.write("crops/beta-leaf.yml", text)
    for file in ("sources/table-one/bands.csv", "sources/table-one/days.csv", "sources/table-two/life.csv"):
        project.edit(file, "Beta,beta,", "Beta,beta-leaf,")
    project.edit("seed-oil.yml", "beta:", "beta-leaf:")
    assert sound(project) == []
    release(project, kept)
    assert sound(project) == []
    changes = releases_of(read_tree(project.data))[0].changes
    assert {c.kind for c in changes} >= {"renamed", "printed cell", "wording"} and any(c.after == '=cmd; “quoted”, "again"' for c in changes)
    table = (project.data / "releases" / "2026.12.csv").read_text(encoding="utf-8")
    assert "\"'=cmd;" in table and ",=cmd" not in table


@pytest.mark.parametrize(("version", "words"), [
    ("2026.11", "is recorded already. Nothing is overwritten"), ("2026.09", "is recorded already"), ("2026.10", "is older than the newest release, 2026.11"),
    ("next", "is no version"), ("2026.13", "is no version"), ("../2026.12", "is no version"), ("", "is no version"),
])  # fmt: skip
def test_versions_that_are_refused(project, edited, version, words):
    before = {path: path.read_bytes() for path in project.data.rglob("*") if path.is_file()}
    with pytest.raises(CannotCompare, match=words):
        release(project, edited, version)
    assert before == {path: path.read_bytes() for path in project.data.rglob("*") if path.is_file()}


def test_a_second_time_a_broken_tree_and_nothing_changed_are_refused(project, edited):
    with pytest.raises(CannotCompare, match="Nothing changed since then"):
        release(project, project.root)
    release(project, edited)
    with pytest.raises(CannotCompare, match="recorded already"):
        release(project, edited)
    project.edit(ALPHA, "kind: vegetable", "kind: vegtable")
    with pytest.raises(CannotCompare, match=r"does not pass the checks \(1 problem\): run check first"):
        release(project, edited, "2027.01")


def test_a_table_left_behind_is_not_overwritten(project, edited):
    project.write("releases/2026.12.csv", "mine\n")
    with pytest.raises(CannotCompare):
        release(project, edited)
    assert (project.data / "releases" / "2026.12.csv").read_text(encoding="utf-8") == "mine\n"


def test_the_command_records_and_the_report_is_printed_all_the_same(project, edited, capsys):
    options = _parser("changes").parse_args(["changes", str(edited), "--release", "2026.12"])
    assert command.main(project.root, options) == 0
    told = capsys.readouterr()
    assert told.out.startswith("1 value and 1 text of 1 crop change") and told.err.startswith("Release 2026.12 recorded")
    assert command.main(project.root, options) == 2 and "No release was recorded." in capsys.readouterr().err
    with_head = _parser("changes").parse_args(["changes", str(edited), str(project.root), "--release", "2027.01"])
    assert command.main(project.root, with_head) == 2 and "leave HEAD out" in capsys.readouterr().err


@pytest.fixture
def shown(project, edited):
    """(page's HTML, what crop pages are told, files) after a release."""
    release(project, edited)
    reference = build_reference(read_tree(project.data))
    environment, rendered = make_environment(reference), Rendered()
    what_changed.add(rendered, reference, environment, project.root)
    return rendered.pages["what-changed.md"], lambda crop: what_changed.changes_of(reference, crop), rendered.files


def test_the_page_shows_releases_newest_first_and_each_crop_at_its_anchor(shown):
    page, changes_of, files = shown
    html = page.body()
    text = " ".join(Page(html).text.split())
    assert html.index('id="release-2026-12"') < html.index('id="release-2026-11"') < html.index('id="release-2026-09"') < html.index('id="crops"') < html.index('<h3 id="alpha">')
    assert "3 December 2026. 1 value and 1 text of 1 crop change" in text and "2 values, 1 text. All of them as a table (CSV)." in text
    assert "Best range, low end: 15.5 °C (60 °F) → 18 °C (64 °F). Evidence before: one independent source only; now: outside what the sources print, for a stated reason. Outside what is printed." in text
    assert f"Best range, low end, reason for departing, new: “{REASON}”" in text and "Last frost: 05-08 → 05-09." in text and "Delta pea" in text
    assert [anchor for anchor, _ in page.headings] == ["release-2026-12", "release-2026-11", "release-2026-09", "crops"]
    assert [release.version for release, _ in changes_of("alpha")] == ["2026.12", "2026.11"] and changes_of("beta") == []
    assert files["downloads/releases/2026.12.csv"]().startswith(b"crop,about,what,kind,")


def test_a_crops_page_leads_to_its_entries(project, edited):
    from build_tools.render import render

    release(project, edited)
    rendered = render(build_reference(read_tree(project.data)), project.root)
    assert 'href="../../what-changed/#alpha">Changes of this page</a>' in rendered.pages["crops/alpha.md"].body()
    assert 'href="../../what-changed/">What changed</a>' in rendered.pages["crops/beta.md"].body()


def test_the_page_without_any_release(project):
    (project.data / "releases.yml").unlink()
    for table in (project.data / "releases").iterdir():
        table.unlink()
    assert sound(project) == []
    reference, rendered = build_reference(read_tree(project.data)), Rendered()
    what_changed.add(rendered, reference, make_environment(reference), project.root)
    assert "No release has been recorded yet." in rendered.pages["what-changed.md"].body()


def test_the_first_release_is_said_plainly(reference):
    first = reference.releases[-1]
    assert first.changes == () and first.version == "2026.11"
    assert first.text == "The first release: 80 crops, 312 sources and 380 printed tables."
