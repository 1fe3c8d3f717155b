"""A tray's progress on the built site: sums of 1/days by scipy's PCHIP through Harrington & Minges 1954, dates by datetime."""

from __future__ import annotations

import math
from datetime import date, timedelta
from urllib.parse import quote

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from tests.published.days_table import ROWS, measured_points
from tests.site.browser import pass_on
from tests.site.calculators import Sheet, check_wrong_input

pytestmark = pytest.mark.browser
KEEPS_THE_PAGE = True
SOWN = date(2027, 4, 1)
TOMATO = PchipInterpolator(*(np.log(v) if i else v for i, v in enumerate(zip(*measured_points(next(r for r in ROWS if r["crop_id"] == "tomato")), strict=True))))


def opened(page, site, log="20 20", **typed):
    entry = {"crop": "tomato", "unit": "c", "sown": SOWN.isoformat(), "log": log, "nextlow": "", "nexthigh": ""} | typed
    return Sheet.open(page, f"{site}calculators/tray/#tray=1&" + "&".join(f"{k}={quote(str(v))}" for k, v in entry.items()))


def share(low, high):
    """A day's development, by scipy, inside the tested temperatures."""
    return sum(1 / math.exp(TOMATO((low + high) / 2 + (high - low) / 2 * math.sin(2 * math.pi * (h + 0.5) / 24))) for h in range(24)) / 24


def first_day(shares, after, target):
    total, day = 0.0, 0
    while total < target - 1e-6:
        total += shares[day] if day < len(shares) else after
        day += 1
    return day


def said(day):
    when = SOWN + timedelta(days=day)
    return f"{when.day} {when:%B %Y}"


def when(sheet, name):
    row = sheet.section.locator(".answer-table tr").filter(has=sheet.page.locator("th", has_text=name)).first
    return row.locator("td").first.inner_text()


@pytest.mark.parametrize("log", [[(21, 21)] * 3, [(12, 25), (14, 22), (11, 30), (15, 15)], [(10.5, 14)] * 12])
def test_dates_are_when_the_shares_add_up(page, site, log):
    sheet = opened(page, site, "\n".join(f"{low} {high}" for low, high in log))
    shares = [share(*day) for day in log]
    last = log[-7:]
    after = share(sum(low for low, _ in last) / len(last), sum(high for _, high in last) / len(last))
    for name, target in (("Look from", 1 / 1.3), ("Most likely", 1), ("Late", 1.3), ("Give up", 2.6)):
        assert when(sheet, name) == said(first_day(shares, after, target)), name
    assert sheet.number("Share of development done") == f"about {round(100 * min(1, sum(shares)))} %"


def test_steady_warmth_gives_the_printed_days(page, site):
    # Harrington & Minges 1954: tomato takes 8 days at 20 °C
    assert when(opened(page, site), "Most likely") == said(8)


def test_expected_warmth_is_used(page, site):
    sheet = opened(page, site, "", nextlow=25, nexthigh=25)
    assert when(sheet, "Most likely") == said(6)  # 6 days at 25 °C, same table
    assert "from now on" not in sheet.answer.lower().replace("share a day from now on", "")


def test_dates_in_the_log(page, site):
    # with dates, semicolons and decimal commas, in °F, newest first: the same tray
    plain = opened(page, site, "15 20\n16 21\n14.5 20.5")
    answer = plain.number("Share of development done")
    for log in ("2027-04-02;15;20\n2027-04-03;16;21\n2027-04-04;14,5;20,5", "date,minimum,maximum\n2027-04-02,15,20\n2027-04-03,16,21\n2027-04-04,14.5,20.5", "2027-04-04 14.5 20.5\n2027-04-03 16 21\n2027-04-02 15 20"):
        assert opened(page, site, log).number("Share of development done") == answer
    assert opened(page, site, "59 68\n60.8 69.8\n58.1 68.9", unit="f").number("Share of development done") == answer


def test_gaps_are_filled_and_said(page, site):
    sheet = opened(page, site, "2027-04-02 18 20\n2027-04-05 21 23")
    filled = [share(18, 20), share(19, 21), share(20, 22), share(21, 23)]
    assert sheet.number("Share of development done") == f"about {round(100 * sum(filled))} %"
    assert "2 days of 4 had no reading and are filled" in sheet.trust and "too many for much trust" in sheet.trust
    assert sheet.number("Days logged") == "2 of 4"
    assert "1 day of 3 had no reading and is filled" in opened(page, site, "18 20\n-\n18 20").trust


def test_cold_hot_and_frost_are_said(page, site):
    cold = opened(page, site, "5 9\n4 8")
    assert "too cold or too hot to say" in cold.headline and when(cold, "Late") == "no date at such temperatures"
    assert "48 of 48 hours the tray was outside the tested 10–35 °C" in cold.trust
    assert "highest was above the crop’s published maximum of 35 °C" in opened(page, site, "20 38").answer
    assert "it froze" in opened(page, site, "-2 12\n15 20").answer
    assert "no seedlings are to be expected" in opened(page, site, "1 4\n0 5").headline


def test_overdue_and_given_up(page, site):
    # at 20 °C: 8 days, late on day 11, given up on day 21
    assert "overdue" in opened(page, site, "\n".join(["20 20"] * 12)).headline
    assert "it has had twice its time" in opened(page, site, "\n".join(["20 20"] * 21)).headline


def test_a_crop_without_a_table(page, site):
    sheet = opened(page, site, "24 24", crop="broccoli")
    assert "by the printed days alone" in sheet.headline and "the log does not move the dates" in sheet.trust


LOG = "Log: lowest and highest of each day"


@pytest.mark.parametrize(("label", "text", "told"), [
    (LOG, "", "Nothing to go by yet"), (LOG, "68 75\n66 77", "If they were read in °F, choose °F"), (LOG, "22 15", "Line 1: the minimum, 22, is above the maximum, 15"),
    (LOG, "2027-04-02 15 20\n2027-04-04 15 20\n2027-04-03 15 20", "Line 3, 2027-04-03, comes after line 2, 2027-04-04"), (LOG, "2027-04-02 15 20\n2027-04-02 15 20", "are both for 2027-04-02"),
    (LOG, "2/4/2027 15 20", "is not a date that can be read for certain"), (LOG, "2027-02-30 15 20", "there is no day"), (LOG, "15", "expected a minimum and a maximum"), (LOG, "15 warm", "“warm” is not a number"),
    (LOG, "2027-03-01 15 20", "is of the sowing day"), (LOG, "2027-04-02 15 20\n2027-04-20 15 20", "17 days in a row have no reading"), (LOG, "2029-04-02 15 20", "more than 400 days after sowing"),
    (LOG, "date,minimum\n2027-04-02,15", "none for the maximum"), ("Sown on", "", "Choose the day of sowing"),
    ("Expected lowest from now on", "20", "Type both"), ("Expected highest from now on", "75", "choose °F"),
])
def test_wrong_input(page, site, label, text, told):
    sheet = opened(page, site)
    if label == "Expected lowest from now on":
        sheet.type(label, text)
        assert told in sheet.message("Expected highest from now on")
        return
    check_wrong_input(sheet, label, text, told)


def open_file(sheet, file):
    with sheet.page.expect_file_chooser() as chooser:
        sheet.section.get_by_role("button", name="Open a log from a file").click()
    chooser.value.set_files(file)
    sheet.section.get_by_text(f"Read from {file.name}").wait_for()


def test_ten_thousand_lines(page, site, tmp_path):
    file = tmp_path / "years.csv"
    file.write_text("15 20\n" * 10_000, encoding="utf-8")
    sheet = opened(page, site)
    open_file(sheet, file)
    assert "10,000 lines are more than the 400 that fit here" in sheet.message(LOG) and "keep the days since this one was sown" in sheet.message(LOG)
    pass_on(page, 400)
    assert len(page.url) < 30_000


def test_a_file_is_opened(page, site, tmp_path):
    file = tmp_path / "tray.csv"
    file.write_text("day,max,min\n2027-04-02,20,15\n2027-04-03,NA,NA\n2027-04-04,21,16\n", encoding="utf-8")
    sheet = opened(page, site)
    open_file(sheet, file)
    assert sheet.number("Days logged") == "2 of 3"
