"""What holds for every calculator page: print, address, phone, keyboard, pictures, no scripts, no inline style.

Each is opened with several entries, plain and awkward.
"""

from __future__ import annotations

import pytest

from tests.site.calculators import (
    Sheet,
    check_fits,
    check_pictures,
    check_print,
    check_round_trip,
    check_without_scripts,
)
from tests.site.test_daily_counts import ENTRIES as DAILY_ENTRIES

pytestmark = pytest.mark.browser
KEEPS_THE_PAGE = True

FULL_SOWING = "crop=zinnia&hand=2&handunit=oz&purity=98&samplecount=100&samplemass=1.2&factor=70"
# path: (what its static part says without scripts, entries as address fragments)
PAGES = {
    "calculators/test-size/": ("Seeds to set so that", ["", "#test-size=1&goal=width&expected=1&within=40&confidence=80", "#test-size=1&goal=lots&good=80&bad=60&away=10&passed=10&most=60", "#test-size=1&goal=lots&good=99&bad=96&away=1&passed=1&most=200", "#test-size=1&goal=lots&good=6&bad=3&away=20&passed=20&most=10"]),
    "calculators/two-treatments/": ("Without it", ["", "#two-treatments=1&seeds1=1&normal1=0&seeds2=1&normal2=1&difference=20&confidence=99", "#two-treatments=1&name1=A&seeds1=10000&normal1=9000&name2=B&seeds2=9999&normal2=0&difference=1&confidence=95", "#two-treatments=1&seeds1=10&normal1=10&seeds2=10&normal2=10&difference=90"]),
    "calculators/old-seed/": ("Expected germination by age", ["", "#old-seed=1&crop=onion&age=0&storage=unknown&fresh=99&worth=20&seeds=&normal=&line=98&confidence=99", "#old-seed=1&crop=&age=100&storage=warm&life=0.5&fresh=51&worth=0.5&seeds=400&normal=400&date=2027-08-31&line=1&confidence=80", "#old-seed=1&crop=tomato&age=2&storage=cold-dry&life=&fresh=90&worth=4&seeds=1&normal=0&line=70"]),
    "calculators/repeated-tests/": ("Largest difference", ["", "#repeated-tests=1&kind=tests&r=400,320&r=400,340&confidence=95", "#repeated-tests=1&kind=replicates&r=1,0&r=1,1", "#repeated-tests=1&kind=tests&" + "&".join(f"r=100000,{i}0000" for i in range(2, 10)), "#repeated-tests=1&kind=replicates&r=10,0&r=10,0&r=10,0"]),
    "calculators/daily-counts/": ("Half-way day", DAILY_ENTRIES),
    "calculators/seeds-to-sow/": ("seeds", ["", *(f"#seeds-to-sow=1&seeds=10&normal=8&plants=12&certainty=90&{rest}" for rest in (
        "crop=tomato&hand=1&purity=95&factor=80", f"where=cells&cells=72&plants=60&{FULL_SOWING}", "where=row&crop=beet&hand=3&purity=97&known=packet&percent=80",
        "seeds=10&normal=10&plants=1", "where=cells&cells=2&plants=", "seeds=1&normal=1&certainty=99", "where=row&rowlength=0.05"))]),
}
ENTRIES = [(path, entry) for path, (_, entries) in PAGES.items() for entry in entries]


@pytest.mark.parametrize(("path", "entry"), ENTRIES)
def test_answers_prints_and_fits(page, site, path, entry):
    sheet = Sheet.open(page, f"{site}{path}{entry}")
    assert not sheet.is_stale(), sheet.answer
    assert len(sheet.headline) > 10 and len(sheet.trust) > 30
    check_pictures(sheet)
    sheet.section.locator(".workings summary").click()
    assert len(sheet.section.locator(".workings dl").inner_text()) > 200
    for paper in ("A4", "Letter"):
        assert "Printed on" in check_print(sheet, paper)
    for width in (320, 360, 1280):
        check_fits(page, f"{site}{path}{entry}", width)


@pytest.mark.parametrize(("path", "entry"), [(path, entry) for path, (_, entries) in PAGES.items() for entry in entries[1:3]])
def test_address_round_trip(page, site, path, entry):
    sheet = Sheet.open(page, f"{site}{path}{entry}")
    first = sheet.section.locator("input[type=text]:visible").first
    first.fill("tw(e)nty, & #1%='\"" if first.get_attribute("inputmode") != "text" else "“A” & b#1")
    check_round_trip(sheet)


@pytest.mark.parametrize("path", PAGES)
def test_without_scripts(browser, site, path):
    check_without_scripts(browser, site + path, PAGES[path][0])


@pytest.mark.parametrize("path", PAGES)
def test_no_inline_style_or_script(page, site, path):
    Sheet.open(page, site + path)
    section = page.locator("section.calculator")
    assert section.locator("[style]").count() == 0
    assert section.locator("script:not([type='application/json'])").count() == 0
    assert section.evaluate("(s) => [...s.querySelectorAll('*')].flatMap((e) => e.getAttributeNames()).filter((n) => n.startsWith('on'))") == []


@pytest.mark.parametrize("path", PAGES)
def test_every_field_is_reached_by_keyboard_and_labelled(page, site, path):
    Sheet.open(page, site + path)
    page.evaluate("document.querySelectorAll('.calculator-form details').forEach((d) => { d.open = true; })")
    fields = page.evaluate("[...document.querySelectorAll('.calculator-form :is(input, select)')].filter((e) => e.offsetParent).map((e) => e.id)")
    assert fields and all(fields)
    for name in fields:
        assert page.locator(f"label[for='{name}']").inner_text().strip(), name
    page.locator(f"#{fields[0]}").focus()
    reached = [fields[0]]
    for _ in range(4 * len(fields) + 20):
        page.keyboard.press("Tab")
        focused = page.evaluate("[document.activeElement.id, document.activeElement.closest('.calculator-form') !== null]")
        if not focused[1]:
            break
        if focused[0] and focused[0] != reached[-1]:
            reached.append(focused[0])
    assert reached == fields


@pytest.mark.parametrize("path", PAGES)
def test_start_again_and_stale_actions(page, site, path):
    sheet = Sheet.open(page, site + path)
    first = sheet.headline
    field = sheet.section.locator("input[inputmode=numeric]:visible, input[inputmode=decimal]:visible").first
    field.fill("soon")
    assert sheet.is_stale() and sheet.headline == first
    assert sheet.section.get_by_role("button", name="Print result").is_disabled()
    assert sheet.section.get_by_role("button", name="Copy link").is_enabled()
    sheet.section.get_by_role("button", name="Start again").click()
    assert not sheet.is_stale() and sheet.headline == first and "#" not in page.url


def test_list_of_calculators_leads_to_each(page, site):
    page.goto(site + "calculators/")
    links = page.locator(".calculator-list a").evaluate_all("(all) => all.map((a) => a.href)")
    assert {link.removeprefix(site) for link in links} >= set(PAGES)
    for link in links:
        assert page.goto(link).ok
        assert page.locator("h1").count() == 1
