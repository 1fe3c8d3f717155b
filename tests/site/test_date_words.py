"""Dates in words, against the tables of the Unicode Common Locale Data Repository that the browser carries (English as written in Britain)."""

from __future__ import annotations

import pytest

from tests.site.browser import watched_context
from tests.site.calculators import Sheet

pytestmark = pytest.mark.browser
# Every day of a leap year and the next; pairs up to 400 days apart.
BOTH = """async (base) => {
  const words = await import(base + "date_words.js");
  const of = (iso) => new Date(`${iso}T00:00:00Z`);
  const by = (options) => new Intl.DateTimeFormat("en-GB", { ...options, timeZone: "UTC" });
  const plain = (text) => text.replace(/[\\u2009\\u202f\\u00a0]/g, " ");
  const dashed = (text) => plain(text).replace(/ ?– ?/, "–");
  const wrong = [];
  let compared = 0;
  const same = (ours, theirs) => { compared += 1; if (ours !== plain(theirs)) wrong.push([ours, theirs]); };
  for (let day = 0; day < 731; day += 1) {
    const iso = new Date(Date.UTC(2028, 0, 1 + day)).toISOString().slice(0, 10);
    const [, month, date] = iso.split("-").map(Number);
    for (const form of ["long", "short"]) {
      const full = by({ day: "numeric", month: form, year: "numeric" });
      same(words.dateText(iso, form), full.format(of(iso)));
      same(words.dayAndMonth(month, date, form), by({ day: "numeric", month: form }).format(of(iso)));
      same(words.monthName(month, form), by({ month: form }).format(of(iso)));
      same(words.weekdayName(of(iso).getUTCDay(), form), by({ weekday: form }).format(of(iso)));
      for (const apart of [0, 1, 13, 40, 400]) {
        const later = new Date(of(iso).getTime() + apart * 86400000).toISOString().slice(0, 10);
        same(dashed(words.dateRange([iso, later], form)), dashed(full.formatRange(of(iso), of(later)))); // spaces around a dash are a matter of style
      }
    }
    same(words.monthName(month, "narrow"), by({ month: "narrow" }).format(of(iso)));
  }
  return { wrong: wrong.slice(0, 10), compared };
}"""


def test_words_are_those_of_the_repository(page, modules):
    page.goto(modules + "date_words.js")
    seen = page.evaluate(BOTH, modules)
    assert seen["wrong"] == [] and seen["compared"] > 13_000


@pytest.mark.parametrize("language", ["de-DE", "ar-EG", "en-US"])
def test_dates_stay_in_the_language_of_the_page(browser, site, language):
    """A page in English has no date in another language or other digits in the middle of a sentence (WCAG 2.2, 3.1.2)."""
    with watched_context(browser, locale=language) as (context, trouble):
        page = context.new_page()
        told = Sheet.open(page, site + "calculators/sowing-times/").answer
    assert " Mar " in told or " Apr " in told
    assert not [sign for sign in told if "\u0600" <= sign <= "\u06ff"] and "März" not in told
    assert trouble == []
