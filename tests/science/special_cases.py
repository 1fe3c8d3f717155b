"""Special functions of the browser (special.js): [function, arguments, result, tolerance].

The normal, beta and gamma functions by scipy.special; the chances of counts exactly, in fractions, from their definitions.
Tolerances are relative to the result, so that small chances count as much as large ones.
"""

from __future__ import annotations

from fractions import Fraction
from math import comb, prod

from scipy import special

# Relative, so far down the tail as well, where scipy's own last digits go.
NORMAL = [["normalProbability", [z], float(special.ndtr(z)), float(special.ndtr(z)) * (1e-12 if z < -8 else 1e-14)]
          for z in (-41, -40, -37, -30.5, -20, -12.25, -8, -5, -3.3, -1.96, -1.5, -1.1, -1, -0.9999, -0.3, 0, 1e-9, 0.7, 1, 1.05, 1.64, 3, 6, 9, 41)]
QUANTILES = [["normalQuantile", [p], float(special.ndtri(p)), 1e-13 * max(abs(float(special.ndtri(p))), 1e-3)] for p in (
    1e-300, 1e-200, 1e-100, 1e-50, 1e-20, 1e-12, 2e-11, 1e-9, 1e-6, 1e-4, 0.001, 0.01, 0.05, 0.074, 0.0749, 0.0751, 0.076, 0.1, 0.2, 0.3, 0.4, 0.45, 0.4999, 0.5,
    0.55, 0.6, 0.7, 0.85, 0.9, 0.92, 0.924, 0.926, 0.95, 0.975, 0.99, 0.999, 0.99999)]
GAMMA = [["logGamma", [x], float(special.gammaln(x)), 1e-13 * max(1.0, abs(float(special.gammaln(x))))]
         for x in (0.04, 0.5, 1, 1.5, 2, 3.7, 9, 14.9, 15, 15.5, 16, 16.1, 17, 40, 400.5, 1e4, 1e6)]

SHAPES = ((0.5, 0.5), (1, 1), (3.2, 0.8), (0.2, 9.8), (5.5, 4.5), (11.2, 2.8), (100, 1), (1, 100), (40.5, 10.5), (438, 544), (0.04, 400.5), (900.5, 9.5), (86_421.5, 13_579.5))
PLACES = (1e-6, 0.001, 0.1, 0.3, 0.5, 0.7, 0.9, 0.999)  # chances at which the beta distribution is looked at


def _near(value: float) -> float:
    return max(2e-12 * abs(value), 1e-100)


def _betas() -> list:
    rows = []
    for a, b in SHAPES:
        for x in {0.0, 1.0, 0.02, 0.5, 0.864, *(float(special.betaincinv(a, b, p)) for p in PLACES)}:
            rows += [["incompleteBeta", [a, b, x], float(special.betainc(a, b, x)), _near(float(special.betainc(a, b, x)))],
                     ["incompleteBetaComplement", [a, b, x], float(special.betaincc(a, b, x)), _near(float(special.betaincc(a, b, x)))]]
        for p in (0.0, *PLACES, 1.0):
            low, high = float(special.betaincinv(a, b, p)), float(special.betainccinv(a, b, p))
            rows += [["incompleteBetaInverse", [a, b, p], low, _near(low)], ["incompleteBetaComplementInverse", [a, b, p], high, _near(high)]]
    return rows


def _binomial(n: int, fraction: float) -> list:
    p = Fraction(fraction)
    chances = [float(comb(n, x) * p**x * (1 - p) ** (n - x)) for x in range(n + 1)]
    return ["binomialProbabilities", [n, fraction], chances, 1e-14]


def _rising(start: Fraction, steps: int) -> Fraction:
    return prod((start + i for i in range(steps)), start=Fraction(1))


def _beta_binomial(n: int, a: float, b: float) -> list:
    """comb(n, x) B(x + a, n - x + b)/B(a, b), where B of whole steps is a product."""
    first, second = Fraction(a), Fraction(b)
    every = _rising(first + second, n)
    chances = [float(comb(n, x) * _rising(first, x) * _rising(second, n - x) / every) for x in range(n + 1)]
    return ["betaBinomialProbabilities", [n, a, b], chances, 1e-14]


def _tables(total: int, n1: int, n2: int) -> list:
    lowest, highest = max(0, total - n2), min(n1, total)
    chances = [float(Fraction(comb(n1, x) * comb(n2, total - x), comb(n1 + n2, total))) for x in range(lowest, highest + 1)]
    return ["hypergeometricProbabilities", [total, n1, n2], {"lowest": lowest, "chances": chances}, 1e-14]


COUNTS = [
    *(_binomial(n, p) for n, p in ((0, 0.3), (1, 0.0), (1, 1.0), (5, 0.0), (5, 1.0), (4, 0.5), (10, 0.9), (25, 0.1), (60, 0.55), (200, 0.99))),
    *(_beta_binomial(n, a, b) for n, a, b in ((0, 0.5, 0.5), (1, 0.5, 0.5), (12, 0.5, 0.5), (12, 8.5, 2.5), (20, 0.5, 10.5), (20, 10.5, 0.5), (60, 40.5, 10.5), (7, 0.25, 0.125))),
    *(_tables(*case) for case in ((0, 4, 4), (8, 4, 4), (5, 3, 9), (7, 10, 2), (10, 10, 1), (100, 90, 60), (300, 400, 400), (1, 1, 1))),
]
SPECIAL = [*NORMAL, *QUANTILES, *GAMMA, *_betas(), *COUNTS]
