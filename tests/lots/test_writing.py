"""Results as CSV, table, summary and sheet: nothing is lost, nothing is taken for a formula or for markup."""

from __future__ import annotations

import csv
import html.parser
import io

import pandas
import pytest

from build_tools.lots import RESULT_COLUMNS, VERDICTS, judge_lots
from build_tools.lots.judge import Result, by_need
from build_tools.lots.sheet import sheet_html
from build_tools.lots.write import (
    csv_cell,
    csv_lines,
    problems_text,
    summary,
    tally,
    terminal_table,
    verdicts_text,
)
from build_tools.render.downloads import csv_text
from build_tools.spreadsheet import guarded
from tests.lots.files import (
    HEADER,
    TODAY,
    file_of,
    judged,
    many_lots,
    read,
    row,
    written,
)

NASTY = ["=1+1", "+1", "-x", "@cmd", "-", "-5", 'say "x"', "a,b", "<b>&amp;", "é", "=HYPERLINK(\"x\")", "a;b", "'quoted'", "-5 to 3", "1.5", "=", "<script>alert(1)</script>"]


def nasty_file():
    cell = '"' + '"", "".join' + '"'
    assert cell  # the quoting below is that of RFC 4180
    quoted = ['"' + text.replace('"', '""') + '"' for text in NASTY]
    return file_of(*(row(lot=text, variety=text, tested="2026-10-01") for text in quoted))


def test_pandas_reads_the_csv_back(catalogue):
    text, problems = written(nasty_file(), "lots.csv", catalogue, 70)
    assert problems == ""
    table = pandas.read_csv(io.StringIO(text), dtype=str, keep_default_na=False)
    assert list(table.columns) == list(RESULT_COLUMNS) and len(table) == len(NASTY)
    assert [cell.removeprefix("'") if guarded(text) != text else cell for cell, text in zip(table.lot, NASTY, strict=True)] == NASTY
    numbers = pandas.read_csv(io.StringIO(text), keep_default_na=False)
    assert numbers.seeds.tolist() == [50] * len(NASTY) and numbers.next_test.tolist() == ["2027-04-01"] * len(NASTY)
    assert numbers.words[0] == "36 of 50, 72 % (58–83 %): reaches the line of 70 % with a chance of 61 %."


def test_no_cell_begins_like_a_formula(catalogue):
    text, _ = written(nasty_file(), "lots.csv", catalogue, 70)
    cells = [cell for cells in csv.reader(io.StringIO(text)) for cell in cells]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "@"))]
    assert {cell for cell in cells if cell.startswith("-")} == {"-", "-5", "-5 to 3"}


def test_the_csv_is_that_of_the_downloads(catalogue):
    # The same guard and the same quoting as the site's own CSV files, which the standard library writes.
    results = judged(nasty_file(), catalogue)
    assert "".join(csv_lines(results)) == csv_text(result._asdict() for result in results)
    for text in NASTY:
        assert next(csv.reader([csv_cell(text)]))[0] == guarded(text)


def test_the_columns_are_those_of_the_results():
    assert Result._fields == RESULT_COLUMNS


class Texts(html.parser.HTMLParser):
    """The texts of table cells and list items, and the names of all elements."""

    def __init__(self):
        super().__init__()
        self.names, self.rows, self.items, self.inside = set(), [], [], None

    def handle_starttag(self, tag, attrs):
        self.names.add(tag)
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th"):
            self.rows[-1].append("")
        if tag == "li":
            self.items.append("")
        self.inside = tag if tag in ("td", "th", "li") else self.inside

    def handle_endtag(self, tag):
        if tag == self.inside:
            self.inside = None

    def handle_data(self, data):
        if self.inside in ("td", "th"):
            self.rows[-1][-1] += data
        elif self.inside == "li":
            self.items[-1] += data


def sheet(raw, catalogue, invented=False, name="<lots> & co.csv"):
    reading = read(raw, catalogue)
    results = list(judge_lots(reading, catalogue, 70, TODAY))
    verdicts = tally(results)
    text = "".join(sheet_html(by_need(results), reading.problems, name=name, library="Example & Daughters", line=70, today=TODAY, invented=invented, verdicts=verdicts, said=summary(reading, verdicts)))
    parsed = Texts()
    parsed.feed(text)
    return text, parsed, results


def test_the_sheet_escapes_everything(catalogue):
    raw = nasty_file() + row(lot="<i>", normal="<img src=x>").encode() + b"\n"
    text, parsed, results = sheet(raw, catalogue)
    assert parsed.names == {"html", "head", "meta", "title", "style", "body", "h1", "h2", "p", "table", "thead", "tbody", "tr", "th", "td", "dl", "dt", "dd", "ul", "li"}
    assert sorted(cells[0] for cells in parsed.rows[1:]) == sorted(NASTY)
    assert [cells[3] for cells in parsed.rows[1:]] == [result.words for result in by_need(results)]
    (item,) = parsed.items
    assert "“<img src=x>” is not a number" in item
    assert "&lt;lots&gt; &amp; co.csv" in text and "Example &amp; Daughters" in text and "Invented" not in text


def test_the_sheet_stands_alone_and_repeats_its_header(catalogue):
    text, _, _ = sheet(file_of(row()), catalogue, invented=True)
    assert "display: table-header-group" in text and "@page" in text and "Invented example" in text
    for word in ("src=", "href=", "url(", "@import", "<script", "http"):
        assert word not in text
    assert f"Seed lots, {TODAY}" in text and "lending line 70 %" in text


def test_many_problems_are_cut_in_the_sheet_and_counted(catalogue):
    _, parsed, _ = sheet(file_of(row(), *[row(lot="B", normal="99")] * 205), catalogue)
    assert len(parsed.items) == 200
    text, _, _ = sheet(file_of(row(), *[row(lot="B", normal="99")] * 205), catalogue)
    assert "And 5 more." in text


def test_lots_needing_action_come_first(catalogue):
    results = by_need(judged(many_lots(300), catalogue))
    ranks = [list(VERDICTS).index(result.verdict) for result in results]
    assert ranks == sorted(ranks) and len(set(ranks)) >= 5
    due = [result.next_test for result in results if result.verdict == "test due"]
    assert due == sorted(due)


def test_summary_and_tally(catalogue):
    reading = read(file_of(row(tested=TODAY), row(lot="B", normal="32"), row(lot="C", normal="99")), catalogue)
    verdicts = tally(judge_lots(reading, catalogue, 70, TODAY))
    assert summary(reading, verdicts) == "2 lots read; 1 needs a look; 1 row was left out."
    assert verdicts_text(verdicts) == "Hold: 1; lend marked: 1."
    reading = read(file_of(row(tested=TODAY)), catalogue)
    assert summary(reading, tally(judge_lots(reading, catalogue, 70, TODAY))) == "1 lot read; none needs a look."


def test_terminal_table_is_cut_and_aligned(catalogue):
    results = judged(file_of(*(row(lot=f"{number:02d} " + "x" * 50, tested=TODAY) for number in range(70))), catalogue)
    lines = terminal_table(results).split("\n")
    assert len(lines) == 61 and lines[0].split() == ["Lot", "Crop", "Result", "Chance", "Verdict", "Next", "test"]
    assert lines[1].split("  ")[0].endswith("…") and "36 of 50, 72 % (58–83 %)" in lines[1]
    assert {line.index("Tomato") for line in lines[1:]} == {lines[0].index("Crop")}


@pytest.mark.parametrize(("level", "text"), [("error", "lots.csv:2 normal: 99 normal"), ("note", "lots.csv:1: Note: Not read")])
def test_problems_as_text(level, text, catalogue):
    reading = read(file_of(row(normal="99") + ",x", header=HEADER + ",Grower"), catalogue)
    lines = problems_text(p for p in reading.problems if p.level == level).split("\n")
    assert lines[0].startswith(text) and lines[1:] == [""]
