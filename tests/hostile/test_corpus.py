"""Every hostile case is refused at its place, without a traceback, in bounded time and memory, and says so without passing the harm on."""

import re
import shutil
import time
import tracemalloc
import unicodedata

import pytest

from build_tools.check import check_tree
from build_tools.check.schema_rules import SchemaSet
from build_tools.printers import as_annotations, as_json, as_text
from build_tools.problem import errors
from build_tools.read import read_tree

from .corpus import TREE, cases, make

CASES = cases()
LONGEST_WAIT = 6.0  # seconds; the good tree takes 0.05
MOST_MEMORY = 200e6  # bytes
LONGEST_MESSAGE = 1_000  # letters
HIDDEN = ("Cc", "Cf", "Cs", "Zl", "Zp")


@pytest.fixture(scope="module")
def schemas(root):
    return SchemaSet.load(root / "schema")


def found_in(data, schemas):
    """(problems, seconds)."""
    start = time.monotonic()
    problems = check_tree(read_tree(data), schemas)
    return problems, time.monotonic() - start


def test_the_good_tree_is_good(tmp_path, schemas):
    shutil.copytree(TREE.parent, tmp_path, dirs_exist_ok=True)
    assert errors(found_in(tmp_path / "data", schemas)[0]) == []


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_refused_at_its_place(case, tmp_path, schemas):
    problems, seconds = found_in(make(case, tmp_path), schemas)
    found = [{"rule": p.rule, "file": p.file, "line": p.line} for p in errors(problems)]
    expected = [dict(e) for e in case.expect]
    if expected[-1].get("more"):
        more = expected.pop()["rule"]
        first, rest = found[: len(expected)], found[len(expected) :]
        assert first == expected and {f["rule"] for f in rest} == {more}, as_text(problems)[:2000]
    else:
        assert found == expected, as_text(problems)[:2000]
    assert seconds < LONGEST_WAIT
    for p in problems:
        assert p.line >= 1 and p.column >= 1 and p.message and p.hint, p
        assert len(p.text) <= LONGEST_MESSAGE, p.text[:200]


@pytest.mark.parametrize("case", CASES, ids=[case.name for case in CASES])
def test_printed_without_harm(case, tmp_path, schemas):
    problems, _ = found_in(make(case, tmp_path), schemas)
    for printer in (as_text, as_annotations, as_json, lambda found: as_text(found, tmp_path)):
        printed = printer(problems)
        printed.encode("utf-8")
        assert not [c for c in printed if unicodedata.category(c) in HIDDEN and c != "\n"]
        assert len(printed) < 500_000
    # A program that reads the log takes a line that begins so for a command: only our own may.
    assert not re.search(r"^\s*(::(?!(error|warning) file=)|##\[)", as_annotations(problems) + "\n" + as_text(problems, tmp_path), re.M)
    for line in as_annotations(problems).split("\n"):
        assert re.fullmatch(r"::(error|warning) file=[^:,]*,line=[0-9]+,col=[0-9]+,title=[a-z0-9-]+::.*", line), line


@pytest.mark.parametrize("name", [case.name for case in CASES if re.search("large|sparse|device|deep|many|long", case.name)])
def test_memory_is_bounded(name, tmp_path, schemas):
    data = make(next(case for case in CASES if case.name == name), tmp_path)
    tracemalloc.start()
    try:
        read_tree(data)
        assert tracemalloc.get_traced_memory()[1] < MOST_MEMORY
    finally:
        tracemalloc.stop()
