"""The printers: what stands out, what a hostile text cannot do, how long a comment gets, and JSON as its schema says."""

import json
import re

import jsonschema
import markdown
import pytest

from build_tools.changes import Change, Report, Touched
from build_tools.changes.document import document
from build_tools.changes.printers import (
    LONGEST_COMMENT,
    PRINTERS,
    as_html,
    as_json,
    as_markdown,
    as_text,
    markdown_escaped,
)
from tests.rules.trees import SOUND

from .conftest import Page, one

HOSTILE = [
    "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "![pixel](https://evil.example/p.png)", "[click](javascript:alert(1))", "@octocat and @org/team", "fixes #12, GH-7",
    "owner/repo#3", "https://evil.example/x", "www.evil.example", "mail@evil.example", "| a | b |\n|---|---|", "`code` **bold** __x__ ~~y~~", "--></details>", "{{ 7*7 }} {% raw %}",
    "$\\frac{1}{2}$", "\x1b[31mred\x07", "\u202egnirts", "- item\n# head\n> quote\n1. one", "&lt;b&gt; &#64;x", "<!-- hidden", "\\", "```\nfence", "[ref]: https://evil.example", "[^1]: note", ":tada: <http://evil.example>",
    "1. one", "23) two", "- three", "+ four", "=====", "---",
]  # fmt: skip


@pytest.fixture
def hostile(project):
    """A report in which every text of the data is hostile."""
    kept = project.before()
    texts = json.dumps(" ".join(HOSTILE).replace("\x1b", "").replace("\x07", "").replace("\u202e", ""), ensure_ascii=False)
    project.edit("crops/alpha.yml", '"Soaked seed came up two days sooner in one trial."', texts)
    project.edit("crops/alpha.yml", '"first bean"', json.dumps(HOSTILE[0]))
    project.edit("crops/alpha.yml", 'common: "Alpha bean"', f"common: {json.dumps(HOSTILE[4] + HOSTILE[10])}")
    project.edit("crops/alpha.yml", "maximum_c: {value: 35, sources: [table-one]}", f"maximum_c: {{value: 50, sources: [table-one], departs: {json.dumps(HOSTILE[2] + HOSTILE[7])}}}")
    project.edit("sources/table-two/source.yml", 'publisher: "Invented College"', f"publisher: {json.dumps(HOSTILE[3])}")
    project.edit("sources/table-two/life.csv", "Beta,beta,3-5,3,5", f'"{HOSTILE[1]}",beta,3-5,3,5')
    project.write("crops/<b>@x.yml", "[")
    return project.compare(kept)


def test_html_holds_no_markup_of_the_data(hostile):
    page = Page(as_html(hostile))
    assert set(page.tags) <= {"html", "head", "meta", "title", "style", "body", "h1", "h2", "p", "ul", "li", "strong"}
    assert {(tag, name) for tag, name, _ in page.attributes} <= {("html", "lang"), ("meta", "charset"), ("meta", "name"), ("meta", "content"), ("meta", "http-equiv"), ("li", "class")}
    assert "default-src 'none'" in next(value for tag, name, value in page.attributes if name == "content" and "src" in value)
    assert "<script>alert(1)</script>" in page.text


def test_markdown_makes_no_markup_of_the_data(hostile):
    text = as_markdown(hostile)
    page = Page(markdown.markdown(text, extensions=["tables", "fenced_code", "footnotes"]))
    assert set(page.tags) <= {"p", "strong", "h3", "ul", "li"}
    assert "alert(1)" in page.text and not re.search(r"@\w|#\d|https?://|www\.\w|\bGH-\d", page.text), "a mention, reference or address stays whole"
    assert "`" not in text and "<" not in text and "|" not in text


@pytest.mark.parametrize("text", HOSTILE)
def test_a_text_is_shown_as_it_is_and_nothing_else(text):
    line = " ".join(text.replace("\x1b", "").replace("\x07", "").replace("\u202e", "").split())
    for before in ("x: ", ""):
        page = Page(markdown.markdown(f"- {before}{markdown_escaped(line)}", extensions=["tables", "fenced_code", "footnotes"]))
        assert page.tags == ["ul", "li"] and page.text.replace("\u200b", "").strip() == f"{before}{line}"


def test_the_terminal_gets_no_control_characters():
    report = Report("a\x1b[31m", "b\u202e", (Change("crop", "x", "X\x07\n# Y", "y\r", "value", shown="z\x1b]0;title\x07"),))
    text = as_text(report)
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e]", text) and "\n# Y" not in text and "\n# Y" not in as_markdown(report)


def test_no_control_character_of_a_name_reaches_the_terminal(project, tmp_path):
    folder = tmp_path / "odd\x1b[31m\u202e"
    folder.mkdir()
    (folder / "data").symlink_to(SOUND)
    text = as_text(project.compare(folder))
    assert "\x1b" not in text and "\u202e" not in text


def test_the_first_line_sums_up_and_what_leaves_the_span_stands_first(hostile):
    blocks = document(hostile)
    assert blocks[0].text == hostile.summary and blocks[2].text == "Outside what is printed"
    assert blocks[3].strong and blocks[3].lines[0] == "Printed: 35 °C (95 °F)."
    for printer in (as_text, as_markdown):
        assert printer(hostile).split("\n")[0].strip("*").replace("&#", "")[:20] == hostile.summary[:20]
    assert Page(as_html(hostile)).tags.index("h1") < Page(as_html(hostile)).tags.index("h2")


def test_without_a_reason_its_absence_is_said(project):
    kept = project.before()
    project.edit("crops/alpha.yml", "maximum_c: {value: 35,", "maximum_c: {value: 50,")
    text = as_markdown(project.compare(kept))
    assert "- **Alpha bean, Maximum soil temperature**: **35 → 50 °C (95 → 122 °F)**\n  - Printed: 35 °C (95 °F).\n  - No reason is given." in text


def test_a_printed_table_is_said_never_to_change(project):
    kept = project.before()
    project.edit("sources/table-two/life.csv", "Alpha,alpha,3,3,3", "Alpha,alpha,4,4,4")
    text = as_text(project.compare(kept))
    assert "Printed tables\n" in text and "kept as printed and never corrected" in text.replace("\n", " ") and "column years_min: “3” → “4”" in text.replace("\n      ", " ")


def many_changes(count: int) -> Report:
    changes = tuple(Change("crop", f"crop-{n}", f"Crop @{n} | x", "Seed life", "value", "1", "2", f"about 1 year → about 2 years {'<b>' * 30}") for n in range(count))
    return Report("a", "b", changes)


def test_a_comment_is_never_too_long_and_says_what_is_left_out():
    text = as_markdown(many_changes(2000))
    assert len(text) <= LONGEST_COMMENT and len(text) > LONGEST_COMMENT - 1000
    left = int(re.search(r"The report is longer than a comment may be: (\d+) more lines are left out here", text)[1])
    whole = as_markdown(many_changes(2000), longest=10**9)
    assert whole.startswith(text[: text.index("\n\nThe report is longer")]) and whole.count("\n") - text.count("\n") == left - 2


def test_many_changes_of_one_thing_are_shown_in_part_and_json_has_all():
    changes = tuple(Change("source", "s", "S", f"row {n}", "printed cell", "1", "2", "1 → 2") for n in range(500))
    report = Report("a", "b", changes)
    assert "and 440 more" in as_text(report) and len(json.loads(as_json(report))["changes"]) == 500


def test_names_of_what_is_touched_ten_then_how_many_more():
    report = Report("a", "b", (Change("crop", "x", "X", "y", "value", shown="z"),), touched=Touched(pages=tuple(f"Page {n}" for n in range(13)), cards=("X",)))
    text = as_markdown(report)
    assert "### Touched: 13 pages, 1 card" in text and "- **Pages**: Page 0; Page 1; " in text and "; Page 9 and 3 more" in text and "Page 10" not in text


def test_what_came_and_went_is_named(project):
    kept = project.before()
    project.edit("crops/beta.yml", "herb", "flower")
    (project.data / "seed-oil.yml").unlink()
    (project.data / "crops" / "alpha.yml").unlink()
    text = as_text(project.compare(kept))
    assert "Removed: 2\n----------\n  Crop: Alpha bean\n  File of data: data/seed-oil.yml\n" in text


@pytest.fixture
def schema(root):
    schema = json.loads((root / "schema" / "report-changes.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def test_json_is_as_its_schema_says(schema, hostile, project):
    for report in (hostile, many_changes(3), Report("a", "b"), project.compare(project.root)):
        data = json.loads(as_json(report))
        assert list(schema.iter_errors(data)) == [] and data["summary"] == report.summary
    data = json.loads(as_json(hostile))
    assert data["counts"]["values"] == len([c for c in data["changes"] if c["kind"] == "value"]) > 0
    assert data["unread"][0]["file"] == "data/crops/<b>@x.yml"
    del data["counts"]["texts"]
    data["changes"][0]["kind"] = "other"
    assert len(list(schema.iter_errors(data))) == 2


def test_json_of_a_whole_report_is_as_its_schema_says(schema, project):
    kept = project.before()
    project.edit("crops/beta.yml", "seed_life_years: {value: 4,", "seed_life_years: {value: 5,")
    report = project.compare(kept, whole=True)
    data = json.loads(as_json(report))
    assert list(schema.iter_errors(data)) == [] and data["touched"]["known"] and "Beta leaf" in data["touched"]["pages"]
    assert one(report, kind="value").quantity == "seed_life_years"


@pytest.mark.parametrize("form", PRINTERS)
def test_nothing_changed_is_said_first(project, form):
    text = PRINTERS[form](project.compare(project.root))
    assert "Nothing changes." in text.split("<h1>")[-1].split("\n")[0] + (text if form == "json" else "")
