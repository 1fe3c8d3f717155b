"""What a sowing gives: plants from so many seeds, filled cells out of many.

The cells of one sowing share one unknown percentage, so they fill well or badly together: their
chances are averaged over equally likely percentages (`likely_shares`), binomial for each.
Twin: docs/assets/js/science/outcomes.js.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from scipy import special

from ..units import round_half_up
from .lot import JEFFREYS, chance_count_at_least
from .sowing import MOST_SEEDS, chance_of_enough, check_sowing

NODES = 200
# Tails left out on either side: the range holds the outcome in nine cases of ten.
TAILS = (0.05, 0.95)
# A certainty met exactly counts as met, whatever the last digit.
ALLOWANCE = 1e-12


def _fewest(low: int, high: int, reached: Callable[[int], bool]) -> int:
    """Smallest x in low..high with reached(x), which stays true once it is and is taken to hold at high."""
    short, enough = low - 1, high
    while enough - short > 1:
        middle = (short + enough) // 2
        if reached(middle):
            enough = middle
        else:
            short = middle
    return enough


def plants_range(seeds: int, k: int, n: int, field_factor: float = 1.0) -> tuple[int, int]:
    """Central 90 % range of the plants from `seeds` seeds after k of n: beta-binomial, thinned by the field factor.

    Above MOST_SEEDS, where only the percentage is left to guess, the quantiles of its beta distribution
    times the seeds. `seeds` may be 0. ValueError for impossible input.
    """
    check_sowing("seeds", max(seeds, 1), k, n, field_factor)
    if seeds > MOST_SEEDS:
        low, high = (int(round_half_up(seeds * field_factor * share)) for share in _quantiles(k, n, TAILS))
        return low, high
    low, high = (_fewest(0, seeds, lambda x, tail=tail: 1.0 - chance_of_enough(x + 1, seeds, k, n, field_factor) >= tail) for tail in TAILS)
    return low, high


def seeds_if_known(plants: int, certainty: float, share: float) -> int | None:
    """Fewest seeds for `plants` with `certainty` when each makes a plant with chance `share`, known; None above MOST_SEEDS.

    ValueError unless plants is 1 or more, certainty in (0, 1) and share in (0, 1].
    """
    if plants < 1 or plants != int(plants) or not 0.0 < certainty < 1.0 or not 0.0 < share <= 1.0:
        raise ValueError(f"impossible plants {plants}, certainty {certainty} or share {share}")
    if plants > MOST_SEEDS or chance_count_at_least(plants, MOST_SEEDS, share) < certainty - ALLOWANCE:
        return None
    return _fewest(plants, MOST_SEEDS, lambda seeds: chance_count_at_least(plants, seeds, share) >= certainty - ALLOWANCE)


def likely_shares(k: int, n: int, field_factor: float = 1.0) -> list[float]:
    """NODES equally likely values of the share of seeds that make a plant, after k of n: midpoints of the beta distribution."""
    check_sowing("seeds", 1, k, n, field_factor)
    return [field_factor * share for share in _quantiles(k, n, [(i + 0.5) / NODES for i in range(NODES)])]


def chance_of_cells(wanted: int, cells: int, per_cell: int, shares: Sequence[float]) -> float:
    """Chance that at least `wanted` of `cells` cells with `per_cell` seeds each hold a plant; `shares` from `likely_shares`."""
    if wanted > cells:
        return 0.0
    return sum(chance_count_at_least(max(wanted, 0), cells, 1.0 - (1.0 - share) ** per_cell) for share in shares) / len(shares)


def cells_range(cells: int, per_cell: int, shares: Sequence[float]) -> tuple[int, int]:
    """Central 90 % range of the cells that hold a plant."""
    low, high = (_fewest(0, cells, lambda x, tail=tail: 1.0 - chance_of_cells(x + 1, cells, per_cell, shares) >= tail) for tail in TAILS)
    return low, high


def cells_needed(wanted: int, certainty: float, per_cell: int, shares: Sequence[float], most: int) -> int | None:
    """Fewest cells of which `wanted` hold a plant with `certainty`; None when more than `most` would be needed."""
    if wanted > most or chance_of_cells(wanted, most, per_cell, shares) < certainty - ALLOWANCE:
        return None
    return _fewest(wanted, most, lambda cells: chance_of_cells(wanted, cells, per_cell, shares) >= certainty - ALLOWANCE)


def _quantiles(k: int, n: int, probabilities: Sequence[float]) -> list[float]:
    return special.betaincinv(k + JEFFREYS, n - k + JEFFREYS, probabilities).tolist()
