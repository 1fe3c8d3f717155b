"""The harness that holds tests against mutants, on small invented modules; then a sample of the real ones.

The harness copies its process, so it runs in one of its own.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from build_tools.mutants.spots import mutants_of

ROOT = Path(__file__).resolve().parents[2]
pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot copy a process")

SUMS = '''
"""Invented."""

MOST = 10


def kept(values, least=2):
    """Values of `least` or more, MOST of them at most, and how many."""
    if not values:
        raise ValueError("there is nothing" + " to keep")
    found = []
    while len(found) < len(values):
        found.append(values[len(found)])
    found = [value for value in found if value >= least]
    return found[:MOST], len(found)
'''
WEAK = '''
from sums import kept


def test_kept():
    assert kept([1, 2, 3])
'''
STRONG = '''
import pytest

from sums import kept


def test_kept():
    assert kept([1, 2, 3]) == ([2, 3], 2)
    assert kept([1, 2, 3], 1) == ([1, 2, 3], 3)
    assert kept([5] * 12) == ([5] * 10, 12)
    with pytest.raises(ValueError):
        kept([])
'''
PYTHON_HARNESS = """
import json, sys
from pathlib import Path
from build_tools.mutants.pool import Broken
from build_tools.mutants.python_half import Half
from build_tools.mutants.spots import mutants_of
folder = Path(sys.argv[1])
sys.path.insert(0, str(folder))
mutants = mutants_of(folder / "sums.py")
try:
    found = Half(folder, {"sums.py": ("sums", folder / "sums.py")}, [sys.argv[2]], 2).outcomes(mutants, lambda: None)
except Broken as error:
    raise SystemExit(str(error))
print("RESULT" + json.dumps([[m.line, m.change, found[m]] for m in mutants]))
"""
TWIN = """
import { doubled } from "./other.js";

export const MOST = 3;

/** Doubles of the first values. */
export function firstDoubles(values) {
  if (values.length === 0) throw new RangeError("nothing");
  const found = [];
  for (let i = 0; i < Math.min(MOST, values.length); i += 1) found.push(doubled(values[i]));
  return found;
}
"""
OTHER = "export const doubled = (value) => value * 2;\n"
TWIN_HARNESS = """
import json, sys
from pathlib import Path
from build_tools.mutants.pool import Broken
from build_tools.mutants.spots import mutants_of
from build_tools.mutants.twins_half import Twins
folder, cases = Path(sys.argv[1]), json.loads(sys.argv[2])
mutants = [m for name in ("twin.js", "other.js") for m in mutants_of(folder / "in" / name)]
try:
    found = Twins(folder, {"in/twin.js": {"constants": {}, "tables": {}} | cases}, 2).outcomes(mutants, lambda: None)
except Broken as error:
    raise SystemExit(str(error))
print("RESULT" + json.dumps([[m.file, m.change, found[m]] for m in mutants]))
"""


def harness(code: str, *words: str) -> list:
    done = subprocess.run([sys.executable, "-c", code, *words], cwd=ROOT, capture_output=True, text=True, timeout=300, env=os.environ | {"OPENBLAS_NUM_THREADS": "1", "PYTHONDONTWRITEBYTECODE": "1"})
    results = [line for line in done.stdout.splitlines() if "RESULT" in line]
    assert results, done.stdout + done.stderr
    return json.loads(results[0].split("RESULT")[1])


@pytest.fixture
def tiny(tmp_path):
    """A folder with one module, its weak and its strong test."""
    for name, text in (("sums.py", SUMS), ("test_weak.py", WEAK), ("test_strong.py", STRONG)):
        (tmp_path / name).write_text(text, encoding="utf-8")
    (tmp_path / "pytest.ini").write_text("[pytest]\nmarkers = browser\n", encoding="utf-8")
    return tmp_path


@pytest.fixture
def twins(tmp_path):
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "twin.js").write_text(TWIN, encoding="utf-8")
    (tmp_path / "in" / "other.js").write_text(OTHER, encoding="utf-8")
    return tmp_path


def test_a_strong_test_tells_every_mutant(tiny):
    before = {path.name: path.read_bytes() for path in tiny.iterdir()}
    found = harness(PYTHON_HARNESS, str(tiny), "test_strong.py")
    assert len(found) == 13
    assert {outcome for _, _, outcome in found} == {"killed", "timed out"}, [row for row in found if row[2] == "survived"]
    # found never grows, or the while never ends
    assert [change for _, change, outcome in found if outcome == "timed out"] == ["found.append(values[len(found)]) → pass"]
    assert {path.name: path.read_bytes() for path in tiny.iterdir() if path.is_file()} == before


def test_a_weak_test_leaves_survivors(tiny):
    found = {(line, change): outcome for line, change, outcome in harness(PYTHON_HARNESS, str(tiny), "test_weak.py")}
    assert found[4, "10 → 11"] == found[7, "2 → 3"] == found[14, ">= → >"] == "survived"
    assert found[10, 'raise ValueError("there is nothing" + " to keep") → pass'] == "survived"
    assert found[9, "not values → values"] == found[15, "return found[:MOST], len(found) → return None"] == "killed"


def test_tests_that_fail_anyway_prove_nothing(tiny):
    (tiny / "test_wrong.py").write_text("def test_wrong():\n    assert 1 == 2\n", encoding="utf-8")
    with pytest.raises(AssertionError, match="without any change, these tests fail: test_wrong.py::test_wrong"):
        harness(PYTHON_HARNESS, str(tiny), "test_wrong.py")


def test_twins_by_strong_and_by_weak_cases(twins):
    strong = {"rows": [["firstDoubles", [[1, 2, 3, 4]], [2, 4, 6], 0], ["firstDoubles", [[5]], [10], 0]], "refused": [["firstDoubles", [[]], "nothing"]]}
    found = harness(TWIN_HARNESS, str(twins), json.dumps(strong))
    assert {outcome for _, _, outcome in found} == {"killed", "timed out"}, found
    assert ["twin.js", "+= → -=", "timed out"] in found
    assert ["other.js", "* → /", "killed"] in found  # a change in a module that another one uses
    weak = harness(TWIN_HARNESS, str(twins), json.dumps({"rows": [["firstDoubles", [[0]], [0], 0]], "refused": []}))
    assert ["twin.js", "3 → 4", "survived"] in weak and ["other.js", "* → /", "survived"] in weak
    assert (twins / "in" / "twin.js").read_text(encoding="utf-8") == TWIN
    wrong = {"rows": [["firstDoubles", [[1]], [3], 0]], "refused": []}
    with pytest.raises(AssertionError, match="without any change, this fails: in/twin.js firstDoubles"):
        harness(TWIN_HARNESS, str(twins), json.dumps(wrong))


# One line for each kind of change: source, then every change that is made of it, in order.
PYTHON_CHANGES = [
    ("a = b - c * 2", ["- → +", "* → /", "2 → 3", "2 → 1"]), ("a = b // c % d ** e", ["% → *", "// → /", "** → *"]), ("a += 1", ["a += 1 → pass", "+= → -=", "1 → 2", "1 → 0"]),
    ("a = b < c", ["< → <=", "< → >="]), ("a = b == c", ["== → !="]), ("a = b is not None", ["is not → is"]), ("a = b not in c", ["not in → in"]), ("a = b and c or d", ["or → and", "and → or"]),
    ("a = not b", ["not b → b"]), ("a = -b", ["-b → b"]), ("a = 0.5", ["0.5 → 0.55", "0.5 → 0.45"]), ("a = 2.0", ["2.0 → 3.0", "2.0 → 1.0"]), ("a = 1e-9", ["1e-9 → 0.0", "1e-9 → 1.000000001"]), ("a = True", ["True → False"]),
    ("a = 'x'", ["'x' → 'x?'"]), ("a = min(b, c)", ["min → max"]), ("a = math.floor(b)", ["math.floor → math.ceil"]), ("a = any(b)", ["any → all"]), ("a = abs(b)", ["abs → nothing"]), ("a = b if c else d", ["c → not (c)"]),
    ("return a", ["return a → return None"]), ("raise ValueError(f'no {a + 1}')", ["raise ValueError(f'no {a + 1}') → pass"]), ("a[0] = b", ["a[0] = b → pass", "0 → 1", "0 → (-1)"]), ("g(b)", ["g(b) → pass"]), ("return None", []),
    ("a = b['key']", []), ("a: int = b  # 3 < 4", []), ("'documentation'", []), ("check('seeds', b)", ["check('seeds', b) → pass"]), ("a = zip(b, c, strict=True)", []), ("a = [x for x in b if x]", ["x → not (x)"]),
    ("for a in b: break", ["break → continue"]),
]
TWIN_CHANGES = [
    ("const a = b - c * 2;", ["- → +", "* → /", "2 → 3", "2 → 1"]), ("a += 1;", ["a += 1; → ;", "+= → -=", "1 → 2", "1 → 0"]), ("for (const i of a) i++;", ["i++; → ;", "++ → --"]), ("const a = b <= c;", ["<= → <", "<= → >"]),
    ("const a = b === c;", ["=== → !=="]), ("const a = b && c || d;", ["|| → &&", "&& → ||"]), ("const a = !b;", ["!b → b"]), ("const a = -b;", ["-b → b"]), ("const a = 0.5;", ["0.5 → 0.55", "0.5 → 0.45"]), ("const a = 1e-9;", ["1e-9 → 0.0", "1e-9 → 1.000000001"]),
    ("const a = true;", ["true → false"]), ('const a = "x";', ['"x" → "x?"']), ("const a = Math.min(b, c);", ["Math.min → Math.max"]), ("const a = b.some(c);", ["some → every"]), ("const a = b ? c : d;", ["b → !(b)"]), ("return a;", ["return a; → return null;"]),
    ("throw new RangeError(`no ${a + 1}`);", ["throw new RangeError(`no ${a + 1}`); → ;"]), ("a[0] = b;", ["a[0] = b; → ;", "0 → 1", "0 → (-1)"]), ("if (b) c();", ["b → !(b)", "c(); → ;"]), ("const a = /b+/; // 3 < 4", []), ("const a = `no < ${b}`;", []), ("const a = b['key'];", []),
]


@pytest.mark.parametrize(("ending", "frame", "line", "changes"), [
    *((".py", "def f(a, b, c, d, e):\n    {}\n", *case) for case in PYTHON_CHANGES), *((".js", "export function f(a, b, c, d) {{\n  {}\n}}\n", *case) for case in TWIN_CHANGES)])
def test_each_kind_of_change(ending, frame, line, changes, tmp_path):
    path = tmp_path / f"one{ending}"
    path.write_text(frame.format(line), encoding="utf-8")
    found = mutants_of(path)
    assert [mutant.change for mutant in found] == changes
    for mutant in found:
        changed = mutant.applied(path.read_bytes()).decode()
        assert changed != path.read_text(encoding="utf-8") and mutant.function == "f" and mutant.line == 2
        if ending == ".py":
            compile(changed, path.name, "exec")


def test_a_list_of_equal_mutants_is_held_to_what_it_says(tmp_path):
    from build_tools.mutants.equal import listed, mistakes

    path, module = tmp_path / "equal.yml", tmp_path / "one.py"
    module.write_text("def f(a):\n    return a < 1\n", encoding="utf-8")
    entry = "- {file: one.py, function: f, line: return a < 1, changes: ['< → <=', '1 → 5'], reason: invented for a test}\n"
    path.write_text(entry, encoding="utf-8")
    mutants = mutants_of(module)
    outcomes = {mutant: "survived" if mutant.change == "< → <=" else "killed" for mutant in mutants}
    assert mistakes(listed(path), mutants, outcomes) == ["listed as equal, but there is no such change any more: one.py | f | return a < 1 | 1 → 5"]
    assert "but a test tells it" in mistakes(listed(path), mutants, dict.fromkeys(mutants, "killed"))[0]
    for wrong in (entry.replace("reason: invented for a test", "reason: so"), entry + entry, entry.replace("function", "where")):
        path.write_text(wrong, encoding="utf-8")
        with pytest.raises(ValueError, match="equal.yml"):
            listed(path)


def test_a_report_names_places_and_cuts_shares(tmp_path):
    from build_tools.mutants.report import share, survivors, table

    module = tmp_path / "one.py"
    module.write_text("def f(a):\n    return a < 1\n", encoding="utf-8")
    mutants = mutants_of(module)  # return None, <=, >=, 2, 0
    outcomes = dict(zip(mutants, ("killed", "survived", "timed out", "killed", "survived")))
    equal = {mutants[1].key: "invented for a test"}
    assert share(outcomes, equal) == 75.0
    assert table("half", outcomes, equal).splitlines()[1].split() == ["one.py", "5", "2", "1", "1", "1", "75.0", "%"]
    assert survivors("here", outcomes, equal, mutants) == ["here/one.py:2  f: 1 → 0\n    return a < 1"]


@pytest.mark.parametrize("half", ["--python", "--twins"])
def test_a_sample_of_the_real_ones(half):
    """Mutants that nothing listed excuses, always the same few: each must be told by a test."""
    done = subprocess.run([sys.executable, "-m", "build_tools.commands", "mutants", half, "--sample", "40", "--jobs", "2"], cwd=ROOT, capture_output=True, text=True, timeout=900)
    assert done.returncode == 0, textwrap.shorten(done.stderr, 2000) + done.stdout
    assert f"{'40':>8}" in done.stdout
