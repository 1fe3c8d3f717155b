"""The guides on the built site: reached from every crop page where they apply, light on a phone, printable, safe, found by the search."""

import io
import re
from urllib.parse import urljoin

import pdfplumber
import pytest
import yaml
from playwright.sync_api import expect

from build_tools.render.guides import address_of
from tests.site.browser import STANDS, watched_context

pytestmark = pytest.mark.browser

PARTS = ("warmth", "first", "days", "depth", "seed-life", "test", "when", "evidence")
LINK = re.compile(r'<a (?:class="[^"]*" )?href="([^"#]*)')


def html_of(built, path):
    return (built / path / "index.html").read_text(encoding="utf-8")


def led_to(html, base):
    """Addresses of the guides that a piece of a page at `base` leads to in its lines of guides."""
    return {urljoin(base, href) for line in re.findall(r'<p class="guides">(.*?)</p>', html, re.DOTALL) for href in LINK.findall(line)}


def part_of(html, part):
    """A page's text from a heading to the next of its rank; `answer` is what stands before the first."""
    if part == "answer":
        return html.split("<h2 ", 1)[0]
    return html.split(f'<h2 id="{part}">', 1)[1].split("<h2 ", 1)[0]


def test_every_guide_is_reached_from_the_crop_pages_where_it_applies(built, reference):
    for crop in reference.crops.values():
        html, base = html_of(built, f"crops/{crop.id}"), f"/crops/{crop.id}/"
        treatments = {entry.about for entry in crop.pretreatments}
        for part in ("answer", *PARTS):
            wanted = {f"/{address_of(g.id)}" for g in reference.guides.values() if part in g.crop_page or (part == "first" and treatments & set(g.treatments))}
            assert led_to(part_of(html, part), base) == wanted, (crop.id, part)
    assert all(guide.crop_page or guide.treatments for guide in reference.guides.values())


def test_every_treatment_is_explained_by_a_guide_and_says_so(built, reference):
    html = html_of(built, "treatments")
    for treatment in reference.treatments:
        wanted = {f"/{address_of(g.id)}" for g in reference.guides.values() if treatment in g.treatments}
        assert wanted and led_to(part_of(html, treatment), "/treatments/") == wanted, treatment


@pytest.mark.parametrize("path", ["crops/pepper-sweet", "crops/sweet-pea", "crops/spinach", "treatments", "guides/warmth", "guides/seed-coats", "guides/soaks", "guides/testing", "guides/seed-library"])
def test_every_caution_leads_to_the_page_on_safety(path, built):
    boxes = re.findall(r'<(?:p|div) class="caution">(.*?)(?:</p>|</ul></div>)', html_of(built, path), re.DOTALL)
    assert boxes and all('class="to-safety"' in box and "guides/safety/" in box for box in boxes)


def test_the_page_on_safety_has_every_caution(built, reference):
    html = html_of(built, "guides/safety")
    for hazard, cautions in reference.cautions.items():
        assert html.count(f'id="{hazard}"') == 1
        assert part_of(html, hazard).split("</ul></div>")[0].count("<li>") == len(cautions)


def test_the_navigation_names_every_guide(root, reference):
    names = {path for section in yaml.safe_load(re.sub(r"!!python\S+", "", (root / "mkdocs.yml").read_text(encoding="utf-8")))["nav"] for entry in section.values() if isinstance(entry, list) for one in entry for path in one.values()}
    assert {path for path in names if path.startswith("guides/")} == {f"guides/{guide}.md" for guide in reference.guides}


def test_every_claim_in_a_guide_names_who_says_so(built, reference):
    """On the pages themselves: what the checks ask of the text has not been lost on the way."""
    for guide in reference.guides.values():
        html = html_of(built, address_of(guide.id))
        named = {source for pull in guide.text.pulls() if pull.kind == "sources" for source in pull.names if source in reference.sources}
        for source in named:
            assert f'sources/#{source}"' in html, (guide.id, source)
        assert "{" not in re.sub(r"<(script|style|svg)\b.*?</\1>", "", html[html.index('<article class="guide"') : html.index('class="guide-turn"')], flags=re.DOTALL)


def test_a_term_leads_to_its_definition_once_a_page(built, reference):
    entries = html_of(built, "guides/glossary")
    for guide in reference.guides.values():
        html = html_of(built, address_of(guide.id))
        terms = re.findall(r'<a class="term" href="[./]*guides/glossary/#([\w-]+)"', html)
        assert len(terms) == len(set(terms)) and set(terms) <= set(reference.glossary)
    assert all(f'<dt id="{term}">' in entries for term in reference.glossary)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_checklist_is_one_sheet(paper, page, site):
    page.goto(site + "guides/checklist/")
    with pdfplumber.open(io.BytesIO(page.pdf(format=paper))) as pdf:
        assert len(pdf.pages) == 1
        words = pdf.pages[0].extract_text()
    assert "Checklist" in words and "Next time I would" in words and "correct this" not in words


def test_a_guide_in_print_is_the_guide_alone(page, site):
    page.goto(site + "guides/warmth/")
    page.emulate_media(media="print")
    expect(page.locator(".guide h2").first).to_be_visible()
    expect(page.locator(".guide .caution").first).to_be_visible()
    for hidden in (".guide-turn", ".guide > details", ".md-header", ".guide .correct >> nth=0"):
        expect(page.locator(hidden).first).to_be_hidden()


def test_the_unit_switch_reaches_the_guides(page, site):
    page.goto(site + "guides/warmth/")
    value = page.locator("a.value", has_text="25 °C").first
    expect(value).to_have_text("25 °C (77 °F)")
    page.locator(".unit-switch label", has_text="°F").click()
    expect(value.locator(".tf")).to_be_visible()
    expect(value.locator(".tc")).to_be_hidden()


def test_a_value_leads_to_its_evidence(page, site, reference):
    page.goto(site + "guides/warmth/")
    page.locator("details", has_text="The numbers on this page").locator("summary").click()
    rows = page.locator("details[open] tbody tr")
    names = {name for pull in reference.guides["warmth"].text.pulls() if pull.kind == "value" for name in [pull.names]}
    assert rows.count() == len(names)
    page.locator("a.value").first.click()
    expect(page).to_have_url(re.compile(r"/(sources|crops/[\w-]+)/#"))
    expect(page.locator(":target")).to_be_visible()


def test_guides_lead_from_one_to_the_next(page, site, reference):
    page.goto(site + "guides/")
    for guide in list(reference.guides.values())[1:]:
        page.locator(".guide-turn a[rel=next]").click()
        expect(page.locator("h1")).to_have_text(guide.title)
    assert page.locator(".guide-turn a[rel=next]").count() == 0


def test_the_search_finds_a_sentence_of_a_guide(browser, site):
    with watched_context(browser, site, viewport={"width": 1280, "height": 900}) as (context, trouble):
        page = context.new_page()
        page.goto(site)
        box = page.locator("input.md-search__input")
        box.click()
        box.press_sequentially("thermostat probe")
        expect(page.locator(".md-search-result__link[href*='guides/warmth']").first).to_be_visible(timeout=15_000)
        assert trouble == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_guides_fit_a_phone(scheme, browser, site, reference):
    context = browser.new_context(viewport={"width": 360, "height": 740}, color_scheme=scheme)
    page = context.new_page()
    for guide in reference.guides:
        page.goto(site + address_of(guide))
        page.wait_for_function(STANDS)
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        assert page.evaluate("document.documentElement.scrollWidth") <= 360, guide
        small = page.evaluate("""[...document.querySelectorAll('.guide-turn a, .guide summary')].filter(e => e.getBoundingClientRect().height < 44).map(e => e.textContent)""")
        assert not small, (guide, small)
    context.close()
