"""Reading test files: separators, a spreadsheet's mistakes with their places, and never an exception."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from build_tools import test_file_cells as cells
from build_tools import test_files as reader
from build_tools.science.time_course import check_course
from tests.time_course.files import BAD_FILES, GOOD, GOOD_FILES, HEAD


@pytest.mark.parametrize(("raw", "wanted"), [case[1:] for case in GOOD_FILES], ids=[case[0] for case in GOOD_FILES])
def test_good_files(raw, wanted):
    reading = reader.read_courses(raw, "tests.csv")
    assert reading.problems == [] and reading.left_out == 0 and reading.all_good
    assert [(c.name, c.seeds, list(c.days), list(c.new)) for c in reading.courses] == wanted


@pytest.mark.parametrize(("raw", "problems", "names"), [case[1:] for case in BAD_FILES], ids=[case[0] for case in BAD_FILES])
def test_mistakes_are_named_with_place_and_remedy(raw, problems, names):
    reading = reader.read_courses(raw, "tests.csv")
    assert [(p.line, p.column, p.rule) for p in reading.problems] == [wanted[:3] for wanted in problems]
    for found, (_, _, _, message, hint) in zip(reading.problems, problems, strict=True):
        assert found.file == "tests.csv" and found.level == "error"
        assert message in found.message and hint in found.hint
        assert found.hint.endswith((".", ".”")) and len(found.hint) > 9
    # good tests still come out
    assert [course.name for course in reading.courses] == names
    assert not reading.all_good


def test_a_column_of_ones_own_is_a_note():
    reading = reader.read_courses(b"test,seeds,day,new,remark\nA,20,3,1,wet\n", "tests.csv")
    assert [p.level for p in reading.problems] == ["note"] and "“remark”" in reading.problems[0].message
    assert len(reading.courses) == 1 and reading.all_good


def test_the_longest_name_and_day_are_read():
    reading = reader.read_courses(f"{HEAD}{'A' * 60},100000,1000,100000\n".encode(), "tests.csv")
    assert reading.all_good and reading.courses[0].days == (1000,) and reading.courses[0].new == (100000,)


def test_docstring_names_every_column():
    for column in reader.COLUMNS:
        assert f"    {column}  " in reader.__doc__
    assert HEAD.strip() in reader.__doc__ and HEAD.strip() == ",".join(reader.COLUMNS)


@given(st.binary(max_size=400))
@settings(max_examples=300, deadline=None)
def test_no_bytes_raise(raw):
    check(reader.read_courses(raw, "tests.csv"))


CELL = st.one_of(
    st.sampled_from(["A", "B", "", "20", "0", "3", "5", "2,5", "2.5", "-1", "1e9", "x", "2026-03-12", '"', '""', "'=A", "∞", "\u0663", "\u200b", "nan", "inf", "9" * 30]),
    st.text(max_size=6), st.integers(-5, 2000).map(str))


@given(st.lists(st.lists(CELL, max_size=6), max_size=8), st.sampled_from(",;\t"), st.sampled_from(["test{0}seeds{0}day{0}new", "seeds{0}new{0}day{0}test{0}other", "test{0}days"]))
@settings(max_examples=400, deadline=None)
def test_no_rows_raise(rows, separator, head):
    text = "\n".join([head.format(separator), *(separator.join(row) for row in rows)])
    check(reader.read_courses(text.encode("utf-8", "surrogatepass"), "tests.csv"))


def check(reading):
    """Whatever came out is sound; whatever did not is accounted for."""
    for course in reading.courses:
        check_course(course.days, course.new, course.seeds)
        assert len(course.name) <= cells.LONGEST_NAME
    assert reading.courses or reading.problems
    assert bool(reading.left_out) <= (not reading.all_good)
    assert reading.problems == sorted(reading.problems, key=lambda p: (p.line, p.column))
    for problem in reading.problems:
        assert problem.line >= 1 and problem.column >= 1 and problem.message and problem.hint
        assert "\n" not in problem.text


NAMES = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cf", "Cs", "Zs", "Zl", "Zp"]), min_size=1, max_size=20)


@given(st.dictionaries(NAMES, st.tuples(st.integers(0, 30), st.dictionaries(st.integers(1, 4000), st.integers(0, 9), min_size=1, max_size=8)), min_size=1, max_size=4))
@settings(max_examples=200, deadline=None)
def test_what_a_program_writes_is_read_back(tests):
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(reader.COLUMNS)
    wanted = {}
    for name, (spare, counts) in tests.items():
        seeds, counts = max(1, sum(counts.values()) + spare), sorted(counts.items())
        for day, new in counts:
            writer.writerow([name, seeds, day / 4, new])
        plain = cells.tidy(name)
        plain = plain[1:] if cells.GUARDED.match(plain) else plain
        wanted.setdefault(plain, []).append((seeds, tuple(day / 4 for day, _ in counts), tuple(new for _, new in counts)))
    if any(len(of_name) > 1 for of_name in wanted.values()):  # two names that read alike
        return
    reading = reader.read_courses(out.getvalue().encode(), "tests.csv")
    assert reading.all_good, reading.problems
    assert {c.name: [(c.seeds, c.days, c.new)] for c in reading.courses} == wanted


def test_good_is_good():
    # the file that stands behind the bad ones above is itself read whole
    assert [c.name for c in reader.read_courses(GOOD.encode(), "tests.csv").courses] == ["Good"]
