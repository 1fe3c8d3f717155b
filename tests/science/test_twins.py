"""The browser twins agree with the Python science, and with the published figures, to 1e-9.

All modules are imported by one page in a real Chromium, from a server on this machine.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.science.published import ALL, replicate_range_table
from tests.science.write_vectors import CASES, FOLDER, TABLE_MARK
from tests.site.browser import serve, watched_context

TWINS = Path(__file__).resolve().parents[2] / "docs" / "assets" / "js"
AGREEMENT = 1e-9
pytestmark = pytest.mark.browser

RUN = """
async ({base, module, cases, table}) => {
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
      const given = row.slice(0, -1).map((v) => (v === "replicate_range_table" ? table : v));
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
    """Function (module, {function: rows}) -> {function: {worst, where, count}}."""
    with serve(TWINS) as base, watched_context(browser, base) as (context, trouble):
        page = context.new_page()
        page.goto(base + "science/counting.js")

        def run(module, cases):
            return page.evaluate(RUN, {"base": base, "module": module, "cases": cases,
                                       "table": replicate_range_table()})

        yield run
        assert trouble == []


@pytest.mark.parametrize("module", CASES)
def test_twin_agrees_with_python(run, module):
    vectors = json.loads((FOLDER / f"{module}.json").read_text(encoding="utf-8"))
    vectors.pop(TABLE_MARK, None)
    found = run(module, {camel_case(name): case["rows"] for name, case in vectors.items()})
    assert found.keys() == {camel_case(name) for name in vectors}
    for name, case in vectors.items():
        result = found[camel_case(name)]
        assert result["count"] == len(case["rows"]) > 0
        assert result["worst"] != "differs in kind", f"{name}: {result['where']}"
        assert result["worst"] <= AGREEMENT, f"{name}: {result['where']}"


@pytest.mark.parametrize("check", ALL, ids=str)
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


@pytest.mark.parametrize(("module", "function", "arguments"), [
    ("proportions", "wilson", [11, 10, 0.95]), ("proportions", "wilson", [-1, 10, 0.95]),
    ("proportions", "wilson", [1, 0, 0.95]), ("proportions", "wilson", [1.5, 10, 0.95]),
    ("proportions", "clopperPearson", [1, 10, 1]), ("proportions", "normalQuantile", [0]),
    ("lot", "chanceAtLeast", [1, 10, 1.2]), ("lot", "chanceCountAtLeast", [12, 10, 0.5]),
    ("replicates", "milesFactor", [9]), ("replicates", "chanceOfRange", [[1, 2], [10]]),
    ("replicates", "chanceOfRange", [[1, 2], [4000, 10]]),
    ("sowing", "seedsNeeded", [0, 0.9, 8, 10]), ("sowing", "seedsNeeded", [5, 1, 8, 10]),
    ("sowing", "chanceOfEnough", [5, 9, 8, 10, 0]), ("counting", "readingStage", [-1, 5, 14]),
    ("counting", "readingStage", [3, 14, 5]),
])
def test_twin_refuses_what_python_refuses(run, module, function, arguments):
    with pytest.raises(Exception, match="RangeError"):
        run(module, {function: [[*arguments, 0]]})
