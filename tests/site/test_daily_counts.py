"""A test followed day by day, on the built site: figures by hand, by time_course() and statsmodels; files both ways."""

from __future__ import annotations

import base64
import json
import re
from urllib.parse import quote

import pytest
from statsmodels.stats.proportion import proportion_confint

from build_tools.science.time_course import new_from_totals, time_course
from build_tools.test_files import COLUMNS, read_courses
from tests.science.open_data import grouped, rows_of
from tests.site.browser import watched_context
from tests.site.calculators import (
    Sheet,
    check_fits,
    check_pictures,
    check_print,
    check_without_scripts,
    check_wrong_input,
)
from tests.time_course.files import BAD_FILES, GOOD, GOOD_FILES, HEAD, open_data_file

pytestmark = pytest.mark.browser
KEEPS_THE_PAGE = True
PATH = "calculators/daily-counts/"
EXAMPLE = [(4, 4), (5, 9), (6, 12), (7, 8), (9, 3), (12, 0)]


def fragment(seeds, rows, kind="new", **more):
    fields = "".join(f"&{name}={quote(str(value), safe='')}" for name, value in {"confidence": 95, **more}.items())
    return f"#daily-counts=1{''.join(f'&r={day},{count}' for day, count in rows)}&seeds={seeds}&counts={kind}{fields}"


def opened(page, site, seeds, rows, kind="new", **more):
    page.goto("about:blank")  # else a second fragment would be a jump within the page
    sheet = Sheet.open(page, f"{site}{PATH}{fragment(seeds, rows, kind, **more)}")
    assert not re.search(r"\bNaN\b|Infinity|undefined|\bnull\b", sheet.answer)
    return sheet


def read(text):
    """The number at the start of a figure such as "5.4 days" or "day 5.4"."""
    return float(re.search(r"[\d.]+", text)[0])


def lobelia(celsius):
    return [(row["day"], row["new_seedlings"]) for row in grouped(rows_of("lobelia.csv"), "celsius")[celsius,]]


FORTY = [(day, 2) for day in range(1, 40)] + [(40.5, 0)]
ENTRIES = [
    "", fragment(50, EXAMPLE, name="Early row", date="2027-03-12"), fragment(100, FORTY, name="“A” & b#1", date="2027-12-12", confidence=99),
    fragment(10, [(5, 0)]), fragment(1, [(0.5, 1)]), fragment(100000, [(3, 99999), (1000, 0)]), fragment(50, [(3, 0), (7, 1), (9, 0)]), fragment(80, [("2,5", 3), (4, 9)], "total"),
    fragment(100, lobelia("15")),
]


def test_by_hand(page, site):
    # 50 seeds; 4, 9, 12, 8, 3, 0 new on days 4, 5, 6, 7, 9, 12; N = 36, running totals 4, 13, 25, 33, 36, 36
    #   mean      (4·4 + 9·5 + 12·6 + 8·7 + 3·9)/36 = 216/36 = 6 days
    #   spread    √((4·2² + 9·1² + 12·0² + 8·1² + 3·3²)/35) = √(60/35) = 1.31; standard error 1.31/√36 = 0.22
    #   T50       5 + (18 - 13)/12 = 5.42 (Farooq), 5 + (18.5 - 13)/12 = 5.46 (Coolbear)
    #   speed     4/4 + 9/5 + 12/6 + 8/7 + 3/9 = 6.28; velocity 100/6 = 16.7
    #   synchrony (4·3 + 9·8 + 12·11 + 8·7 + 3·2)/(36·35) = 278/1260 = 0.221
    # Wilson 36 of 50, 95 %: 58 to 83 % (statsmodels 58.3 to 82.5)
    low, high = proportion_confint(36, 50, 0.05, "wilson")
    assert (round(100 * low), round(100 * high)) == (58, 83)
    sheet = Sheet.open(page, site + PATH)
    assert sheet.section.get_by_text("Example figures; type your own").is_visible()
    assert sheet.headline == "36 of 50 came up: 72 % (58–83 %). Half of them were up by day 6."
    assert sheet.trust == "50 seeds give a rough idea: the lot itself is likely between 58 and 83 %."
    sheet.section.locator(".more-numbers summary").click()
    for name, want in {
        "Came up, of 50 seeds set": "36, 72 %", "Range, 95 % confidence": "58–83 %", "First and last day": "4 and 9", "Day with most new seedlings (12)": "6",
        "T50 (Farooq)": "day 5.4", "T50 (Coolbear)": "day 5.5", "Mean time to come up, 36 seedlings": "6 days", "Standard error": "0.22 days",
        "Range of the mean, 95 % confidence": "5.6–6.4 days",  # 6 ± 1.96 × 0.218
        "Spread": "1.31 days", "Speed (Maguire)": "6.28 a day", "Half of all seeds set": "day 6", "Velocity": "16.7", "Synchrony": "0.221",
    }.items():
        assert sheet.number(name) == want, name
    sheet.section.locator(".workings summary").click()
    assert "(4 × 4 + 5 × 9 + 6 × 12 + 7 × 8 + 9 × 3 + 12 × 0) / 36 = 6 days" in sheet.section.locator(".workings").inner_text()


COURSES = [
    (50, EXAMPLE), (100, lobelia("15")), (100, lobelia("25")), (12, [(2, 1), (3, 4), (5, 3), (8, 2)]), (400, [(4, 120), (7, 150), (14, 80), (21, 12), (28, 1)]),
    (20, [(0.5, 3), (1.25, 9), (2.75, 4)]), (20, [(0, 0), (3, 0), (4, 20)]),
]


@pytest.mark.parametrize(("seeds", "rows"), COURSES)
def test_against_python(page, site, seeds, rows):
    counted = [(float(day), int(new)) for day, new in rows if float(day) > 0]
    course = time_course([day for day, _ in counted], [new for _, new in counted], seeds)
    sheet = opened(page, site, seeds, rows)
    sheet.section.locator(".more-numbers summary").click()
    shown = {"Mean time": course["mean_days"], "Spread": course["spread_days"], "Standard error": course["standard_error"]}
    for name in ("farooq", "coolbear"):
        if course[f"t50_{name}"]["kind"] != "by-first-count":
            shown[f"T50 ({name.title()})"] = course[f"t50_{name}"]["day"]
    for name, value in shown.items():
        assert abs(read(sheet.number(name)) - value) <= (0.0051 if value < 2 else 0.051), name
    for name, value in {"Speed": course["speed"], "Velocity": course["velocity"], "Synchrony": course["synchrony"], "Uncertainty": course["uncertainty"]}.items():
        assert read(sheet.number(name)) == float(f"{value:.3g}"), name
    assert sheet.number("First and last day") == f"{course['first_day']:g} and {course['last_day']:g}"
    assert sheet.number("Day with most") == f"{course['peak_day']:g}"
    low, high = proportion_confint(course["germinated"], seeds, 0.05, "wilson")
    digits = "{:.1f}" if seeds >= 400 else "{:.0f}"
    assert sheet.number("Range") == f"{digits.format(100 * low)}–{digits.format(100 * high)} %"


def test_running_totals_give_the_same(page, site):
    totals = [4, 13, 25, 33, 36, 36]
    assert new_from_totals(totals) == [new for _, new in EXAMPLE]
    sheet = opened(page, site, 50, EXAMPLE)
    answer = sheet.answer
    assert opened(page, site, 50, [(day, total) for (day, _), total in zip(EXAMPLE, totals, strict=True)], "total").answer == answer


def test_the_example_follows_the_choice(page, site):
    sheet = Sheet.open(page, site + PATH)
    before = sheet.headline
    sheet.type("The counts are", "total")
    assert [sheet.field("Seedlings", row=i).input_value() for i in range(1, 7)] == ["4", "13", "25", "33", "36", "36"]
    assert sheet.headline == before and not sheet.is_stale()
    sheet.type("The counts are", "new")
    assert sheet.field("Seedlings", row=2).input_value() == "9" and sheet.headline == before
    # counts of one's own are never rewritten
    sheet.type("Seedlings", "8", row=2)
    sheet.type("The counts are", "total")
    assert sheet.field("Seedlings", row=3).input_value() == "12"
    assert "The total falls from 12 to 8." in sheet.message("Seedlings", row=4)


@pytest.mark.parametrize(("seeds", "rows", "said"), [
    # target passed at the first count
    (50, [(3, 20), (5, 2), (7, 0)], ["Half of them were already up at the first count, day 3.", "Half were already up at the first count, day 3: earlier than that can’t be told."]),
    # target equal to a count: no half-way between two counts, no division by zero in the flat part after it
    (20, [(2, 5), (4, 0), (6, 5), (8, 0)], ["Half of them were already up at the first count, day 2."]),
    (20, [(2, 1), (4, 4), (6, 0), (8, 5), (9, 0)], ["Half of them were up by day 4.", "Half of all 20 seeds set were up by day 8."]),
    (50, [(3, 0), (5, 0)], ["0 of 50 came up: 0 % (0–7 %).", "Nothing came up by day 5, so there is no time to tell."]),
    (50, [(3, 0), (5, 1), (7, 0)], ["1 of 50 came up: 2 % (0–10 %). It was first seen on day 5.", "One seedling has no spread", "none with one seedling"]),
    (50, [(5, 7)], ["There was one count only: it says how many came up, not how fast.", "7 of 50 so far: at least 14 %"]),
    (50, EXAMPLE[:5], ["36 of 50 so far: at least 72 % (58–83 %), and it can still rise. Half of these were up by day 6.", "The last count, day 9, still brought 3 new: the percentage is “at least”"]),
    (36, EXAMPLE[:5], ["36 of 36 came up: 100 % (90–100 %).", "Every seed was up by day 9."]),
    (50, EXAMPLE, ["one first seen on day 6 came up between day 5 and day 6", "up to one interval late; here up to 4 days", "T50 is of the 36 that came up, not of the 50 set", "Nothing new came at the last count, day 12; the last seedlings were seen on day 9."]),
    (50, [(3, 9), (5, 2), (7, 0)], ["one first seen on day 3 came up between setting the seed and day 3", "Half of all 50 seeds set were never up."]),
    (2, [(0.5, 1), (0.75, 1)], ["Half of them were already up at the first count, day 0.5.", "2 of 2 came up"]),
])
def test_words_where_a_number_is_not_all(page, site, seeds, rows, said):
    sheet = opened(page, site, seeds, rows)
    for words in said:
        assert words in sheet.answer, sheet.answer
    check_pictures(sheet)


def test_first_count_text_in_the_numbers(page, site):
    sheet = opened(page, site, 50, [(3, 20), (5, 2), (7, 0)])
    assert sheet.number("T50 (Farooq)") == sheet.number("T50 (Coolbear)") == "day 3 or earlier"


def test_rows_left_empty_are_skipped(page, site):
    answer = opened(page, site, 50, EXAMPLE).answer
    rows = [*EXAMPLE[:2], ("", ""), *EXAMPLE[2:], ("", "")]
    sheet = opened(page, site, 50, [("0", "0"), *rows])
    assert sheet.answer == answer and sheet.section.locator(".entry-row").count() == 9


def test_more_rows(page, site):
    sheet = opened(page, site, 100, FORTY[:39])
    add = sheet.section.get_by_role("button", name="Add a count")
    add.click()
    assert sheet.field("Day", row=40).evaluate("(input) => input === document.activeElement")
    assert not sheet.is_stale() and add.is_disabled()
    page.keyboard.type("40.5")
    page.keyboard.press("Tab")
    page.keyboard.type("0")
    assert "Nothing new came at the last count, day 40.5" in sheet.answer
    assert sheet.section.locator(".remove-row:visible").count() == 0


def test_dates(page, site):
    # 12 March 2027 and 6 days are 18 March; day 9.5 is within the ninth day
    sheet = opened(page, site, 50, [*EXAMPLE[:4], (9.5, 3), (22, 0)], date="2027-03-12", name="Early row")
    assert sheet.headline.endswith("Half of them were up by day 6 (18 March 2027).")
    table = sheet.section.locator(".calculator-rest .answer-table").inner_text()
    assert "21 Mar 2027" in table and "3 Apr 2027" in table
    sheet.section.get_by_role("button", name="Copy result").click()
    sheet.section.get_by_text("Copied.").wait_for()
    line = page.evaluate("navigator.clipboard.readText()")
    assert line.startswith("Early row: 36 of 50 came up, 72 % (58–83 %). T50 day 5.4 (Farooq), day 5.5 (Coolbear); mean 6 days, spread 1.4 days, 36 seedlings.".replace("spread 1.4 days", f"spread {spread():.2f} days"))
    assert line.endswith("Last count on day 22 (3 April 2027).")


def spread():
    return time_course([4, 5, 6, 7, 9.5, 22], [new for _, new in EXAMPLE], 50)["spread_days"]


@pytest.mark.parametrize(("label", "row", "text", "said"), [
    ("Seeds set", None, "", "Nothing typed. Type how many seeds you set"), ("Seeds set", None, "1,000", "Type the digits alone: 1000."), ("Seeds set", None, "0", "0 is too few"),
    ("Day", 3, "", "Type the day of this count, or empty the whole row."), ("Day", 3, "soon", "“soon” is not a number."), ("Day", 3, "-6", "-6 is below zero."),
    ("Day", 3, "2027-03-12", "“2027-03-12” is a date. Type the days since the seed was set"), ("Day", 3, "46000", "Type days since the seed was set, at most 1000."),
    ("Day", 3, "0.001", "12 hours are 0.5"), ("Day", 3, "5", "Day 5 is there twice."), ("Day", 3, "4,5", "Day 4.5 comes after day 5."),
    ("Day", 1, "0", "4 seedlings on day 0 can’t be"),
    ("Seedlings", 3, "", "Type how many seedlings, 0 if none, or empty the whole row."), ("Seedlings", 3, "-1", "-1 is below zero."), ("Seedlings", 3, "1.5", "“1.5” is not a whole number."),
    ("Seedlings", 3, "all", "“all” is not a number."), ("Seedlings", 3, "38", "51 seedlings by now from 50 seeds can’t be. Check the counts and the seeds set."),
    ("Name of the test", None, "x" * 61, "This name has 61 characters. Shorten it to at most 60."),
])
def test_wrong_input_is_explained(page, site, label, row, text, said):
    sheet = opened(page, site, 50, EXAMPLE)
    if said.startswith("4 seedlings"):  # the seedlings are what can't be, so they are marked
        sheet.type(label, text, row=row)
        assert said in sheet.message("Seedlings", row=row) and sheet.is_stale()
    else:
        check_wrong_input(sheet, label, text, said, row=row)


def test_wrong_date(page, site):
    sheet = opened(page, site, 50, EXAMPLE, date="2027-03-12")
    check_wrong_input(sheet, "Day the seed was set", "0203-03-12", "The year 203 can’t be right.")


def test_wrong_running_totals(page, site):
    sheet = opened(page, site, 50, [(4, 4), (5, 13), (6, 25), (7, 33)], "total")
    check_wrong_input(sheet, "Seedlings", "12", "The total falls from 13 to 12. Check both, or choose “new since the last count” above.", row=3)
    check_wrong_input(sheet, "Seedlings", "51", "51 seedlings by now from 50 seeds can’t be.", row=4)
    # totals typed as new seedlings: the message says so, once
    sheet.type("The counts are", "new")
    assert "If these are running totals, choose “total so far” above." in sheet.message("Seedlings", row=4)
    assert sheet.section.locator("[aria-invalid]").count() == 1


def test_everything_wrong_is_said_at_once_and_under_its_field(page, site):
    sheet = opened(page, site, 20, [(4, 4), (5, "soon"), (3, 18), ("", 2), (9, "")])
    assert "No answer yet: mend the 5 marked fields above." in sheet.answer
    wrong = {("Seedlings", 2): "“soon” is not a number.", ("Day", 3): "Day 3 comes after day 5.", ("Seedlings", 3): "22 seedlings by now from 20 seeds",
             ("Day", 4): "Nothing typed.", ("Seedlings", 5): "Nothing typed."}
    for (label, row), said in wrong.items():
        assert said in sheet.message(label, row=row)
        field = sheet.field(label, row=row)
        message = page.locator(f"#{field.get_attribute('aria-describedby')}")
        assert message.bounding_box()["y"] >= field.bounding_box()["y"] + field.bounding_box()["height"]
    assert sheet.section.locator("[aria-invalid]").count() == len(wrong)


def test_no_count_at_all(page, site):
    sheet = Sheet.open(page, site + PATH)
    for i in range(1, 7):
        sheet.type("Day", "", row=i)
        sheet.type("Seedlings", "", row=i)
    assert "No count yet. Type the day of a count here" in sheet.message("Day", row=1)
    sheet.type("Day", "0", row=1)
    sheet.type("Seedlings", "0", row=1)
    assert "Day 0 is the only count" in sheet.message("Day", row=1)


def test_link_to_the_final_count(page, site):
    sheet = opened(page, site, 50, [*EXAMPLE[:5], (12.5, 0)])
    sheet.section.get_by_role("link", name="Judge the final count").click()
    page.wait_for_url("**/calculator/#*")
    page.locator(".headline").wait_for()
    judged = Sheet(page)
    assert judged.headline == "36 of 50 came up: 72 % (58–83 %)."
    assert judged.field("Days since the start").input_value() == "12"


def test_picture_in_words(page, site):
    sheet = opened(page, site, 50, EXAMPLE)
    check_pictures(sheet)
    told = sheet.section.locator("svg.interval-picture desc").text_content()
    assert told == "6 counts: 8 % on day 4, 72 % (58–83 %) of 50 seeds on day 12. Marked: half of them, day 5.4. The bar at the end is the range of the final percentage."
    picture = sheet.section.locator("svg.interval-picture")
    assert picture.locator("circle.estimate").count() == 6
    # the curve's points lie as the totals do: 72 % of the height between 0 and 100 % at the end
    heights = [float(c.get_attribute("cy")) for c in picture.locator("circle.estimate").all()]
    tracks = [float(t.get_attribute("y1")) for t in picture.locator("line.track").all()]
    bottom, top = max(tracks), min(tracks)
    for y, total in zip(heights, (4, 13, 25, 33, 36, 36), strict=True):
        assert abs((bottom - y) / (bottom - top) - total / 50) < 0.005


def test_table_of_counts(page, site):
    sheet = opened(page, site, 50, EXAMPLE)
    rows = [row.inner_text().split("\t") for row in sheet.section.locator(".calculator-rest .answer-table tr").all()]
    assert rows[0] == ["Day", "New", "Total", "Percent"]
    assert rows[1:] == [["4", "4", "4", "8 %"], ["5", "9", "13", "26 %"], ["6", "12", "25", "50 %"], ["7", "8", "33", "66 %"], ["9", "3", "36", "72 %"], ["12", "0", "36", "72 %"]]


# Files


def saved(sheet):
    with sheet.page.expect_download() as download:
        sheet.section.get_by_role("button", name="Save as test file").click()
    return download.value.suggested_filename, download.value.path().read_bytes()


def choose(sheet, name, raw):
    sheet.section.locator("input[type=file]").set_input_files({"name": name, "mimeType": "text/csv", "buffer": raw})
    sheet.section.locator(".file-told p", has_text=re.compile("read from|could not")).wait_for()
    return sheet.section.locator(".file-told").inner_text()


@pytest.mark.parametrize("name", ["Early row", "Bed 3, \"east\"; late", "=1+1", "", "Küche"])
def test_a_saved_file_gives_python_the_same_numbers(page, site, name):
    rows = [*EXAMPLE[:4], (9.25, 3), (12, 0)]
    sheet = opened(page, site, 50, rows, name=name)
    file, raw = saved(sheet)
    assert re.fullmatch(r"[a-z0-9-]+-counts\.csv", file)
    assert raw.startswith(HEAD.encode()) and b"\n=" not in raw
    reading = read_courses(raw, file)
    assert reading.all_good, reading.problems
    (course,) = reading.courses
    assert (course.name, course.seeds, course.days, course.new) == (name, 50, (4, 5, 6, 7, 9.25, 12), (4, 9, 12, 8, 3, 0))
    numbers = time_course(course.days, course.new, course.seeds)
    for label, value in {"Mean time": numbers["mean_days"], "T50 (Farooq)": numbers["t50_farooq"]["day"], "T50 (Coolbear)": numbers["t50_coolbear"]["day"]}.items():
        assert abs(read(sheet.number(label)) - value) <= 0.051
    assert read(sheet.number("Speed")) == float(f"{numbers['speed']:.3g}")
    # and the page itself, opened anew
    answer = sheet.answer
    again = Sheet.open(page, f"{site}{PATH}")
    assert "One test read from" in choose(again, file, raw)
    assert again.answer == answer and again.field("Name of the test").input_value() == name
    assert not again.section.get_by_text("Example figures; type your own").is_visible()


def test_totals_are_saved_as_new_seedlings(page, site):
    _, raw = saved(opened(page, site, 50, [(4, 4), (5, 13), (6, 25)], "total"))
    assert raw.decode() == HEAD + ",50,4,4\n,50,5,9\n,50,6,12\n"


def test_a_file_of_several_tests(page, site, tmp_path):
    raw = open_data_file(tmp_path).read_bytes() + b"Bad,20,5,3\nBad,20,4,3\n"
    sheet = Sheet.open(page, site + PATH)
    told = choose(sheet, "open data.csv", raw)
    assert "3 tests read from open data.csv; nothing was sent anywhere." in told
    assert "Line 77, column day: Day 4 comes after day 5 (line 76). Put the counts in the order of the days" in told
    assert sheet.headline.startswith("40 of 200 came up: 20 % (15–26 %).")
    # Lobelia at 15 °C: Farooq's T50 8.1 days, mean of count days 12.4 (computed beforehand by other code)
    sheet.section.get_by_label("Test of this file").select_option("Lobelia 15")
    assert sheet.headline.startswith("92 of 100 so far")
    assert (sheet.number("T50 (Farooq)"), sheet.number("Mean time")) == ("day 8.1", "12.4 days")
    # the address took it in
    page.wait_for_url("**name=Lobelia%2015*")
    # a small file after that one leaves no choice behind
    assert "One test read" in choose(sheet, "good.csv", GOOD.encode())
    assert sheet.section.get_by_label("Test of this file").count() == 0
    assert sheet.headline.startswith("10 of 20")


def test_more_counts_than_the_page_takes(page, site):
    raw = HEAD + "".join(f"Long,100,{day},1\n" for day in range(1, 42))
    sheet = Sheet.open(page, site + PATH)
    before = sheet.headline
    told = choose(sheet, "long.csv", raw.encode())
    assert "Long has 41 counts; this page takes 40. The command time-course takes any number." in told
    assert "No test could be read" in told and sheet.headline == before


def test_a_bad_file_leaves_the_test_alone(page, site):
    sheet = opened(page, site, 50, EXAMPLE)
    before = sheet.answer
    told = choose(sheet, "tests.xlsx", b"PK\x03\x04 and so on")
    assert "Line 1: This is a spreadsheet file, not a CSV file. Open it where it was made and save it as CSV, UTF-8." in told
    assert sheet.answer == before
    many = HEAD + "".join(f"T{i},x,1,1\n" for i in range(40))
    assert "And 28 more." in choose(sheet, "many.csv", many.encode())


READ = """async ({address, raw}) => {
  const { readCourses } = await import(address);
  const bytes = Uint8Array.from(atob(raw), (c) => c.charCodeAt(0));
  return readCourses(new Blob([bytes]));
}"""
FURTHER = [
    b"test;seeds;day;new\nA;20;2,5;1\nA;20;3.5;1\n", b"test,seeds,day,new,x,\nA,20,1,1,,\n", "test\tseeds\tday\tnew\nÉ\t20\t1\t1\nE\u0301\t20\t2\t1\n".encode(),
    b"name,total seeds,day,cumulative count\nA,1,1,1\n", b"sum,seeds,days,tests\n", (HEAD + '"A\nB",20,1,1\n').encode(), (HEAD + "A,20,1,1\n" * 3).encode(),
    ("\U0001f331" * 61 + ",20,1,1\n").join([HEAD, ""]).encode(), (HEAD + "A,20,1/2/2027,1\nB,20,.5,1\nC,20,5.,1\nD,20,1e2,1\nE,20,\u0663,1\n").encode(), (HEAD + "'=A,20,1,1\n'A,20,1,1\n").encode(),
]


def test_the_page_reads_files_as_python_does(page, modules):
    page.goto(modules)
    address = f"{modules}calculators/daily-counts/file.js"
    for raw in [*(case[1] for case in [*GOOD_FILES, *BAD_FILES]), *FURTHER]:
        found = page.evaluate(READ, {"address": address, "raw": base64.b64encode(raw).decode()})
        reading = read_courses(raw, "")
        wanted = {
            "courses": [{"name": c.name, "seeds": c.seeds, "days": list(c.days), "fresh": list(c.new), "line": c.line} for c in reading.courses],
            "problems": [{"line": p.line, "column": p.column, "rule": p.rule, "message": p.message, "hint": p.hint, "level": p.level} for p in reading.problems],
            "leftOut": reading.left_out,
        }
        assert found == json.loads(json.dumps(wanted)), raw


def test_the_format_is_described(page, site):
    Sheet.open(page, site + PATH)
    page.locator(".file-format summary").click()
    described = page.locator(".file-format")
    assert [cell.inner_text() for cell in described.locator("tbody th").all()] == list(COLUMNS)
    sample = described.locator("pre").inner_text().replace("…", "")
    reading = read_courses(sample.encode(), "sample.csv")
    assert reading.all_good and reading.courses[0].name == "Early row" and reading.courses[0].new == (4, 9, 12)


# What holds for every calculator page


def test_printed_sheet_holds_the_counts_and_no_buttons(page, site):
    visible = check_print(Sheet.open(page, f"{site}{PATH}{ENTRIES[1]}"), "A4")
    assert "Printed on" in visible and "Open a test file" not in visible and "Seedlings at each count" in visible and "Judge the final count" not in visible


@pytest.mark.parametrize("width", [320, 1280])
def test_messages_and_opened_files_fit(page, site, width):
    address = f"{site}{PATH}{fragment(50, [('soon', 'x'), (3, ''), *EXAMPLE])}"
    check_fits(page, address, width)
    sheet = Sheet(page)
    choose(sheet, "n" * 80 + ".csv", (GOOD + "B,20,3,4\n" + "C" * 61 + ",x,y,z\n").encode())
    edge = sheet.section.evaluate("(s) => s.getBoundingClientRect().right")
    assert sheet.section.locator(".test-file").evaluate("(d) => Math.max(...[d, ...d.querySelectorAll('*')].map((e) => e.getBoundingClientRect().right))") <= edge + 1
    assert sheet.section.get_by_label("Test of this file").evaluate("(s) => s.getBoundingClientRect().height") >= 43.9


def test_without_scripts(browser, site):
    check_without_scripts(browser, site + PATH, "Half-way day (T50): half of the 36 seedlings is 18.")
    with watched_context(browser, java_script_enabled=False) as (context, trouble):
        page = context.new_page()
        page.goto(site + PATH)
        text = page.locator(".until-scripts-run").inner_text()
        # the arithmetic of test_by_hand
        assert "5 + (18 − 13) / 12 × 1 = 5.4" in text and "216 / 36 = 6 days" in text and "from 58 to 83 %" in text
        assert trouble == []


def test_keyboard_alone(page, site):
    sheet = Sheet.open(page, site + PATH)
    page.locator("#calculator-seeds").focus()
    page.keyboard.press("Control+A")
    page.keyboard.type("40")
    for _ in range(3):  # the choice, the first day, its seedlings
        page.keyboard.press("Tab")
    page.keyboard.press("Control+A")
    page.keyboard.type("2")
    assert sheet.headline.startswith("34 of 40 came up: 85 %")
    assert not sheet.section.get_by_text("Example figures; type your own").is_visible()
    for _ in range(11):
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Add a count"
    page.keyboard.press("Enter")
    page.keyboard.type("14")
    page.keyboard.press("Tab")
    page.keyboard.type("1")
    assert sheet.headline.startswith("35 of 40 so far")
    # to the file button and on to the folded numbers, which stay open while typing
    while page.evaluate("document.activeElement.textContent") != "Open a test file":
        page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "More numbers"
    page.keyboard.press("Enter")
    assert sheet.section.locator(".more-numbers td").first.is_visible()
    sheet.type("Seedlings", "0", row=7)
    assert sheet.section.locator(".more-numbers td").first.is_visible()


def test_stale_answers_cannot_be_saved(page, site):
    sheet = Sheet.open(page, site + PATH)
    sheet.type("Seeds set", "soon")
    assert sheet.section.get_by_role("button", name="Save as test file").is_disabled()
    assert sheet.section.get_by_role("button", name="Open a test file").is_enabled()
    choose(sheet, "good.csv", GOOD.encode())
    assert not sheet.is_stale() and sheet.section.get_by_role("button", name="Save as test file").is_enabled()
