"""What a reader does with any calculator, and checks that hold for all of them."""

from __future__ import annotations

import re

from tests.site.browser import pass_on, watched_context

# All folds closed, as on a page just opened; then the entry of the fragment.
BY_FRAGMENT = """async (fragment) => {
  for (const fold of document.querySelectorAll(".calculator details")) fold.open = false;
  history.replaceState(null, "", location.pathname);
  location.hash = fragment;
  await new Promise((done) => setTimeout(done, 30));
  await new Promise((done) => requestAnimationFrame(done));
}"""

MARKUP = r"""(rest) => [...rest.querySelectorAll("[id]")].reduce(
  (markup, { id }, i) => markup.replaceAll(new RegExp(`\\b${id}\\b`, "g"), `id ${i}`), rest.innerHTML.replaceAll(/ open(="")?/g, ""))"""


class Sheet:
    """An open calculator page: typing into fields by their labels, reading the answer."""

    def __init__(self, page):
        self.page = page

    @property
    def section(self):
        """The calculator, once all of its answer stands."""
        self.settle()
        return self.page.locator("section.calculator")

    @classmethod
    def open(cls, page, address):
        """Open an address; an entry of the page at hand by its fragment alone, as a shared link does."""
        base, _, fragment = address.partition("#")
        if fragment and page.url.partition("#")[0] == base and page.locator("section.calculator .headline, section.calculator .stale-note").count():
            page.evaluate(BY_FRAGMENT, "#" + fragment)
        else:
            page.goto(address)
        page.locator(".headline, .stale-note").first.wait_for()
        sheet = cls(page)
        sheet.settle()
        return sheet

    def field(self, label, part=None, row=None):
        """A field by its label; within a fieldset by its legend, or within the row of that number (from 1)."""
        within = self.section
        if part is not None:
            within = self.section.locator("fieldset").filter(has=self.page.locator("legend", has_text=part))
        if row is not None:
            within = self.section.locator(".entry-row").nth(row - 1)
        return within.get_by_label(label, exact=True)

    def type(self, label, text, part=None, row=None):
        field = self.field(label, part, row)
        if not field.is_visible():
            field.evaluate("(input) => { const fold = input.closest('details'); if (fold) fold.open = true; }")
        if field.evaluate("(input) => input.tagName") == "SELECT":
            field.select_option(text)
        else:
            field.fill(text)
        self.settle()

    def settle(self):
        """Until all of the answer stands: its headline comes first."""
        self.page.locator("section.calculator .calculator-rest:not([aria-busy])").wait_for(state="attached")

    @property
    def headline(self):
        return self.section.locator(".headline").inner_text()

    @property
    def trust(self):
        return self.section.locator(".trust").inner_text()

    @property
    def answer(self):
        return self.section.locator(".calculator-output").inner_text()

    @property
    def markup(self):
        """Of what stands below the headline. Whether folds are open is the reader's own, and pictures are numbered as they are drawn."""
        return self.section.locator(".calculator-rest").evaluate(MARKUP)

    def number(self, name):
        """The figure in the table of numbers whose row begins with `name`."""
        row = self.section.locator(".answer-numbers tr").filter(has=self.page.locator("th", has_text=name)).first
        return row.locator("td").inner_text()

    def message(self, label, part=None, row=None):
        return self.said_at(self.field(label, part, row))

    def said_at(self, field):
        """The text that a field is described by; the field must be marked as wrong."""
        assert field.get_attribute("aria-invalid") == "true", field
        return self.section.locator(f"#{field.get_attribute('aria-describedby').split()[-1]}").inner_text()

    def is_stale(self):
        return self.section.get_attribute("data-stale") is not None


def check_wrong_input(sheet, label, text, said, part=None, row=None):
    """A wrong field is explained and kept; the last answer stays, greyed, and can't be copied; mending brings it back."""
    before, field = sheet.headline, sheet.field(label, part, row)
    good = field.input_value()
    sheet.type(label, text, part, row)
    assert said in sheet.message(label, part, row)
    assert field.input_value() == text
    assert sheet.is_stale() and sheet.headline == before
    assert "still the last complete one" in sheet.answer
    assert sheet.section.locator(".copy-line").is_disabled()
    sheet.type(label, good, part, row)
    assert not sheet.is_stale() and field.get_attribute("aria-invalid") is None


def check_round_trip(sheet):
    """The link opens the same entry, right or wrong, in a tab that has never seen it."""
    pass_on(sheet.page, 400)
    again = Sheet.open(sheet.page.context.new_page(), sheet.page.url)
    assert fields_of(again.page) == fields_of(sheet.page)
    assert again.is_stale() or (again.answer == sheet.answer and again.markup == sheet.markup)
    again.page.close()


def fields_of(page):
    """Every field's value, by id."""
    return page.evaluate("() => Object.fromEntries([...document.querySelectorAll('.calculator-form :is(input, select, textarea)')].map((f) => [f.id, f.value]))")


def check_print(sheet, paper, most_pages=1):
    """The printed sheet holds inputs, answer and link, and is one page, or at most so many."""
    page = sheet.page
    page.evaluate("window.printed = false; window.print = () => { window.printed = true; };")
    page.get_by_role("button", name="Print result").click()
    assert page.evaluate("window.printed")
    page.emulate_media(media="print")
    visible = page.evaluate("document.body.innerText")
    assert sheet.headline in visible and "=1&" in visible.replace("\n", "")
    assert not page.locator("form.calculator-form").is_visible() and not page.locator("h1").is_visible()
    page.emulate_media(media="null")
    margin = dict.fromkeys(("top", "right", "bottom", "left"), "15mm")
    pages = len(re.findall(rb"/Type\s*/Page\b(?!s)", page.pdf(format=paper, margin=margin)))
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    assert page.locator(".printing-path, .printing-calculator").count() == 0
    assert 1 <= pages <= most_pages
    return visible


def check_fits(page, address, width):
    """Nothing sticks out of the section, and everything to touch is 44 px high."""
    page.set_viewport_size({"width": width, "height": 740})
    if page.url != address:
        Sheet.open(page, address)
    pass_on(page, 50)  # pictures are drawn anew for the width
    page.evaluate("document.querySelectorAll('.calculator details').forEach((d) => { d.open = true; })")
    section = page.locator("section.calculator")
    edge = section.evaluate("(s) => s.getBoundingClientRect().right")
    out = section.evaluate(
        "(s, edge) => [...s.querySelectorAll('*')].filter((e) => !e.closest('.unseen, .table-holder') && e.getBoundingClientRect().right > edge + 1)"
        ".map((e) => e.outerHTML.slice(0, 80))", edge)
    assert out == []
    small = section.evaluate(
        "(s) => [...s.querySelectorAll('input, select, button, summary')].filter((e) => e.offsetParent && e.getBoundingClientRect().height < 43.9)"
        ".map((e) => e.outerHTML.slice(0, 80))")
    assert small == []


def check_without_scripts(browser, address, said):
    """Without scripts the page says so, and its static part answers."""
    with watched_context(browser, java_script_enabled=False) as (context, trouble):
        page = context.new_page()
        page.goto(address)
        section = page.locator("section.calculator")
        assert section.locator("noscript p").inner_text().startswith("Scripts are off.")
        assert said in section.inner_text()
        assert not section.locator("form").is_visible()
        assert trouble == []


def check_pictures(sheet):
    """Every picture has a title and a description, and no broken number."""
    pictures = sheet.section.locator("svg.interval-picture")
    assert pictures.count() > 0
    for i in range(pictures.count()):
        picture = pictures.nth(i)
        assert picture.get_attribute("role") == "img"
        assert len(picture.locator("desc").text_content()) > 15
        markup = picture.evaluate("(svg) => svg.outerHTML")
        assert not re.search("NaN|Infinity|undefined|null", markup)
    assert not re.search(r"\bNaN\b|Infinity|undefined|\bnull\b", sheet.answer)
