"""Seeds in cells and rows when germination is known from a test only.

A cell of m seeds stays empty with the chance that none of them makes a plant; the test's own
uncertainty is in it (beta-binomial). Twin: docs/assets/js/science/cells.js.
"""

from __future__ import annotations

import math

from build_tools.science.lot import JEFFREYS
from build_tools.science.sowing import beta_binomial_probabilities, check_sowing

MOST_A_CELL = 30


def chance_empty(seeds: int, k: int, n: int, field_factor: float = 1.0, prior: float = JEFFREYS) -> float:
    """Chance that a cell of `seeds` seeds has no plant after a test with k of n.

    E[(1 - f)^G], G the seeds that germinate, beta-binomial. ValueError for impossible input.
    """
    check_sowing("seeds", seeds, k, n, field_factor)
    weights = beta_binomial_probabilities(seeds, k + prior, n - k + prior)
    return float(min(1.0, sum(w * (1.0 - field_factor) ** g for g, w in enumerate(weights))))


def seeds_per_cell(chance: float, k: int, n: int, field_factor: float = 1.0, prior: float = JEFFREYS) -> int | None:
    """Fewest seeds in a cell with which it holds a plant with chance `chance`; None above MOST_A_CELL."""
    if not 0.0 < chance < 1.0:
        raise ValueError(f"chance must lie between 0 and 1, got {chance}")
    for seeds in range(1, MOST_A_CELL + 1):
        if 1.0 - chance_empty(seeds, k, n, field_factor, prior) >= chance:
            return seeds
    return None


def expected_plants(seeds: int, k: int, n: int, field_factor: float = 1.0, prior: float = JEFFREYS) -> float:
    """Plants to expect from so many seeds: seeds · f · (k + prior)/(n + 2 prior)."""
    check_sowing("seeds", seeds, k, n, field_factor)
    return seeds * field_factor * (k + prior) / (n + 2.0 * prior)


def expected_thinned(seeds: int, k: int, n: int, field_factor: float = 1.0, prior: float = JEFFREYS) -> float:
    """Plants a cell must lose to be left with one: expected plants less the chance of at least one."""
    return expected_plants(seeds, k, n, field_factor, prior) - (1.0 - chance_empty(seeds, k, n, field_factor, prior))


def known_seeds_per_cell(chance: float, fraction: float) -> int:
    """The same when the fraction is known: smallest m with 1 - (1 - p)^m >= chance, fraction in (0, 1]."""
    if not 0.0 < chance < 1.0 or not 0.0 < fraction <= 1.0:
        raise ValueError(f"impossible chance {chance} or fraction {fraction}")
    if fraction == 1.0:
        return 1
    return max(1, math.ceil(math.log1p(-chance) / math.log1p(-fraction) - 1e-9))


def row_places(length: float, spacing: float) -> int:
    """Plants in a row of `length` with one every `spacing` (same unit): one at each end."""
    if not spacing > 0 or not length > 0:
        raise ValueError(f"length and spacing must be above 0, got {length} and {spacing}")
    return int(length / spacing + 1e-9) + 1
