"""Follow a test day by day."""

from __future__ import annotations

from itertools import accumulate

from ...science.proportions import wilson
from ...science.time_course import time_course
from ...units import round_half_up
from . import Calculator, frame_context

# Invented figures, marked on the page as an example until a count is changed.
SEEDS, DAYS, NEW = 50, (4, 5, 6, 7, 9, 12), (4, 9, 12, 8, 3, 0)


def example_entry() -> dict:
    """The example as the form shows it: everything a text."""
    return {"seeds": str(SEEDS), "counts": "new", "rows": [{"day": str(day), "count": str(count)} for day, count in zip(DAYS, NEW, strict=True)]}


def by_hand() -> dict:
    """The example worked out with a pencil: its rows, sums, final percentage with range, half-way day and mean."""
    course = time_course(DAYS, NEW, SEEDS)
    came_up = course["germinated"]
    totals = list(accumulate(NEW))
    after = next(i for i, total in enumerate(totals) if total >= came_up / 2)
    low, high = wilson(came_up, SEEDS)
    return {
        "rows": [{"day": day, "new": count, "total": total, "product": day * count} for day, count, total in zip(DAYS, NEW, totals, strict=True)],
        "seeds": SEEDS, "came_up": came_up, "percent": int(round_half_up(100 * came_up / SEEDS)),
        "low": int(round_half_up(100 * low)), "high": int(round_half_up(100 * high)),
        "sum": sum(day * count for day, count in zip(DAYS, NEW, strict=True)), "mean": round_half_up(course["mean_days"], 1),
        "half": came_up / 2, "before_day": DAYS[after - 1], "before_total": totals[after - 1], "new_then": NEW[after], "after_day": DAYS[after], "gap": DAYS[after] - DAYS[after - 1],
        "t50": round_half_up(course["t50_farooq"]["day"], 1),
    }


CALCULATOR = Calculator(
    "calculators/daily-counts",
    "Follow a test day by day",
    "When did they come up, how fast and how evenly?",
    "New seedlings counted day by day: final percentage with its range, half-way day, mean time, spread and speed, with a curve; saved and opened as a file.",
    "calculators/daily_counts.html",
    lambda reference: {"calculator": frame_context({"example": example_entry()}), "by_hand": by_hand()},
)
