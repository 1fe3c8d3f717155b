"""What is wrong is said at its field and read out once; results are read out once, after a pause (WCAG 2.2: 3.3.1, 3.3.2, 4.1.3)."""

from __future__ import annotations

import re

import pytest

from tests.site.access.states import CALCULATORS, State, calculator_path, explore, open_page

pytestmark = pytest.mark.browser

# Fields that take any words: names of lots, places, treatments.
ANY_WORDS = {"name", "name1", "name2", "place", "lot", "kind", "label"}
TYPED = "soon?"
SET = "(field, text) => { field.value = text; field.dispatchEvent(new Event('input', { bubbles: true })); }"

# What screen readers would be told of a page from now on, in order.
LISTEN = """(selector) => {
  window.heard = [];
  for (const place of document.querySelectorAll(selector)) {
    new MutationObserver(() => { if (place.textContent.trim() !== "") window.heard.push(place.textContent); }).observe(place, { childList: true, characterData: true, subtree: true });
  }
  return document.querySelectorAll(selector).length;
}"""


def described(page, field):
    """The words that the marked field is described by, all of them in sight."""
    assert field.get_attribute("aria-invalid") == "true"
    return " ".join(page.locator(f"#{one}").inner_text() for one in field.get_attribute("aria-describedby").split())


@pytest.mark.parametrize("name", CALCULATORS)
def test_every_field_of_a_calculator_says_what_is_wrong_with_it(looking, site, name):
    open_page(looking, site, State(name, calculator_path(name)))
    fields = looking.locator(".calculator-form :is(input[type=text], textarea):visible")
    tried = 0
    for i in range(fields.count()):
        field = fields.nth(i)
        before = field.input_value()
        field.evaluate(SET, TYPED)
        name_of_it = field.get_attribute("name") or field.get_attribute("data-name")
        if name_of_it in ANY_WORDS:
            assert field.get_attribute("aria-invalid") is None
        else:
            tried += 1
            assert field.get_attribute("aria-invalid") == "true", name_of_it
            message = field.get_attribute("aria-describedby").split()[-1]
            said = looking.locator(f"#{message}").inner_text()
            assert len(said) > 15 and said in described(looking, field), name_of_it
            assert looking.locator(".stale-note").is_visible()
        field.evaluate(SET, before)
        assert field.get_attribute("aria-invalid") is None, name_of_it
    assert tried >= 1


@pytest.mark.parametrize("name", CALCULATORS)
def test_results_and_errors_are_read_out_once_after_a_pause(looking, site, name):
    open_page(looking, site, State(name, calculator_path(name)))
    status = looking.locator("section.calculator .calculator-status")
    assert status.get_attribute("role") == "status" and status.inner_text() == ""  # there before anything is said, and nothing is said of the example
    assert looking.evaluate(LISTEN, "section.calculator .calculator-status") == 1
    assert looking.locator("section.calculator .calculator-output [aria-live]").count() == 0  # or it would be read out twice
    field = looking.locator(".calculator-form :is([inputmode=numeric], [inputmode=decimal], textarea):visible").first
    good = field.input_value()
    for text in ("s", "so", TYPED):
        field.evaluate(SET, text)
    looking.wait_for_function("() => window.heard.length > 0")
    label = looking.locator(f"label[for='{field.get_attribute('id')}']").inner_text()
    message = looking.locator(f"#{field.get_attribute('aria-describedby').split()[-1]}").inner_text()
    assert looking.evaluate("() => window.heard.length") == 1
    heard = " ".join(looking.evaluate("() => window.heard[0]").split())
    assert label in heard and " ".join(message.split()) in heard
    field.evaluate(SET, good)
    looking.wait_for_function("() => window.heard.length > 1")
    answer = looking.locator(".calculator-output .headline").inner_text()
    assert re.sub(r"\s+", " ", looking.evaluate("() => window.heard[1]")).startswith(re.sub(r"\s+", " ", answer))
    assert looking.evaluate("() => window.heard.length") == 2


def test_many_wrong_fields_are_read_out_in_short(looking, site):
    open_page(looking, site, State("soil", calculator_path("soil")))
    looking.evaluate(LISTEN, ".calculator-status")
    for month in range(1, 7):
        looking.locator(f"#calculator-m{month}").evaluate(SET, TYPED)
    looking.wait_for_function("() => window.heard.length > 0")
    heard = looking.evaluate("() => window.heard")
    assert len(heard) == 1 and heard[0].count(TYPED) == 2 and heard[0].endswith("4 more fields are marked.")


@pytest.mark.parametrize(("path", "field", "wrong", "good"), [
    ("crops/lettuce/", "#reader-c", "99", "12"), ("crops/lettuce/", "#reader-f", "", "60"), ("compare/warmth/", "#line-c", "99", "12"),
    ("compare/days/", "#line-f", "300", "60"), ("compare/seed-life/", "#line-years", "2019", "3"), ("print/labels/", "#labels-start", "none", "2"),
    ("print/labels/", "#labels-copies", "0", "1"), ("calculators/lots/", "#lots-line", "most", "70"),
])
def test_the_other_forms_say_it_too(looking, site, path, field, wrong, good):
    open_page(looking, site, State("form", path))
    made = looking.locator(field)
    assert made.get_attribute("aria-invalid") in (None, "false")
    made.fill(wrong)
    made.blur()
    looking.wait_for_function("(field) => document.querySelector(field).getAttribute('aria-invalid') === 'true'", arg=field)
    assert len(described(looking, made)) > 15
    made.fill(good)
    made.blur()
    looking.wait_for_function("(field) => document.querySelector(field).getAttribute('aria-invalid') !== 'true'", arg=field)


def test_rows_of_labels_that_cannot_be_read(looking, site):
    open_page(looking, site, State("labels", "print/labels/"))
    rows = looking.locator("#labels-tests")
    rows.evaluate(SET, "lot,crop,tested,seeds,normal\nA1,Tomatoe,2026-03-12,50,36\n")
    looking.locator(".labels-problems li").first.wait_for()
    assert "Line 2: " in described(looking, rows)


def test_the_range_of_the_chart_to_explore(looking, site):
    open_page(looking, site, State("explore", "compare/warmth/", explore))
    last = looking.locator("#explore-to")
    last.fill("-90")
    last.press("Enter")
    assert "the smaller first" in described(looking, last)
    looking.locator(".explore-whole").click()
    assert last.get_attribute("aria-invalid") is None


@pytest.mark.parametrize(("path", "place"), [("", ".find-count"), ("crops/", ".filter-count"), ("crops/lettuce/", ".reader-answer"), ("compare/warmth/", ".compare-count"), ("compare/warmth/", ".explore-said"), ("print/poster/", ".poster-said"), ("print/labels/", "#labels-said"), ("calculators/lots/", ".lots-said"), ("correct/", ".correct-verdict")])
def test_what_changes_elsewhere_is_read_out(looking, site, path, place):
    open_page(looking, site, State("place", path))
    assert looking.locator(place).evaluate("(one) => one.getAttribute('role') === 'status' || one.getAttribute('aria-live') === 'polite'")


@pytest.mark.parametrize("name", CALCULATORS)
def test_answers_are_heard_as_they_are_seen(looking, site, name):
    """Tables have names, units belong to their fields, and of a picture its title and description are told, not the single numbers of its scales."""
    open_page(looking, site, State(name, calculator_path(name)))
    tables = looking.evaluate("() => [...document.querySelectorAll('section.calculator table')].map((t) => t.getAttribute('aria-label') ?? t.caption?.textContent ?? '')")
    assert tables and all(tables)
    unit = "(u) => [...u.closest('.field').querySelectorAll('input')].every((i) => i.getAttribute('aria-describedby').split(' ').includes(u.id))"
    for unit_of_a_field in looking.locator(".calculator-form .field-unit").all():
        assert unit_of_a_field.evaluate(unit), unit_of_a_field.inner_text()
    pictures = looking.evaluate("() => [...document.querySelectorAll('section.calculator svg[role=img]')].map((s) => [s.querySelector('title').textContent, s.querySelector('desc').textContent, [...s.children].filter((c) => !c.matches('title, desc') && c.getAttribute('aria-hidden') !== 'true').length])")
    assert pictures and all(len(title) > 5 and len(description) > 20 and told == 0 for title, description, told in pictures)
