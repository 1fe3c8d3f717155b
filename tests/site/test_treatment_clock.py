"""Clock arithmetic of the treatment times, in the browser, against Python's own calendar; and texts in one unit."""

from __future__ import annotations

import calendar
import datetime as dt
from pathlib import Path

import pytest

from tests.site.browser import serve, watched_context

SCRIPTS = Path(__file__).resolve().parents[2] / "docs" / "assets" / "js"
CLOCK = "calculators/treatment-times/clock.js"
pytestmark = pytest.mark.browser
RUN = """async ({base, module, name, rows}) => {
  const made = await import(base + module);
  return rows.map((row) => { const value = made[name](...row); return value === undefined ? null : value; });
}"""


@pytest.fixture(scope="module")
def scripts():
    with serve(SCRIPTS) as base:
        yield base


@pytest.fixture(scope="module")
def run(browser, scripts):
    """Function (module, name, rows of arguments) -> results, in the time zone UTC."""
    with watched_context(browser, scripts, locale="en-GB", timezone_id="UTC") as (context, trouble):
        page = context.new_page()
        page.goto(scripts + CLOCK)
        yield lambda module, name, rows: page.evaluate(RUN, {"base": scripts, "module": module, "name": name, "rows": rows})
        assert trouble == []


def minutes(moment: dt.datetime) -> int:
    return int((moment - dt.datetime(1970, 1, 1)) / dt.timedelta(minutes=1))


STARTS = [dt.datetime(2027, 3, 9, 14, 30), dt.datetime(2027, 12, 31, 23, 45), dt.datetime(2028, 2, 28, 18, 0), dt.datetime(2027, 3, 28, 0, 30), dt.datetime(2000, 1, 1)]
SPANS = [(30, "minutes"), (11.5, "hours"), (12, "hours"), (24, "hours"), (3, "days"), (7, "days"), (10, "weeks"), (90, "days")]


@pytest.mark.parametrize("start", STARTS, ids=str)
def test_moments_across_midnight_months_and_years(run, start):
    # Python's datetime: plain days of 24 hours, leap day included
    assert run(CLOCK, "moment", [[start.date().isoformat(), start.hour * 60 + start.minute]]) == [minutes(start)]
    ends = run(CLOCK, "later", [[minutes(start), amount, unit] for amount, unit in SPANS])
    assert ends == [minutes(start + dt.timedelta(**{unit: amount})) for amount, unit in SPANS]
    assert run(CLOCK, "parts", [[end] for end in ends]) == [
        {"date": end.date().isoformat(), "minutes": end.hour * 60 + end.minute} for end in (start + dt.timedelta(**{unit: amount}) for amount, unit in SPANS)]


@pytest.mark.parametrize(("start", "months"), [("2027-01-31", 1), ("2027-12-31", 2), ("2027-08-15", 6), ("2028-02-29", 12)])
def test_months_are_calendar_months(run, start, months):
    first = dt.date.fromisoformat(start)
    year, month = first.year + (first.month - 1 + months) // 12, (first.month - 1 + months) % 12 + 1
    want = dt.datetime(year, month, min(first.day, calendar.monthrange(year, month)[1]), 14, 30)
    assert run(CLOCK, "later", [[minutes(dt.datetime.combine(first, dt.time(14, 30))), months, "months"]]) == [minutes(want)]


def test_texts(run):
    start, end = minutes(dt.datetime(2027, 3, 9, 14, 30)), minutes(dt.datetime(2027, 3, 10, 2, 30))
    assert run(CLOCK, "whenText", [[start, start], [end, start], [start + 8 * 1440, start]]) == ["Tuesday 14:30", "Wednesday 02:30", "Wednesday 17 March, 14:30"]
    assert run(CLOCK, "windowText", [[[start, start], start], [[start, start + 60], start], [[start, end], start], [[start, end], start, True]]) == [
        "Tuesday 14:30", "between Tuesday 14:30 and 15:30", "between Tuesday 14:30 and Wednesday 02:30", "between Tuesday 9 March and Wednesday 10 March"]


@pytest.mark.parametrize(("first", "last", "night"), [("22:00", "06:00", False), ("23:00", "05:00", True), ("22:00", "22:00", True), ("06:00", "06:00", False), ("06:15", "07:00", False), ("21:45", "23:00", False), ("00:30", "01:00", True), ("05:00", "06:30", False)])
def test_night(run, first, last, night):
    day = dt.datetime(2027, 3, 9)
    at = [minutes(day + dt.timedelta(hours=int(t[:2]), minutes=int(t[3:]))) for t in (first, last)]
    if at[1] < at[0]:
        at[1] += 1440
    assert run(CLOCK, "inTheNight", [[at]]) == [night]


@pytest.mark.parametrize(("zone", "start", "end", "shift"), [
    # Europe: forward on the last Sunday of March at 01:00 UTC, back on the last of October (Directive 2000/84/EC);
    # United States: second Sunday of March, first of November (Energy Policy Act of 2005, section 110)
    ("Europe/London", dt.datetime(2027, 3, 27, 22, 0), dt.datetime(2027, 3, 28, 8, 0), 60),
    ("Europe/London", dt.datetime(2027, 10, 30, 22, 0), dt.datetime(2027, 10, 31, 8, 0), -60),
    ("Europe/London", dt.datetime(2027, 3, 26, 22, 0), dt.datetime(2027, 3, 27, 8, 0), 0),
    ("America/New_York", dt.datetime(2027, 3, 13, 22, 0), dt.datetime(2027, 3, 14, 8, 0), 60),
    ("America/New_York", dt.datetime(2027, 11, 6, 22, 0), dt.datetime(2027, 11, 7, 8, 0), -60),
    ("America/Phoenix", dt.datetime(2027, 3, 13, 22, 0), dt.datetime(2027, 3, 14, 8, 0), 0),
])
def test_clocks_put_forward_and_back(browser, scripts, zone, start, end, shift):
    with watched_context(browser, scripts, timezone_id=zone) as (context, trouble):
        page = context.new_page()
        page.goto(scripts + CLOCK)
        assert page.evaluate(RUN, {"base": scripts, "module": CLOCK, "name": "clockShift", "rows": [[minutes(start), minutes(end)]]}) == [shift]
        # the arithmetic itself does not mind
        assert page.evaluate(RUN, {"base": scripts, "module": CLOCK, "name": "later", "rows": [[minutes(start), 10, "hours"]]}) == [minutes(end)]
        assert trouble == []


ENTRY = "calculators/treatment-times/entry.js"


@pytest.mark.parametrize(("typed", "value"), [("14:30", 870), ("14.30", 870), ("14,30", 870), ("1430", 870), ("930", 570), ("9", 540), (" 2:30 pm ", 870), ("12 am", 0), ("12:05 PM", 725), ("0:00", 0), ("23:59", 1439), ("7h15", 435)])
def test_times_of_day(run, typed, value):
    assert run(ENTRY, "readTime", [[typed]]) == [{"value": value, "message": None}]


@pytest.mark.parametrize("typed", ["", "24:00", "12:60", "soon", "13 pm", "0 am", "-1:00", "1:2", "12345", "14:30:00"])
def test_no_times_of_day(run, typed):
    found = run(ENTRY, "readTime", [[typed]])[0]
    assert found["value"] is None and "14:30" in found["message"] or "1 to 12" in found["message"]


@pytest.mark.parametrize(("text", "celsius", "fahrenheit"), [
    ("at 38 °C (100 °F), then", "at 38 °C, then", "at 100 °F, then"),
    ("for 3 days at 5–10 °C (41–50 °F).", "for 3 days at 5–10 °C.", "for 3 days at 41–50 °F."),
    ("chill at 5 or 10 °C for three days, 10 °C for seven", "chill at 5 or 10 °C for three days, 10 °C for seven", "chill at 41 or 50 °F for three days, 50 °F for seven"),
    ("94 % at 30 °C; at 18 °C every treatment gave 89 %", "94 % at 30 °C; at 18 °C every treatment gave 89 %", "94 % at 86 °F; at 64 °F every treatment gave 89 %"),
    ("30 minutes at 56 °C", "30 minutes at 56 °C", "30 minutes at 132.8 °F"),
    ("between 15 and 10 °C, and at 2 °C", "between 15 and 10 °C, and at 2 °C", "between 59 and 50 °F, and at 36 °F"),
    ("at 47.8–51.7 °C (118–125 °F)", "at 47.8–51.7 °C", "at 118–125 °F"),
    ("about 15 °F (8.3 °C) over 19 °C", "about 8.3 °C over 19 °C", "about 15 °F over 66 °F"),
    ("No temperature, 12 to 24 hours", "No temperature, 12 to 24 hours", "No temperature, 12 to 24 hours"),
])
def test_texts_in_one_unit(run, text, celsius, fahrenheit):
    # conversions by hand, °F = 1.8 °C + 32
    assert run("calculators/treatment-times/one_unit.js", "inOneUnit", [[text, "c"], [text, "f"]]) == [celsius, fahrenheit]


def test_measures(run):
    measures = "calculators/treatment-times/measures.js"
    assert run(measures, "spoonText", [[2, "tablespoon"], [0.75, "tablespoon"], [6.75, "tablespoon"], [1, "cup"], [0.3, "cup"], [1.25, "cup"]]) == [
        "2 tablespoons", "¾ tablespoon", "6¾ tablespoons", "1 cup", "0.3 cup", "1¼ cups"]
    assert run(measures, "strengthText", [[1 / 3], [0.375], [0.034], [3], [1.5], [0.3], [0.0123]]) == ["0.33 %", "0.38 %", "0.034 %", "3 %", "1.5 %", "0.3 %", "0.012 %"]
    assert run(measures, "shareText", [[9], [8], [2], [9.33], [100]]) == [
        "one ninth of the bottle’s strength", "one eighth of the bottle’s strength", "half of the bottle’s strength", "9.3 times weaker than the bottle", "100 times weaker than the bottle"]
    assert run(measures, "mlText", [[29.5735], [236.588], [25], [14.79], [100]]) == ["29.6 mL", "237 mL", "25 mL", "14.8 mL", "100 mL"]
