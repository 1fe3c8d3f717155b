"""The browser's twins give the same CSV and the same problems as Python, byte for byte.

The modules run in a real Chromium; files reach them from a server on this machine, as bytes.
"""

from __future__ import annotations

import json
import random
import shutil

import pytest

from build_tools.lots.columns import (
    COLUMNS,
    COUNTS,
    HEADINGS_NEEDED,
    OTHER_WORDS,
    RESULT_COLUMNS,
    VERDICTS,
)
from build_tools.lots.judge import by_need, judge_lots
from build_tools.lots.read import read_lots
from build_tools.lots.write import summary, tally, verdicts_text
from tests.lots.files import TODAY, file_of, many_lots, odd_file, row, written
from tests.site.browser import serve, watched_context

pytestmark = pytest.mark.browser

RUN = """
async ({base, files, name, line, today, data, size}) => {
  const module = (file) => import(`${base}assets/js/lots/${file}.js`);
  const [{ Catalogue }, { readLots }, { Judge, byNeed }, write] = await Promise.all(["catalogue", "read", "judge", "write"].map(module));
  const catalogue = new Catalogue(data);
  const found = [];
  for (const file of files) {
    const blob = await (await fetch(base + file)).blob();
    const reading = await readLots(blob, name, catalogue, today, () => {}, size ?? undefined);
    const judge = new Judge(catalogue, line, today);
    const decisions = [...reading.lots.values()].map((lot) => judge.decide(lot));
    const verdicts = write.tally(decisions);
    found.push([
      [...write.csvLines(decisions.map((decision) => judge.texts(decision)))].join(""),
      reading.problems.map((problem) => `${write.problemLine(problem)}\\n`).join(""),
      reading.rows, reading.leftOut, write.summary(reading.leftOut, verdicts),
      write.verdictsText(verdicts), byNeed(decisions).map((decision) => decision.lot.name),
    ]);
  }
  return found;
}
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory, root):
    """A folder to serve: the project's scripts, and the files of the tests."""
    folder = tmp_path_factory.mktemp("twins")
    shutil.copytree(root / "docs" / "assets" / "js", folder / "assets" / "js")
    (folder / "index.html").write_text("<!doctype html><title>Twins</title>")
    return folder


@pytest.fixture(scope="module")
def run(browser, folder, data):
    """Function (files by name, line, piece size) -> what the browser makes of each."""
    with serve(folder) as base, watched_context(browser, base) as (context, trouble):
        page = context.new_page()
        page.goto(base + "index.html")

        def run(files, line=70, size=None):
            for name, raw in files.items():
                (folder / name).write_bytes(raw)
            return page.evaluate(RUN, {"base": base, "files": list(files), "name": "lots.csv", "line": line, "today": TODAY, "data": json.loads(json.dumps(data)), "size": size})

        run.page, run.base = page, base
        yield run
        assert trouble == []


def wanted(raw, catalogue, line=70):
    reading = read_lots(raw, "lots.csv", catalogue, TODAY)
    results = list(judge_lots(reading, catalogue, line, TODAY))
    verdicts = tally(results)
    text = verdicts_text(verdicts)
    return [*written(raw, "lots.csv", catalogue, line), reading.rows, reading.left_out, summary(reading, verdicts), text, [result.lot for result in by_need(results)]]


@pytest.mark.parametrize("line", [70, 50, 72.5, 0, 100])
def test_the_demo_file(line, run, root, catalogue):
    raw = (root / "data" / "demo" / "lots.csv").read_bytes()
    (found,) = run({"demo.csv": raw}, line)
    assert found == wanted(raw, catalogue, line)
    assert len(found[0].encode()) > 5000


def test_two_thousand_lots(run, catalogue):
    raw = many_lots(2000)
    (found,) = run({"many.csv": raw})
    assert found == wanted(raw, catalogue)
    assert found[0].count("\n") == 2001


def test_files_with_every_kind_of_problem(run, catalogue):
    from tests.lots.test_problems import CELLS, FILES, OTHER, ROWS

    files = {f"cell{number}.csv": file_of(row(**case[0]), OTHER) for number, case in enumerate(CELLS.values())}
    files |= {f"row{number}.csv": file_of(*case[0]) for number, case in enumerate(ROWS.values())}
    files |= {f"file{number}.csv": case[0] for number, case in enumerate(FILES.values())}
    files["all.csv"] = file_of(*(row(**case[0]) for case in CELLS.values()), *(r for case in ROWS.values() for r in case[0]))
    for (name, raw), found in zip(files.items(), run(files), strict=True):
        assert found == wanted(raw, catalogue), name
        assert found[1], name


@pytest.mark.parametrize("size", [None, 1, 7, 64, 1000])
def test_odd_files_in_pieces_of_any_size(size, run, catalogue):
    # The browser reads a file in pieces, Python at once: where a piece ends must not show.
    files = {f"odd{number}.csv": odd_file(random.Random(number)) for number in range(40 if size else 150)}
    stopped = 0
    for (name, raw), found in zip(files.items(), run(files, size=size), strict=True):
        assert found == wanted(raw, catalogue), name
        stopped += found[2] == 0
    assert 0 < stopped < len(files) / 2


def test_many_unknown_crops_are_looked_up_alike(run, catalogue):
    rng = random.Random(5)
    names = list(catalogue.names)
    rows = []
    for _ in range(400):
        letters = list(rng.choice(names))
        for _ in range(rng.randint(1, 4)):
            letters[rng.randrange(len(letters))] = rng.choice("abcdefghijklmnopqrstuvwxyz ")
        rows.append(row(crop="".join(letters)))
    raw = file_of(*rows)
    (found,) = run({"crops.csv": raw})
    assert found == wanted(raw, catalogue)
    assert found[1].count("Did you mean") > 50


def test_columns_and_verdicts_are_the_same(run):
    there = run.page.evaluate("""async (base) => {
      const module = await import(`${base}assets/js/lots/columns.js`);
      return {names: module.NAMES, needed: module.HEADINGS_NEEDED, counts: module.COUNTS, others: [...module.OTHER_WORDS],
              results: module.RESULT_COLUMNS, verdicts: [...module.VERDICTS]};
    }""", run.base)
    assert there == {
        "names": [column.name for column in COLUMNS], "needed": list(HEADINGS_NEEDED), "counts": list(COUNTS), "others": [list(pair) for pair in OTHER_WORDS.items()],
        "results": list(RESULT_COLUMNS), "verdicts": [list(pair) for pair in VERDICTS.items()],
    }
