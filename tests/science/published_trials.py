"""Published figures for plans, two treatments, ageing, cells, mass and repeated tests.

Python and browser must both reproduce them; how each was seen is said as in published.py.
"""

from __future__ import annotations

from tests.science.published import COMPUTED, MEMORY, QUOTED, Published

READ = "read in a copy of the publication"
DIFFERENCES = "Newcombe 1998, Statistics in Medicine 17:873-890, Table II, method 10"


def _difference(row, counts, low, high, seen):
    return Published("two_treatments", "newcombe_difference", (*counts, 0.95), (low, high), 5e-5,
                     f"{DIFFERENCES}, row ({row})", seen)


def _fisher(counts, p, tolerance, source, seen):
    return Published("two_treatments", "fisher_exact", counts, p, tolerance, source, seen)


# Rows a to d: four public test files quote the same figures. Rows e to h are from memory; the limits
# .1611 and .2775 in them are also those of a single 0/20 and 0/10, quoted in a public file.
NEWCOMBE_ROWS = [
    _difference("a", (56, 70, 48, 80), 0.0524, 0.3339, QUOTED),
    _difference("b", (9, 10, 3, 10), 0.1705, 0.8090, QUOTED),
    _difference("c", (6, 7, 2, 7), 0.0582, 0.8062, QUOTED),
    _difference("d", (5, 56, 0, 29), -0.0381, 0.1926, QUOTED),
    _difference("e", (0, 10, 0, 20), -0.1611, 0.2775, MEMORY),
    _difference("f", (0, 10, 0, 10), -0.2775, 0.2775, MEMORY),
    _difference("g", (10, 10, 0, 20), 0.6791, 1.0, MEMORY),
    _difference("h", (10, 10, 0, 10), 0.6075, 1.0, MEMORY),
]

FISHER = [
    # Tea tasting: three of four cups right. One-sided 17/70, from memory; two-sided twice as much,
    # for the table is symmetric: 34/70.
    _fisher((3, 4, 1, 4), 34 / 70, 1e-12, "Fisher 1935, The Design of Experiments, tea tasting", MEMORY),
    _fisher((4, 18, 3, 4), 0.07655502, 5e-9, "a public test file, table 4 14 / 3 1", QUOTED),
    *(_fisher(counts, p, 5e-4, "soaked or not, Fisher's test", COMPUTED) for counts, p in (
        ((9, 10, 6, 10), 0.303), ((10, 10, 6, 10), 0.087), ((10, 10, 5, 10), 0.033),
        ((18, 20, 12, 20), 0.065), ((45, 50, 35, 50), 0.023))),
]
# Difference of the same pairs, 95 %, whole percent; computed beforehand by other code.
SOAKED = [((9, 10, 6, 10), -8, 60), ((10, 10, 6, 10), 4, 69), ((10, 10, 5, 10), 12, 76),
          ((18, 20, 12, 20), 3, 53), ((45, 50, 35, 50), 4, 35)]
POWER = [
    Published("two_treatments", "fisher_power", (0.9, 0.6, seeds), power, 5e-3,
              "power of Fisher's test at 5 % to see .90 against .60", COMPUTED)
    for seeds, power in ((10, 0.15), (20, 0.49), (30, 0.71), (40, 0.85))
]

HALF_WIDTHS = [
    Published("plans", "seeds_for_half_width", (half, fraction, 0.95), seeds, 0,
              "z² p (1 - p)/h², rounded up", COMPUTED)
    for fraction, row in ((0.8, (16, 28, 62, 246)), (0.5, (25, 43, 97, 385)))
    for half, seeds in zip((0.20, 0.15, 0.10, 0.05), row, strict=True)
]
FIXED_PLANS = [
    Published("plans", "fixed_plan", (good, bad, error, error), {"seeds": seeds, "accept_at": at}, 0,
              "smallest plan, exact binomial", COMPUTED)
    for good, bad, error, seeds, at in (
        (0.90, 0.70, 0.10, 25, 21), (0.90, 0.70, 0.05, 41, 34), (0.80, 0.60, 0.10, 36, 26),
        (0.80, 0.60, 0.05, 60, 43), (0.80, 0.50, 0.10, 19, 13), (0.80, 0.50, 0.05, 28, 19),
        (0.70, 0.50, 0.10, 39, 24))
]
LINES = [
    Published("plans", "sequential_lines", (0.01, 0.10, 0.05, 0.10),
              {"slope": 0.0397, "accept": 0.939, "flag": 1.205}, 5e-4,
              "NIST/SEMATECH e-Handbook of Statistical Methods, 6.2.6", MEMORY),
]
# (seeds so far, pass with so many dead or fewer, flag with so many or more)
IN_TENS = [(10, 0, 6), (20, 3, 9), (30, 6, 12), (40, 9, 14), (50, 12, 17), (60, 15, 20)]
READY_PLAN = [{"seeds": seeds, "accept": accept, "flag": flag} for seeds, accept, flag in IN_TENS]
SEQUENTIAL = [
    Published("plans", "sequential_plan", (0.80, 0.60, 0.10, 0.10, 6), READY_PLAN, 0,
              "ready plan in tens for .80 against .60, errors 10 %", COMPUTED),
]

AGEING = [
    Published("ageing", "beta_summary", (438, 544, 0.95),
              {"mean": 0.446, "sd": 0.016, "low": 0.415, "high": 0.477}, 5e-4,
              "Gelman et al., Bayesian Data Analysis: 437 of 980, uniform prior", MEMORY),
    Published("ageing", "update", (0.55, 10, 8, 10), (13.5, 6.5), 1e-12,
              "beta prior and counts added up", COMPUTED),
]

CELLS = [
    Published("cells", "known_seeds_per_cell", (chance, fraction), seeds, 0,
              "m = ceil(ln(1 - P)/ln(1 - p))", COMPUTED)
    for chance, row in ((0.95, (2, 2, 3, 4, 5, 6, 9)), (0.90, (1, 2, 2, 3, 4, 5, 7)))
    for fraction, seeds in zip((0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3), row, strict=True)
]

MASS = [
    Published("seed_mass", "pure_live_seed", (0.85, 0.75), 0.64, 5e-3,
              "Texas DOT, Pure live seed", READ),
    Published("seed_mass", "bulk_needed", (1, 0.85, 0.75), 1.56, 0.01,
              "Texas DOT, Pure live seed: pounds of bulk for a pound, cut off after two digits", READ),
    Published("seed_mass", "pure_live_seed", (0.9875, 0.93), 0.9183, 1e-4,
              "Allamakee SWCD (Iowa), Calculate seeding rates in PLS, hard seed counted in", READ),
]


def two_test_table() -> list[dict]:
    """Largest difference of two 400-seed tests: La. Admin. Code tit. 7, XIII-139, retyped from a copy."""
    rows = ((99, 99, 2, 2, 2), (97, 98, 3, 4, 3), (94, 96, 5, 7, 4), (91, 93, 8, 10, 5),
            (87, 90, 11, 14, 6), (82, 86, 15, 19, 7), (76, 81, 20, 25, 8), (70, 75, 26, 31, 9),
            (60, 69, 32, 41, 10), (51, 59, 42, 50, 11))
    keys = ("from", "to", "mirror_from", "mirror_to", "limit")
    return [dict(zip(keys, row, strict=True)) for row in rows]


TWO_TESTS = [
    Published("repeated_tests", "published_two_test_limit", (two_test_table(), average), limit, 0,
              "La. Admin. Code tit. 7, XIII-139", READ)
    for average, limit in ((99, 2), (97, 3), (94, 4), (91, 5), (87, 6), (82, 7), (76, 8), (70, 9),
                           (60, 10), (51, 11), (50, 11), (2, 2), (100, None), (1, None), (0, None))
]

TRIALS = [*NEWCOMBE_ROWS, *FISHER, *POWER, *HALF_WIDTHS, *FIXED_PLANS, *LINES, *SEQUENTIAL, *AGEING,
          *CELLS, *MASS, *TWO_TESTS]
