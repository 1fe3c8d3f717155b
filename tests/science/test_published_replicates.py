"""Published limits for the range between replicates.

7 CFR 201.55(a) (US Federal Seed Act regulations, 2015 edition, read in a copy), Miles' formula as
given in a 2020 Seed Science Research paper, and exact limits computed beforehand by other code.
"""

from __future__ import annotations

import pytest

from build_tools.science.replicates import (
    largest_common_range,
    miles_factor,
    miles_tolerance,
    published_limit,
)
from tests.science.published import MILES, SMALL_REPLICATES, replicate_range_table

TABLE = replicate_range_table()
# First rows as first published in the regulation: averages 99 down to 70 (4 x 100), 97 to 70 (2 x 100).
FOUR = [5, 6, 7, 8, 9, 10, 10, 11, 11, 12, 12, 13, 13, 14, 14, 14, 15, 15, 15, 16, 16, 16, 17, 17,
        17, 17, 17, 18, 18, 18]
TWO = [6, 6, 7, 8, 8, 9, 9, 9, 10, 10, 11, 11, 11, 11, 12, 12, 12, 13, 13, 13, 13, 13, 14, 14, 14,
       14, 14, 14]


def rounded(percent):
    return int(percent + 0.5)


def test_table_is_complete():
    # 7 CFR 201.55(a): averages 99 to 51, mirrored 2 to 50; the top two rows have no 2-replicate limit
    assert [row["average_high"] for row in TABLE] == list(range(99, 50, -1))
    assert [row["average_low"] for row in TABLE] == list(range(2, 51))
    assert [row["average_high"] for row in TABLE if row["two"] is None] == [99, 98]
    assert all(row["four"] is not None for row in TABLE)


def test_table_agrees_with_the_second_copy():
    # 7 CFR 201.55(a), transcribed a second time from another reading
    assert [published_limit(TABLE, a, 4) for a in range(99, 69, -1)] == FOUR
    assert [published_limit(TABLE, a, 2) for a in range(97, 69, -1)] == TWO


def test_table_is_mirrored_and_bounded():
    # 7 CFR 201.55(a): one row serves an average and its mirror image
    assert published_limit(TABLE, 80, 4) == published_limit(TABLE, 21, 4) == 16
    assert published_limit(TABLE, 51, 2) == published_limit(TABLE, 50, 2) == 16
    assert published_limit(TABLE, 100, 4) is None
    assert published_limit(TABLE, 1, 4) is None
    assert published_limit(TABLE, 99, 2) is None
    assert published_limit(TABLE, 80, 3) is None


def test_formula_reproduces_the_table_within_one():
    # 7 CFR 201.55(a) against Miles 1963: within 1 everywhere; 24 of the 30 rows 99-70 exactly
    formula = [rounded(miles_tolerance(a / 100, 100, 4)) for a in range(99, 69, -1)]
    assert max(abs(f - t) for f, t in zip(formula, FOUR, strict=True)) == 1
    assert sum(f == t for f, t in zip(formula, FOUR, strict=True)) == 24
    for row in TABLE:
        for column, replicates in (("four", 4), ("two", 2)):
            if row[column] is not None:
                made = rounded(miles_tolerance(row["average_high"] / 100, 100, replicates))
                assert abs(made - row[column]) <= 1, row


def test_exact_binomial_reproduces_the_table_within_one():
    # 7 CFR 201.55(a): every limit within 1 of the exact one; 25 of the 30 rows 99-70 equal
    exact = [largest_common_range(a / 100, 100, 4) for a in range(99, 69, -1)]
    assert sum(e == t for e, t in zip(exact, FOUR, strict=True)) == 25
    for row in TABLE[::6]:
        exact = largest_common_range(row["average_high"] / 100, 100, 4)
        assert abs(exact - row["four"]) <= 1, row


@pytest.mark.parametrize("check", MILES, ids=str)
def test_factor(check):
    # Miles 1963 as given in a 2020 Seed Science Research paper: q 3.984 (m = 4), 3.170 (m = 2)
    assert abs(miles_factor(*check.arguments) - check.expected) <= check.tolerance


@pytest.mark.parametrize("check", SMALL_REPLICATES, ids=str)
def test_small_replicates(check):
    # exact binomial at 2.5 %, computed beforehand by other code
    assert largest_common_range(*check.arguments) == check.expected
