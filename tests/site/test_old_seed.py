"""Age and test together, on the built site. Betas by scipy; seed life from the reference itself."""

from __future__ import annotations

import calendar

import pytest
from scipy import stats

from tests.site.calculators import Sheet, check_wrong_input

pytestmark = pytest.mark.browser
KEEPS_THE_PAGE = True


def opened(page, site, **typed):
    entry = {"crop": "", "age": "3", "storage": "cool-dry", "life": "4", "fresh": "90", "worth": "4", "seeds": "10", "normal": "8", "date": "2027-01-31", "line": "70", "confidence": "90"} | typed
    return Sheet.open(page, f"{site}calculators/old-seed/#old-seed=1&" + "&".join(f"{k}={v}" for k, v in entry.items()))


def expected(age, life, fresh=0.9, end=0.5):
    """Straight line in probits from new to the end of life (Ellis & Roberts 1980: survival times are normal), by scipy."""
    start = stats.norm.ppf(fresh)
    return stats.norm.cdf(start - (start - stats.norm.ppf(end)) * age / life)


@pytest.mark.parametrize(("age", "life", "k", "n", "worth"), [(3, 4, 8, 10, 4), (0, 3, 10, 10, 4), (6, 3, 2, 20, 10), (2, 5, 320, 400, 1)])
def test_joined_by_beta(page, site, age, life, k, n, worth):
    sheet = opened(page, site, age=age, life=life, normal=k, seeds=n, worth=worth)
    m = expected(age, life)
    both = stats.beta(m * worth + k, (1 - m) * worth + n - k)
    low, high = both.interval(0.9)
    assert sheet.headline == f"Age and test together: about {round(100 * both.mean())} % ({round(100 * low)}–{round(100 * high)} %)."
    chance = both.sf(0.7)
    shown = "less than 1 %" if chance < 0.01 else "more than 99 %" if chance > 0.99 else f"{round(100 * chance)} %"
    assert sheet.number("Chance to reach 70 %") == shown
    assert f"{round(100 * m)} %" in sheet.number("Expected from age and storage")


def test_published_seed_life_comes_with_the_crop(page, site, reference):
    sheet = opened(page, site, crop="tomato", life="")
    life = reference.crops["tomato"]["seed_life_years"].low
    assert f"Seed life of Tomato here: {life:g} years, as published tables have it" in sheet.answer
    assert f"{round(100 * expected(3, life))} %" in sheet.number("Expected from age and storage")
    # one step of Harrington's rule: twice the life in a refrigerator, half of it in the warm (University of Washington, read)
    for store, factor in (("cold-dry", 2), ("warm", 0.5)):
        sheet.type("How it was kept", store)
        assert f"{round(100 * expected(3, life * factor))} %" in sheet.number("Expected from age and storage")
    # not known: the expectation weighs half as much
    sheet.type("How it was kept", "unknown")
    assert "worth 2 seeds" in sheet.answer and "Storage is not known" in sheet.answer


def test_next_test_is_a_third_of_the_way(page, site):
    # 400 of 400 with a life of 12 years: a third of the time to the line, by calendar months from the last of January
    sheet = opened(page, site, age=0, life=12, seeds=400, normal=380)
    m = expected(0, 12)
    mean = (m * 4 + 380) / 404
    slope = stats.norm.ppf(0.9) / 12
    months = int((stats.norm.ppf(mean) - stats.norm.ppf(0.7)) / slope * 12 / 3)
    assert 6 <= min(months, 36) <= 36
    due = min(months, 36)
    year, month = 2027 + due // 12, due % 12 + 1
    day = min(31, calendar.monthrange(year, month)[1])
    assert sheet.number("Next test by") == f"{day} {calendar.month_name[month]} {year}"


def test_month_ends(page, site):
    # at least six months: 31 August 2027 leads to the last of February, 29 in the leap year 2028
    sheet = opened(page, site, date="2027-08-31")
    assert sheet.number("Next test by") == "29 February 2028"


def test_without_a_test(page, site):
    sheet = opened(page, site, seeds="", normal="")
    assert sheet.headline.startswith("Seed of 3 years, kept so, is expected to be at about 63 %")
    assert "Nothing has been tested" in sheet.trust and "Test before you lend" in sheet.answer
    assert sheet.section.locator(".answer-numbers").filter(has_text="Next test").count() == 0


def test_a_surprising_test_is_said(page, site):
    sheet = opened(page, site, age="20", seeds="50", normal="48", life="2")
    assert "far from what age suggests" in sheet.answer


@pytest.mark.parametrize(("label", "text", "said"), [
    ("Age since harvest", "2021", "looks like a year"), ("Age since harvest", "", "Nothing typed."), ("Age since harvest", "-1", "can’t be an age"),
    ("Seeds tested", "", "Type how many seeds were set, or leave both empty"), ("Came up", "", "Type how many came up, or leave both empty"), ("Came up", "11", "11 seedlings from 10 seeds can’t be"),
    ("Lending line", "100", "at most 98 %"), ("Seed life", "", "no crop with a recorded life chosen"), ("New seed is expected at", "40", "above 50"), ("The expectation is worth", "0", "above 0"),
])
def test_wrong_input(page, site, label, text, said):
    sheet = opened(page, site)
    sheet.section.locator(".more-fields summary").click()
    check_wrong_input(sheet, label, text, said)


def test_crop_page_leads_here_with_its_crop(page, site):
    page.goto(site + "crops/lettuce/")
    page.get_by_role("link", name="Age and test together").click()
    page.locator(".headline").wait_for()
    sheet = Sheet(page)
    assert sheet.field("Crop").input_value() == "lettuce" and "Seed life of Lettuce here" in sheet.answer
