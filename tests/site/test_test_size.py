"""Planning a germination test, on the built site. Sources stand beside each figure."""

from __future__ import annotations

import math

import pytest
from scipy import stats

from tests.site.calculators import Sheet, check_wrong_input

pytestmark = pytest.mark.browser
KEEPS_THE_PAGE = True
LOTS = "#test-size=1&goal=lots&good=80&bad=60&away=10&passed=10&most=60"


@pytest.fixture
def width(page, site):
    return Sheet.open(page, site + "calculators/test-size/")


@pytest.fixture
def lots(page, site):
    return Sheet.open(page, site + "calculators/test-size/" + LOTS)


@pytest.mark.parametrize(("expected", "within"), [(80, 20), (80, 15), (80, 10), (80, 5), (50, 10), (90, 3)])
def test_seeds_for_a_width(width, expected, within):
    # n = z² p q / h² (any handbook of sampling), z from scipy: 16, 28, 62, 246, 97 … seeds
    seeds = math.ceil(stats.norm.ppf(0.975) ** 2 * expected * (100 - expected) / within**2)
    width.type("Germination you expect", str(expected))
    width.type("Known to within", str(within))
    assert width.headline == f"Set {seeds} seeds to know the percentage to within about {within} points."
    assert width.number("Seeds to set") == str(seeds)
    low, high = stats.binomtest(math.floor(seeds * expected / 100 + 0.5), seeds).proportion_ci(0.95, "wilson")
    assert f"{round(100 * low)}–{round(100 * high)} %" in width.trust


def test_one_test_with_exact_errors(lots):
    # smallest exact binomial plan for 80 v 60 at 10/10: 36 seeds, pass at 26 (worked out beforehand); errors by scipy.stats.binom
    assert lots.headline == "Set 36 seeds and pass the lot if 26 or more come up."
    away, passed = (round(100 * p) for p in (stats.binom.cdf(25, 36, 0.8), stats.binom.sf(25, 36, 0.6)))
    assert f"{away} of 100 lots at 80 % are turned away, and {passed} of 100 lots at 60 % pass" in lots.trust


def test_plan_in_tens(lots):
    # Wald's lines for p1 .2, p2 .4, errors .1 and .1, rounded to whole seeds (worked out beforehand)
    rows = lots.section.locator("table.answer-table").filter(has_text="Otherwise").first.locator("tbody tr")
    assert [row.split("\t") for row in rows.all_inner_texts()] == [
        ["10", "none dead", "6 or more", "ten more"], ["20", "3 or fewer", "9 or more", "ten more"], ["30", "6 or fewer", "12 or more", "ten more"],
        ["40", "9 or fewer", "14 or more", "ten more"], ["50", "12 or fewer", "17 or more", "ten more"], ["60", "15 or fewer", "20 or more", "in between"],
    ]
    # its operating characteristic: a lot at 80 % passes .90, is flagged .04, and takes 31 seeds on average
    table = lots.section.locator("table.answer-table").filter(has_text="Flagged")
    assert "80 %\t90 %\t4 %\t6 %\t31" in table.inner_text()
    picture = lots.section.locator("svg.interval-picture")
    assert "a lot at 80 % passes in about 90 of 100 tests" in picture.locator("desc").text_content()


def test_fields_belong_to_the_question(width):
    assert width.field("Known to within").is_visible() and not width.field("A bad lot: at most").is_visible()
    assert not width.section.get_by_role("button", name="Print tally sheet").is_visible()
    width.type("What do you want?", "lots")
    assert not width.field("Known to within").is_visible() and width.field("A bad lot: at most").is_visible()
    assert width.section.get_by_role("button", name="Print tally sheet").is_visible()
    # a wrong number of the other question does not stop this one
    width.type("A good lot: at least", "high")
    width.type("What do you want?", "width")
    assert not width.is_stale()


def test_tally_sheet_is_one_page_to_fill_in(lots):
    page = lots.page
    page.evaluate("window.print = () => { window.printed = true; }")
    page.get_by_role("button", name="Print tally sheet").click()
    page.emulate_media(media="print")
    visible = page.evaluate("document.body.innerText")
    assert visible.startswith("Germination test in tens") and "15 or fewer" in visible and "Harvested" in visible
    assert "How this is worked out" not in visible and lots.headline not in visible
    page.emulate_media(media="null")
    assert page.pdf(format="A4").count(b"/Type /Page\n") == 1
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    assert page.locator("section.calculator[data-only]").count() == 0


@pytest.mark.parametrize(("label", "text", "said"), [
    ("Germination you expect", "", "Nothing typed."), ("Germination you expect", "100", "at most 99 %"), ("Known to within", "0", "above 0"), ("Known to within", "ten", "is not a number"),
])
def test_wrong_width(width, label, text, said):
    check_wrong_input(width, label, text, said)


@pytest.mark.parametrize(("label", "text", "said"), [
    ("A bad lot: at most", "80", "must lie below a good one"), ("A bad lot: at most", "78", "too alike"), ("A good lot: at least", "", "Nothing typed."),
    ("In tens: at most", "5", "5 is too few"), ("In tens: at most", "5000", "at most 200 seeds"), ("In tens: at most", "2.5", "is not a whole number"),
])
def test_wrong_lots(lots, label, text, said):
    check_wrong_input(lots, label, text, said)


def test_no_plan_is_said(lots):
    lots.type("A good lot: at least", "63.5")
    lots.type("Good lots turned away, at most", "1")
    lots.type("Bad lots passed, at most", "1")
    assert lots.headline == "No test of up to 2000 seeds tells 63.5 % from 60 % that surely."
