"""Whatever a file holds, reading it gives lots or problems; and the order of its rows changes nothing."""

from __future__ import annotations

import random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from build_tools.lots import judge_lots
from tests.lots.files import HEADER, TODAY, file_of, odd_file, read, written

unhurried = settings(deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
LETTERS = st.text(st.sampled_from(list('AB12,;\t"\n\r =+-@.é\u200b\u2028%:/')), max_size=200)


def sound(raw, catalogue):
    """Reading and judging never raise; there is a lot, or a word on why not; every row is accounted for."""
    reading = read(raw, catalogue)
    assert reading.lots or reading.problems
    assert 0 <= reading.left_out <= reading.rows
    assert bool(reading.left_out) == any(p.level == "error" and p.rule != "file" for p in reading.problems)
    assert all(p.message and p.hint and p.line >= 1 and p.column >= 1 for p in reading.problems)
    results = list(judge_lots(reading, catalogue, 70, TODAY))
    assert [result.lot for result in results] == list(reading.lots)
    assert all(result.words.endswith((".", ".")) and result.verdict for result in results)


@unhurried
@given(st.binary(max_size=300))
def test_any_bytes(catalogue, raw):
    sound(raw, catalogue)


@unhurried
@given(st.one_of(st.text(max_size=300), LETTERS))
def test_any_text_after_a_good_header(catalogue, text):
    sound(HEADER.encode() + b"\n" + text.encode("utf-8", "surrogatepass"), catalogue)


@unhurried
@given(st.integers(0, 2**32))
def test_any_odd_file(catalogue, seed):
    sound(odd_file(random.Random(seed)), catalogue)


CELL = st.sampled_from
ROW = st.tuples(
    CELL(["A", "B", "C"]), CELL(["Tomato", "Tomato", "Tomato", "Onion"]), CELL(["", "Early", "Late", "early", "豆", "𝒳"]), CELL(["", "2023", "2023-09", "2024", "2024-02-29"]),
    CELL(["", "warm", "cold-dry"]), CELL(["2025-03-12", "2026-03-12", "2026-03-13", ""]), CELL(["10", "25", "50"]), CELL(["5", "8", "10", "11"]), CELL(["", "0", "2"]),
)


@unhurried
@given(st.lists(ROW, min_size=1, max_size=25), st.randoms(use_true_random=False))
def test_the_order_of_rows_does_not_matter(catalogue, rows, rng):
    def lines(rows):
        return [",".join((*row[:6], *(row[6:8] if row[5] else ("", "")), "", row[8] if row[5] else "", "", "", "")) for row in rows]

    shuffled = list(rows)
    rng.shuffle(shuffled)
    one, _ = written(file_of(*lines(rows)), "lots.csv", catalogue, 70)
    other, _ = written(file_of(*lines(shuffled)), "lots.csv", catalogue, 70)
    assert sorted(one.split("\n")) == sorted(other.split("\n"))
    assert read(file_of(*lines(rows)), catalogue).left_out == read(file_of(*lines(shuffled)), catalogue).left_out
