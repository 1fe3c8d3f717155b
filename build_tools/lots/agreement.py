"""Do replicates, or two tests, agree? The verdicts of science/replicates and science/repeated_tests, quickly.

All outcomes of a long file are worked out together (`learn`): those with the same numbers of seeds
over all possible minima at once, each total and range only once.
Twin: docs/assets/js/lots/agreement.js.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

import numpy as np
from scipy import special

from ..science.repeated_tests import FULL_TEST, judge_tests
from ..science.replicates import EXACT_SEEDS, LEVEL, judge_replicates, published_limit

MOST_CELLS = 400_000  # of one array
Pairs = tuple[tuple[int, int], ...]  # (seeds, normal) of each replicate or test, in rising order


class Agreement:
    """Verdicts by the published tables where they have one, by exact chance otherwise, by Miles' formula above EXACT_SEEDS seeds."""

    def __init__(self, replicate_range: Sequence[Mapping], two_test_range: Sequence[Mapping]):
        self.replicate_range, self.two_test_range = replicate_range, two_test_range
        self._by_chance: dict[Pairs, bool] = {}
        self._limits: dict[tuple[int, int], int | None] = {}

    def learn(self, outcomes: Iterable[Pairs]) -> None:
        """Work out many outcomes together, but for those that a table is likely to decide."""
        by_seeds: dict[tuple[int, ...], list[Pairs]] = {}
        for pairs in set(outcomes):
            seeds = tuple(n for n, _ in pairs)
            if seeds not in ((100,) * 2, (100,) * 4, (FULL_TEST,) * 2) and sum(seeds) <= EXACT_SEEDS:
                by_seeds.setdefault(seeds, []).append(pairs)
        for seeds, alike in by_seeds.items():
            verdicts = chances([[k for _, k in pairs] for pairs in alike], seeds) > LEVEL
            self._by_chance.update(zip(alike, verdicts.tolist(), strict=True))

    def replicates(self, pairs: Pairs) -> bool:
        """Do 2 to 8 replicates agree?"""
        if pairs[0][0] == pairs[-1][0] == 100:
            counts = [k for _, k in pairs]
            # The mean rounded to a whole number, halves upward, as judge_replicates reads the table.
            limit = self._limit((2 * sum(counts) + len(counts)) // (2 * len(counts)), len(counts))
            if limit is not None:
                return max(counts) - min(counts) <= limit
        return self._agree(pairs)

    def tests(self, pairs: Pairs) -> bool:
        """Do two tests of one lot agree?"""
        if pairs[0][0] == pairs[1][0] == FULL_TEST:
            return judge_tests([k for _, k in pairs], [n for n, _ in pairs], self.two_test_range)["agree"]
        return self._agree(pairs)

    def _limit(self, average: int, replicates: int) -> int | None:
        key = average, replicates
        if key not in self._limits:
            self._limits[key] = published_limit(self.replicate_range, average, replicates)
        return self._limits[key]

    def _agree(self, pairs: Pairs) -> bool:
        agree = self._by_chance.get(pairs)
        if agree is None:
            seeds, counts = [n for n, _ in pairs], [k for _, k in pairs]
            agree = judge_replicates(counts, seeds)["agree"] if sum(seeds) > EXACT_SEEDS else bool(chances([counts], tuple(seeds))[0] > LEVEL)
            self._by_chance[pairs] = agree
        return agree


def chances(counts: Sequence[Sequence[int]], seeds: tuple[int, ...]) -> np.ndarray:
    """Chance of a range at least as large as the one seen, for each outcome; as science/replicates' chance_of_range.

    `counts` has a row for each outcome, a column for each replicate; `seeds`, in rising order, holds for all.
    """
    counts, sizes = np.asarray(counts, dtype=np.int64), np.asarray(seeds, dtype=np.int64)
    shares = counts / sizes
    outcomes, low, high = np.arange(len(counts)), shares.argmin(axis=1), shares.argmax(axis=1)
    tops = counts[outcomes, high] * sizes[low] - counts[outcomes, low] * sizes[high]
    keys = np.column_stack((counts.sum(axis=1), tops, sizes[low] * sizes[high]))
    keys, which = np.unique(keys, axis=0, return_inverse=True)
    found = np.ones(len(keys))  # the chance of no range at all, or more
    apart = np.flatnonzero(keys[:, 1])
    step = max(1, MOST_CELLS // (sum(set(seeds)) + 2 * len(seeds)))
    for start in range(0, len(apart), step):
        part = apart[start : start + step]
        found[part] = _chances_of_difference(seeds, *keys[part].T) if len(seeds) == 2 else 1.0 - _chances_below(seeds, *keys[part].T)
    return found[which.reshape(-1)]


def _chances_of_difference(seeds, totals, tops, bottoms) -> np.ndarray:
    """P(|X/n - Y/m| >= top/(n m)) for two binomial counts with a common fraction: summed over X."""
    n, m = seeds
    of_x, of_y, rows = _cumulatives(n, totals, n + m), _cumulatives(m, totals, n + m), np.arange(len(totals))[:, None]
    at, top = np.arange(n + 1) * m, tops[:, None]
    below = np.maximum((at - top) // n + 1, 0)  # Y < this is low enough
    above = np.minimum(-(-(at + top) // n), m + 1)  # Y >= this is high enough
    return (np.diff(of_x) * (of_y[rows, below] + of_y[:, -1:] - of_y[rows, above])).sum(axis=1)


def _chances_below(seeds, totals, tops, bottoms) -> np.ndarray:
    """P(range < top/bottom) for binomial replicates with a common fraction: summed over the possible minima."""
    rows, top, bottom = np.arange(len(totals))[:, None], tops[:, None], bottoms[:, None]
    with_minimum = above_minimum = 1.0
    for n, at, past, minimum_top, minimum_bottom in _minima(seeds):
        cumulative = _cumulatives(n, totals, sum(seeds))
        reach = n * (minimum_top * bottom + top * minimum_bottom)
        up_to = cumulative[rows, np.minimum(-(-reach // (minimum_bottom * bottom)), n + 1)]
        times = seeds.count(n)
        with_minimum = with_minimum * (up_to - cumulative[:, at]) ** times
        # Where nothing lies above the minimum the difference is not above 0.
        above_minimum = above_minimum * np.maximum(up_to - cumulative[:, past], 0.0) ** times
    return np.minimum(1.0, (with_minimum - above_minimum).sum(axis=1))


@lru_cache(maxsize=256)
def _minima(seeds: tuple[int, ...]) -> list[tuple]:
    """For each number of seeds n: (n, smallest x with x/n >= v, with x/n > v, v's parts) over all minima v."""
    sizes = sorted(set(seeds))
    tops, bottoms = np.concatenate([np.arange(n + 1) for n in sizes]), np.concatenate([np.full(n + 1, n) for n in sizes])
    # Equal fractions give the same double, different ones of this size never do.
    first = np.unique(tops / bottoms, return_index=True)[1]
    tops, bottoms = tops[first], bottoms[first]
    return [(n, -(-n * tops // bottoms), np.minimum(n * tops // bottoms + 1, n + 1), tops, bottoms) for n in sizes]


def _cumulatives(n: int, totals: np.ndarray, seeds: int) -> np.ndarray:
    """P(X < x) for x = 0..n + 1, a row for each total of so many seeds; X binomial, every total between 0 and `seeds`."""
    odds = np.log(totals / (seeds - totals))[:, None]
    x = np.arange(n + 1.0)
    choices = special.gammaln(n + 1) - special.gammaln(x + 1) - special.gammaln(n - x + 1)
    cumulative = np.zeros((len(totals), n + 2))
    np.cumsum(np.exp(choices + x * odds + n * np.log1p(-totals / seeds)[:, None]), axis=1, out=cumulative[:, 1:])
    return cumulative
