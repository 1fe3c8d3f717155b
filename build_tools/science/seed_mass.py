"""Seeds and their mass; pure live seed.

Twin: docs/assets/js/science/seed_mass.js.
"""

from __future__ import annotations

GRAMS_PER_OUNCE = 28.349523125
GRAMS_PER_POUND = 453.59237


def pure_live_seed(purity: float, germination: float) -> float:
    """Share of a bulk that is pure seed able to grow: purity times germination, fractions in 0..1.

    Hard and dormant seed is counted in `germination` where the label's rule says so.
    """
    for name, value in (("purity", purity), ("germination", germination)):
        if not 0.0 <= value <= 1.0:
            raise ValueError(f"{name} must lie between 0 and 1, got {value}")
    return purity * germination


def bulk_needed(live: float, purity: float, germination: float) -> float:
    """Bulk that holds `live` (grams, pounds, seeds) of pure live seed; ValueError when it holds none."""
    share = pure_live_seed(purity, germination)
    if share == 0.0:
        raise ValueError("a bulk without live seed has no such amount")
    return live / share


def grams_of_seeds(seeds: float, seeds_per_gram: float) -> float:
    """Mass in grams; ValueError unless seeds per gram is above 0."""
    if not seeds_per_gram > 0:
        raise ValueError(f"seeds per gram must be above 0, got {seeds_per_gram}")
    return seeds / seeds_per_gram


def ounces(grams: float) -> float:
    """Avoirdupois ounces of a mass in grams (exact by definition)."""
    return grams / GRAMS_PER_OUNCE


def seeds_per_gram_of_sample(seeds: float, grams: float) -> float:
    """Seeds per gram of a counted and weighed sample; ValueError unless both are above 0."""
    if not seeds > 0 or not grams > 0:
        raise ValueError(f"need seeds and grams above 0, got {seeds} and {grams}")
    return seeds / grams
