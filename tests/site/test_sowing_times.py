"""The sowing calendar in Chromium: windows against printed weeks, both halves of the world, careless input, files, print.

Dates are worked out from weeks that sources print (named beside each) and the frost date typed; today is set.
"""

from __future__ import annotations

import csv
import io
import json
import re
from datetime import date, timedelta

import pytest

from tests.render.test_icalendar import AWKWARD, events_of, lines_of
from tests.site.browser import watched_context
from tests.site.calculators import (
    Sheet,
    check_fits,
    check_pictures,
    check_print,
    check_round_trip,
    check_without_scripts,
)

pytestmark = pytest.mark.browser
TODAY = "2026-11-01T00:00:00Z"
BASE = {"place": "Fenwick Lane", "lastday": "15", "lastmonth": "5", "firstday": "1", "firstmonth": "10", "year": "2027", "indoor": "20", "unit": "c", "buy": "14", "where": ""}


@pytest.fixture(scope="module")
def own_tab(browser):
    """A tab with a calendar of its own: the shared one must keep the real time."""
    with watched_context(browser, locale="en-GB", viewport={"width": 1280, "height": 900}, accept_downloads=True, permissions=["clipboard-read", "clipboard-write"]) as (context, trouble):
        yield context.new_page(), trouble


@pytest.fixture
def tab_at(own_tab):
    """A function today → the tab with that day."""
    tab, trouble = own_tab
    trouble.clear()
    tab.set_viewport_size({"width": 1280, "height": 900})
    tab.emulate_media(media="null")
    tab.goto("about:blank")

    def at(today=TODAY):
        tab.clock.set_fixed_time(today)
        return tab

    yield at
    if tab.url.startswith("http"):
        tab.evaluate("() => { localStorage.clear(); sessionStorage.clear(); }")
    assert trouble == []


def fragment(rows, **fields):
    entry = {**BASE, **fields}
    return "#sowing-times=1&" + "&".join([*(f"r={row}" for row in rows), *(f"{name}={value}" for name, value in entry.items())])


@pytest.fixture
def opened(tab_at, site):
    """A function (rows, today, fields) → the page with that entry."""
    def at(rows=("tomato",), today=TODAY, **fields):
        return Sheet.open(tab_at(today), f"{site}calculators/sowing-times/{fragment(rows, **fields)}")

    return at


def tasks(sheet):
    """The list by date: (crop, task) → (first, last), as shown."""
    rows = sheet.section.locator(".task-list tbody tr").all_inner_texts()
    return {(crop, task): (first, last) for first, last, crop, task in (row.split("\t") for row in rows)}


def cells(sheet, crop):
    row = sheet.section.locator(".crop-windows tbody tr").filter(has=sheet.page.locator("th", has_text=crop))
    return row.locator("td").all_inner_texts()


def saved(sheet, button):
    with sheet.page.expect_download() as download:
        sheet.section.get_by_role("button", name=button).click()
    return download.value.suggested_filename, download.value.path().read_bytes()


def test_windows_are_the_printed_weeks(opened):
    # Tomato: six to eight weeks before the last frost indoors (Cornell Cooperative Extension of Oneida County 2020), out two weeks after it
    # (Utah State, Wasatch Front 2009). Cabbage out two to four weeks before it (Colorado State 720). Last frost 15 May 2027.
    found = tasks(opened(["tomato", "cabbage", "carrot"]))
    assert found["Tomato", "Sow indoors"] == ("20 Mar 2027", "3 Apr 2027")
    assert found["Tomato", "Plant out"] == ("29 May 2027", "4 Jun 2027")
    assert found["Cabbage", "Plant out"] == ("17 Apr 2027", "1 May 2027")
    # Carrot within the two weeks before it (Colorado State 720, Utah State 2009); official test 14 days (7 CFR 201.58), then 14 days to buy seed
    assert found["Carrot", "Sow outdoors"] == ("1 May 2027", "15 May 2027")
    assert found["Carrot", "Start a germination test"] == ("21 Mar 2027", "3 Apr 2027")


def test_seedlings_by_the_measured_days(opened):
    # Harrington & Minges 1954: tomato 8 days at 20 °C, so 6 to 11; 14 days at 15 °C, so 10 to 19
    sheet = opened()
    assert tasks(sheet)["Tomato", "Look for seedlings indoors"] == ("26 Mar 2027", "14 Apr 2027")
    assert "6 to 11 days after you sow" in cells(sheet, "Tomato")[1]
    sheet.type("Warmth where you raise seedlings", "15")
    assert "10 to 19 days after you sow" in cells(sheet, "Tomato")[1]
    sheet.type("Temperatures in", "f")
    sheet.type("Warmth where you raise seedlings", "68")
    assert "6 to 11 days after you sow" in cells(sheet, "Tomato")[1]


def test_nothing_is_said_beyond_tested_temperatures(opened):
    sheet = opened(indoor="8")
    assert ("Tomato", "Look for seedlings indoors") not in tasks(sheet)
    assert "Days to seedlings: not published here." in cells(sheet, "Tomato")[1]
    assert "Not tested at 8 °C, only from 10 °C to 35 °C" in sheet.answer


def test_outdoors_from_the_coldest_tested_soil(opened):
    # Carrot: 51 days at 5 °C; at 26.5 °C about 6: 4 to 67 days. A sowing is given up after the late end, outdoors.
    assert "4 to 67 days after you sow" in cells(opened(["carrot"]), "Carrot")[3]
    assert "after 67 days" in cells(opened(["carrot"]), "Carrot")[3]


def test_what_is_not_published_is_said(opened):
    sheet = opened(["arugula", "zinnia", "basil"])
    assert cells(sheet, "Arugula")[0] == "No sowing to count back from" and cells(sheet, "Arugula")[1].startswith("not published here")
    assert "No weeks for sowing or planting out are published here" in sheet.answer
    assert "treat it as tender" in sheet.answer  # zinnia: no frost class, no weeks of planting out
    # basil: two weeks after the last frost (University of Massachusetts); 5–6 weeks old: sown from 29 May − 6 weeks to 4 June − 5 weeks
    assert tasks(sheet)["Basil", "Sow indoors"] == ("17 Apr 2027", "30 Apr 2027")
    assert "worked out from planting out" in sheet.answer
    alone = opened(["arugula"])
    assert alone.headline == "No weeks are published here for Arugula, so no window can be given."
    assert alone.section.locator("svg.interval-picture").count() == 0


def test_soak_where_it_may_help(opened):
    found = tasks(opened(["parsley", "tomato"]))
    assert found["Parsley", "Soak overnight before sowing outdoors"] == ("30 Apr 2027", "14 May 2027")
    assert not any(crop == "Tomato" and task.startswith("Soak") for crop, task in found)


def test_next_three_from_today(opened):
    sheet = opened(["tomato", "cabbage"], today="2027-03-24T12:00:00Z")
    assert sheet.headline == "Now, Tomato: sow indoors, until 3 April 2027."
    assert re.search(r"Then Cabbage: sow indoors, until 3 April 2027; Cabbage: look for seedlings indoors, (until )?", sheet.trust)
    assert "average last frost on 15 May 2027; in many years frost comes later" in sheet.trust
    assert "no window for sowing or planting out is missed" in sheet.answer
    assert sheet.section.locator(".task-list").get_by_text("Start a germination test (past)").count() == 2


def test_past_windows_and_next_year(opened):
    sheet = opened(["tomato", "carrot"], today="2027-05-20T12:00:00Z")
    assert "Late. 2 of 3 windows for sowing and planting out are already past in the season of 2027." in sheet.answer
    sheet.section.get_by_role("button", name="Show the season of 2028").click()
    assert sheet.field("Year of the last frost").input_value() == "2028"
    assert sheet.page.evaluate("document.activeElement.name") == "year"
    assert "already past" not in sheet.answer and tasks(sheet)["Carrot", "Sow outdoors"] == ("1 May 2028", "15 May 2028")
    assert "year=2028" in sheet.page.url
    over = opened(["tomato"], today="2027-12-01T12:00:00Z")
    assert over.headline == "Nothing is left to do in the season of 2027 at Fenwick Lane."


def test_south_of_the_equator(opened):
    sheet = opened(["tomato"], lastday="15", lastmonth="10", firstday="20", firstmonth="4", where="south", year="2027")
    assert tasks(sheet)["Tomato", "Sow indoors"] == ("20 Aug 2027", "3 Sept 2027")
    assert "average last frost 15 October 2027, average first frost 20 April 2028" in sheet.section.locator("desc").first.text_content()


@pytest.mark.parametrize("zone", ["Pacific/Auckland", "America/Los_Angeles", "Europe/London"])
def test_days_are_the_same_in_every_time_zone(browser, site, zone):
    with watched_context(browser, locale="en-GB", timezone_id=zone) as (context, trouble):
        sheet = Sheet.open(context.new_page(), f"{site}calculators/sowing-times/{fragment(['tomato', 'carrot'])}")
        found = tasks(sheet)
        assert found["Tomato", "Sow indoors"] == ("20 Mar 2027", "3 Apr 2027")  # clocks change within the windows
        assert found["Carrot", "Sow outdoors"] == ("1 May 2027", "15 May 2027")
        assert trouble == []


def test_leap_day_and_new_year(opened):
    # eight to six weeks before 29 February 2028, and the 28th where the year has none
    assert tasks(opened(lastday="29", lastmonth="2", year="2028"))["Tomato", "Sow indoors"] == ("4 Jan 2028", "18 Jan 2028")
    assert tasks(opened(lastday="29", lastmonth="2", year="2027"))["Tomato", "Sow indoors"] == ("3 Jan 2027", "17 Jan 2027")
    assert tasks(opened(lastday="20", lastmonth="1", firstday="20", firstmonth="12"))["Tomato", "Sow indoors"] == ("25 Nov 2026", "9 Dec 2026")


def test_dates_that_leave_the_half_of_the_world_open_are_asked(opened):
    sheet = opened(lastday="15", lastmonth="10", firstday="20", firstmonth="4")
    assert "No answer yet" in sheet.answer
    assert "Frost ends in October and begins in April. That is so south of the equator: choose South if you grow there. If not, swap the two dates." == sheet.message("Half of the world")
    assert sheet.field("Half of the world").is_visible()  # its fold has opened
    sheet.type("Half of the world", "south")
    assert not sheet.is_stale()
    sheet.type("Half of the world", "north")
    assert "north of the equator it ends by July" in sheet.message("Half of the world")
    assert "first frost of autumn comes later" in opened(lastday="15", lastmonth="5", firstday="20", firstmonth="4", where="north").message("Half of the world")
    assert "south of the equator it ends between July and December" in opened(where="south").message("Half of the world")
    assert not opened(lastday="31", lastmonth="1", firstday="5", firstmonth="1", where="north").is_stale()  # a mild place: frost in January alone


@pytest.mark.parametrize(("label", "text", "said"), [
    ("Average last frost", "31", None), ("Average last frost", "32", "May has at most 31 days"), ("Average last frost", "", "Type the day of the month"), ("Average last frost", "8.5", "not a whole number"),
    ("Average last frost", "soon", "is not a number"), ("Average first frost", "0", "is too few"), ("Year of the last frost", "20026", "20026 is no year for this calendar. Type four digits from 2000 to 2199"),
    ("Year of the last frost", "27", "27 is no year"), ("Year of the last frost", "", "Type the year"), ("Year of the last frost", "9" * 30, "is no year"), ("Warmth where you raise seedlings", "68", "If it was read in °F, choose °F."),
    ("Warmth where you raise seedlings", "", "Type how warm the mix is"), ("Time to buy other seed", "200", "at most 120 days"), ("Time to buy other seed", "", "Type how many days"), ("Place", "x" * 41, "too long for a place"),
])
def test_wrong_fields_are_explained(opened, label, text, said):
    sheet = opened()
    before = sheet.headline
    sheet.type(label, text)
    if said is None:
        assert not sheet.is_stale()
        return
    assert said in sheet.message(label)
    assert sheet.is_stale() and sheet.headline == before and sheet.field(label).input_value() == text
    assert sheet.section.get_by_role("button", name="Save calendar file").is_disabled() and sheet.section.get_by_role("button", name="Save table").is_disabled()


def test_thirtieth_of_february(opened):
    assert "February has at most 29 days" in opened(lastday="30", lastmonth="2").message("Average last frost")
    assert "Both frost dates are the same day" in opened(lastday="1", lastmonth="10").message("Average first frost")


@pytest.mark.parametrize(("rows", "column", "row", "said"), [
    (["tomato", ""], "Crop", 2, "No crop chosen. Choose one, or remove this row."), (["triffid"], "Crop", 1, "“triffid” is no crop of this site"),
    (["tomato", "carrot", "tomato"], "Lot name, if any", 3, "This crop stands without a lot name in row 1 as well."), (["tomato,A", "tomato,A"], "Lot name, if any", 2, "with this lot name in row 1"),
    (["tomato,,2026-11-02"], "Last tested", 1, "2 November 2026 is still to come"), (["tomato,,20026-03-12"], "Last tested", 1, "is still to come"), (["tomato,,2026-02-30"], "Last tested", 1, "is no day of the calendar"),
    (["tomato,,1926-03-12"], "Last tested", 1, "too long ago"), (["tomato,,yesterday"], "Last tested", 1, "not a whole date"), ([f"tomato,{'x' * 41}"], "Lot name, if any", 1, "too long for a lot name"),
])
def test_wrong_rows_are_explained(opened, rows, column, row, said):
    sheet = opened(rows)
    assert sheet.is_stale() and said in sheet.message(column, row=row)


def test_two_lots_of_a_crop_and_a_test_that_holds(opened):
    sheet = opened(["tomato,A%20%2812%29,2026-06-01", "tomato,B,2025-01-10", "tomato"])
    found = tasks(sheet)
    assert ("Tomato (A (12))", "Start a germination test") not in found
    assert found["Tomato (B)", "Start a germination test"] == found["Tomato", "Start a germination test"] == ("7 Feb 2027", "20 Feb 2027")
    assert cells(sheet, "A (12)")[0] == "Tested 1 Jun 2026" and "Last test: 10 Jan 2025" in cells(sheet, "(B)")[0]
    assert "A (12): tested on 1 June 2026, so no new test is put down" in sheet.answer
    assert sheet.section.get_by_text("Sown and planted out in step").count() == 1  # a crop's notes stand once


def test_plants_too_old_are_said(opened):
    # Iowa State 2017: transplants of 5–7 weeks
    assert "plants are 8–10 weeks old; tables of transplants say 5–7 weeks. Sow late in the window." in opened().answer


def test_window_past_the_autumn_frost(opened):
    assert "comes before the window ends for Tomato" in opened(firstday="25", firstmonth="5").answer


def test_place_of_the_example_is_marked_everywhere(tab_at, site):
    sheet = Sheet.open(tab_at(), f"{site}calculators/sowing-times/")
    said = "Invented example: the frost dates of Wrenfield (invented) are made up."
    assert said in sheet.trust and "An invented example" in sheet.section.locator("[data-field=place]").inner_text()
    printed = check_print(sheet, "A4", 2)
    assert said in printed and "(invented example)" in printed
    sheet.type("Place", "Fenwick Lane")
    assert "Invented example: the frost dates of Fenwick Lane are made up." in sheet.trust  # both dates are still the example's
    sheet.type("Average last frost", "9")
    assert "nvented" not in sheet.answer


def test_calendar_file_of_the_example_is_the_one_made_without_scripts(tab_at, site, built):
    sheet = Sheet.open(tab_at(), f"{site}calculators/sowing-times/")
    name, content = saved(sheet, "Save calendar file")
    assert name == "sowing-calendar-wrenfield-invented-2027.ics"
    assert content == (built / "downloads" / "example-sowing-calendar.ics").read_bytes()


def test_calendar_file_agrees_with_the_table(opened):
    sheet = opened(["cucumber,Früh%2C%20%E2%80%9Crot%E2%80%9D%3B%20\\", "lettuce,,2026-10-01", "parsnip", "arugula"], unit="f", indoor="70")
    name, content = saved(sheet, "Save calendar file")
    assert name == "sowing-calendar-fenwick-lane-2027.ics"
    text = content.decode()
    assert all(len(line.encode()) <= 75 for line in lines_of(text))
    found = {str(event["SUMMARY"]): event for event in events_of(text)}
    shown = tasks(sheet)
    assert len(found) == len(shown) > 15 and len({str(event["UID"]) for event in found.values()}) == len(found)
    for (crop, task), (first, last) in shown.items():
        event = found[f"{crop}: {task[0].lower()}{task[1:]}"]
        days = [event.DTSTART, event.DTEND - timedelta(days=1)]
        assert [f"{day.day} {day:%b} {day.year}".replace("Sep ", "Sept ") for day in days] == [first, last]
        assert str(event["DTSTAMP"].to_ical(), "ascii") == "20261101T000000Z"
    assert "70 °F" in found["Lettuce: look for seedlings indoors"]["DESCRIPTION"] and "°C" not in text.replace("\r\n ", "")
    assert "nvented" not in text


def test_a_calendar_read_again_replaces_itself(opened):
    # RFC 5545 section 3.8.4.7: the UID names the event; another frost date is the same event on other days
    first = {str(e["UID"]): e for e in events_of(saved(opened(["tomato,A"]), "Save calendar file")[1].decode())}
    moved = {str(e["UID"]): e for e in events_of(saved(opened(["tomato,A"], lastday="22"), "Save calendar file")[1].decode())}
    assert first.keys() == moved.keys()
    assert all(moved[uid].DTSTART - first[uid].DTSTART == timedelta(days=7) for uid in first)
    other = {str(e["UID"]) for rows, more in ((["tomato,B"], {}), (["tomato,A"], {"year": "2028"}), (["tomato,A"], {"place": "Elsewhere"}))
             for e in events_of(saved(opened(rows, **more), "Save calendar file")[1].decode())}
    assert not first.keys() & other and len(other) == 3 * len(first)


def test_csv_is_rfc_4180_and_guarded(opened):
    name, content = saved(opened(["carrot,%3DSUM(1)%2C%20%22x%22"]), "Save table")
    assert name == "sowing-calendar-fenwick-lane-2027.csv"
    text = content.decode("utf-8")
    assert text.count("\r\n") == text.count("\n")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert [row["task"] for row in rows] == ["start a germination test", "sow outdoors", "look for seedlings outdoors", "give up if nothing shows outdoors"]
    assert {row["lot"] for row in rows} == {"'=SUM(1), \"x\""}
    for row in rows:
        assert int(row["days"]) == (date.fromisoformat(row["last_day"]) - date.fromisoformat(row["first_day"])).days + 1
        assert row["place"] == "Fenwick Lane" and row["average_last_frost"] == "2027-05-15" and "in many years frost comes later" in row["how_it_came_about"]


def test_icalendar_twin_writes_the_same_bytes(tab_at, modules):
    from build_tools.icalendar import calendar_text, uid

    tab = tab_at()
    tab.goto(modules)
    texts = ["", "plain", AWKWARD, "日" * 90, "a\x07b\tc\x1f", "x" * 74 + "é", "it's (so) * ! ~", "\r\n\r\n", "\U0001f345" * 40]
    made = [{"uid": uid([text[:20], "b"]), "first": "2028-02-28", "last": "2028-02-29", "summary": text, "description": text + text, "categories": [text, "b"]} for text in texts]
    got = tab.evaluate("""async ([events, texts, base]) => {
      const { calendarText, uid } = await import(`${base}icalendar.js`);
      return [calendarText(events, "20261101T000000Z"), texts.map((text) => uid([[...text].slice(0, 20).join(""), "b"]))];
    }""", [made, texts, modules])
    assert got[0] == calendar_text(made, "20261101T000000Z")
    assert got[1] == [event["uid"] for event in made]


def test_thirty_rows_and_no_more(opened):
    sheet = opened()
    data = json.loads(sheet.section.locator("#calculator-data").text_content())
    crops = list(data["crops"])[:30]
    sheet = opened(crops)
    assert sheet.section.locator(".entry-row").count() == 30 and sheet.section.get_by_role("button", name="Add a crop").is_disabled()
    assert not sheet.is_stale() and sheet.section.locator(".crop-windows tbody tr").count() == 30
    check_pictures(sheet)
    page = sheet.page
    page.evaluate("window.print = () => {}")
    page.get_by_role("button", name="Print result").click()
    page.emulate_media(media="print")
    assert page.locator(":is(.crop-windows, .task-list) tr").evaluate_all("(rows) => rows.every((row) => getComputedStyle(row).breakInside === 'avoid')")
    margin = dict.fromkeys(("top", "right", "bottom", "left"), "15mm")
    assert 2 <= len(re.findall(rb"/Type\s*/Page\b(?!s)", page.pdf(format="A4", margin=margin))) <= 6
    page.emulate_media(media="null")
    # each removed row closes up, and the last can't be removed
    sheet.section.get_by_role("button", name="Remove crop 30").click()
    assert sheet.section.locator(".entry-row").count() == 29 and sheet.section.get_by_role("button", name="Add a crop").is_enabled()


def test_quick_beginnings(opened):
    sheet = opened(["leek"])
    sheet.section.get_by_role("button", name="Empty list").click()
    assert sheet.section.locator(".entry-row").count() == 1 and "No crop chosen" in sheet.message("Crop", row=1)
    assert sheet.page.evaluate("document.activeElement.dataset.name") == "crop"
    sheet.section.get_by_role("button", name="Six common crops").click()
    assert sheet.section.locator(".entry-row").count() == 6 and not sheet.is_stale()
    assert sheet.field("Place").input_value() == "Fenwick Lane"  # the reader's own place stays


def test_keyboard_alone(opened):
    sheet = opened()
    sheet.field("Crop", row=1).focus()
    sheet.page.keyboard.type("Carr")
    assert "Carrot" in sheet.headline
    sheet.section.get_by_role("button", name="Add a crop").focus()
    sheet.page.keyboard.press("Enter")
    assert sheet.page.evaluate("document.activeElement.id") == "calculator-1-crop"
    sheet.page.keyboard.type("Leek")
    assert cells(sheet, "Leek") != []


def test_address_holds_right_and_wrong(opened):
    sheet = opened(["tomato,A%2CB%20%26%20%231,2026-06-01", "carrot"])
    sheet.type("Place", "“A” & b#1, (x)")
    check_round_trip(sheet)
    sheet.type("Year of the last frost", "20026")
    check_round_trip(sheet)


def test_print_on_both_papers(opened):
    sheet = opened(["tomato,A", "carrot", "cucumber"])
    for paper in ("A4", "Letter"):
        printed = check_print(sheet, paper, 2)
        assert "Task by task" in printed and "Average last frost: 15 May" in printed and "Tomato (A)" in printed


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_fits(opened, width):
    sheet = opened(["brussels-sprouts,A%20lot%20with%20a%20long%20name%20of%20forty%20letters", "bean-snap", "onion", "arugula"])
    check_fits(sheet.page, sheet.page.url, width)
    picture = sheet.section.locator("svg.interval-picture")
    check_pictures(sheet)
    assert picture.evaluate("(svg) => [...svg.querySelectorAll('text')].every((t) => { const b = t.getBBox(); return b.x >= -1 && b.x + b.width <= svg.viewBox.baseVal.width + 1; })")
    assert picture.evaluate("(svg) => [...svg.querySelectorAll('rect.bar')].every((r) => r.getBBox().width >= 2)")
    letters = picture.locator(".letter").all_text_contents()
    assert set(letters) == {"T", "I", "P", "O"}


def test_bars_differ_without_colour(opened):
    sheet = opened(["cucumber"])
    shown = sheet.section.locator("svg.interval-picture").evaluate("""(svg) => Object.fromEntries(["test", "sow-indoors", "plant-out", "sow-outdoors"].map((task) => {
      const style = getComputedStyle(svg.querySelector(`rect.bar.${task}`));
      return [task, `${style.fill} ${style.fillOpacity}`];
    }))""")
    assert len(set(shown.values())) == 4 and "url(" in shown["plant-out"]


def test_without_scripts(browser, site, built):
    check_without_scripts(browser, f"{site}calculators/sowing-times/", "13–27 March 2027")
    html = (built / "calculators" / "sowing-times" / "index.html").read_text(encoding="utf-8")
    assert "example-sowing-calendar.ics" in html and "Invented example" in html


def test_many_lots_print_without_empty_sheets(opened):
    lots = [f"{crop},Lot {i} of the shed" for i, crop in enumerate(["tomato", "carrot", "onion", "lettuce", "pea"] * 6)]
    sheet = opened(lots)
    assert sheet.section.locator(".timeline-holder .row-name").count() == 30
    sheet.page.evaluate("window.print = () => {}")
    sheet.page.get_by_role("button", name="Print result").click()
    sheet.page.emulate_media(media="print")
    heights = sheet.page.evaluate("[...document.querySelectorAll('svg.interval-picture.timeline')].map((s) => s.getBoundingClientRect().height)")
    assert len(heights) == 3 and max(heights) < 0.6 * 267 / 25.4 * 96, "A4 less its margins, in CSS pixels: the picture stands under the headline"


@pytest.mark.parametrize("width", [320, 760, 1280])
def test_names_of_frost_lines_close_together_stay_apart(opened, width):
    sheet = opened(["tomato"], lastday="25", lastmonth="6", firstday="5", firstmonth="7")
    sheet.page.set_viewport_size({"width": width, "height": 800})
    sheet.page.wait_for_function("() => { const slot = document.querySelector('.timeline-holder .picture-slot'); return Number(slot.dataset.width) === Math.round(Math.min(Math.max(slot.clientWidth, 280), 760)); }")
    picture = sheet.section.locator("svg.interval-picture.timeline")
    boxes = [name.bounding_box() for name in picture.locator(".mark-name").all()]
    assert len(boxes) >= 2 and picture.locator("line.frost").count() == 2
    for i, box in enumerate(boxes):
        for other in boxes[:i]:
            beside = box["x"] + box["width"] <= other["x"] + 1 or other["x"] + other["width"] <= box["x"] + 1
            assert beside or abs(box["y"] - other["y"]) >= 14, boxes
