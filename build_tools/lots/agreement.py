"""Do replicates, or two tests, agree? The verdicts of science/replicates and science/repeated_tests, quickly.

For given numbers of seeds and a given total the chance of a range falls as the range grows. So the
largest range known to agree and the smallest known to differ are remembered, and few outcomes of a
long file need computing; these are computed over all possible minima at once.
Twin: docs/assets/js/lots/agreement.js.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import lru_cache

import numpy as np
from scipy import special

from ..science.repeated_tests import FULL_TEST, judge_tests
from ..science.replicates import EXACT_SEEDS, LEVEL, judge_replicates, published_limit


class Agreement:
    """Verdicts by the published tables where they have one, by exact chance otherwise, by Miles' formula above EXACT_SEEDS seeds."""

    def __init__(self, replicate_range: Sequence[Mapping], two_test_range: Sequence[Mapping]):
        self.replicate_range, self.two_test_range = replicate_range, two_test_range
        self._seen: dict[tuple, bool] = {}
        self._known: dict[tuple, list[float]] = {}
        self._limits: dict[tuple[int, int], int | None] = {}

    def replicates(self, pairs: tuple[tuple[int, int], ...]) -> bool:
        """Do 2 to 8 replicates, (seeds, normal) each in rising order, agree?"""
        if pairs not in self._seen:
            self._seen[pairs] = self._replicates(pairs)
        return self._seen[pairs]

    def _replicates(self, pairs) -> bool:
        seeds, counts = tuple(n for n, _ in pairs), tuple(k for _, k in pairs)
        if set(seeds) == {100}:
            # The mean rounded to a whole number, halves upward, as judge_replicates reads the table.
            limit = self._limit((2 * sum(counts) + len(counts)) // (2 * len(counts)), len(counts))
            if limit is not None:
                return max(counts) - min(counts) <= limit
        return self._by_chance(seeds, counts)

    def tests(self, earlier: tuple[int, int], later: tuple[int, int]) -> bool:
        """Do two tests of one lot, (seeds, normal) each, agree?"""
        (n, k), (m, j) = (earlier, later) if earlier < later else (later, earlier)
        if n == m == FULL_TEST:
            return judge_tests((k, j), (n, m), self.two_test_range)["agree"]
        return self._by_chance((n, m), (k, j))

    def _limit(self, average: int, replicates: int) -> int | None:
        key = average, replicates
        if key not in self._limits:
            self._limits[key] = published_limit(self.replicate_range, average, replicates)
        return self._limits[key]

    def _by_chance(self, seeds: tuple[int, ...], counts: tuple[int, ...]) -> bool:
        """`seeds` in rising order."""
        if sum(seeds) > EXACT_SEEDS:
            return judge_replicates(counts, seeds)["agree"]
        shares = [k / n for k, n in zip(counts, seeds, strict=True)]
        low, high = shares.index(min(shares)), shares.index(max(shares))
        top, bottom = counts[high] * seeds[low] - counts[low] * seeds[high], seeds[low] * seeds[high]
        apart = top / bottom
        known = self._known.setdefault((seeds, sum(counts)), [0.0, 2.0])
        if apart <= known[0]:
            return True
        if apart >= known[1]:
            return False
        fraction = sum(counts) / sum(seeds)
        chance = _chance_of_difference(fraction, *seeds, top) if len(seeds) == 2 else 1.0 - _chance_below(fraction, seeds, top, bottom)
        agree = chance > LEVEL
        known[0 if agree else 1] = apart
        return agree


def _chance_of_difference(fraction: float, n: int, m: int, top: int) -> float:
    """P(|X/n - Y/m| >= top/(n m)) for two binomial counts with a common fraction: summed over X."""
    at_most, at_least = np.arange(n + 1) * m - top, np.arange(n + 1) * m + top
    below = np.maximum(at_most // n + 1, 0)  # Y < this is low enough
    above = np.minimum(-(-at_least // n), m + 1)  # Y >= this is high enough
    cumulative = _cumulative(m, fraction)
    return float(np.dot(np.diff(_cumulative(n, fraction)), cumulative[below] + cumulative[m + 1] - cumulative[above]))


def _chance_below(fraction: float, seeds: tuple[int, ...], top: int, bottom: int) -> float:
    """P(range < top/bottom) for binomial replicates with a common fraction, as science/replicates has it."""
    with_minimum = above_minimum = 1.0
    for n, at, past, minimum_top, minimum_bottom in _minima(seeds):
        cumulative = _cumulative(n, fraction)
        reach = n * (minimum_top * bottom + top * minimum_bottom)
        end = np.minimum(-(-reach // (minimum_bottom * bottom)), n + 1)
        up_to, times = cumulative[end], seeds.count(n)
        with_minimum = with_minimum * (up_to - cumulative[at]) ** times
        # Where end <= past nothing lies above the minimum.
        above_minimum = above_minimum * np.maximum(up_to - cumulative[past], 0.0) ** times
    return min(1.0, float(np.sum(with_minimum - above_minimum)))


@lru_cache(maxsize=256)
def _minima(seeds: tuple[int, ...]) -> list[tuple]:
    """For each number of seeds n: (n, smallest x with x/n >= v, with x/n > v, v's parts) over all minima v."""
    tops = np.concatenate([np.arange(n + 1) for n in sorted(set(seeds))])
    bottoms = np.concatenate([np.full(n + 1, n) for n in sorted(set(seeds))])
    # Equal fractions give the same double, different ones of this size never do.
    first = np.unique(tops / bottoms, return_index=True)[1]
    tops, bottoms = tops[first], bottoms[first]
    return [(n, -(-n * tops // bottoms), np.minimum(n * tops // bottoms + 1, n + 1), tops, bottoms) for n in sorted(set(seeds))]


@lru_cache(maxsize=1024)
def _choices(n: int) -> tuple[np.ndarray, np.ndarray]:
    """0..n, and the logarithms of how many ways there are to choose so many of n."""
    x = np.arange(n + 1.0)
    return x, special.gammaln(n + 1) - special.gammaln(x + 1) - special.gammaln(n - x + 1)


@lru_cache(maxsize=4096)
def _cumulative(n: int, fraction: float) -> np.ndarray:
    """P(X < x) for x = 0..n + 1, X binomial."""
    x, choices = _choices(n)
    cumulative = np.zeros(n + 2)
    np.cumsum(np.exp(choices + x * math.log(fraction / (1.0 - fraction)) + n * math.log1p(-fraction)), out=cumulative[1:])
    return cumulative
