"""Arguments of the vectors for dilution; same form as in vector_cases.py."""

from __future__ import annotations

from itertools import product

from build_tools.science import dilution
from build_tools.science.dilution import (
    METRIC_CUP_ML,
    METRIC_TABLESPOON_ML,
    US_CUP_ML,
    US_TABLESPOON_ML,
)

STOCKS = (0.5, 1, 1.5, 2, 2.5, 2.97, 3)
TOTALS = (1, 30, 237, 250, 1000, 18_927)
SPOONS = [(n * spoon, m * cup) for n, m in ((1, 1), (2, 1), (0.25, 2), (16, 1), (3, 0.5))
          for spoon, cup in ((US_TABLESPOON_ML, US_CUP_ML), (METRIC_TABLESPOON_ML, METRIC_CUP_ML))]


def wanted() -> list[list]:
    """(stock, wanted) from a thousandth of the bottle to the bottle itself."""
    return [[stock, stock * share] for stock in STOCKS for share in (0.001, 0.1, 1 / 9, 0.3, 0.99, 1)]


CASES = {
    "dilution": {
        "stock_needed": (["stock", "wanted", "total"], lambda: [[*pair, total] for pair in wanted() for total in TOTALS]),
        "mixed_strength": (["stock", "stock_volume", "water_volume"], lambda: [
            [stock, *pair] for stock in STOCKS for pair in [*SPOONS, (1e-6, 1000), (100, 0)]]),
        "topped_up_strength": (["stock", "stock_volume", "total"], lambda: [
            [stock, total * share, total] for stock in STOCKS for total in TOTALS for share in (0.001, 0.125, 1)]),
        "times_weaker": (["stock_volume", "water_volume"], lambda: [list(pair) for pair in SPOONS] + [[1, 0]]),
        "water_parts": (["stock", "wanted"], wanted),
        "strength_range": (["stock", "stock_volume", "total", "slip"], lambda: [
            [stock, total * share, total, total * share * slip]
            for stock, total in product(STOCKS, TOTALS) for share in (0.1, 0.5, 1) for slip in (0, 0.1, 1)]),
        "nearest_part": (["volume", "unit", "parts"], lambda: [
            [volume, unit, parts] for volume in (0, 0.4, 14.78676478125, 22.2, 100, 887.1)
            for unit in (US_TABLESPOON_ML, 15, 250) for parts in (1, 4, 8)]),
        "grams_for": (["percent", "millilitres"], lambda: [[p, v] for p in (0.01, 0.2, 1, 6) for v in (50, 250, 1000)]),
    },
}
MODULES = {"dilution": dilution}
