"""The browser twins agree with the Python science, and with the published figures, to 1e-9.

All modules are imported by one page in a real Chromium, from a server on this machine.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from scipy import special, stats

from tests.science.published import ALL
from tests.science.published_trials import TRIALS
from tests.science.refused import REFUSED
from tests.science.write_vectors import CASES, FOLDER, MODULES, TABLE_MARKS, TABLES
from tests.site.browser import serve, watched_context

TWINS = Path(__file__).resolve().parents[2] / "docs" / "assets" / "js"
AGREEMENT = 1e-9
pytestmark = pytest.mark.browser

RUN = """
async ({base, module, cases, tables}) => {
  const twin = await import(`${base}science/${module}.js`);
  // Worst absolute difference of two JSON-like values; Infinity where the kinds differ.
  const apart = (a, b) => {
    if (typeof a === "number" && typeof b === "number") {
      const d = Math.abs(a - b);
      return Number.isNaN(d) ? Infinity : d;
    }
    if (a !== null && b !== null && typeof a === "object" && typeof b === "object") {
      const keys = Object.keys(a);
      if (keys.length !== Object.keys(b).length) return Infinity;
      return Math.max(0, ...keys.map((k) => (k in b ? apart(a[k], b[k]) : Infinity)));
    }
    return a === b ? 0 : Infinity;
  };
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
"""


def camel_case(name: str) -> str:
    first, *rest = name.split("_")
    return first + "".join(part.capitalize() for part in rest)


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


@pytest.mark.parametrize("check", [*ALL, *TRIALS], ids=str)
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


def test_normal_distribution(run):
    # scipy.special.ndtr; relative, so far down the tail as well, where scipy's own last digits go
    for z in (-37, -30.5, -20, -12.25, -8, -5, -3.3, -1.96, -1, -0.9999, -0.3, 0, 1e-9, 0.7, 1, 1.64, 3, 6, 9):
        want = float(special.ndtr(z))
        found = run("special", {"normalProbability": [[z, want]]})["normalProbability"]["worst"]
        assert found <= want * (1e-12 if z < -8 else 1e-14), z


def test_table_chances(run):
    # scipy.stats.hypergeom
    rows = []
    for total, n1, n2 in ((0, 4, 4), (8, 4, 4), (5, 3, 9), (7, 10, 2), (100, 90, 60), (300, 400, 400)):
        lowest, highest = max(0, total - n2), min(n1, total)
        chances = stats.hypergeom.pmf(range(lowest, highest + 1), n1 + n2, n1, total)
        rows.append([total, n1, n2, {"lowest": lowest, "chances": list(map(float, chances))}])
    found = run("special", {"hypergeometricProbabilities": rows})["hypergeometricProbabilities"]
    assert found["count"] == 6
    assert found["worst"] != "differs in kind", found["where"]
    assert found["worst"] <= 1e-12, found["where"]


@pytest.mark.parametrize(("module", "function", "arguments"), REFUSED)
def test_twin_refuses_what_python_refuses(run, module, function, arguments):
    with pytest.raises(ValueError, match="[a-z]"):
        getattr(MODULES[module], function)(*arguments)
    with pytest.raises(Exception, match="RangeError"):
        run(module, {camel_case(function): [[*arguments, 0]]})
