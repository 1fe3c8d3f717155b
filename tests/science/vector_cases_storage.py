"""Arguments of the vectors for the viability equation, moisture by humidity and rules of thumb; joined in write_vectors.py."""

from __future__ import annotations

from itertools import product

from build_tools.science import viability

# Rows of the tables, the doubtful tomato among them, whose temperature constant has the other sign.
ROWS = ((7.938, 5.25, 0.0329, 0.000478), (8.988, 4.969, 0.0322, 0.000454), (6.5017, 3.1807, 0.0324, 0.000431),
        (5.65359, 2.49975, 0.04387, 1.438e-05), (4.544, 2.683, -0.05018, 0.001266), (5.35, 2.03, 0.0329, 0.000478))
TESTS = ((0, 1), (1, 1), (0, 10), (1, 10), (8, 10), (10, 10), (40, 50), (399, 400), (400, 400), (0, 400),
         (86_421, 100_000), (100_000, 100_000), (0, 100_000), (99_999, 100_000))
CONFIDENCES = (0.80, 0.90, 0.95, 0.99)
SIGMAS = (1.5, 120.0, 1008.1, 40_000.0)
HUMIDITIES = (0.0, 1e-6, 0.1, 0.3, 0.5, 0.65, 0.7, 0.999)
CELSIUS = (-20, 0, 5, 15, 20, 25, 40, 89)
OILS = (0.0, 0.02, 0.24, 0.37, 0.9)

MODULES = {"viability": viability}
CASES = {
    "viability": {
        "fresh_basis": (["dry_percent"], lambda: [[d] for d in (0, 0.1, 5, 30, 33.3, 100, 900)]),
        "dry_basis": (["fresh_percent"], lambda: [[w] for w in (0, 0.1, 5, 23.1, 25, 50, 99)]),
        "equilibrium_moisture": (["humidity", "celsius", "oil"], lambda: [list(row) for row in product(HUMIDITIES, CELSIUS, OILS)]),
        "equilibrium_humidity": (["fresh_percent", "celsius", "oil"], lambda: [list(row) for row in product((0, 3, 5, 8.5, 15, 25, 60), CELSIUS, OILS)]),
        "probit_days": (["moisture", "celsius", "ke", "cw", "ch", "cq"], lambda: [
            [m, t, *row] for m in (5, 6, 7.7, 10.25, 15, 25) for t in (0, 5, 20, 32.5, 50) for row in ROWS]),
        "days_between": (["start", "end", "sigma"], lambda: [
            [start, end, sigma] for start, end in ((0.9, 0.5), (0.999, 0.001), (0.8, 0.8), (0.7, 0.6)) for sigma in SIGMAS]),
        "probits_now": (["k", "n", "confidence"], lambda: [[k, n, c] for k, n in TESTS for c in CONFIDENCES]),
        "after_storage": (["k", "n", "confidence", "days", "sigma"], lambda: [
            [k, n, c, days, sigma] for (k, n), c in zip(TESTS, CONFIDENCES * 4, strict=False) for days in (0, 30, 365.25, 7000) for sigma in SIGMAS]),
        "days_until": (["k", "n", "confidence", "line", "sigma"], lambda: [
            [k, n, c, line, sigma] for (k, n), c in zip(TESTS, CONFIDENCES * 4, strict=False) for line in (0.01, 0.7, 0.98) for sigma in (1.5, 120.0, 1008.1)]),
        "doublings": (["from_value", "to_value", "step"], lambda: [
            [a, b, step] for a, b in ((20, 5), (5, 20), (10, 10), (12.5, 6)) for step in (1, 50 / 9, 10)]),
    },
}
