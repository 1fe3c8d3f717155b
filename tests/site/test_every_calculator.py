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
from tests.site.test_soil import ENTRIES as SOIL_ENTRIES

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
    "calculators/storage/": ("How many times as long seed keeps", ["", *(f"#storage=1&example=1&{rest}" for rest in (
        "crop=tomato&set=2&years=50&confidence=99&name1=A%20rather%20long%20name%20for%20a%20store,%20cut&seeds=100000&normal=100000", "crop=carrot&unit=f&temp1=104&temp2=32&room2=68&humidity1=99",
        "crop=corn-sweet&know1=moisture&moisture1=25&know2=moisture&moisture2=5&temp1=40&temp2=0&seeds=1&normal=0&years=0.1", "crop=&temp1=5&temp2=35", "crop=okra&line=1"))]),
    "calculators/treatment-times/": ("29.6 mL", ["", *(f"#treatment-times=1&example=1&date=2027-03-09&time=14:30&{rest}" for rest in (
        "treatment=peroxide&crop=spinach", "treatment=peroxide&crop=&give=wanted&stock=2&strength=2&volume=20&volumeunit=cup&measures=metric&unit=f", "treatment=hot-water&crop=brussels-sprouts&way=dpird-wa-2014-2",
        "treatment=chill&crop=&way=winter", "treatment=presprout&crop=celery&unit=f", "treatment=leach&crop=beet&seeds=10000", "treatment=potassium-nitrate&crop=eggplant&volume=1&volumeunit=cup"))]),
    "calculators/sowing-times/": ("Start a test", ["", *(f"#sowing-times=1&lastmonth=5&firstmonth=10&unit=c&{rest}" for rest in (
        "r=tomato,A%2C%201,2026-06-01&r=tomato,B&r=carrot&place=Fenwick&lastday=15&firstday=1&year=2030&indoor=20&buy=14", "r=arugula&r=radish&place=&lastday=1&firstday=31&year=2199&indoor=0&buy=0",
        "r=onion&r=bean-lima&place=A&lastday=31&firstday=1&year=2000&indoor=113&unit=f&buy=120", "r=cucumber&r=parsnip&place=South&lastday=15&lastmonth=10&firstday=20&firstmonth=4&where=south&year=2028&indoor=25&buy=7"))]),
}
PAGES |= {
    "calculators/emergence/": ("The measured table stands", ["", *(f"#emergence=1&{rest}" for rest in (
        "crop=lettuce&unit=f&low=50&high=90", "crop=tomato&unit=c&low=7&high=", "crop=celery&unit=c&low=-10&high=55", "crop=asparagus&unit=c&low=0", "crop=watermelon&unit=c&low=15&high=35", "crop=pea-dry&unit=f&low=68"))]),
    "calculators/soil/": ("for 5 days in a row", SOIL_ENTRIES),
    "calculators/tray/": ("Seedlings are due when the sum reaches 1", ["", *(f"#tray=1&unit=c&{rest}" for rest in (
        "crop=tomato&sown=2027-04-01&log=5%2C9%0A4%208%0A-%0A3%205", "crop=parsnip&sown=2027-02-01&log=" + "%0A".join(["1 6"] * 150), "crop=spinach&sown=2027-04-01&log=&nextlow=-3&nexthigh=42", "crop=turnip&sown=2028-02-28&log=25%2C25&nextlow=25&nexthigh=25"))]),
    "calculators/warm-spots/": ("Published soil temperatures", ["", *(f"#warm-spots=1&{rest}" for rest in (
        "crop=&season=warm&unit=f&rise=&r=Sill%2C%20south%20%26%20east,59,73&r=,60,60", "crop=artichoke&season=cool&unit=c&rise=30&r=A%20very%20long%20name%20of%20a%20place%20that%20nobody%20has,-30,60",
        "crop=okra&season=all&unit=c&rise=8.3&" + "&".join(f"r=Place {i},{i * 5},{i * 6}" for i in range(1, 7))))]),
}
MOST_PAGES = {"calculators/warm-spots/": 4, "calculators/tray/": 2, "calculators/sowing-times/": 2}  # of print; the others take one
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
        assert "Printed on" in check_print(sheet, paper, MOST_PAGES.get(path, 1))
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
    fields = page.evaluate("[...document.querySelectorAll('.calculator-form :is(input, select, textarea)')].filter((e) => e.offsetParent).map((e) => e.id)")
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
