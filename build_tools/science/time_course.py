"""Numbers that describe how a test came up, from the new seedlings of each count.

Twin: docs/assets/js/science/time_course.js.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence


def check_course(days: Sequence[float], counts: Sequence[int], seeds: int) -> None:
    """Raise ValueError unless days rise from above 0, counts are whole and fit into the seeds set."""
    if len(days) != len(counts) or not days:
        raise ValueError(f"need as many days as counts, at least one, got {len(days)} and {len(counts)}")
    if seeds < 1 or seeds != int(seeds):
        raise ValueError(f"seeds must be a whole number of 1 or more, got {seeds}")
    if days[0] <= 0 or any(later <= earlier for earlier, later in itertools.pairwise(days)):
        raise ValueError("days must rise and be above 0")
    if any(count < 0 or count != int(count) for count in counts):
        raise ValueError("counts must be whole numbers of 0 or more")
    if sum(counts) > seeds:
        raise ValueError(f"{sum(counts)} seedlings from {seeds} seeds cannot be")


def new_from_totals(totals: Sequence[int]) -> list[int]:
    """New seedlings of each count from running totals; ValueError where a total falls."""
    new = [later - earlier for earlier, later in zip([0, *totals], totals, strict=False)]
    if any(count < 0 for count in new):
        raise ValueError("a running total cannot fall")
    return new


def day_of_count(days: Sequence[float], counts: Sequence[int], target: float) -> dict:
    """When the running total reached `target` seedlings: {"kind", "day"}.

    kind "none" (never; day None), "by-first-count" (already at the first count, so that day or
    earlier), "at-count" (exactly at a count) or "between" (straight line between two counts).
    """
    total = 0
    for i, count in enumerate(counts):
        before, total = total, total + count
        if total == target:
            return {"kind": "at-count" if i > 0 else "by-first-count", "day": float(days[i])}
        if total > target:
            if i == 0:
                return {"kind": "by-first-count", "day": float(days[0])}
            share = (target - before) / count
            return {"kind": "between", "day": days[i - 1] + share * (days[i] - days[i - 1])}
    return {"kind": "none", "day": None}


def time_course(days: Sequence[float], counts: Sequence[int], seeds: int) -> dict:
    """All descriptive numbers of one test; None where a number cannot be had.

    `days` (since the seed was set, rising, above 0) and `counts` (NEW seedlings at each) have the
    same length. Returns
      "germinated" N, "first_day", "last_day" with a new seedling, "peak_day" with the most,
      "t50_coolbear" (target (N + 1)/2, Coolbear et al. 1984) and "t50_farooq" (target N/2, Farooq
      et al. 2005), each as `day_of_count` gives it; both are of the seeds that germinated,
      "mean_days" Σ n t / N, "variance" Σ n (t - mean)²/(N - 1), "spread_days" its root,
      "standard_error" √(variance/N), "velocity" 100/mean,
      "speed" Σ n/t (Maguire 1962, Crop Science 2:176; new counts, not running totals),
      "synchrony" Σ n(n - 1)/(N(N - 1)) and "uncertainty" -Σ f log2 f in bits (Ranal & Santana 2006,
      authors from memory).
    Times are those of the counts, so means lie up to one counting interval late.
    ValueError as in `check_course`.
    """
    check_course(days, counts, seeds)
    germinated = sum(counts)
    seen = [(day, count) for day, count in zip(days, counts, strict=True) if count > 0]
    result = {
        "germinated": germinated, "first_day": None, "last_day": None, "peak_day": None,
        "t50_coolbear": {"kind": "none", "day": None}, "t50_farooq": {"kind": "none", "day": None},
        "mean_days": None, "variance": None, "spread_days": None, "standard_error": None,
        "velocity": None, "speed": 0.0, "synchrony": None, "uncertainty": None,
    }
    if germinated == 0:
        return result
    mean = sum(count * day for day, count in seen) / germinated
    result |= {
        "first_day": float(seen[0][0]),
        "last_day": float(seen[-1][0]),
        "peak_day": float(max(seen, key=lambda pair: pair[1])[0]),
        "t50_coolbear": day_of_count(days, counts, (germinated + 1) / 2),
        "t50_farooq": day_of_count(days, counts, germinated / 2),
        "mean_days": mean,
        "velocity": 100.0 / mean,
        "speed": sum(count / day for day, count in seen),
        "uncertainty": abs(sum(count / germinated * math.log2(count / germinated) for _, count in seen)),
    }
    if germinated > 1:
        variance = sum(count * (day - mean) ** 2 for day, count in seen) / (germinated - 1)
        result |= {
            "variance": variance,
            "spread_days": math.sqrt(variance),
            "standard_error": math.sqrt(variance / germinated),
            "synchrony": sum(count * (count - 1) for _, count in seen) / (germinated * (germinated - 1)),
        }
    return result
