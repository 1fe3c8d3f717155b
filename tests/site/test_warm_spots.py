"""Warm spots on the built site. Days: Harrington & Minges 1954 as printed; bands: the reference's own, from its crop files."""

from __future__ import annotations

import pytest

from tests.site.calculators import Sheet, check_wrong_input
from tests.site.test_emergence import by_scipy, shown

pytestmark = pytest.mark.browser
KEEPS_THE_PAGE = True


def opened(page, site, places=(("Sill", 18, 18), ("Boiler room", 25, 25)), **typed):
    entry = {"crop": "tomato", "season": "all", "unit": "c", "rise": ""} | typed
    rows = "&".join(f"r={','.join(map(str, place))}" for place in places)
    return Sheet.open(page, f"{site}calculators/warm-spots/#warm-spots=1&{rows}&" + "&".join(f"{k}={v}" for k, v in entry.items()))


def cell(sheet, crop, place):
    row = sheet.section.locator(".spots-table tbody tr").filter(has=sheet.page.locator("th", has_text=crop)).first
    return row.locator("td").nth(place).inner_text().split("\n")


def test_days_of_each_place(page, site):
    sheet = opened(page, site)
    for i, celsius in enumerate((18, 25)):
        days = by_scipy("tomato", celsius)
        assert cell(sheet, "Tomato", i) == ["good", shown(days / 1.3, days * 1.3)]
    assert sheet.headline.startswith("Tomato: best in Boiler room, in the best range")


def test_ratings_follow_the_published_band(page, site, reference):
    sheet = opened(page, site, [("A", 2, 2), ("B", 12, 12), ("C", 22, 22), ("D", 33, 33), ("E", 44, 44)], crop="")
    for crop in reference.crops.values():
        band = [crop[key].low for key in ("minimum_c", "optimum_low_c", "optimum_high_c", "maximum_c")]
        if None in band or not crop.days or not crop.percents:
            continue
        words = [cell(sheet, crop.name, i)[0] for i in range(5)]
        for celsius, word in zip((2, 12, 22, 33, 44), words, strict=True):
            if celsius > band[3]:
                assert word == "hot", (crop.id, celsius)
            elif celsius < band[0]:
                assert word == "cold", (crop.id, celsius)
            elif word == "good":
                assert band[1] <= celsius <= band[2], (crop.id, celsius)
            elif word == "cool":
                assert celsius < band[1], (crop.id, celsius)


def test_what_a_mat_changes(page, site):
    sheet = opened(page, site, [("Porch", 10, 14)], crop="pepper-sweet", rise="10")
    assert "Porch, then 20–24 °C: in the best range" in sheet.answer
    # a difference has no 32 in it: 18 °F are 10 °C
    fahrenheit = opened(page, site, [("Porch", 50, 57.2)], crop="pepper-sweet", rise="18", unit="f")
    assert "Porch, then 68–75 °F: in the best range" in fahrenheit.answer


def test_all_crops_and_one_season(page, site, reference):
    sheet = opened(page, site, crop="", season="warm")
    names = set(sheet.section.locator(".spots-table tbody th").all_inner_texts())
    warm = {crop.name for crop in reference.crops.values() if crop["season"].choice == "warm"}
    assert names and names <= warm
    assert sheet.headline.startswith("Crops in their best range, of ")


def test_places_come_and_go(page, site):
    sheet = opened(page, site)
    sheet.section.get_by_role("button", name="Add a place").click()
    assert sheet.is_stale() and "Nothing typed" in sheet.message("Lowest", row=3)
    sheet.type("Lowest", "5", row=3)
    sheet.type("Highest", "9", row=3)
    assert sheet.section.locator(".spots-table thead th").count() == 4
    sheet.section.get_by_role("button", name="Remove place 3").click()
    assert sheet.section.locator(".spots-table thead th").count() == 3


@pytest.mark.parametrize(("label", "text", "said"), [("Lowest", "70", "If it was read in °F, choose °F"), ("Lowest", "19", "18 is below 19"), ("Highest", "x", "is not a number")])
def test_wrong_place(page, site, label, text, said):
    sheet = opened(page, site)
    if text == "19":
        sheet.type(label, text, row=1)
        assert said in sheet.message("Highest", row=1)
        return
    check_wrong_input(sheet, label, text, said, row=1)


@pytest.mark.parametrize(("text", "said"), [("-2", "can’t be what a mat adds"), ("68", "at most 30 °C"), ("warm", "is not a number")])
def test_wrong_rise(page, site, text, said):
    check_wrong_input(opened(page, site), "A heat mat adds", text, said)


def test_cautions_stand_on_the_page(page, site):
    page.goto(site + "calculators/warm-spots/")
    cautions = page.locator("#cautions + ul").inner_text()
    for word in ("radiators", "boilers", "GFCI", "licensed electrician", "from memory"):
        assert word in cautions
