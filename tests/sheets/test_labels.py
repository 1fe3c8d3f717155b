"""Labels: sheets that add up to their paper, what a label says and never leaves out, nothing outside its label; command and page alike."""

import csv
import io
import json
from dataclasses import replace

import pdfplumber
import pytest
from scipy.stats import norm

from build_tools.commands.__main__ import main
from build_tools.lots import catalogue_of, data_of, judge_lots, read_lots
from build_tools.render.sheets.fonts import widths
from build_tools.render.sheets.label_sheets import (
    LABEL_SHEETS,
    LabelSheet,
    does_not_fit,
)
from build_tools.render.sheets.labels import label_pages, label_words, warmth_words
from build_tools.render.sheets.marks import flat
from build_tools.render.sheets.paper import PAPERS
from build_tools.render.sheets.poster_data import UNITS, poster_data
from build_tools.render.sheets.type import Type
from tests.site.browser import serve, watched_context

from .apart import APART
from .boxes import POINTS, overlapping, text_boxes

ROW = {"lot": "A1", "crop": "Tomato", "variety": "", "harvested": "2024", "tested": "2026-03-12", "seeds": "50", "normal": "36", "percent": "72", "low": "58", "high": "83", "verdict": "lend marked", "next_test": "2026-09-12"}


@pytest.mark.parametrize("name", LABEL_SHEETS)
def test_a_listed_sheet_adds_up_to_its_paper(name):
    """What is left at the right and at the foot is what was left at the other side, to half a millimetre."""
    sheet = LABEL_SHEETS[name]
    assert does_not_fit(sheet) == "" and name == f"{sheet.paper}-{sheet.columns}x{sheet.rows}"
    x, y = sheet.place(sheet.count - 1)
    width, height = PAPERS[sheet.paper]
    assert width - (x + sheet.width) == pytest.approx(sheet.left, abs=0.5) and height - (y + sheet.height) == pytest.approx(sheet.top, abs=0.5)


@pytest.mark.parametrize("change, said", [
    ({"width": 80.0}, "The labels need 240.0 mm across, 30.0 mm more than A4 has."), ({"rows": 9}, "mm down"), ({"height": 10.0}, "too small"), ({"left": 1.0}, "1.0 mm more than A4 has"),
])
def test_a_sheet_that_does_not_fit_says_by_how_much(change, said):
    assert said in does_not_fit(replace(LABEL_SHEETS["A4-3x8"], **change))


def test_a_label_never_lacks_name_percentage_range_and_seeds():
    type_, words = Type(widths()), label_words(ROW, "", "A library")
    for width in (30.0, 40.0, 70.0, 200.0):
        for height in (15.0, 20.0, 37.0, 90.0):
            sheet = LabelSheet("A4", 1, 1, width, height, 5.0, 5.0)
            said = label_pages(type_, sheet, [words])[0][0]["alt"]
            assert said.startswith("Tomato; 72 % (58–83 %) of 50 seeds")


def test_the_rest_is_left_out_from_the_end():
    type_, words = Type(widths()), label_words(ROW, "sow in soil above 10 °C", "A library")
    heights = [label_pages(type_, LabelSheet("A4", 1, 1, 70.0, h, 5.0, 5.0), [words])[0][0]["alt"].count(";") for h in (15.0, 22.0, 26.0, 31.0, 40.0)]
    assert heights == sorted(heights) and heights[0] < heights[-1]
    whole = label_pages(type_, LabelSheet("A4", 1, 1, 70.0, 40.0, 5.0, 5.0), [words])[0][0]["alt"]
    assert whole == "Tomato; 72 % (58–83 %) of 50 seeds; lot A1, tested 2026-03-12; lend marked; next test 2026-09-12; sow in soil above 10 °C; harvested 2024; A library"


def test_an_untested_lot_says_so():
    row = {**ROW, "tested": "", "seeds": "", "percent": "", "low": "", "high": "", "verdict": "test", "next_test": "2026-03-12"}
    assert label_words(row, "", "L")[:2] == ("Tomato", "not tested") and label_words(row, "", "L")[2] == ["lot A1", "harvested 2024", "L"]


# E. B. Wilson, 1927: centre (p + z²/2n)/(1 + z²/n), half-width z/(1 + z²/n)·√(p(1−p)/n + z²/4n²), worked out here with scipy's quantile.
def test_the_range_is_wilsons(reference):
    n, p, z = 50, 36 / 50, norm.ppf(0.975)
    centre, half = (p + z * z / 2 / n) / (1 + z * z / n), z / (1 + z * z / n) * (p * (1 - p) / n + z * z / 4 / n / n) ** 0.5
    row = judged(reference, b"lot,crop,tested,seeds,normal\nA1,Tomato,2026-03-12,50,36\n")[0]
    assert label_words(row, "", "L")[1] == f"72 % ({centre * 100 - half * 100:.0f}–{centre * 100 + half * 100:.0f} %) of 50 seeds"


def judged(reference, raw):
    catalogue = catalogue_of(data_of(reference))
    return [row._asdict() for row in judge_lots(read_lots(raw, "f.csv", catalogue, "2026-11-20"), catalogue, catalogue.lending_line, "2026-11-20")]


def demo_labels(reference, units):
    data = poster_data(reference)
    bands = {crop["name"]: crop["band"] for crop in data["crops"]}
    return [label_words(row, warmth_words(bands[row["crop"]], units), data["library"]["name"]) for row in judged(reference, reference.demo["lots.csv"])]


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("name", LABEL_SHEETS)
def test_everything_stays_inside_its_label(reference, name, units):
    sheet = LABEL_SHEETS[name]
    long_name = ("Donaudampfschifffahrtsgemüse nn, a variety with a very long name indeed", *demo_labels(reference, units)[0][1:])
    labels = [*demo_labels(reference, units), long_name]
    pages = label_pages(Type(widths()), sheet, labels)
    assert sum(len(page) for page in pages) == len(labels)
    for page in pages:
        assert overlapping(page) == []
        for index, group in enumerate(page):
            x, y = sheet.place(index)
            for words, left, top, right, bottom in text_boxes([group]):
                assert x + 1 < left and right < x + sheet.width - 1 and y + 1 < top and bottom < y + sheet.height - 0.5, words


def test_soil_to_sow_in_is_that_of_the_crop_page(reference):
    """A warm-season crop is sown from 60 °F (common practice), though tomato can come up from 50 °F; lettuce from its published minimum."""
    bands = {crop["name"]: crop["band"] for crop in poster_data(reference)["crops"]}
    assert warmth_words(bands["Tomato"], "F").replace("\u00a0", " ") == "sow in soil above 60 °F, best at 60–85 °F"
    assert warmth_words(bands["Lettuce"], "C").replace("\u00a0", " ") == "sow in soil above 1.5 °C, best at 4.5–24 °C"
    assert warmth_words(None, "C") == ""


def test_a_partly_used_sheet_and_copies(reference):
    sheet = LABEL_SHEETS["A4-3x8"]
    words = label_words(ROW, "", "L")
    pages = label_pages(Type(widths()), sheet, [words, words], start=23, copies=2, outline=True)
    assert [len(page) for page in pages] == [2, 2]
    edges = [next(m for m in flat([group]) if m["mark"] == "rect") for group in pages[0]]
    assert [(e["x"], e["y"]) for e in edges] == [sheet.place(22), sheet.place(23)]


def run(capsys, *words):
    status = main(["labels", *map(str, words)])
    said = capsys.readouterr()
    return status, said.out, said.err


def test_the_command_makes_labels_of_a_file(reference, root, tmp_path, capsys):
    status, out, _ = run(capsys, root / "data" / "demo" / "lots.csv", "--sheet", "Letter-2x5", "--units", "F", "--today", "2026-11-20", "--out", tmp_path)
    assert status == 0 and "2 × 5 labels of 4 × 2 in on Letter" in out
    lots = {row["lot"] for row in csv.DictReader(io.StringIO(reference.demo["lots.csv"].decode("utf-8-sig")))}
    with pdfplumber.open(tmp_path / "lots-labels.pdf") as pdf:
        assert [pdf.pages[0].width, pdf.pages[0].height] == pytest.approx([215.9 * POINTS, 279.4 * POINTS], abs=0.1)
        assert len(pdf.pages) == -(-len(lots) // 10)
        text = " ".join(page.extract_text() for page in pdf.pages)
    assert all(lot in text for lot in lots) and "°C" not in text and "72 % (58–83 %) of 50 seeds" in text


@pytest.mark.parametrize("words, said", [
    (["--sheet", "A5"], "--sheet A5: there is no such sheet. Known:\n  A4-3x7: 3 × 7 labels of 63.5 × 38.1 mm on A4"), (["--start", "25"], "--start 25: write a number from 1 to 24."),
    (["--copies", "0"], "--copies 0: write a number from 1 to 100."), (["--line", "x"], "not a percentage"),
])
def test_the_command_explains_what_it_cannot_use(root, tmp_path, capsys, words, said):
    status, _, err = run(capsys, root / "data" / "demo" / "lots.csv", *words, "--out", tmp_path)
    assert status == 2 and said in err and list(tmp_path.iterdir()) == []


def test_bad_rows_are_told_and_the_others_get_labels(tmp_path, capsys):
    file = tmp_path / "mine.csv"
    file.write_text("lot,crop,tested,seeds,normal\nA1,Tomato,2026-03-12,50,36\nA2,Tomatoe,2026-03-12,50,36\n")
    status, out, err = run(capsys, file, "--today", "2026-11-20")
    assert status == 1 and "1 label on 1 page" in out and "Tomatoe" in err
    assert (tmp_path / "mine-labels.pdf").read_bytes().startswith(b"%PDF-")


RUN = """
async ({base, widths, cases, expected}) => {
  const [{ labelPages, labelWords, warmthWords }, { Type }] = await Promise.all([import(`${base}sheets/labels.js`), import(`${base}sheets/type.js`)]);
""" + APART + """
  return cases.map(([sheet, rows, units, library, options], i) => {
    const worst = apart(labelPages(new Type(widths), sheet, rows.map(([row, band]) => labelWords(row, warmthWords(band, units), library)), options), expected[i]);
    return Number.isFinite(worst) ? worst : "differs in kind";
  });
}
"""


@pytest.mark.browser
def test_the_browser_makes_the_same_labels(browser, root, reference):
    data = poster_data(reference)
    bands = {crop["name"]: crop["band"] for crop in data["crops"]}
    rows = [[row, bands[row["crop"]]] for row in judged(reference, reference.demo["lots.csv"])]
    cases, expected = [], []
    for units in UNITS:
        for sheet in LABEL_SHEETS.values():
            options = {"start": 3, "copies": 2, "outline": units == "C"}
            cases.append([sheet.__dict__, rows, units, data["library"]["name"], options])
            expected.append(label_pages(Type(widths()), sheet, demo_labels(reference, units), **options))
    with serve(root / "docs" / "assets" / "js") as base, watched_context(browser, base) as (context, trouble):
        page = context.new_page()
        page.goto(base + "words.js")
        found = page.evaluate(RUN, {"base": base, "widths": widths(), "cases": json.loads(json.dumps(cases)), "expected": json.loads(json.dumps(expected))})
        assert trouble == []
    assert found == pytest.approx([0] * len(cases), abs=1e-6)
