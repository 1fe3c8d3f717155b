"""How many seeds to sow for a wanted number of plants, when germination is known from a test only.

Twin: docs/assets/js/science/sowing.js.
"""

from __future__ import annotations

import numpy as np
from scipy import special

from build_tools.science.lot import JEFFREYS
from build_tools.science.proportions import check_count

# Beyond this many seeds the honest answer is "test again", and a browser would take too long.
MOST_SEEDS = 200_000


def chance_of_enough(
    plants: int,
    seeds: int,
    k: int,
    n: int,
    field_factor: float = 1.0,
    prior: float = JEFFREYS,
) -> float:
    """Chance that `seeds` seeds give at least `plants` plants after a test with k of n.

    Seeds that can germinate: beta-binomial with Beta(k + prior, n - k + prior) (prior 1/2 is
    Jeffreys, 1 is uniform). Each of them then makes a plant with chance `field_factor` (0..1],
    independently. ValueError for impossible input.
    """
    check_sowing("plants", plants, k, n, field_factor)
    if seeds < plants:
        return 0.0
    a, b = k + prior, n - k + prior
    germinated = np.arange(plants, seeds + 1)
    weights = beta_binomial_probabilities(seeds, a, b)[plants:]
    if field_factor < 1.0:
        weights = weights * special.betainc(plants, germinated - plants + 1, field_factor)
    return float(min(1.0, weights.sum()))


def beta_binomial_probabilities(seeds: int, a: float, b: float) -> np.ndarray:
    """Chances of 0..seeds successes when the fraction follows Beta(a, b); seeds + 1 numbers.

    Built outward from the mean by the ratio of neighbours: log-gamma differences, the usual way,
    lose nine or ten digits for tests of 100,000 seeds.
    """
    x = np.arange(seeds, dtype=float)
    ratio = ((seeds - x) / (x + 1)) * ((x + a) / (seeds - x - 1 + b))
    start = round(seeds * a / (a + b))
    weights = np.ones(seeds + 1)
    weights[start + 1 :] = np.cumprod(ratio[start:])
    weights[:start] = np.cumprod(1.0 / ratio[:start][::-1])[::-1]
    return weights / weights.sum()


def seeds_needed(
    plants: int,
    certainty: float,
    k: int,
    n: int,
    field_factor: float = 1.0,
    prior: float = JEFFREYS,
) -> int | None:
    """Smallest number of seeds whose `chance_of_enough` reaches `certainty` (0 < certainty < 1).

    None when no number can be promised: nothing germinated (k = 0), or more than MOST_SEEDS
    would be needed.
    """
    check_sowing("plants", plants, k, n, field_factor)
    if not 0.0 < certainty < 1.0:
        raise ValueError(f"certainty must lie between 0 and 1, got {certainty}")
    if k == 0:
        return None

    def enough(seeds: int) -> bool:
        return chance_of_enough(plants, seeds, k, n, field_factor, prior) >= certainty

    # One more seed never lowers the chance, so doubling and halving find the smallest.
    short, high = plants - 1, plants
    while not enough(high):
        if high >= MOST_SEEDS:
            return None
        short, high = high, min(2 * high, MOST_SEEDS)
    while high - short > 1:
        middle = (short + high) // 2
        if enough(middle):
            high = middle
        else:
            short = middle
    return high


def check_sowing(what: str, number: int, k: int, n: int, field_factor: float) -> None:
    """Raise ValueError unless `number` (of `what`) is whole and 1 or more, k of n possible, the factor in (0, 1]."""
    check_count(k, n)
    if number < 1 or number != int(number):
        raise ValueError(f"{what} must be a whole number of 1 or more, got {number}")
    if not 0.0 < field_factor <= 1.0:
        raise ValueError(f"field factor must be above 0 and at most 1, got {field_factor}")
