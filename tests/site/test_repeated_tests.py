"""Replicates and repeated tests, on the built site. Sources stand beside each figure."""

from __future__ import annotations

import pytest
from scipy import stats

from tests.site.calculators import Sheet, check_wrong_input

pytestmark = pytest.mark.browser
KEEPS_THE_PAGE = True


def opened(page, site, kind, *counts):
    rows = "&".join(f"r={n},{k}" for n, k in counts)
    return Sheet.open(page, f"{site}calculators/repeated-tests/#repeated-tests=1&kind={kind}&confidence=95&{rows}")


@pytest.mark.parametrize(("counts", "agree", "limit"), [
    # 7 CFR 201.55(a), read in a copy: average 80 allows 16 between four replicates of 100, average 90 allows 9 between two
    ((70, 86, 80, 84), True, 16), ((69, 86, 80, 85), False, 16), ((86, 94), True, 9), ((85, 95), False, 9),
])
def test_replicates_of_100(page, site, counts, agree, limit):
    sheet = opened(page, site, "replicates", *((100, k) for k in counts))
    assert sheet.headline.startswith("Average them" if agree else "Repeat the test")
    assert f"{limit} are allowed at this average (7 CFR 201.55)" in sheet.trust
    assert sheet.number("Allowed") == f"{limit} percentage points"


@pytest.mark.parametrize(("first", "second", "agree", "limit"), [
    # Louisiana Administrative Code 7 XIII-139, two tests of 400 seeds, read in a copy: average 91-93 allows 5, 82-86 allows 7, 76-81 allows 8
    (376, 360, True, 5), (376, 352, False, 5), (320, 348, True, 7), (316, 348, False, 7), (300, 332, True, 8),
])
def test_two_tests_of_400(page, site, first, second, agree, limit):
    sheet = opened(page, site, "tests", (400, first), (400, second))
    assert sheet.headline.startswith("Average them" if agree else "Test once more")
    assert f"{limit} are allowed at this average (the table for two tests of 400 seeds)" in sheet.trust


def test_small_counts_by_exact_chance(page, site):
    # 9 and 6 of 10 "are the same seed for all we know"; every outcome counted out with scipy.stats.binom
    sheet = opened(page, site, "tests", (10, 9), (10, 6))
    p = stats.binom.pmf(range(11), 10, 0.75)
    chance = sum(p[a] * p[b] for a in range(11) for b in range(11) if abs(a - b) >= 3)
    assert sheet.headline == "Average them: 15 of 20, 75 % (53–89 %)."  # Wilson by scipy: .5313-.8881
    assert sheet.number("Chance of that or more") == f"{round(100 * chance)} %"
    assert opened(page, site, "tests", (10, 10), (10, 3)).headline == "Test once more: the two do not agree."


def test_unevenness_is_chi_squared(page, site):
    # Pearson's chi-squared by scipy
    counts = [12, 25, 18, 24]
    sheet = opened(page, site, "replicates", *((25, k) for k in counts))
    chi = stats.chi2_contingency([counts, [25 - k for k in counts]], correction=False).statistic
    assert f"chi-squared {round(chi, 1):g} on 3 degrees of freedom" in sheet.answer
    assert "Take the range above as too narrow" in sheet.answer
    assert "Throw no replicate out" in sheet.answer


def test_more_counts_by_keyboard(page, site):
    sheet = opened(page, site, "replicates", (25, 21), (25, 17))
    assert sheet.section.locator(".remove-row:visible").count() == 0
    sheet.section.get_by_role("button", name="Add a count").focus()
    page.keyboard.press("Enter")
    page.keyboard.type("20")
    assert sheet.headline.startswith("Average them: 58 of 75")
    sheet.section.get_by_role("button", name="Remove count 1").click()
    assert sheet.headline.startswith("Average them: 37 of 50")


@pytest.mark.parametrize(("label", "text", "said"), [
    ("Seeds set", "", "Nothing typed."), ("Normal seedlings", "26", "26 seedlings from 25 seeds can’t be"), ("Normal seedlings", "many", "is not a number"), ("Seeds set", "0", "0 is too few"),
])
def test_wrong_input(page, site, label, text, said):
    check_wrong_input(opened(page, site, "replicates", (25, 21), (25, 17)), label, text, said, row=2)


def test_a_single_count_is_asked_for_a_second(page, site):
    sheet = opened(page, site, "replicates", (25, 21))
    assert "One count has nothing to agree with" in sheet.message("Seeds set", row=1)
    sheet.section.get_by_role("button", name="Add a count").click()
    page.keyboard.type("20")
    assert sheet.headline.startswith("Average them: 41 of 50")
