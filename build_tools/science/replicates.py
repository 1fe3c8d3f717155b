"""Do the replicates of one germination test agree with one another?

Three rules, in this order (see `judge_replicates`): the published table of 7 CFR 201.55 for
2 or 4 replicates of 100 seeds, the exact binomial chance where it is quick, Miles' formula.
Twin: docs/assets/js/science/replicates.js.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import cache

import numpy as np
from scipy import special

from build_tools.science.proportions import check_count

MOST_REPLICATES = 8
# Level of the published tables: a range this large or larger comes by chance 2.5 times in 100.
LEVEL = 0.025
# Up to this many seeds the exact chance is instant, and its whole-number arithmetic stays exact
# in the browser as well.
EXACT_SEEDS = 4000


@cache
def miles_factor(replicates: int) -> float:
    """Upper 2.5 % point of the studentized range, infinite degrees of freedom, 2..8 replicates.

    Source of its use: Miles 1963, as given in a 2020 Seed Science Research paper on the range of
    germination counts.
    """
    if not 2 <= replicates <= MOST_REPLICATES:
        raise ValueError(f"replicates must be 2 to {MOST_REPLICATES}, got {replicates}")
    from scipy import stats  # half a second to load, and most callers never come here

    return float(stats.studentized_range.ppf(1 - LEVEL, replicates, np.inf))


def miles_tolerance(fraction: float, seeds: float, replicates: int) -> float:
    """Largest range between replicates put down to chance, in percentage points, unrounded.

    100 q sqrt(p (1 - p) / n) for `replicates` replicates of `seeds` seeds each and mean `fraction`.
    """
    if not 0.0 <= fraction <= 1.0 or seeds <= 0:
        raise ValueError(f"impossible fraction {fraction} or seeds {seeds}")
    return 100.0 * miles_factor(replicates) * math.sqrt(fraction * (1.0 - fraction) / seeds)


def published_limit(
    table: Sequence[Mapping], average_percent: int, replicates: int
) -> int | None:
    """Largest range of the published table, in percentage points; None where it has no figure.

    `table` holds rows {"average_high", "average_low", "four", "two"} (7 CFR 201.55), each row
    for two whole averages, mirrored about 50 %. It holds for replicates of 100 seeds only.
    """
    column = {4: "four", 2: "two"}.get(replicates)
    if column is None:
        return None
    for row in table:
        if average_percent in (row["average_high"], row["average_low"]):
            return row[column]
    return None


def chance_of_range(counts: Sequence[int], seeds: Sequence[int]) -> float:
    """Chance of a range between replicates at least as large as the one seen.

    Every replicate is taken as binomial with the pooled fraction. With Y = X/n, summed over the
    possible minima v: P(range < r) = sum [prod P(v <= Y < v + r) - prod P(v < Y < v + r)].
    Fractions are compared as whole numbers, so unequal replicates are exact too.
    ValueError above EXACT_SEEDS seeds, where it would no longer be quick.
    """
    _check(counts, seeds)
    if sum(seeds) > EXACT_SEEDS:
        raise ValueError(f"exact chance is for at most {EXACT_SEEDS} seeds")
    low, high = _furthest_apart(counts, seeds)
    # The range as a fraction of two whole numbers.
    range_top = counts[high] * seeds[low] - counts[low] * seeds[high]
    range_bottom = seeds[low] * seeds[high]
    return 1.0 - _chance_below(sum(counts) / sum(seeds), seeds, range_top, range_bottom)


def largest_common_range(fraction: float, seeds: int, replicates: int) -> int:
    """Largest range, in SEEDS, that chance exceeds no more than 2.5 times in 100.

    For equal replicates; P(range > result) <= 0.025 and the result is the smallest such number.
    """
    if not 2 <= replicates <= MOST_REPLICATES or seeds * replicates > EXACT_SEEDS:
        raise ValueError(f"cannot be computed for {replicates} replicates of {seeds} seeds")
    for limit in range(seeds):
        if 1.0 - _chance_below(fraction, [seeds] * replicates, limit + 1, seeds) <= LEVEL:
            return limit
    return seeds


def judge_replicates(
    counts: Sequence[int], seeds: Sequence[int], table: Sequence[Mapping] = ()
) -> dict | None:
    """Verdict on 2 to 8 replicates (counts of normal seedlings, seeds set); None for one replicate.

    Returns {"agree": bool, "rule": "table" | "exact" | "miles", "range": percentage points,
    "limit": percentage points or None, "chance": probability or None}. With "miles" range and
    limit are those of the pair of replicates that comes closest to, or furthest past, its limit.
    """
    _check(counts, seeds)
    replicates = len(counts)
    if replicates == 1:
        return None
    low, high = _furthest_apart(counts, seeds)
    seen = 100.0 * (counts[high] / seeds[high] - counts[low] / seeds[low])
    if all(n == 100 for n in seeds):
        # 201.55 reads the table at the mean rounded to a whole number (halves upward: our choice).
        average = (2 * sum(counts) + replicates) // (2 * replicates)
        limit = published_limit(table, average, replicates)
        if limit is not None:
            whole = counts[high] - counts[low]
            return _verdict(whole <= limit, "table", float(whole), float(limit), None)
    if sum(seeds) <= EXACT_SEEDS:
        chance = chance_of_range(counts, seeds)
        return _verdict(chance > LEVEL, "exact", seen, None, chance)
    pooled = sum(counts) / sum(seeds)
    apart, limit = _worst_pair(pooled, counts, seeds)
    return _verdict(apart <= limit, "miles", apart, limit, None)


def _verdict(agree, rule, seen, limit, chance) -> dict:
    return {"agree": bool(agree), "rule": rule, "range": seen, "limit": limit, "chance": chance}


def _worst_pair(pooled, counts, seeds) -> tuple[float, float]:
    """(range, limit) of the pair with the largest range for its limit.

    For unequal replicates n is the harmonic mean of the two (Tukey-Kramer's extension of the
    studentized range, Kramer 1956; from memory); for equal ones this is Miles' formula.
    """
    worst = (0.0, miles_tolerance(pooled, max(seeds), len(seeds)))
    worst_ratio = 0.0
    for i in range(len(seeds)):
        for j in range(i):
            n = 2.0 / (1.0 / seeds[i] + 1.0 / seeds[j])
            limit = miles_tolerance(pooled, n, len(seeds))
            apart = 100.0 * abs(counts[i] / seeds[i] - counts[j] / seeds[j])
            if limit > 0 and apart / limit > worst_ratio:
                worst, worst_ratio = (apart, limit), apart / limit
    return worst


def _furthest_apart(counts, seeds) -> tuple[int, int]:
    """Indexes of the replicates with the lowest and the highest fraction."""
    order = range(len(counts))
    return (
        min(order, key=lambda i: counts[i] / seeds[i]),
        max(order, key=lambda i: counts[i] / seeds[i]),
    )


def _chance_below(fraction, seeds, range_top, range_bottom) -> float:
    """P(range < range_top/range_bottom) for binomial replicates with a common fraction."""
    if range_top == 0:
        return 0.0
    # cumulative[n][x] = P(X < x), x = 0..n+1
    cumulative = {n: np.concatenate(([0.0], special.bdtr(np.arange(n + 1), n, fraction))) for n in set(seeds)}
    total = 0.0
    for top, bottom in _possible_minima(seeds):
        with_minimum = above_minimum = 1.0
        for n in seeds:
            at = -(-n * top // bottom)  # smallest x with x/n >= v
            past = n * top // bottom + 1  # smallest x with x/n > v
            reach = n * (top * range_bottom + range_top * bottom)
            end = min(-(-reach // (bottom * range_bottom)), n + 1)  # smallest x with x/n >= v + r
            table = cumulative[n]
            with_minimum *= table[end] - table[at]
            above_minimum *= table[end] - table[past] if end > past else 0.0
        total += with_minimum - above_minimum
    return min(1.0, total)


def _possible_minima(seeds) -> list[tuple[int, int]]:
    """Every fraction x/n that a replicate can show, once, as (top, bottom) in lowest terms."""
    shown = ((x, n, math.gcd(x, n)) for n in seeds for x in range(n + 1))
    return list(dict.fromkeys((x // divisor, n // divisor) for x, n, divisor in shown))


def _check(counts, seeds) -> None:
    if len(counts) != len(seeds) or not 1 <= len(seeds) <= MOST_REPLICATES:
        raise ValueError(f"need 1 to {MOST_REPLICATES} replicates with seeds and seedlings each")
    for k, n in zip(counts, seeds, strict=True):
        check_count(k, n)
