"""The browser lays posters out as Python does: the same marks to 1e-6 mm, for every poster, paper, unit and order, and for odd choices."""

import json

import pytest

from build_tools.render.sheets.paper import PAPERS
from build_tools.render.sheets.poster_data import UNITS
from build_tools.render.sheets.posters import ORDERS, POSTERS, page_data, poster_pages
from tests.site.browser import serve, watched_context

from .apart import APART
from .test_posters import odd

AGREEMENT = 1e-6
pytestmark = pytest.mark.browser
RUN = """
async ({base, data, cases, expected}) => {
  const { posterPages } = await import(`${base}sheets/posters.js`);
""" + APART + """
  return cases.map(([poster, sides, orientation, units, crops, order], i) => {
    const worst = apart(posterPages(data, poster, sides, orientation, units, crops, order), expected[i]);
    return Number.isFinite(worst) ? worst : "differs in kind";
  });
}
"""


@pytest.fixture(scope="module")
def lay_out(browser, root):
    with serve(root / "docs" / "assets" / "js") as base, watched_context(browser, base) as (context, trouble):
        page = context.new_page()
        page.goto(base + "words.js")

        def run(data, cases):
            expected = [poster_pages(data, poster, paper, orientation, units, crops, order) for poster, paper, orientation, units, crops, order in cases]
            asked = [[poster, list(PAPERS[paper]), *rest] for poster, paper, *rest in cases]
            return page.evaluate(RUN, {"base": base, "data": json.loads(json.dumps(data)), "cases": asked, "expected": json.loads(json.dumps(expected))})

        yield run
        assert trouble == []


@pytest.mark.parametrize("poster", [p.name for p in POSTERS.values() if p.of_crops])
@pytest.mark.parametrize("units", UNITS)
def test_twin_lays_out_every_poster_alike(lay_out, reference, poster, units):
    data = page_data(reference)
    some = sorted(reference.crops)[::7]
    cases = [(poster, paper, orientation, units, crops, "name") for paper in PAPERS for orientation in POSTERS[poster].orientations for crops in (None, some)]
    found = lay_out(data, cases)
    assert found == pytest.approx([0] * len(cases), abs=AGREEMENT)


@pytest.mark.parametrize("order", ORDERS)
def test_twin_has_the_same_order(lay_out, reference, order):
    cases = [("bands", "A3", "portrait", "F", None, order), ("seed-life", "A4", "landscape", "C", None, order)]
    assert lay_out(page_data(reference), cases) == pytest.approx([0, 0], abs=AGREEMENT)


@pytest.mark.parametrize("count", [1, 3, 300])
def test_twin_survives_odd_crops(lay_out, reference, count):
    cases = [(poster.name, "Letter", orientation, "both", None, "name") for poster in POSTERS.values() if poster.of_crops for orientation in poster.orientations]
    assert lay_out(page_data(odd(reference, count)), cases) == pytest.approx([0] * len(cases), abs=AGREEMENT)


def test_a_difference_is_noticed(lay_out, reference):
    data = page_data(reference)
    spoiled = {**data, "most_years": data["most_years"]}
    assert lay_out(spoiled, [("bands", "A3", "portrait", "C", ["tomato"], "name")]) == [pytest.approx(0, abs=AGREEMENT)]
    from tests.sheets import test_twins

    original = test_twins.poster_pages
    test_twins.poster_pages = lambda *words: original(data, "bands", "A3", "portrait", "C", ["lettuce"], "name")
    try:
        assert lay_out(data, [("bands", "A3", "portrait", "C", ["tomato"], "name")]) == ["differs in kind"]
    finally:
        test_twins.poster_pages = original
