"""Intervals for a germination percentage: k normal seedlings from n seeds.

Twin: docs/assets/js/science/proportions.js.
"""

from __future__ import annotations

import math

from scipy import special

from ..units import round_half_up


def normal_quantile(probability: float) -> float:
    """Standard normal quantile z with P(Z <= z) = probability.

    `probability` is a number strictly between 0 and 1; ValueError otherwise.
    """
    if not 0.0 < probability < 1.0:
        raise ValueError(f"probability must lie between 0 and 1, got {probability}")
    return float(special.ndtri(probability))


def z_for_confidence(confidence: float) -> float:
    """Two-sided normal point: 0.95 gives 1.96. ValueError unless 0 < confidence < 1."""
    return normal_quantile((1.0 + confidence) / 2.0)


def check_count(k: int, n: int) -> None:
    """Raise ValueError unless k seedlings out of n seeds is possible (whole, 0 <= k <= n, n >= 1)."""
    if k != int(k) or n != int(n):
        raise ValueError(f"counts must be whole numbers, got {k} of {n}")
    if n < 1:
        raise ValueError(f"at least one seed must be set, got {n}")
    if not 0 <= k <= n:
        raise ValueError(f"seedlings must lie between 0 and the seeds set, got {k} of {n}")


def wilson(k: int, n: int, confidence: float = 0.95) -> tuple[float, float]:
    """Score interval (low, high) for the true fraction, both in 0..1.

    Source: Wilson 1927 (J. Am. Stat. Assoc. 22:209); the ends are exactly 0 when k = 0 and
    exactly 1 when k = n. ValueError for an impossible count or confidence.
    """
    check_count(k, n)
    z = z_for_confidence(confidence)
    share = k / n
    scale = 1.0 + z * z / n
    centre = (share + z * z / (2 * n)) / scale
    half = z / scale * math.sqrt(share * (1.0 - share) / n + z * z / (4.0 * n * n))
    # Rounding would leave 1e-17 where the formula gives exactly nothing.
    low = 0.0 if k == 0 else centre - half
    high = 1.0 if k == n else centre + half
    return low, high


def clopper_pearson(k: int, n: int, confidence: float = 0.95) -> tuple[float, float]:
    """Guaranteed ("exact") interval (low, high): covers at least `confidence`, whatever the truth.

    Source: Clopper & Pearson 1934 (Biometrika 26:404), through the beta quantile.
    ValueError for an impossible count or confidence.
    """
    check_count(k, n)
    if not 0.0 < confidence < 1.0:
        raise ValueError(f"confidence must lie between 0 and 1, got {confidence}")
    tail = (1.0 - confidence) / 2.0
    low = 0.0 if k == 0 else float(special.betaincinv(k, n - k + 1, tail))
    # The complement keeps the upper tail exact where 1 - tail would round.
    high = 1.0 if k == n else float(special.betainccinv(k + 1, n - k, tail))
    return low, high


def whole_percent_table(seeds: int = 10, confidence: float = 0.95) -> list[dict[str, int]]:
    """Wilson limits for every count of a small test: [{"k", "low", "high"}], whole percent."""
    rows = []
    for k in range(seeds + 1):
        low, high = wilson(k, seeds, confidence)
        rows.append({"k": k, "low": int(round_half_up(100 * low)), "high": int(round_half_up(100 * high))})
    return rows
