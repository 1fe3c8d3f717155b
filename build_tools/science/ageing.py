"""What to expect of seed by its age, joined with a test, and when to test again.

The expectation is our own rule, built from published parts: a normal curve of ageing (the form of
Ellis & Roberts 1980) through two points, the percentage of new seed and that at the end of the
published seed life. Twin: docs/assets/js/science/ageing.js.
"""

from __future__ import annotations

import math

from scipy import special

from build_tools.science.proportions import check_count, normal_quantile

# The curve is kept off 0 and 1, where a beta prior would be no prior.
LEAST, MOST = 0.02, 0.98


def probits_per_year(life_years: float, fresh: float, at_life_end: float) -> float:
    """Ageing in probits a year: from `fresh` to `at_life_end` (fractions, fresh above) in `life_years`."""
    if not life_years > 0 or not 0.0 < at_life_end < fresh < 1.0:
        raise ValueError(f"need a life above 0 and 0 < end < fresh < 1, got {life_years}, {at_life_end}, {fresh}")
    return (normal_quantile(fresh) - normal_quantile(at_life_end)) / life_years


def expected_fraction(age_years: float, life_years: float, fresh: float, at_life_end: float) -> float:
    """Expected germination of seed `age_years` old, a fraction kept within LEAST..MOST.

    Φ(Φ⁻¹(fresh) - slope · age). `life_years` is the seed life for the store at hand.
    """
    if age_years < 0:
        raise ValueError(f"age must be 0 or more, got {age_years}")
    slope = probits_per_year(life_years, fresh, at_life_end)
    return min(MOST, max(LEAST, float(special.ndtr(normal_quantile(fresh) - slope * age_years))))


def update(expected: float, worth: float, k: int, n: int) -> tuple[float, float]:
    """Beta parameters (a, b) after a test: prior Beta(expected·worth, (1 - expected)·worth) plus k of n.

    `worth` is how many seeds the expectation weighs, above 0; n may be 0 (no test yet).
    """
    if not 0.0 < expected < 1.0 or not worth > 0:
        raise ValueError(f"need an expectation between 0 and 1 and a worth above 0, got {expected}, {worth}")
    if n or k:
        check_count(k, n)
    return expected * worth + k, (1.0 - expected) * worth + n - k


def beta_summary(a: float, b: float, confidence: float) -> dict:
    """{"mean", "sd", "low", "high"} of Beta(a, b); low and high leave out equal tails."""
    if not (a > 0 and b > 0) or not 0.0 < confidence < 1.0:
        raise ValueError(f"impossible beta {a}, {b} or confidence {confidence}")
    tail = (1.0 - confidence) / 2.0
    return {
        "mean": a / (a + b),
        "sd": math.sqrt(a * b / (a + b + 1.0)) / (a + b),
        "low": float(special.betaincinv(a, b, tail)),
        "high": float(special.betainccinv(a, b, tail)),
    }


def chance_above(a: float, b: float, line: float) -> float:
    """P(fraction >= line) under Beta(a, b)."""
    if not 0.0 <= line <= 1.0:
        raise ValueError(f"line must lie between 0 and 1, got {line}")
    return float(special.betaincc(a, b, line))


def years_until(fraction: float, line: float, slope: float) -> float:
    """Years until a lot at `fraction` has aged to `line`, at `slope` probits a year; 0 when already there."""
    if not 0.0 < line < 1.0 or not slope > 0:
        raise ValueError(f"need a line between 0 and 1 and a slope above 0, got {line}, {slope}")
    within = min(MOST, max(LEAST, fraction))
    return max(0.0, (normal_quantile(within) - normal_quantile(line)) / slope)


def months_to_next_test(years_to_line: float, least: int, most: int) -> int:
    """Whole months until the next test: a third of the time to the line, within `least`..`most`.

    A third of the predicted time: FAO Genebank Standards 2014, 4.3.3 (from memory), there for the
    fall to 85 % of the first test.
    """
    return min(most, max(least, math.floor(years_to_line * 12.0 / 3.0)))
