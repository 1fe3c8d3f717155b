"""The page of a file of lots on the built site, in a real browser.

What is right is what the Python side gives for the same file, which tests/lots holds against published figures, scipy,
statsmodels, pandas and the calendar; here it is the page that is tried.
"""

from __future__ import annotations

import io
import zipfile

import pandas
import pytest

from build_tools.lots import VERDICTS, catalogue_of, data_of, judge_lots
from build_tools.lots.judge import by_need
from build_tools.lots.words import grouped
from build_tools.lots.write import summary, tally, terminal_table
from tests.lots.files import HEADER, TODAY, file_of, many_lots, read, row, written

pytestmark = pytest.mark.browser
PATIENCE = 240_000  # milliseconds, for a machine that is busy with other things


class LotsPage:
    """What a reader does with the page."""

    def __init__(self, page, address):
        self.page = page
        page.clock.set_fixed_time(f"{TODAY}T12:00:00")
        page.goto(address)
        page.locator(".lots-form").wait_for()
        self.section = page.locator("section.lots")

    def choose(self, raw, name="lots.csv"):
        """Choose a file and wait until the page has said what it found."""
        self.page.locator("#lots-file").set_input_files({"name": name, "mimeType": "text/csv", "buffer": raw})
        self.done()

    def done(self):
        self.section.locator(".lots-output").wait_for(timeout=PATIENCE)
        self.page.wait_for_function("() => !document.querySelector('.lots-problems').hidden || document.querySelector('.lots-rows').children.length > 0", timeout=PATIENCE)

    def button(self, name):
        return self.section.get_by_role("button", name=name, exact=True)

    def saved(self, name):
        """(file name, bytes) that a button saves."""
        with self.page.expect_download(timeout=PATIENCE) as download:
            self.button(name).click()
        with open(download.value.path(), "rb") as file:
            return download.value.suggested_filename, file.read()

    @property
    def said(self):
        return self.section.locator(".lots-said").inner_text()

    @property
    def rows(self):
        return [row.locator("th, td").all_inner_texts() for row in self.section.locator(".lots-rows tr").all()]

    @property
    def lots(self):
        return self.section.locator(".lots-rows th").all_inner_texts()

    @property
    def problems(self):
        return self.section.locator(".lots-problem-list li").all_inner_texts()

    @property
    def shown(self):
        return self.section.locator(".lots-shown").inner_text()

    def wait_shown(self, text):
        self.page.wait_for_function("(text) => document.querySelector('.lots-shown').textContent === text", arg=text)


@pytest.fixture
def lots(page, site):
    return LotsPage(page, site + "calculators/lots/")


@pytest.fixture(scope="module")
def catalogue(reference):
    return catalogue_of(data_of(reference))


@pytest.fixture(scope="module")
def demo(root):
    return (root / "data" / "demo" / "lots.csv").read_bytes()


def results_of(raw, catalogue, line=70):
    reading = read(raw, catalogue)
    return reading, list(judge_lots(reading, catalogue, line, TODAY))


def test_the_demo_is_read_and_saved_as_python_writes_it(lots, catalogue, demo):
    lots.button("Use the demo file").click()
    lots.done()
    reading, results = results_of(demo, catalogue)
    assert lots.said == summary(reading, tally(results))
    assert lots.section.locator(".lots-output").get_by_text("Invented example").is_visible()
    assert lots.lots == [result.lot for result in by_need(results)]
    first = by_need(results)[0]
    assert lots.rows[0] == [first.lot, f"{first.crop}, {first.variety}", first.tested, first.words, first.verdict, first.next_test or "none"]
    assert not lots.section.locator(".lots-problems").is_visible()
    name, saved = lots.saved("Save as CSV")
    assert name == "demo-lots-results.csv" and saved.decode() == written(demo, "demo-lots.csv", catalogue, 70)[0]
    assert pandas.read_csv(io.BytesIO(saved)).lot.tolist() == [result.lot for result in results]


def test_an_own_file_with_bad_rows(lots, catalogue):
    raw = file_of(row(), row(lot="B-2", normal="99"), row(lot="A-1", tested="12/03/2026"), row(lot="C-3", crop="Tomatto"), row(lot="D-4", normal="20"), header=HEADER)
    lots.choose(raw, "my lots.csv")
    assert lots.said == "2 lots read; 2 need a look; 3 rows were left out."
    assert lots.lots == ["D-4", "A-1"] and "A row of this lot was left out" in lots.rows[1][3]
    assert lots.problems[0] == "Line 3, normal: 99 normal seedlings from 50 seeds cannot be. Check both numbers: seedlings are at most the seeds set."
    assert lots.problems[1].startswith("Line 4, tested: “12/03/2026” can be read as 2026-03-12 or as 2026-12-03.")
    assert lots.problems[2] == "Line 5, crop: “Tomatto” is no crop of this reference. Did you mean “Tomato”?"
    lots.section.get_by_role("link", name="Rows left out").click()
    assert lots.section.locator(".lots-problems-heading").bounding_box()["y"] < 400
    name, saved = lots.saved("Save the problems as text")
    assert name == "my lots-problems.txt" and saved.decode() == written(raw, "my lots.csv", catalogue, 70)[1]
    assert lots.saved("Save as CSV")[1].decode() == written(raw, "my lots.csv", catalogue, 70)[0]
    # Mended and chosen again under the same name, it is read anew.
    lots.choose(file_of(row(tested=TODAY)), "my lots.csv")
    lots.page.wait_for_function("() => document.querySelector('.lots-said').textContent.startsWith('1 lot read')")
    assert lots.said == "1 lot read; none needs a look." and not lots.section.locator(".lots-problems").is_visible()
    assert not lots.section.get_by_text("Invented example").is_visible()


def zipped():
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("content.xml", "<x/>")
    return out.getvalue()


@pytest.mark.parametrize(("raw", "name", "words"), [
    (zipped(), "lots.xlsx", "spreadsheet file, not a CSV file. Open it where it was made and save it as CSV"),
    (file_of(row(variety="Früh")).decode().encode("cp1252"), "lots.csv", "not UTF-8 text. Save the file as CSV, UTF-8"),
    (b"", "lots.csv", "The file is empty."), (file_of(header=HEADER.replace("lot", "Lot number")), "lots.csv", "Rename “Lot number” to “lot”."),
])
def test_a_wrong_file_says_why_and_shows_no_results(raw, name, words, lots):
    lots.choose(raw, name)
    assert lots.said == "No lot could be read. What stood in the way is listed below."
    (problem,) = lots.problems
    assert words in problem and not lots.section.locator(".lots-results").is_visible()


def test_names_are_text_never_markup_or_formula(lots):
    raw = file_of(row(lot="<img src=x onerror=alert(1)>", variety='"=HYPERLINK(""x"")"', tested=TODAY), row(lot="=1+1", normal="<b>99</b>"), row(lot="=1+1", tested=TODAY))
    lots.choose(raw)
    assert lots.lots == ["<img src=x onerror=alert(1)>", "=1+1"] and "“<b>99</b>”" in lots.problems[0]
    assert lots.section.locator("img, b").count() == 0
    saved = lots.saved("Save as CSV")[1].decode()
    assert "\n'=1+1,Tomato," in saved and '"\'=HYPERLINK(""x"")"' in saved


def test_filter_and_pages(lots, catalogue):
    raw = many_lots(450)
    lots.choose(raw)
    _, results = results_of(raw, catalogue)
    ordered, verdicts = by_need(results), tally(results)
    assert lots.shown == "Lots 1 to 100 of 450" and lots.lots == [r.lot for r in ordered[:100]]
    assert lots.button("Previous 100").is_disabled()
    lots.button("Next 100").click()
    lots.wait_shown("Lots 101 to 200 of 450")
    assert lots.lots == [r.lot for r in ordered[100:200]]
    assert lots.page.evaluate("document.activeElement.className") == "lots-shown", "the keyboard goes where the new rows begin"
    for _ in range(3):
        lots.button("Next 100").click()
    lots.wait_shown("Lots 401 to 450 of 450")
    assert lots.button("Next 100").is_disabled()
    select = lots.section.get_by_label("Verdict")
    assert select.locator("option").all_inner_texts() == ["All (450)"] + [f"{v} ({grouped(n)})" for v, n in verdicts.items() if n]
    few = next(verdict for verdict, number in verdicts.items() if 1 < number <= 100)
    select.select_option(few)
    lots.wait_shown(f"{verdicts[few]} lots")
    assert lots.lots == [r.lot for r in ordered if r.verdict == few]
    select.select_option("")
    sought = lots.section.get_by_label("Lot, crop or variety")
    sought.fill("ROCKET")  # another name of arugula
    rocket = [r.lot for r in ordered if r.crop == "Arugula"]
    lots.wait_shown(f"{len(rocket)} lots")
    assert lots.lots == rocket
    sought.fill("arug wrenf 17")
    wanted = [r.lot for r in ordered if r.crop == "Arugula" and "17" in r.lot + r.variety]
    assert 0 < len(wanted) < len(rocket)
    lots.page.wait_for_function("(lot) => document.querySelector('.lots-rows th')?.textContent === lot", arg=wanted[0])
    assert lots.lots == wanted
    sought.fill("no such lot")
    lots.wait_shown("No lot fits. Try part of a name, or another verdict.")


def test_the_lending_line_is_judged_anew(lots, catalogue):
    raw = file_of(row(tested=TODAY), row(lot="B-2", normal="20"))
    lots.choose(raw)
    field = lots.section.get_by_label("Lending line")
    field.fill("72,5")
    field.press("Enter")
    lots.page.wait_for_function("() => document.querySelector('.lots-about').textContent.includes('lending line 72.5 %')")
    assert lots.saved("Save as CSV")[1].decode() == written(raw, "lots.csv", catalogue, 72.5)[0]
    for wrong in ("seventy", "101", "-1", ""):
        field.fill(wrong)
        field.press("Enter")
        assert field.get_attribute("aria-invalid") == "true"
        assert "Type 0 to 100" in lots.section.locator("#lots-line-message").inner_text()
    assert "lending line 72.5 %" in lots.section.locator(".lots-about").inner_text(), "the last good answer stays"
    lots.page.locator("#lots-file").set_input_files({"name": "x.csv", "mimeType": "text/csv", "buffer": raw})
    assert lots.said == "The file was not read: mend the lending line first."


DROP = """
(files) => {
  const data = new DataTransfer();
  for (const [name, text] of files) data.items.add(new File([text], name, {type: "text/csv"}));
  const target = document.querySelector(".lots-drop");
  const over = new DragEvent("dragover", {dataTransfer: data, bubbles: true, cancelable: true});
  target.dispatchEvent(over);
  const marked = target.classList.contains("over");
  target.dispatchEvent(new DragEvent("drop", {dataTransfer: data, bubbles: true, cancelable: true}));
  const beside = new DragEvent("drop", {dataTransfer: data, bubbles: true, cancelable: true});
  document.querySelector("h1").dispatchEvent(beside);
  return [over.defaultPrevented, marked, beside.defaultPrevented];
}
"""


def test_a_file_may_be_dropped(lots):
    text = file_of(row(tested=TODAY)).decode()
    assert lots.page.evaluate(DROP, [["dropped.csv", text]]) == [True, True, True]
    lots.done()
    assert lots.lots == ["A-1"] and "From dropped.csv" in lots.section.locator(".lots-about").inner_text()
    lots.page.evaluate(DROP, [["a.csv", text], ["b.csv", text]])
    assert lots.said == "Several files were dropped. Drop one at a time."


def test_with_the_keyboard_alone(lots, catalogue):
    page = lots.page
    page.locator("h1").click()

    def tab_to(name):
        for _ in range(60):
            page.keyboard.press("Tab")
            found = page.evaluate("document.activeElement.labels?.[0]?.textContent ?? document.activeElement.textContent")
            if found.strip() == name:
                return page.evaluate("""() => {
                  const here = document.activeElement;
                  const shown = here.id === "lots-file" ? here.nextElementSibling : here;
                  return [getComputedStyle(shown).outlineStyle, shown.getBoundingClientRect().height];
                }""")
        raise AssertionError(f"the keyboard does not reach “{name}”")

    # Focus is seen, and what is pressed is large enough.
    assert tab_to("Choose a CSV file") == ["solid", 44]
    outline, height = tab_to("Use the demo file")
    assert outline == "solid" and height >= 44
    page.keyboard.press("Enter")
    lots.done()
    assert tab_to("Save as CSV")[1] >= 44
    with page.expect_download() as download:
        page.keyboard.press("Space")
    assert download.value.suggested_filename == "demo-lots-results.csv"
    tab_to("Verdict")
    page.keyboard.press("ArrowDown")
    first = next(iter(VERDICTS))
    page.wait_for_function("(verdict) => [...document.querySelectorAll('.lots-verdict')].every((cell) => cell.textContent === verdict)", arg=first)
    tab_to("Lot, crop or variety")
    page.keyboard.type("onion")
    lots.wait_shown("1 lot")


def test_one_clean_sheet_is_printed(lots):
    lots.button("Use the demo file").click()
    lots.done()
    lots.section.get_by_label("Verdict").select_option("hold")
    lots.page.wait_for_function("() => document.querySelector('.lots-shown').textContent === '4 lots'")
    lots.page.evaluate("() => { window.print = () => { window.printed = true; }; }")
    lots.button("Print sheet").click()
    lots.page.wait_for_function("() => window.printed === true")
    lots.page.emulate_media(media="print")
    assert lots.page.evaluate("[...document.body.children].filter((child) => child.checkVisibility()).map((child) => child.className)") == ["lots-sheet"]
    sheet = lots.page.locator(".lots-sheet")
    assert sheet.locator("h1").inner_text() == f"Seed lots, {TODAY}"
    text = sheet.inner_text()
    for words in ("Wrenfield Seed Library (invented). From demo-lots.csv; lending line 70 %. 4 of 47 lots, as chosen on the page.", "Invented example", "What the verdicts mean"):
        assert words in text
    assert sheet.locator("tbody tr").count() == 4 and sheet.locator("dt").all_inner_texts() == ["hold"]
    assert sheet.locator("thead").evaluate("(head) => getComputedStyle(head).display") == "table-header-group"
    assert sheet.locator("button, input, a").count() == 0
    assert sheet.locator("tbody th").first.evaluate("(cell) => getComputedStyle(cell).color") == "rgb(0, 0, 0)"
    pages = lots.page.pdf(format="A4")
    assert pages.count(b"/Type /Page\n") == 1
    lots.page.emulate_media(media="screen")
    lots.page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    assert lots.page.locator(".lots-sheet").count() == 0 and lots.section.is_visible()


def test_too_many_lots_to_print_are_refused_with_a_remedy(lots):
    lots.choose(many_lots(2001))
    lots.page.evaluate("() => { window.print = () => { window.printed = true; }; }")
    lots.button("Print sheet").click()
    note = lots.section.locator(".lots-note")
    note.get_by_text("2001 lots are too many to print: at most 2000").wait_for()
    assert "save them as CSV" in note.inner_text() and lots.page.evaluate("window.printed") is None
    lots.section.get_by_label("Verdict").select_option("hold")
    lots.button("Print sheet").click()
    lots.page.wait_for_function("() => window.printed === true")
    assert note.inner_text() == ""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_phone_needs_no_sideways_scrolling(scheme, lots):
    lots.page.set_viewport_size({"width": 360, "height": 740})
    lots.page.emulate_media(color_scheme=scheme)
    lots.choose(file_of(row(lot="L" * 60, tested=TODAY, variety="Wrenfield" * 12), row(lot="B-2", normal="x" * 80), row(lot="C-3", normal="32")))
    assert lots.page.evaluate("document.documentElement.scrollWidth") <= 360
    row_box = lots.section.locator(".lots-rows tr").first.bounding_box()
    assert row_box["x"] >= 0 and row_box["x"] + row_box["width"] <= 360
    assert lots.section.locator(".lots-rows").get_by_text("Next test: ").count() == 0, "labels are the style sheet's"
    # The table's roles stay, though its rows are blocks.
    assert lots.section.get_by_role("row").count() == 3 and lots.section.get_by_role("rowheader").count() == 2
    for name in ("Save as CSV", "Print sheet", "Save the problems as text"):
        assert lots.button(name).bounding_box()["height"] >= 44
    contrast = lots.page.evaluate("""() => {
      const light = (colour) => colour.match(/[\\d.]+/g).slice(0, 3).map((part) => part / 255)
        .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)).reduce((sum, c, i) => sum + c * [0.2126, 0.7152, 0.0722][i], 0);
      const paper = light(getComputedStyle(document.body).backgroundColor);
      return [...document.querySelectorAll(".lots-verdict, .lots-said, .lots-words, .lots-place")].map((part) => {
        const ink = light(getComputedStyle(part).color);
        return (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
      });
    }""")
    # WCAG 2.2, 1.4.3: text has a contrast of 4.5 to 1 at least.
    assert len(contrast) >= 6 and min(contrast) >= 4.5


# In the page: a click that comes through this process may be late for a quick reading.
CLICKED_MEANWHILE = """() => window.progress.some((words) => /[1-9]/.test(words)) && new Promise((done) => {
  [...document.querySelectorAll(".unit-switch label")].find((label) => label.textContent === "°C").click();
  requestAnimationFrame(() => done([document.documentElement.dataset.unit, document.querySelector(".lots-busy").hidden]));
})"""
WATCH = """
() => {
  window.gaps = [];
  let last = performance.now();
  const frame = (now) => {
    window.gaps.push(now - last);
    last = now;
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
  window.progress = [];
  new MutationObserver(() => window.progress.push(document.querySelector(".lots-progress-words").textContent))
    .observe(document.querySelector(".lots-progress-words"), {childList: true, subtree: true, characterData: true});
}
"""


@pytest.fixture(scope="module")
def hundred_thousand():
    """A file of 100,000 lots: 2,000 made-up ones, fifty times under other names."""
    header, *rows = many_lots(2000).decode().rstrip("\n").split("\n")
    return "\n".join([header, *(line.replace("L00", f"L{turn:02d}", 1) for turn in range(50) for line in rows), ""]).encode()


def test_a_hundred_thousand_lots_leave_the_page_responsive(lots, hundred_thousand, catalogue, tmp_path, record_property):
    page = lots.page
    file = tmp_path / "large.csv"
    file.write_bytes(hundred_thousand)
    page.evaluate(WATCH)
    page.locator("#lots-file").set_input_files(file)
    # While it reads, the page answers a click.
    assert page.wait_for_function(CLICKED_MEANWHILE, timeout=PATIENCE).json_value() == ["c", False]
    lots.done()
    gaps, progress = page.evaluate("[window.gaps, window.progress]")
    record_property("longest gap between frames, ms", round(max(gaps)))
    print(f"longest gap between animation frames: {max(gaps):.0f} ms of {sum(gaps):.0f} ms")
    assert any("rows read" in words for words in progress) and any("lots judged" in words for words in progress)
    assert lots.said.startswith("100,000 lots read; ") and lots.shown == "Lots 1 to 100 of 100,000"
    lots.section.get_by_label("Lot, crop or variety").fill("L420017")
    lots.wait_shown("1 lot")
    name, saved = lots.saved("Save as CSV")
    assert name == "large-results.csv" and saved == written(hundred_thousand, "large.csv", catalogue, 70)[0].encode()


def test_reading_can_be_stopped(lots, hundred_thousand, tmp_path):
    file = tmp_path / "large.csv"
    file.write_bytes(hundred_thousand)
    lots.page.locator("#lots-file").set_input_files(file)
    lots.button("Stop").click()
    assert lots.said == "Stopped. Nothing was kept." and not lots.section.locator(".lots-busy").is_visible()
    assert lots.page.evaluate("document.activeElement.id") == "lots-file"
    lots.choose(file_of(row(tested=TODAY)))
    assert lots.lots == ["A-1"]


def test_many_problems_are_cut_and_the_file_has_them_all(lots, catalogue):
    raw = file_of(row(tested=TODAY), *[row(lot="B", normal="99")] * 250)
    lots.choose(raw)
    assert len(lots.problems) == 200
    assert lots.section.locator(".lots-problems-more").inner_text() == "These are the first 200 of 250. All are in the file of problems."
    assert lots.saved("Save the problems as text")[1].decode() == written(raw, "lots.csv", catalogue, 70)[1]


def test_nothing_is_sent_and_nothing_is_kept(lots):
    requests = []
    lots.page.wait_for_load_state("networkidle")
    lots.page.on("request", lambda request: requests.append(request.url))
    lots.choose(file_of(row(tested=TODAY)))
    assert [url for url in requests if "/assets/js/" not in url and not url.startswith("blob:")] == [], "only the page's own scripts are fetched"
    kept = lots.page.evaluate("async () => [Object.keys(localStorage).filter((key) => /lot/i.test(key)), document.cookie, (await indexedDB.databases()).length, location.hash, location.search]")
    assert kept == [[], "", 0, "", ""]


def test_a_demo_that_cannot_be_fetched_is_said(lots):
    lots.page.route("**/demo-lots.csv", lambda route: route.fulfill(status=200, body=""))
    lots.button("Use the demo file").click()
    lots.done()
    assert "The file is empty." in lots.problems[0]
    lots.page.unroute("**/demo-lots.csv")
    lots.page.evaluate("() => { window.fetch = () => Promise.reject(new TypeError('no connection')); }")
    lots.button("Use the demo file").click()
    lots.page.wait_for_function("() => document.querySelector('.lots-said').textContent.startsWith('The demo file could not be fetched.')")


def test_the_columns_and_verdicts_are_described(lots, reference):
    table = lots.page.locator("#columns ~ .scroll table").first
    assert table.locator("tbody th").all_inner_texts() == HEADER.split(",")
    assert lots.page.locator("#verdicts ~ dl dt").all_inner_texts() == list(VERDICTS)
    practice = reference.practice
    assert f"between {practice['retest_least_months']['value']} and {practice['retest_most_months']['value']} months" in lots.page.locator("article article").inner_text()


def test_the_example_on_the_page_is_as_it_says(lots, catalogue):
    raw = (lots.page.locator("#example ~ pre code").inner_text().strip() + "\n").encode()
    reading, results = results_of(raw, catalogue)
    assert reading.problems == [] and terminal_table(results).count("\n") == 2
    assert results[0].words.startswith("36 of 50, 72 % (58–83 %)") and results[1].verdict == "test"


def test_without_scripts_the_command_is_named(browser, site):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(site + "calculators/lots/")
    assert "python3 -m build_tools lots FILE.csv" in page.locator("section.lots noscript, section.lots").first.inner_text()
    assert not page.locator(".lots-form").is_visible()
    context.close()
