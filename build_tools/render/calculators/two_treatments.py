"""Two treatments side by side."""

from __future__ import annotations

from ...science.two_treatments import least_shown
from . import Calculator, frame_context

SEEDS = (10, 20, 50, 100)
BASES = (20, 40, 50, 60, 70, 80, 90)


def shown_table() -> list[dict]:
    """What it takes to be shown: for a percentage without the treatment, the least percentage with it, by seeds a pot."""
    return [{"base": base, "least": [_percent(least_shown(base * seeds // 100, seeds), seeds) for seeds in SEEDS]} for base in BASES]


def _percent(count: int | None, seeds: int) -> int | None:
    return None if count is None else 100 * count // seeds


CALCULATOR = Calculator(
    "calculators/two-treatments",
    "Compare two treatments",
    "Soaked or not, mat or no mat: did it help, or was it chance?",
    "Two pots of the same seed treated differently: what the difference may be, whether chance alone could make it, and how large a trial has to be.",
    "calculators/two_treatments.html",
    lambda reference: {"calculator": frame_context({}), "seeds": SEEDS, "shown": shown_table()},
)
