"""The form of tables: the cells stay, their separators, quotes and line ends are the house's."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.form import fix_csv


def cells(text, delimiter=","):
    return [row for row in csv.reader(io.StringIO(text), delimiter=delimiter) if row]


def test_every_printed_table_is_in_form(root):
    files = sorted((root / "data" / "sources").glob("*/*.csv"))
    assert len(files) > 300
    for path in files:
        text = path.read_bytes().decode("utf-8")
        assert fix_csv(text) == text, path


@pytest.mark.parametrize(
    "given_, wanted",
    [
        ("a;b\n1;2\n", "a,b\n1,2\n"),
        ("a\tb\n1\t2,5\n", 'a,b\n1,"2,5"\n'),
        ("\ufeffa,b\r\n1,2\r\n", "a,b\n1,2\n"),
        ('"a","b"\n"1","x, y"', 'a,b\n1,"x, y"\n'),
        ("a,b\n\n1,2\n\n\n", "a,b\n1,2\n"),
        ("a,b\n 1 ,2 \n", "a,b\n 1 ,2 \n"),
        ("a;b\n1;2;3\n", "a;b\n1;2;3\n"),
        ('a,b\n"1,2\n', 'a,b\n"1,2\n'),
        ("a,b;c\n1,2\n", "a,b;c\n1,2\n"),
    ],
)
def test_tables_by_hand(given_, wanted):
    assert fix_csv(given_) == wanted


ROWS = st.lists(st.lists(st.text(st.characters(codec="utf-8", exclude_characters="\r\n\ufeff", exclude_categories=("Cs",)), max_size=8), min_size=2, max_size=4), min_size=1, max_size=6)


@given(rows=ROWS, quoting=st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]), end=st.sampled_from(["\n", "\r\n"]))
def test_cells_stay_as_they_are(rows, quoting, end):
    rows = [["one", "two", "three"], *rows]
    out = io.StringIO()
    csv.writer(out, quoting=quoting, lineterminator=end).writerows(rows)
    text = fix_csv(out.getvalue())
    assert cells(text) == rows and fix_csv(text) == text
