"""Diluting a solution: how much of the bottle, and what a recipe in spoons gives.

What is diluted is only spread over more water, so strength times volume stays the same (C1·V1 = C2·V2, textbook
arithmetic). Strengths are percent, in as out; volumes are in one unit of the caller's choice, since only ratios count.
Volumes are taken to add up, which holds for solutions as weak as those here. Twin: docs/assets/js/science/dilution.js.
"""

from __future__ import annotations

import math

# NIST Handbook 44, appendix C: a US cup is 8 fluid ounces, 236.588 2 mL (236.588 236 5 exactly, from 231 cubic inches
# a gallon); a tablespoon is half a fluid ounce, a sixteenth of the cup.
US_CUP_ML = 236.5882365
US_TABLESPOON_ML = 14.78676478125
# Spoon and cup of metric kitchens, common practice: a labelled spoon of 15 mL, a cup of a quarter litre.
METRIC_CUP_ML = 250
METRIC_TABLESPOON_ML = 15


def stock_needed(stock: float, wanted: float, total: float) -> float:
    """Volume of a bottle of `stock` % in `total` of `wanted` %: wanted · total / stock.

    ValueError unless 0 < wanted <= stock and total > 0.
    """
    _check(stock=stock, wanted=wanted, total=total)
    if wanted > stock:
        raise ValueError(f"{stock} % cannot be diluted to {wanted} %")
    return total * (wanted / stock)


def mixed_strength(stock: float, stock_volume: float, water_volume: float) -> float:
    """Percent after so much of the bottle is added to so much water: stock · s / (s + w). ValueError for impossible input."""
    _check(stock=stock, stock_volume=stock_volume)
    _check_not_below(water_volume=water_volume)
    return stock * (stock_volume / (stock_volume + water_volume))


def topped_up_strength(stock: float, stock_volume: float, total: float) -> float:
    """Percent after so much of the bottle is filled up with water to `total`. ValueError for impossible input."""
    _check(stock=stock, stock_volume=stock_volume, total=total)
    if stock_volume > total:
        raise ValueError(f"{stock_volume} does not fit into {total}")
    return stock * (stock_volume / total)


def times_weaker(stock_volume: float, water_volume: float) -> float:
    """How many times weaker the mixture is than the bottle: (s + w) / s, 9 for "one ninth"."""
    _check(stock_volume=stock_volume)
    _check_not_below(water_volume=water_volume)
    return (stock_volume + water_volume) / stock_volume


def water_parts(stock: float, wanted: float) -> float:
    """Parts of water for one part of the bottle: stock / wanted - 1. ValueError unless 0 < wanted <= stock."""
    _check(stock=stock, wanted=wanted)
    if wanted > stock:
        raise ValueError(f"{stock} % cannot be diluted to {wanted} %")
    return stock / wanted - 1.0


def strength_range(stock: float, stock_volume: float, total: float, slip: float) -> list[float]:
    """[lowest, highest] percent when the bottle's share is measured up to `slip` too little or too much.

    The total is kept: what is short of one is filled up with the other. ValueError unless 0 <= slip <= stock_volume.
    """
    _check(stock=stock, stock_volume=stock_volume, total=total)
    if not 0.0 <= slip <= stock_volume <= total:
        raise ValueError(f"impossible slip {slip} of {stock_volume} in {total}")
    return [stock * ((stock_volume - slip) / total), stock * (min(total, stock_volume + slip) / total)]


def nearest_part(volume: float, unit: float, parts: int) -> float:
    """A volume in spoons or cups of `unit`, to the nearest `parts`-th (4: quarters), halves upward."""
    _check_not_below(volume=volume)
    _check(unit=unit)
    if parts < 1 or parts != int(parts):
        raise ValueError(f"parts must be a whole number from 1, got {parts}")
    return math.floor(volume / unit * parts + 0.5) / parts


def grams_for(percent: float, millilitres: float) -> float:
    """Grams of a salt for a solution of `percent` g in 100 mL (weight by volume): percent · mL / 100."""
    _check(percent=percent, millilitres=millilitres)
    return percent * millilitres / 100.0


def _check(**values: float) -> None:
    for name, value in values.items():
        if not (value > 0.0 and math.isfinite(value)):
            raise ValueError(f"{name} must be above 0, got {value}")


def _check_not_below(**values: float) -> None:
    for name, value in values.items():
        if not (value >= 0.0 and math.isfinite(value)):
            raise ValueError(f"{name} must not be below 0, got {value}")
