"""Is it too early to read a germination test?

Twin: docs/assets/js/science/counting.js.
"""

from __future__ import annotations

# Common practice, no source: leave a towel test at least a week when no count days are published.
PATIENCE_DAYS = 7


def reading_stage(
    day: int | None, first_count_days: int | None, final_count_days: int | None
) -> str:
    """Where a count made on `day` (days since the seed was set) falls in the official schedule.

    First and final count days come from 7 CFR 201.58, Table 2; either may be None (not published).
    Returns one of
      "no-day"       no day was given
      "before-first" earlier than the first count
      "before-final" first count reached (or none published), final count not yet
      "complete"     the final count day or later
      "short-wait"   no final count day published, less than a week
      "waited"       no final count day published, a week or more
    ValueError for a negative day, or a final count before the first.
    """
    if first_count_days is not None and final_count_days is not None:
        if final_count_days < first_count_days:
            raise ValueError(
                f"final count (day {final_count_days}) comes before the first ({first_count_days})"
            )
    if day is None:
        return "no-day"
    if day < 0:
        raise ValueError(f"days since the start must be 0 or more, got {day}")
    if first_count_days is not None and day < first_count_days:
        return "before-first"
    if final_count_days is not None:
        return "before-final" if day < final_count_days else "complete"
    return "short-wait" if day < PATIENCE_DAYS else "waited"


def can_still_rise(stage: str) -> bool:
    """True when the percentage read at this stage must be taken as "at least"."""
    return stage in {"before-first", "before-final", "short-wait"}
