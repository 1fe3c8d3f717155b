"""How many seeds to test: for a range of a wanted width, or to tell a good lot from a bad one.

Twin: docs/assets/js/science/plans.js.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from build_tools.science.lot import chance_count_at_least, chance_count_at_most
from build_tools.science.proportions import z_for_confidence

# A plan that needs more seeds than this is no plan for a seed library.
MOST_SEEDS = 2000
GROUP = 10
# Keeps a limit that is met exactly from being missed by rounding.
ALLOWANCE = 1e-9


def seeds_for_half_width(half_width: float, fraction: float, confidence: float) -> int:
    """Seeds to test so that the percentage is known to within `half_width` either way.

    n = z² p (1 - p) / h², rounded up, for a lot at `fraction`; `half_width` and `fraction` lie
    strictly between 0 and 1. ValueError otherwise. Source: the usual normal approximation, in any
    handbook of sampling.
    """
    if not 0.0 < half_width < 1.0 or not 0.0 < fraction < 1.0:
        raise ValueError(f"half width and fraction must lie between 0 and 1, got {half_width}, {fraction}")
    z = z_for_confidence(confidence)
    return max(1, math.ceil(z * z * fraction * (1.0 - fraction) / half_width**2 - ALLOWANCE))


def check_question(good: float, bad: float, turned_away: float, passed: float) -> None:
    """Raise ValueError unless 0 < bad < good < 1 and both error rates lie above 0 and below one half."""
    if not 0.0 < bad < good < 1.0:
        raise ValueError(f"a good lot must lie above a bad one, both between 0 and 1, got {good} and {bad}")
    if not (0.0 < turned_away < 0.5 and 0.0 < passed < 0.5):
        raise ValueError(f"error rates must lie between 0 and 0.5, got {turned_away} and {passed}")


def fixed_plan(good: float, bad: float, turned_away: float, passed: float) -> dict | None:
    """Smallest test that tells a good lot from a bad one: {"seeds", "accept_at"}; exact binomial.

    A lot passes when `accept_at` seedlings or more come up. A lot at `good` is turned away with
    chance `turned_away` at most, one at `bad` passes with chance `passed` at most. None above
    MOST_SEEDS. ValueError as in `check_question`.
    """
    check_question(good, bad, turned_away, passed)
    most_passed, most_turned_away = passed * (1.0 + ALLOWANCE), turned_away * (1.0 + ALLOWANCE)
    accept_at = 1
    for seeds in range(1, MOST_SEEDS + 1):
        # One more seed never lowers the count at which bad lots are kept out.
        while chance_count_at_least(accept_at, seeds, bad) > most_passed:
            accept_at += 1
        if accept_at <= seeds and chance_count_at_most(accept_at - 1, seeds, good) <= most_turned_away:
            return {"seeds": seeds, "accept_at": accept_at}
    return None


def sequential_lines(dead_good: float, dead_bad: float, turned_away: float, passed: float) -> dict:
    """Wald's two lines for the dead seeds d among n: accept at d <= s n - h1, flag at d >= s n + h2.

    Returns {"slope": s, "accept": h1, "flag": h2}. Source: Wald 1947, Sequential Analysis, as in
    the NIST/SEMATECH e-Handbook of Statistical Methods, 6.2.6.
    """
    check_question(1.0 - dead_good, 1.0 - dead_bad, turned_away, passed)
    k = math.log(dead_bad * (1.0 - dead_good) / (dead_good * (1.0 - dead_bad)))
    return {
        "slope": math.log((1.0 - dead_good) / (1.0 - dead_bad)) / k,
        "accept": math.log((1.0 - turned_away) / passed) / k,
        "flag": math.log((1.0 - passed) / turned_away) / k,
    }


def sequential_plan(good: float, bad: float, turned_away: float, passed: float, groups: int) -> list[dict]:
    """Table-top plan in groups of ten: [{"seeds", "accept", "flag"}], dead seeds so far.

    `accept`: pass with so many dead or fewer; `flag`: flag with so many or more; None where that
    can't happen yet. Between the two, test another ten; after the last group the lot stays in
    between. `groups` is 1 to 50.
    """
    if not 1 <= groups <= 50:
        raise ValueError(f"groups must be 1 to 50, got {groups}")
    lines = sequential_lines(1.0 - good, 1.0 - bad, turned_away, passed)
    plan = []
    for seeds in range(GROUP, GROUP * groups + 1, GROUP):
        accept = math.floor(lines["slope"] * seeds - lines["accept"] + ALLOWANCE)
        flag = math.ceil(lines["slope"] * seeds + lines["flag"] - ALLOWANCE)
        plan.append({
            "seeds": seeds,
            "accept": accept if accept >= 0 else None,
            "flag": flag if flag <= seeds else None,
        })
    return plan


def operating_characteristic(plan: Sequence[dict], fraction: float) -> dict:
    """What a sequential plan does with a lot at `fraction`: {"accept", "flag", "between", "mean_seeds"}.

    The first three are chances and add up to 1; `mean_seeds` is the average number tested. Exact:
    the dead of each group are binomial, and lots already decided are taken out.
    """
    if not 0.0 <= fraction <= 1.0:
        raise ValueError(f"fraction must lie between 0 and 1, got {fraction}")
    dead_in_group = [math.comb(GROUP, d) * (1.0 - fraction) ** d * fraction ** (GROUP - d) for d in range(GROUP + 1)]
    going = [1.0]  # chance to be still undecided with 0, 1, 2 … dead
    accept = flag = mean = 0.0
    for step in plan:
        mean += GROUP * sum(going)
        after = [0.0] * (len(going) + GROUP)
        for dead, chance in enumerate(going):
            for more, share in enumerate(dead_in_group):
                after[dead + more] += chance * share
        for dead, chance in enumerate(after):
            if step["accept"] is not None and dead <= step["accept"]:
                accept += chance
                after[dead] = 0.0
            elif step["flag"] is not None and dead >= step["flag"]:
                flag += chance
                after[dead] = 0.0
        going = after
    return {"accept": accept, "flag": flag, "between": sum(going), "mean_seeds": mean}
