"""Published figures that the germination-rate calculator must reproduce, Python and browser alike.

Each check names its source and how the figure was seen. "from memory" means that nobody working
on this project saw it in a copy; "computed" means worked out beforehand by other code, so it is a
cross-check and no outside evidence.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

NEWCOMBE = "Newcombe 1998, Statistics in Medicine 17:857-872, Table I"
QUOTED = "read in a public file that quotes the publication"
MEMORY = "from memory"
COMPUTED = "computed"


@dataclass(frozen=True)
class Published:
    """One published result: module.function(*arguments) lies within `tolerance` of `expected`."""

    module: str
    function: str
    arguments: tuple
    expected: Any
    tolerance: float
    source: str
    seen: str

    def __str__(self) -> str:
        return f"{self.function}{self.arguments}"


def _interval(function, k, n, confidence, low, high, tolerance, source, seen) -> Published:
    return Published("proportions", function, (k, n, confidence), (low, high), tolerance, source,
                     seen)


INTERVALS = [
    _interval("clopper_pearson", 4, 20, 0.90, 0.071354, 0.401029, 2e-6,
              "NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.2", MEMORY),
    _interval("wilson", 81, 263, 0.95, 0.2553, 0.3662, 5e-5, NEWCOMBE, QUOTED),
    _interval("wilson", 0, 20, 0.95, 0.0, 0.1611, 5e-5, NEWCOMBE, MEMORY),
    _interval("wilson", 1, 29, 0.95, 0.0061, 0.1718, 5e-5, NEWCOMBE, MEMORY),
    _interval("clopper_pearson", 81, 263, 0.95, 0.2527, 0.3676, 5e-5, NEWCOMBE, MEMORY),
    _interval("wilson", 8, 10, 0.95, 0.4902, 0.9433, 5e-5,
              "known value in a public test file", QUOTED),
    _interval("wilson", 5, 10, 0.95, 0.2366, 0.7634, 5e-5,
              "known value in a public test file", QUOTED),
    _interval("wilson", 0, 10, 0.95, 0.0, 0.2775, 5e-5,
              "Newcombe 1998, Statistics in Medicine 17:873-890, Table II, rows e and f", QUOTED),
]

# What ten seeds say, whole percent: k, Wilson 80 %, Wilson 95 %, Clopper-Pearson 95 %.
# Known slip: the table worked out beforehand has 98 as the guaranteed upper limit of 8 of 10;
# scipy and statsmodels both give 97.48, so 97 stands here.
TEN_SEEDS = [
    (0, (0, 14), (0, 28), (0, 31)), (5, (31, 69), (24, 76), (19, 81)),
    (6, (40, 77), (31, 83), (26, 88)), (7, (50, 85), (40, 89), (35, 93)),
    (8, (60, 91), (49, 94), (44, 97)), (9, (72, 97), (60, 98), (55, 100)),
    (10, (86, 100), (72, 100), (69, 100)),
]
# "80 %" at other sizes, Wilson 95 %, whole percent.
EIGHTY_PERCENT = [(16, 20, 58, 92), (20, 25, 61, 91), (40, 50, 67, 89), (80, 100, 71, 87),
                  (320, 400, 76, 84)]

LOT = [
    Published("lot", "chance_count_at_least", (8, 10, 0.60), 0.167, 5e-4,
              "binomial tail: a lot at 60 % shows 8 or more of 10 one time in six", COMPUTED),
    Published("lot", "chance_count_at_most", (7, 10, 0.85), 0.18, 5e-3,
              "binomial tail: a lot at 85 % shows 7 or fewer of 10", COMPUTED),
]

# Largest range, in seeds, still put down to chance (exact binomial, 2.5 %).
SMALL_REPLICATES = [
    Published("replicates", "largest_common_range", (fraction, seeds, replicates), limit, 0,
              "exact binomial range limits of small replicates", COMPUTED)
    for replicates, seeds, limits in ((4, 10, (4, 5, 6)), (4, 25, (6, 8, 9)),
                                      (2, 25, (5, 6, 7)), (2, 50, (7, 9, 10)))
    for fraction, limit in zip((0.9, 0.8, 0.7), limits, strict=True)
]

# q of Miles 1963 as given in a 2020 Seed Science Research paper on the germination count range.
MILES = [
    Published("replicates", "miles_factor", (4,), 3.984, 5e-4,
              "Miles 1963, as given in Seed Science Research 2020", QUOTED),
    Published("replicates", "miles_factor", (2,), 3.170, 5e-4,
              "Miles 1963, as given in Seed Science Research 2020", QUOTED),
]

# Uniform prior (1): 12 plants at 90 % after 8 of 10, and after 40 of 50.
SOWING = [
    Published("sowing", "seeds_needed", (12, 0.90, 8, 10, 1.0, 1.0), 22, 0,
              "beta-binomial, uniform prior", COMPUTED),
    Published("sowing", "seeds_needed", (12, 0.90, 40, 50, 1.0, 1.0), 18, 0,
              "beta-binomial, uniform prior", COMPUTED),
]

ALL = [*INTERVALS, *LOT, *SMALL_REPLICATES, *MILES, *SOWING]


@cache
def _table_rows() -> tuple[tuple, ...]:
    path = Path(__file__).with_name("replicate_range_201_55.csv")
    with path.open(encoding="utf-8", newline="") as file:
        return tuple(
            tuple((name, int(value) if value else None) for name, value in row.items())
            for row in csv.DictReader(file)
        )


def replicate_range_table() -> list[dict]:
    """7 CFR 201.55(a), 2015 annual edition, read in a copy: 49 rows, 2 and 4 replicates of 100.

    The print pairs 62 with 38 and 52 with 48; the later copy read elsewhere shows these to be
    slips (39 and 49), and the mended rows are used here.
    """
    return [dict(row) for row in _table_rows()]
