"""Days to emergence on the built site. Figures: Harrington & Minges 1954 as printed (days_table.py); between them scipy's PCHIP."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from tests.published.days_table import ROWS, measured_points
from tests.site.calculators import Sheet, check_wrong_input

pytestmark = pytest.mark.browser
KEEPS_THE_PAGE = True
DAYS = {row["crop_id"].split(";")[0]: measured_points(row) for row in ROWS}


def opened(page, site, **typed):
    entry = {"crop": "tomato", "unit": "c", "low": "18", "high": ""} | typed
    return Sheet.open(page, f"{site}calculators/emergence/#emergence=1&" + "&".join(f"{k}={v}" for k, v in entry.items()))


def by_scipy(crop, celsius):
    t, days = zip(*DAYS[crop], strict=True)
    return float(np.exp(PchipInterpolator(t, np.log(days))(celsius)))


def shown(early, late):
    first, last = max(1, math.floor(early + 0.5)), max(1, math.floor(late + 0.5))
    return f"{first}–{last} days" if first != last else f"about {first} day{'' if first == 1 else 's'}"


@pytest.mark.parametrize(("crop", "celsius"), [("tomato", 18), ("tomato", 10), ("lettuce", 2.5), ("parsnip", 7.5), ("turnip", 25), ("onion", 32)])
def test_days_by_the_curve_of_scipy(page, site, crop, celsius):
    sheet = opened(page, site, crop=crop, low=celsius)
    days = by_scipy(crop, celsius)
    assert f"seedlings in {shown(days / 1.3, days * 1.3)}" in sheet.headline
    assert f"(curve: {round(days, 1):g} day" in sheet.number("Days to emergence")


@pytest.mark.parametrize(("crop", "celsius", "days", "percent"), [("tomato", 25, 6, 97), ("onion", 0, 136, 90), ("asparagus", 35, 20, 37)])
def test_printed_figures_come_back(page, site, crop, celsius, days, percent):
    # Harrington & Minges 1954: days; percentages of normal seedlings: the web copy of Harrington's table
    sheet = opened(page, site, crop=crop, low=celsius)
    assert f"(curve: {days} day" in sheet.number("Days to emergence")
    assert sheet.number("Normal seedlings") == f"{percent} % (as measured)"


def test_fahrenheit_is_the_same_seed(page, site):
    assert opened(page, site, unit="f", low=77).number("Days to emergence") == opened(page, site, low=25).number("Days to emergence")


def test_a_day_that_warms_and_cools(page, site):
    sheet = opened(page, site, low=12, high=28)
    hours = [20 + 8 * math.sin(2 * math.pi * (h + 0.5) / 24) for h in range(24)]
    days = 24 / sum(1 / by_scipy("tomato", t) for t in hours)
    assert f"seedlings in {shown(days / 1.3, days * 1.3)}" in sheet.headline
    assert "at the mean of 20 °C" in sheet.headline


@pytest.mark.parametrize(("crop", "low", "high", "said"), [
    ("tomato", 5, "", "expect no seedlings; none came in the test at 5 °C"),
    ("tomato", 7, "", "between 5 °C, where none came, and 10 °C, where some did, nothing was tested"),
    ("cabbage", 5, "", "days were not tested below 10 °C"),
    ("cabbage", 35, "", "days were not tested above 30 °C"),
    ("lettuce", 34, "", "between 30 °C, where some came, and 35 °C, where none did, nothing was tested"),
    ("lettuce", 38, "", "none came at 35 °C nor at 40 °C"),
    ("lettuce", 45, "", "none came at 40 °C, and nothing hotter was tested"),
    ("asparagus", 2, "", "none came at 0 °C nor at 5 °C"),
])
def test_none_came_and_not_tested_are_different_words(page, site, crop, low, high, said):
    assert said in opened(page, site, crop=crop, low=low, high=high).headline


def test_hours_outside_are_said(page, site):
    sheet = opened(page, site, crop="tomato", low=6, high=22)
    assert "of 24 hours the seed is outside the tested 10–35 °C" in sheet.trust
    assert "The day’s highest is a danger: at a steady 30 °C only 12 % came." in opened(page, site, crop="lettuce", low=10, high=31).answer


def test_a_crop_without_a_table(page, site):
    sheet = opened(page, site, crop="broccoli", low=20)
    assert "days were not measured by temperature" in sheet.headline and "nothing is worked out for yours" in sheet.trust
    assert "no published days to emergence were found" in opened(page, site, crop="basil", low=20).headline


@pytest.mark.parametrize(("label", "text", "said"), [
    ("Temperature, or the day’s lowest", "", "Nothing typed"), ("Temperature, or the day’s lowest", "warm", "is not a number"),
    ("Temperature, or the day’s lowest", "68", "If it was read in °F, choose °F"), ("The day’s highest", "12", "12 is below 18"), ("The day’s highest", "200", "200 °C can’t be the temperature of soil or mix"),
])
def test_wrong_input(page, site, label, text, said):
    check_wrong_input(opened(page, site), label, text, said)


def test_a_degree_sign_is_understood(page, site):
    assert opened(page, site, low="25 °C").number("Days to emergence") == opened(page, site, low="25,0").number("Days to emergence")


def test_tables_are_there_without_scripts(page, site):
    # the printed table, and the errors that the build works out (test_held_out_days.py holds them to what was worked out beforehand)
    page.goto(site + "calculators/emergence/")
    table = page.locator("article > .table-holder table").first
    onion = table.locator("tr").filter(has=page.locator("th", has_text="Onion")).first
    assert onion.locator("td").all_inner_texts() == ["136", "31", "13", "7", "5", "4", "4", "13", "none"]
    watermelon = table.locator("tr").filter(has=page.locator("th", has_text="Watermelon")).first
    assert watermelon.locator("td").all_inner_texts()[:4] == ["not tested", "none", "not tested", "not tested"]
    errors = page.locator("article > .table-holder table").nth(1)
    rows = {row.locator("th").inner_text(): row.locator("td").all_inner_texts() for row in errors.locator("tbody tr").all()}
    used = next(name for name in rows if "used here" in name)
    assert used.startswith("Smooth curve (PCHIP) through the logarithm") and rows[used][:2] == ["85", "1.17"]
    assert rows["Straight lines through days"][1] == "1.35"


def test_crop_page_leads_here_with_its_crop(page, site):
    page.goto(site + "crops/lettuce/")
    page.get_by_role("link", name="Days to emergence").last.click()
    page.locator(".headline").wait_for()
    assert Sheet(page).field("Crop").input_value() == "lettuce"


def test_the_example_follows_the_unit_and_typed_figures_do_not(page, site):
    sheet = Sheet.open(page, site + "calculators/emergence/")
    sheet.type("Temperatures in", "f")
    assert sheet.field("Temperature, or the day’s lowest").input_value() == "64.4" and "at 64 °F" in sheet.headline
    # a reader who has typed 68 with °C chosen is told to choose °F, and is then right
    sheet.type("Temperatures in", "c")
    sheet.type("Temperature, or the day’s lowest", "68")
    assert sheet.is_stale()
    sheet.type("Temperatures in", "f")
    assert not sheet.is_stale() and "at 68 °F" in sheet.headline
