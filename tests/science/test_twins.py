"""The browser twins agree with the Python science, and with the published figures, to 1e-9.

All modules are imported by one page in a real Chromium, from a server on this machine.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from tests.science.published import ALL
from tests.science.published_edges import EDGES
from tests.science.published_trials import TRIALS
from tests.science.refused import REFUSED
from tests.science.refused_edges import REFUSED_EDGES
from tests.science.special_cases import SPECIAL
from tests.science.twin_cases import AGREEMENT, camel_case
from tests.science.write_vectors import CASES, FOLDER, MODULES, TABLE_MARKS, TABLES
from tests.site.browser import serve, watched_context

ROOT = Path(__file__).resolve().parents[2]
TWINS = ROOT / "docs" / "assets" / "js"
pytestmark = pytest.mark.browser

RUN = """
async ({base, module, cases, tables}) => {
  const twin = await import(`${base}science/${module}.js`);
  APART
  const found = {};
  for (const [name, rows] of Object.entries(cases)) {
    let worst = 0, where = null, count = 0;
    for (const row of rows) {
      const given = row.slice(0, -1).map((v) => (typeof v === "string" && v in tables ? tables[v] : v));
      const got = twin[name](...given);
      const d = apart(got, row[row.length - 1]);
      count += 1;
      if (d > worst) { worst = d; where = {given: row.slice(0, -1), got, want: row.at(-1)}; }
    }
    // Infinity cannot travel as JSON.
    found[name] = {worst: Number.isFinite(worst) ? worst : "differs in kind", where, count};
  }
  return found;
}
""".replace("APART", (ROOT / "build_tools" / "mutants" / "apart.js").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def run(browser):
    """Function (module, {function: rows}) -> {function: {worst, where, count}}; its page and base."""
    with serve(TWINS) as base, watched_context(browser, base) as (context, trouble):
        page = context.new_page()
        page.goto(base + "science/counting.js")

        def run(module, cases):
            return page.evaluate(RUN, {"base": base, "module": module, "cases": cases,
                                       "tables": dict(TABLES.values())})

        run.page, run.base = page, base
        yield run
        assert trouble == []


@pytest.mark.parametrize("module", CASES)
def test_twin_agrees_with_python(run, module):
    vectors = json.loads((FOLDER / f"{module}.json").read_text(encoding="utf-8"))
    for mark in TABLE_MARKS:
        vectors.pop(mark, None)
    found = run(module, {camel_case(name): case["rows"] for name, case in vectors.items()})
    assert found.keys() == {camel_case(name) for name in vectors}
    for name, case in vectors.items():
        result = found[camel_case(name)]
        assert result["count"] == len(case["rows"]) > 0
        assert result["worst"] != "differs in kind", f"{name}: {result['where']}"
        assert result["worst"] <= AGREEMENT, f"{name}: {result['where']}"


@pytest.mark.parametrize("check", [*ALL, *TRIALS, *EDGES], ids=str)
def test_twin_reproduces_published_value(run, check):
    expected = list(check.expected) if isinstance(check.expected, tuple) else check.expected
    found = run(check.module, {camel_case(check.function): [[*check.arguments, expected]]})
    result = found[camel_case(check.function)]
    assert result["worst"] != "differs in kind", result["where"]
    assert result["worst"] <= check.tolerance, f"{check.source} ({check.seen}): {result['where']}"


def test_a_wrong_vector_is_noticed(run):
    found = run("proportions", {"wilson": [[8, 10, 0.95, [0.5, 0.9433]]]})
    assert 0.009 < found["wilson"]["worst"] < 0.011
    found = run("counting", {"readingStage": [[3, 5, 14, "complete"]]})
    assert found["readingStage"]["worst"] == "differs in kind"


def test_whole_percent_table_is_the_same(run):
    from build_tools.science.proportions import whole_percent_table

    for seeds in (1, 10, 25):
        want = whole_percent_table(seeds)
        found = run("proportions", {"wholePercentTable": [[seeds, 0.95, want]]})
        assert found["wholePercentTable"]["worst"] == 0


CONSTANTS = """
async ({base, module}) => Object.fromEntries(Object.entries(await import(`${base}science/${module}.js`))
  .filter(([name]) => name === name.toUpperCase()))
"""


@pytest.mark.parametrize("module", CASES)
def test_constants_are_the_same(run, module):
    found = run.page.evaluate(CONSTANTS, {"base": run.base, "module": module})
    assert found == {name: getattr(MODULES[module], name) for name in found}
    expected = {"ageing": 2, "dilution": 4, "plans": 2, "two_treatments": 3, "cells": 1, "outcomes": 2, "seed_mass": 2,
                "repeated_tests": 1, "replicates": 3, "lot": 1, "sowing": 1, "counting": 1, "viability": 5, "emergence": 2, "day_course": 3, "soil_temperature": 7}
    assert len(found) == expected.get(module, 0)


def test_special_functions(run):
    for function in {row[0] for row in SPECIAL}:
        for _, arguments, want, tolerance in (row for row in SPECIAL if row[0] == function):
            found = run("special", {function: [[*arguments, want]]})[function]
            assert found["worst"] != "differs in kind", found["where"]
            assert found["worst"] <= tolerance, found["where"]


@pytest.mark.parametrize(("module", "function", "arguments", "says"), [*REFUSED_EDGES, *((*case, "") for case in REFUSED)])
def test_twin_refuses_what_python_refuses(run, module, function, arguments, says):
    with pytest.raises(Exception, match=f"RangeError.*{re.escape(says)}"):
        run(module, {camel_case(function): [[*arguments, 0]]})
