"""Interval-censored time-to-event fits of germination tests: when does a seed sprout, and what share ever does?

A seed counted on day 3 sprouted after the count before and not later than day 3; a seed that never
came up is censored at the end. Fitted by maximum likelihood. Method: Onofri, Mesgaran & Ritz; Ritz,
Pipper & Streibig 2013 (European Journal of Agronomy 45:1). Python only: it runs on exported tests.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import optimize, special

from .proportions import z_for_confidence
from .time_course import check_course

LOG_LOGISTIC, LOG_NORMAL = "log-logistic", "log-normal"
STARTING_SHAPES = (2.0, 6.0, 15.0, 20.0)
# A final fraction this near to 1 has run to its bound, where the curvature says nothing.
AT_BOUND = 1.0 - 1e-4


@dataclass(frozen=True)
class Intervals:
    """One test: seeds that sprouted in (starts[i], ends[i]] days, and those that had not by the last end."""

    starts: tuple[float, ...]
    ends: tuple[float, ...]
    counts: tuple[int, ...]
    ungerminated: int

    @classmethod
    def of_counts(cls, days: Sequence[float], counts: Sequence[int], seeds: int) -> Intervals:
        """From count days, new seedlings and seeds set; ValueError as in `time_course.check_course`."""
        check_course(days, counts, seeds)
        return cls((0.0, *days[:-1]), tuple(days), tuple(counts), seeds - sum(counts))

    @property
    def seeds(self) -> int:
        return sum(self.counts) + self.ungerminated


@dataclass(frozen=True)
class Estimate:
    """A fitted number with its confidence interval, None where the data do not bound it."""

    value: float
    low: float | None
    high: float | None


@dataclass(frozen=True)
class Fit:
    """A fit: `t50_days` one per test (of the seeds that ever germinate), `final` one per test, `shape`
    shared (slope b of the log-logistic, spread s of log days for the log-normal), log-likelihood."""

    distribution: str
    t50_days: tuple[Estimate, ...]
    final: tuple[Estimate, ...]
    shape: Estimate
    log_likelihood: float


def fit(tests: Sequence[Intervals], distribution: str = LOG_LOGISTIC, final_fraction: bool = True, confidence: float = 0.95) -> Fit | None:
    """Maximum-likelihood fit of one or more tests that share a shape; None when nothing germinated in one.

    log-logistic F(t) = d / (1 + (t/e)^-b); log-normal F(t) = d Φ((ln t - ln e)/s). With
    `final_fraction` False every d is 1: all seeds would sprout in the end. Intervals come from the
    curvature of the likelihood at its top, on the scales ln e, ln shape and logit d.
    ValueError when a test has fewer than two intervals with seedlings altogether in all tests
    (a shape cannot be told).
    """
    if distribution not in (LOG_LOGISTIC, LOG_NORMAL):
        raise ValueError(f"unknown distribution {distribution}")
    if any(sum(test.counts) == 0 for test in tests):
        return None
    if all(sum(count > 0 for count in test.counts) < 2 for test in tests):
        raise ValueError("seedlings at one count only: the spread of times cannot be told")
    model = _Model(tests, distribution, [final_fraction and test.ungerminated > 0 for test in tests])
    best = model.best()
    bound = [free and share < AT_BOUND for free, share in zip(model.free, model.split(best.x)[1], strict=True)]
    if bound != model.free:
        model = _Model(tests, distribution, bound)
        best = model.best()
    return model.fit(best.x, -float(best.fun), z_for_confidence(confidence))


class _Model:
    """Parameters: ln e of each test, logit d of each whose final fraction is free (else 1), ln shape."""

    def __init__(self, tests, distribution, free):
        self.tests, self.distribution, self.free = tests, distribution, free

    def best(self):
        return min((self._search(shape) for shape in STARTING_SHAPES), key=lambda found: found.fun)

    def _search(self, shape):
        typical = [_typical_day(test) for test in self.tests]
        shares = [sum(test.counts) / test.seeds for test in self.tests]
        start = [math.log(day) for day in typical]
        start += [float(special.logit(min(share, 0.99))) for share, free in zip(shares, self.free, strict=True) if free]
        start.append(math.log(shape if self.distribution == LOG_LOGISTIC else 1.8 / shape))
        options = {"xatol": 1e-10, "fatol": 1e-12, "maxiter": 20_000, "maxfev": 40_000}
        found = optimize.minimize(self.cost, start, method="Nelder-Mead", options=options)
        return optimize.minimize(self.cost, found.x, method="Nelder-Mead", options=options)

    def split(self, x):
        """(ln e, d, shape) of a parameter vector."""
        count = len(self.tests)
        shares = iter(x[count:-1])
        final = [float(special.expit(next(shares))) if free else 1.0 for free in self.free]
        return x[:count], final, math.exp(min(x[-1], 50.0))

    def share_by(self, days, log_e, shape):
        """Share, of those that ever sprout, that has sprouted by each day."""
        days = np.asarray(days, dtype=float)
        with np.errstate(divide="ignore"):
            log_days = np.log(days)
        if self.distribution == LOG_LOGISTIC:
            return special.expit(shape * (log_days - log_e))
        return special.ndtr((log_days - log_e) / shape)

    def cost(self, x):
        """Minus the log-likelihood."""
        logs, finals, shape = self.split(x)
        total = 0.0
        for test, log_e, final in zip(self.tests, logs, finals, strict=True):
            counts = np.array(test.counts)
            between = self.share_by(test.ends, log_e, shape) - self.share_by(test.starts, log_e, shape)
            chance = np.maximum(final * between[counts > 0], 1e-300)
            total -= float((counts[counts > 0] * np.log(chance)).sum())
            if test.ungerminated:
                left = 1.0 - final * float(self.share_by(test.ends[-1], log_e, shape))
                total -= test.ungerminated * math.log(max(left, 1e-300))
        return total

    def fit(self, x, log_likelihood, z):
        errors = _standard_errors(self.cost, np.asarray(x))
        count = len(self.tests)

        def estimate(i, back):
            error = errors[i]
            low, high = (None, None) if error is None else sorted((back(x[i] - z * error), back(x[i] + z * error)))
            return Estimate(back(x[i]), low, high)

        finals, place = [], count
        for free in self.free:
            finals.append(estimate(place, lambda v: float(special.expit(v))) if free else Estimate(1.0, None, None))
            place += free
        return Fit(self.distribution, tuple(estimate(i, math.exp) for i in range(count)), tuple(finals), estimate(len(x) - 1, math.exp), log_likelihood)


def _typical_day(test):
    """Middle of the interval with the median seedling: a start for the search."""
    half, total = sum(test.counts) / 2, 0
    for start, end, count in zip(test.starts, test.ends, test.counts, strict=True):
        total += count
        if total >= half:
            return (start + end) / 2
    return test.ends[-1]


def _standard_errors(cost, x):
    """Standard errors from the curvature; None for each when the top is flat in some direction."""
    size, step = len(x), 1e-4
    curvature = np.empty((size, size))
    for i in range(size):
        for j in range(i + 1):
            a, b = np.zeros(size), np.zeros(size)
            a[i] += step
            b[j] += step
            curvature[i, j] = curvature[j, i] = (cost(x + a + b) - cost(x + a - b) - cost(x - a + b) + cost(x - a - b)) / (4 * step * step)
    try:
        variances = np.diag(np.linalg.inv(curvature))
    except np.linalg.LinAlgError:
        return [None] * size
    return [math.sqrt(v) if 0 < v < 100 else None for v in variances]
