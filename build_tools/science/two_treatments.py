"""Two treatments side by side: soaked or not, mat or no mat.

Twin: docs/assets/js/science/two_treatments.js.
"""

from __future__ import annotations

import math

import numpy as np
from scipy import special

from build_tools.science.proportions import check_count, normal_quantile, wilson

LEVEL = 0.05
# Up to this many seeds a treatment the power is summed over every outcome; beyond, a formula.
EXACT_SEEDS = 200
# Probabilities this close count as equal, as in the usual programs.
TIE = 1e-7


def newcombe_difference(k1: int, n1: int, k2: int, n2: int, confidence: float = 0.95) -> tuple[float, float]:
    """Interval (low, high) for p1 - p2, both in -1..1. ValueError for impossible counts.

    Source: Newcombe 1998 (Statistics in Medicine 17:873), method 10: two Wilson intervals joined.
    """
    low1, high1 = wilson(k1, n1, confidence)
    low2, high2 = wilson(k2, n2, confidence)
    p1, p2 = k1 / n1, k2 / n2
    below = math.hypot(p1 - low1, high2 - p2)
    above = math.hypot(high1 - p1, p2 - low2)
    return p1 - p2 - below, p1 - p2 + above


def fisher_exact(k1: int, n1: int, k2: int, n2: int) -> float:
    """Two-sided p-value of Fisher's exact test: all tables no likelier than the one seen.

    Source: Fisher 1935, The Design of Experiments. ValueError for impossible counts.
    """
    check_count(k1, n1)
    check_count(k2, n2)
    lowest, chances = _tables(k1 + k2, n1, n2)
    seen = chances[k1 - lowest]
    return float(min(1.0, chances[chances <= seen * (1 + TIE)].sum()))


def _tables(total: int, n1: int, n2: int) -> tuple[int, np.ndarray]:
    """(smallest possible count of the first, chances of it and those above) for a fixed total."""
    lowest, highest = max(0, total - n2), min(n1, total)
    x = np.arange(lowest, highest, dtype=float)
    ratio = (n1 - x) * (total - x) / ((x + 1) * (n2 - total + x + 1))
    logs = np.concatenate(([0.0], np.cumsum(np.log(ratio))))
    chances = np.exp(logs - logs.max())
    return lowest, chances / chances.sum()


def fisher_power(p1: float, p2: float, seeds: int) -> float:
    """Chance that Fisher's test at 5 % sees the difference of two lots, `seeds` of each; exact.

    ValueError unless both fractions lie in 0..1 and seeds in 1..EXACT_SEEDS.
    """
    if not (0.0 <= p1 <= 1.0 and 0.0 <= p2 <= 1.0) or not 1 <= seeds <= EXACT_SEEDS or seeds != int(seeds):
        raise ValueError(f"impossible fractions {p1}, {p2} or seeds {seeds}")
    x = np.arange(seeds + 1)
    first, second = _binomial(seeds, p1, x), _binomial(seeds, p2, x)
    power = 0.0
    for total in range(2 * seeds + 1):
        lowest, chances = _tables(total, seeds, seeds)
        order = np.argsort(chances, kind="stable")
        tail = np.cumsum(chances[order])
        # Tables as likely as one another stand or fall together.
        ends = np.searchsorted(chances[order], chances * (1 + TIE), side="right") - 1
        seen = tail[ends] <= LEVEL
        k1 = lowest + np.flatnonzero(seen)
        power += float((first[k1] * second[total - k1]).sum())
    return min(1.0, power)


def _binomial(n: int, p: float, x: np.ndarray) -> np.ndarray:
    return np.exp(special.gammaln(n + 1) - special.gammaln(x + 1) - special.gammaln(n - x + 1) + special.xlogy(x, p) + special.xlog1py(n - x, -p))


def approximate_seeds(p1: float, p2: float, power: float) -> int:
    """Seeds of each treatment by the usual normal formula, rounded up, for a two-sided 5 % test.

    n = (z √(2 p̄ q̄) + z' √(p1 q1 + p2 q2))² / (p1 - p2)², with p̄ the mean of both. Source: textbook
    formula (Fleiss, Statistical Methods for Rates and Proportions, from memory), without its
    correction for continuity, which is added: n/4 · (1 + √(1 + 4/(n |p1 - p2|)))².
    """
    if p1 == p2 or not (0.0 <= p1 <= 1.0 and 0.0 <= p2 <= 1.0) or not 0.5 <= power < 1.0:
        raise ValueError(f"need two different fractions and a power of 0.5 or more, got {p1}, {p2}, {power}")
    mean = (p1 + p2) / 2
    root = normal_quantile(1 - LEVEL / 2) * math.sqrt(2 * mean * (1 - mean)) + normal_quantile(power) * math.sqrt(p1 * (1 - p1) + p2 * (1 - p2))
    apart = abs(p1 - p2)
    n = root**2 / apart**2
    return math.ceil(n / 4 * (1 + math.sqrt(1 + 4 / (n * apart))) ** 2 - 1e-9)


def seeds_for_trial(p1: float, p2: float, power: float) -> dict:
    """Seeds of each treatment with which the difference is seen with chance `power`: {"seeds", "exact"}.

    Exact (the smallest multiple of five whose `fisher_power` reaches `power`) up to EXACT_SEEDS,
    else `approximate_seeds`, but not fewer than have been found to be too few.
    """
    guess = approximate_seeds(p1, p2, power)
    if guess > EXACT_SEEDS:
        return {"seeds": guess, "exact": False}
    # The power saws up and down by a little: begin below the guess, and take the first that does.
    start = max(5, 5 * (int(guess * 0.85) // 5))
    while start > 5 and fisher_power(p1, p2, start) >= power:
        start -= 5
    for seeds in range(start, EXACT_SEEDS + 1, 5):
        if fisher_power(p1, p2, seeds) >= power:
            return {"seeds": seeds, "exact": True}
    return {"seeds": EXACT_SEEDS + 1, "exact": False}


def least_shown(k2: int, seeds: int) -> int | None:
    """Fewest seedlings of the first treatment, of as many seeds, that Fisher's test at 5 % takes for better than k2.

    None where even all of them would not do. Used for the page's table only, so it has no twin.
    """
    check_count(k2, seeds)
    return next((k1 for k1 in range(k2 + 1, seeds + 1) if fisher_exact(k1, seeds, k2, seeds) < LEVEL), None)
