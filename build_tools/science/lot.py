"""What one count says about the whole lot it was drawn from.

Twin: docs/assets/js/science/lot.js.
"""

from __future__ import annotations

from scipy import special

from build_tools.science.proportions import check_count

JEFFREYS = 0.5


def chance_at_least(k: int, n: int, threshold: float) -> float:
    """Chance that the lot's true fraction is `threshold` or more, after k of n.

    P(p >= threshold) under Beta(k + 1/2, n - k + 1/2): the posterior from the Jeffreys prior
    (Brown, Cai & DasGupta 2001, Statistical Science 16:101). `threshold` is a fraction in 0..1;
    ValueError for an impossible count or threshold.
    """
    check_count(k, n)
    if not 0.0 <= threshold <= 1.0:
        raise ValueError(f"threshold must lie between 0 and 1, got {threshold}")
    return float(special.betaincc(k + JEFFREYS, n - k + JEFFREYS, threshold))


def chance_count_at_least(k: int, n: int, fraction: float) -> float:
    """Chance that a test of n seeds shows k or more when the lot's true fraction is `fraction`.

    The upper binomial tail, through I_p(k, n - k + 1). k may be 0 (always 1) up to n + 1 (never);
    ValueError otherwise.
    """
    if not 0 <= k <= n + 1:
        raise ValueError(f"k must lie between 0 and n + 1, got {k} of {n}")
    if not 0.0 <= fraction <= 1.0:
        raise ValueError(f"fraction must lie between 0 and 1, got {fraction}")
    if k == 0:
        return 1.0
    if k == n + 1:
        return 0.0
    return float(special.betainc(k, n - k + 1, fraction))


def chance_count_at_most(k: int, n: int, fraction: float) -> float:
    """Chance that a test of n seeds shows k or fewer; see `chance_count_at_least`."""
    if not -1 <= k <= n:
        raise ValueError(f"k must lie between -1 and n, got {k} of {n}")
    if not 0.0 <= fraction <= 1.0:
        raise ValueError(f"fraction must lie between 0 and 1, got {fraction}")
    if k == -1:
        return 0.0
    if k == n:
        return 1.0
    return float(special.betaincc(k + 1, n - k, fraction))
