"""Arguments of the vectors for plans, time course, two treatments, ageing, cells, outcomes, mass, repeated tests.

Same form as in write_vectors.py, which joins them to its own: {module: {function: (argument names,
function that makes the rows)}}. Grids reach from none to all and to the edges of what is allowed.
"""

from __future__ import annotations

from itertools import product

from build_tools.science import (
    ageing,
    cells,
    outcomes,
    plans,
    repeated_tests,
    seed_mass,
    time_course,
    two_treatments,
)
from tests.science.published_trials import two_test_table

CONFIDENCES = (0.80, 0.90, 0.95, 0.99)
SIZES = (1, 2, 5, 10, 25, 50, 100, 400)
TESTS = ((0, 1), (1, 1), (0, 10), (1, 10), (8, 10), (10, 10), (40, 50), (50, 50), (399, 400),
         (0, 400), (86_421, 100_000))
CURVES = ((0.98, 0.5), (0.9, 0.5), (0.85, 0.6), (0.999, 0.001), (0.6, 0.55))
BETAS = ((0.08, 3.92), (0.5, 0.5), (1, 1), (3.2, 0.8), (0.2, 9.8), (5.5, 4.5), (11.2, 2.8), (100, 1),
         (438, 544), (0.04, 400.5), (86_421.5, 13_579.5))
QUESTIONS = ((0.9, 0.7), (0.8, 0.6), (0.8, 0.5), (0.7, 0.5), (0.95, 0.85), (0.99, 0.9), (0.5, 0.1),
             (0.9, 0.1), (0.6, 0.55), (0.51, 0.5), (0.999, 0.001))
SHARES = [0.31, 0.55, 0.72, 0.8, 0.93]
ERRORS = ((0.1, 0.1), (0.05, 0.05), (0.05, 0.2), (0.2, 0.01), (0.4, 0.4))


def some_counts(n: int) -> list[int]:
    return sorted({0, 1, n // 2, (4 * n) // 5, n - 1, n})


def pairs() -> list[list]:
    """Two counts, every pairing of the sizes, none and all of each among them."""
    rows = []
    for n1, n2 in product(SIZES, SIZES):
        rows += [[k1, n1, k2, n2] for k1, k2 in product(some_counts(n1), some_counts(n2))]
    return rows


def every_small_table() -> list[list]:
    return [[k1, n1, k2, n2] for n1, n2 in ((4, 4), (7, 5), (10, 10), (3, 9))
            for k1, k2 in product(range(n1 + 1), range(n2 + 1))]


def large_tables() -> list[list]:
    return [[k1, n1, k2, n2] for n1, n2 in ((2000, 2000), (5000, 30), (20_000, 9000))
            for k1, k2 in product((0, n1 // 2, n1 - 3, n1), (0, 1, n2 // 2, n2))]


def with_confidence() -> list[list]:
    return [[*row, CONFIDENCES[i % 4]] for i, row in enumerate(pairs() + large_tables())]


def powers() -> list[list]:
    fractions = (0.0, 0.1, 0.5, 0.6, 0.9, 1.0)
    return [[p1, p2, n] for p1, p2 in product(fractions, fractions) for n in (1, 2, 4, 10, 25, 60)] + [
        [0.9, 0.6, n] for n in range(5, 61, 5)] + [[0.9, 0.8, 200], [0.5, 0.5, 200], [0.3, 0.4, 199]]


def trials() -> list[list]:
    fractions = (0.0, 0.05, 0.5, 0.6, 0.9, 0.98, 1.0)
    return [[p1, p2, power] for p1, p2 in product(fractions, fractions) if p1 != p2
            for power in (0.5, 0.8, 0.95)]


def questions() -> list[list]:
    return [[*question, *errors] for question in QUESTIONS for errors in ERRORS]


def sequential() -> list[list]:
    return [[*question, *errors, groups] for question in QUESTIONS for errors in ERRORS
            for groups in (1, 6, 12)]


def characteristics() -> list[list]:
    made = [plans.sequential_plan(*row) for row in (
        (0.8, 0.6, 0.1, 0.1, 6), (0.9, 0.7, 0.05, 0.1, 8), (0.95, 0.85, 0.1, 0.1, 20),
        (0.99, 0.9, 0.05, 0.05, 3), (0.51, 0.5, 0.1, 0.1, 2))]
    fractions = (0.0, 0.001, 0.3, 0.5, 0.6, 0.7, 0.75, 0.8, 0.9, 0.95, 1.0)
    return [[plan, fraction] for plan in made for fraction in fractions]


def courses() -> list[list]:
    """Days, new seedlings and seeds set: usual ones, and the edges."""
    return [[list(days), list(counts), seeds] for days, counts, seeds in (
        ((3, 4, 5, 6, 7), (2, 5, 8, 3, 1), 25), ((2, 3, 5, 8), (1, 4, 3, 0), 10),
        ((5,), (7,), 10), ((5,), (1,), 1), ((5,), (0,), 10), ((1, 2), (0, 0), 5),
        ((2, 4, 6), (10, 0, 0), 10), ((2, 4, 6), (0, 0, 10), 10), ((2, 4, 6), (5, 0, 5), 10),
        ((2, 4, 6), (5, 1, 4), 10), ((2, 4, 6), (4, 1, 5), 12), ((0.5, 1.25, 2.75), (3, 9, 4), 20),
        ((1, 10, 100), (0, 1, 0), 50), ((1, 2, 3, 4), (7, 7, 7, 7), 28),
        ((4, 7, 14, 21, 28), (120, 150, 80, 12, 1), 400), ((7, 14, 400), (30_000, 20_000, 1), 100_000),
        (tuple(range(1, 41)), tuple((i * 7) % 11 for i in range(40)), 250),
    )]


def targets() -> list[list]:
    return [[days, counts, target] for days, counts, _ in courses() for target in (0.5, 1, 5, 8.5, 1000)]


def tests_of_one_lot() -> list[list]:
    table = two_test_table()
    two = [(k1, k2) for k1 in (0, 8, 9, 198, 250, 318, 360, 399, 400) for k2 in (0, 4, 202, 290, 359, 361, 400)]
    rows = [[[k1, k2], [400, 400], table] for k1, k2 in two]
    rows += [[[k1, k2], [400, 400], []] for k1, k2 in two[::5]]
    return rows + [[counts, seeds, table] for counts, seeds in (
        ([8], [10]), ([8, 5], [10, 10]), ([9, 41], [10, 50]), ([350, 340, 300], [400] * 3),
        ([8000, 8500], [10_000] * 2), ([0, 0], [10, 20]), ([20] * 8, [20] * 8), ([350, 80], [400, 100]))]


def scattered() -> list[list]:
    return [[counts, seeds] for counts, seeds in (
        ([5], [10]), ([0], [1]), ([0, 0], [10, 5]), ([10, 5], [10, 5]), ([0, 10], [10, 10]), ([8, 9, 7], [10] * 3),
        ([10, 23, 23, 26, 17], [39, 62, 81, 51, 39]), ([2, 9, 5, 16, 2, 0], [43, 51, 44, 71, 24, 7]),
        ([(i * 7) % 41 for i in range(64)], [50] * 64), ([399, 400, 398], [400] * 3),
        ([90_000, 89_000], [100_000, 100_000]))]


def cell_rows(extra: tuple = ()) -> list[list]:
    return [[seeds, k, n, factor, prior] for seeds in (1, 2, 3, 6, 30, 200, *extra) for k, n in TESTS
            for factor, prior in ((1.0, 0.5), (0.7, 0.5), (0.05, 1.0))]


CELL = ["seeds", "k", "n", "field_factor", "prior"]
MODULES = {"ageing": ageing, "plans": plans, "time_course": time_course, "two_treatments": two_treatments,
           "cells": cells, "outcomes": outcomes, "seed_mass": seed_mass, "repeated_tests": repeated_tests}
CASES = {
    "ageing": {
        "probits_per_year": (["life_years", "fresh", "at_life_end"], lambda: [
            [life, *curve] for life in (0.5, 1, 3, 4.5, 10, 60) for curve in CURVES]),
        "expected_fraction": (["age_years", "life_years", "fresh", "at_life_end"], lambda: [
            [age, life, *curve] for age in (0, 0.25, 1, 3, 4.5, 9, 40, 500) for life in (1, 4.5, 10)
            for curve in CURVES]),
        "update": (["expected", "worth", "k", "n"], lambda: [
            [expected, worth, k, n] for expected in (0.02, 0.55, 0.8, 0.98) for worth in (0.5, 4, 10)
            for k, n in ((0, 0), *TESTS)]),
        "beta_summary": (["a", "b", "confidence"], lambda: [
            [a, b, c] for a, b in (*BETAS, *((b, a) for a, b in BETAS)) for c in (*CONFIDENCES, 0.5)]),
        "chance_above": (["a", "b", "line"], lambda: [
            [a, b, line] for a, b in BETAS for line in (0.0, 0.02, 0.5, 0.75, 0.864, 0.99, 1.0)]),
        "years_until": (["fraction", "line", "slope"], lambda: [
            [fraction, line, slope] for fraction in (0.0, 0.3, 0.75, 0.9, 0.98, 1.0)
            for line in (0.001, 0.5, 0.75, 0.85, 0.999) for slope in (0.01, 0.3, 2.5)]),
        "months_to_next_test": (["years_to_line", "least", "most"], lambda: [
            [years, least, most] for years in (0, 0.2, 0.75, 1, 2.99, 3, 7.3, 100) for least, most in ((3, 60), (12, 36))]),
    },
    "plans": {
        "seeds_for_half_width": (["half_width", "fraction", "confidence"], lambda: [
            [h, p, c] for h in (0.01, 0.05, 0.1, 0.15, 0.2, 0.5, 0.9)
            for p in (1e-6, 0.05, 0.5, 0.8, 0.95, 0.999) for c in CONFIDENCES]),
        "fixed_plan": (["good", "bad", "turned_away", "passed"], lambda: [
            *questions(), [0.9, 0.7, 1e-10, 1e-10], [0.99, 0.4, 1e-12, 0.3], [0.97, 0.02, 0.3, 1e-30],
            [0.83, 0.8, 0.05, 0.05], [0.505, 0.5, 0.05, 0.05]]),
        "sequential_lines": (["dead_good", "dead_bad", "turned_away", "passed"], lambda: [
            [1 - good, 1 - bad, *errors] for good, bad, *errors in questions()]),
        "sequential_plan": (["good", "bad", "turned_away", "passed", "groups"], sequential),
        "operating_characteristic": (["plan", "fraction"], characteristics),
    },
    "time_course": {
        "new_from_totals": (["totals"], lambda: [
            [[]], [[0]], [[5]], [[0, 0, 0]], [[1, 3, 3, 8]], [[10, 10, 400]], [[0, 7, 7, 9, 100_000]]]),
        "day_of_count": (["days", "counts", "target"], targets),
        "time_course": (["days", "counts", "seeds"], courses),
    },
    "two_treatments": {
        "newcombe_difference": (["k1", "n1", "k2", "n2", "confidence"], with_confidence),
        "fisher_exact": (["k1", "n1", "k2", "n2"], lambda: pairs() + every_small_table() + large_tables()),
        "fisher_power": (["p1", "p2", "seeds"], powers),
        "approximate_seeds": (["p1", "p2", "power"], trials),
        "seeds_for_trial": (["p1", "p2", "power"], trials),
    },
    "cells": {
        "chance_empty": (CELL, cell_rows),
        "seeds_per_cell": (["chance", *CELL[1:]], lambda: [
            [chance, k, n, factor, prior] for chance in (0.01, 0.5, 0.8, 0.9, 0.95, 0.999) for k, n in TESTS
            for factor, prior in ((1.0, 0.5), (0.7, 0.5), (0.05, 1.0))]),
        "expected_plants": (CELL, cell_rows),
        "expected_thinned": (CELL, cell_rows),
        "known_seeds_per_cell": (["chance", "fraction"], lambda: [
            [chance, fraction] for chance in (0.01, 0.5, 0.75, 0.9, 0.95, 0.99, 0.999)
            for fraction in (1e-6, 0.01, 0.1, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.99, 1.0)]),
        "row_places": (["length", "spacing"], lambda: [
            [length, spacing] for length in (0.3, 1, 2.7, 10, 100) for spacing in (0.05, 0.1, 0.3, 0.9, 25)]),
    },
    "outcomes": {
        "plants_range": (["seeds", "k", "n", "field_factor"], lambda: [
            [seeds, k, n, factor] for seeds in (0, 1, 12, 100, 900, 250_000) for k, n in TESTS for factor in (1.0, 0.6)]),
        "seeds_if_known": (["plants", "certainty", "share"], lambda: [
            [plants, c, share] for plants in (1, 2, 12, 72, 1000, 200_000, 200_001) for c in CONFIDENCES
            for share in (1e-4, 0.05, 0.48, 0.8, 0.99, 1.0)]),
        "likely_shares": (["k", "n", "field_factor"], lambda: [[0, 1, 1.0], [1, 1, 0.4], [8, 10, 0.7], [30, 400, 1.0], [400, 400, 1.0]]),
        "chance_of_cells": (["wanted", "cells", "per_cell", "shares"], lambda: [
            [wanted, filled, seeds, SHARES] for filled in (0, 1, 72, 500) for wanted in (-1, 0, 1, filled // 2, filled, filled + 1) for seeds in (1, 2, 5)]),
        "cells_range": (["cells", "per_cell", "shares"], lambda: [
            [filled, seeds, SHARES] for filled in (0, 1, 10, 72, 2000) for seeds in (1, 2, 5)]),
        "cells_needed": (["wanted", "certainty", "per_cell", "shares", "most"], lambda: [
            [wanted, c, seeds, SHARES, 3000] for wanted in (0, 1, 12, 72, 2900, 3001) for c in CONFIDENCES for seeds in (1, 3)]),
    },
    "seed_mass": {
        "pure_live_seed": (["purity", "germination"], lambda: [
            [p, g] for p in (0.0, 0.85, 0.9875, 1.0) for g in (0.0, 0.5, 0.75, 0.93, 1.0)]),
        "bulk_needed": (["live", "purity", "germination"], lambda: [
            [live, p, g] for live in (0, 1, 50.5, 1e6) for p in (0.01, 0.85, 1.0) for g in (0.5, 0.93, 1.0)]),
        "grams_of_seeds": (["seeds", "seeds_per_gram"], lambda: [
            [seeds, rate] for seeds in (0, 1, 72, 100_000) for rate in (0.5, 3.3, 880)]),
        "ounces": (["grams"], lambda: [[g] for g in (0, 0.1, 28.349523125, 453.59237, 20_695)]),
        "seeds_per_gram_of_sample": (["seeds", "grams"], lambda: [
            [seeds, grams] for seeds in (1, 100, 5000) for grams in (0.02, 20.695, 1000)]),
    },
    "repeated_tests": {
        "published_two_test_limit": (["table", "average_percent"], lambda: [
            [two_test_table(), average] for average in range(101)]),
        "judge_tests": (["counts", "seeds", "table"], tests_of_one_lot),
        "dispersion": (["counts", "seeds"], scattered),
    },
}
