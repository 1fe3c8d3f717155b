"""Largest range between replicates of 100 seeds that chance explains, by average percentage.

Source: USDA Agricultural Marketing Service, 7 CFR 201.55(a) (Federal Seed Act regulations), US Government Publishing Office,
2015 annual edition, read in a copy of the section; rows 99 to 87 also in a copy of 2020 or later, which shows that 99 and 98
have no limit for two replicates. The 2015 print pairs 62 with 38 and 52 with 48: slips for 39 and 49.
"""

from __future__ import annotations

import pytest

from .printed import source_rows

SOURCE = "cfr-201-55"
# average, its mirror image (corrected), largest range of 4 replicates, of 2 replicates; "_" = blank
PRINTED = """
99  2   5   _
98  3   6   _
97  4   7   6
96  5   8   6
95  6   9   7
94  7   10  8
93  8   10  8
92  9   11  9
91  10  11  9
90  11  12  9
89  12  12  10
88  13  13  10
87  14  13  11
86  15  14  11
85  16  14  11
84  17  14  11
83  18  15  12
82  19  15  12
81  20  15  12
80  21  16  13
79  22  16  13
78  23  16  13
77  24  17  13
76  25  17  13
75  26  17  14
74  27  17  14
73  28  17  14
72  29  18  14
71  30  18  14
70  31  18  14
69  32  18  14
68  33  18  15
67  34  18  15
66  35  19  15
65  36  19  15
64  37  19  15
63  38  19  15
62  39  19  15
61  40  19  15
60  41  19  15
59  42  19  15
58  43  19  15
57  44  19  15
56  45  19  15
55  46  20  15
54  47  20  16
53  48  20  16
52  49  20  16
51  50  20  16
"""
ROWS = [tuple(None if cell == "_" else int(cell) for cell in line.split()) for line in PRINTED.strip().splitlines()]
SLIPS = {62: ("38", 39), 52: ("48", 49)}


def test_all_49_rows_in_order(reference):
    # 7 CFR 201.55(a)
    assert len(ROWS) == 49
    assert [row["average_high"] for row in reference.replicate_range] == [row[0] for row in ROWS] == list(range(99, 50, -1))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: str(row[0]))
def test_row(reference, row):
    # 7 CFR 201.55(a)
    found = [r for r in reference.replicate_range if r["average_high"] == row[0]]
    assert [(r["average_high"], r["average_low"], r["four"], r["two"]) for r in found] == [row]
    assert found[0]["average_low"] == 101 - row[0], "an average and its mirror image add up to 101"


@pytest.mark.parametrize("average", SLIPS)
def test_slip_of_the_print_is_kept_and_mended(reference, average):
    # 7 CFR 201.55(a), 2015 edition: as printed in the table's own column, mended in the model, listed as a doubt
    printed, mended = SLIPS[average]
    row = next(r for r in source_rows(reference, SOURCE, "replicate-range") if r["average_high"] == str(average))
    assert (row["average_low_as_printed"], row["average_low"]) == (printed, str(mended))
    doubts = [d for t in reference.sources[SOURCE].tables for d in t.doubts if d["row"] == str(average)]
    assert [d["printed"] for d in doubts] == [printed]


def test_other_rows_are_as_printed(reference):
    # 7 CFR 201.55(a), 2015 edition
    for row in source_rows(reference, SOURCE, "replicate-range"):
        if int(row["average_high"]) not in SLIPS:
            assert row["average_low_as_printed"] == row["average_low"]


def test_blanks_are_two_and_stay_blank(reference):
    # 7 CFR 201.55(a), as a copy of 2020 or later shows: 99 and 98 have no limit for two replicates
    assert [r["average_high"] for r in reference.replicate_range if r["two"] is None] == [99, 98]
    assert all(r["four"] is not None for r in reference.replicate_range)
