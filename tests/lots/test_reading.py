"""Good files in every form: separators, byte-order mark, line ends, quotes (RFC 4180), replicates and earlier tests."""

from __future__ import annotations

import csv
import io

import pytest

from build_tools.lots.table import records
from tests.lots.files import COLUMNS, HEADER, file_of, read, row


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_separators_line_ends_and_marks_read_the_same(separator, end, mark, catalogue):
    note = f'"one{separator} two{end}and ""three"""'
    rows = row(separator, variety="Example Früh", note=note), row(separator, lot="B-2")
    raw = mark + file_of(*rows, header=HEADER.replace(",", separator), end=end) + (end * 3).encode()
    reading = read(raw, catalogue)
    assert reading.problems == [] and reading.rows == 2
    assert list(reading.lots) == ["A-1", "B-2"] and reading.lots["A-1"].variety == "Example Früh"


def test_columns_in_any_order_and_only_those_needed(catalogue):
    reading = read(file_of("36,50,2026-03-12,Tomato,A-1", header="normal,seeds,tested,crop,lot"), catalogue)
    (test,) = reading.lots["A-1"].tests
    assert reading.problems == [] and (test.seeds, test.normal, test.tested) == (50, 36, "2026-03-12")


def test_lines_are_those_of_the_file_after_cells_of_several_lines(catalogue):
    reading = read(file_of(row(lot="B-2", note='"one\ntwo\n\nthree"'), "", row(normal="99")), catalogue)
    assert [(p.line, p.rule) for p in reading.problems] == [(7, "normal")]


def test_empty_rows_are_passed_over_wherever_they_stand(catalogue):
    reading = read(b"\n;;\n" + file_of(row(), ",,,", "", " , ", "," * 12, row(lot="B-2"), "," * 20), catalogue)
    assert len(reading.lots) == 2 and reading.problems == [] and reading.rows == 2


def test_rows_of_a_day_are_replicates_and_other_days_earlier_tests(catalogue):
    rows = row(seeds="25", normal="19", hard="1"), row(lot="B-2", tested="", seeds="", normal=""), row(tested="2025-01-31"), row(seeds="25", normal="17", fresh="2"), row(tested="", seeds="", normal="")
    reading = read(file_of(*rows), catalogue)
    first, last = reading.lots["A-1"].tests
    assert first.tested == "2025-01-31" and first.replicates == ((50, 36),)
    assert last.replicates == ((25, 17), (25, 19)) and (last.seeds, last.normal, last.hard, last.fresh) == (50, 36, 1, 2)
    assert reading.lots["B-2"].tests == () and reading.problems == []


def test_the_storage_of_the_latest_test_counts(catalogue):
    rows = row(storage="cold-dry"), row(storage="warm", tested="2025-03-12"), row(lot="B-2", storage="Cold dry")
    reading = read(file_of(*rows), catalogue)
    assert reading.problems == [] and [lot.storage for lot in reading.lots.values()] == ["cold-dry", "cold-dry"]


def test_lot_names_are_tidied_and_kept_apart_by_case(catalogue):
    rows = row(lot=" A  1 "), row(lot="A\u00a01", tested="2025-03-12"), row(lot="a 1"), row(lot="e\u0301"), row(lot="é")
    reading = read(file_of(*rows), catalogue)
    assert list(reading.lots) == ["A 1", "a 1", "é"] and reading.problems == []


@pytest.mark.parametrize("text", [
    'a,b\n"a,b",c\n', '"a ""b""",c\n', '"two\nlines",c\nd,e\n', 'a"b,c\n', ',,\n"",""\n', '"a"\n"b"',
])
def test_quotes_are_read_as_the_standard_library_reads_them(text):
    # RFC 4180, with Python's csv module in strict mode as the second reader.
    ours = [cells for _, cells, _ in records(text.split("\n"), ",")]
    assert ours == [cells for cells in csv.reader(io.StringIO(text), strict=True) if cells]


def test_a_quote_left_open_spoils_its_own_row_only(catalogue):
    rows = [row(lot=f"A-{number}") for number in range(60)]
    rows[10] = row(lot="A-10", note='"open')
    reading = read(file_of(*rows), catalogue)
    assert [p.line for p in reading.problems] == [12] and len(reading.lots) == 59


def test_the_demo_file_has_no_problems_and_every_verdict(root, catalogue):
    from build_tools.lots import VERDICTS
    from tests.lots.files import judged

    raw = (root / "data" / "demo" / "lots.csv").read_bytes()
    reading = read(raw, catalogue)
    assert reading.problems == [] and 40 <= len(reading.lots) <= 50
    results = judged(raw, catalogue)
    assert {result.verdict for result in results} == set(VERDICTS)
    assert {result.replicates for result in results} == {"", "one", "agree", "do not agree"}
    assert {result.earlier for result in results} == {"", "agrees", "differs"}
    assert min(int(r.seeds) for r in results if r.seeds) == 10 and max(int(r.seeds) for r in results if r.seeds) == 400
    header, first = raw.decode().split("\n")[:2]
    assert header.split(",") == list(COLUMNS) and "Invented" in first
