"""Two or more tests of one lot: are they the same seed, and may they be averaged?

Twin: docs/assets/js/science/repeated_tests.js.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from build_tools.science.proportions import check_count
from build_tools.science.replicates import judge_replicates

FULL_TEST = 400


def published_two_test_limit(table: Sequence[Mapping], average_percent: int) -> int | None:
    """Largest difference between two tests of 400 seeds, percentage points; None where unprinted.

    `table` holds rows {"from", "to", "mirror_from", "mirror_to", "limit"}: whole averages, high side
    and low side.
    """
    for row in table:
        if row["from"] <= average_percent <= row["to"] or row["mirror_from"] <= average_percent <= row["mirror_to"]:
            return row["limit"]
    return None


def judge_tests(counts: Sequence[int], seeds: Sequence[int], table: Sequence[Mapping] = ()) -> dict | None:
    """Verdict on 2 to 8 tests of one lot, as `judge_replicates` gives it; None for one test.

    Two tests of 400 seeds are held against the published table at their average, rounded to a
    whole number (halves upward: our choice), each test's percentage rounded as well; all others
    as replicates are, by exact chance or Miles' formula, without the table for replicates.
    """
    if list(seeds) == [FULL_TEST, FULL_TEST]:
        judge_replicates(counts, seeds)  # refuses impossible counts
        average = (sum(counts) + 4) // 8
        limit = published_two_test_limit(table, average)
        if limit is not None:
            first, second = ((count + 2) // 4 for count in counts)
            apart = abs(first - second)
            return {"agree": apart <= limit, "rule": "table", "range": float(apart), "limit": float(limit), "chance": None}
    return judge_replicates(counts, seeds)


def dispersion(counts: Sequence[int], seeds: Sequence[int]) -> dict:
    """How far counts lie from their pooled percentage: {"deviance", "pearson", "freedom"}.

    Binomial deviance and Pearson's chi-squared about the pooled fraction, with their degrees of
    freedom (one less than the counts). About as large as the freedom when chance alone is at work.
    Any number of counts; ValueError for none, or an impossible one.
    """
    if len(counts) != len(seeds) or not counts:
        raise ValueError(f"need as many counts as seeds, at least one, got {len(counts)} and {len(seeds)}")
    for k, n in zip(counts, seeds, strict=True):
        check_count(k, n)
    pooled = sum(counts) / sum(seeds)
    deviance = pearson = 0.0
    for k, n in zip(counts, seeds, strict=True):
        deviance += 2.0 * (_part(k, n * pooled) + _part(n - k, n * (1.0 - pooled)))
        if 0.0 < pooled < 1.0:
            pearson += (k - n * pooled) ** 2 / (n * pooled * (1.0 - pooled))
    return {"deviance": deviance, "pearson": pearson, "freedom": len(counts) - 1}


def _part(seen: float, expected: float) -> float:
    return seen * math.log(seen / expected) if seen > 0 else 0.0
