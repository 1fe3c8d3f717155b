"""How long stored seed lives: the seed viability equation, moisture by humidity, and Harrington's rules of thumb.

v = Ki - p/σ, log10 σ = KE - CW·log10 m - CH·t - CQ·t² (Ellis & Roberts 1980, Annals of Botany 45:13, read in a
course page): v and Ki the viable fraction in probits at the end and at the start, p days, σ the days in which
viability falls by one probit, m moisture in % of fresh weight, t °C. The limits within which the equation was found
to hold stand in the data; whoever calls these functions keeps to them. Twin: docs/assets/js/science/viability.js.
"""

from __future__ import annotations

import math

from scipy import special

from build_tools.science.proportions import check_count, normal_quantile

DAYS_PER_YEAR = 365.25
# Moisture, % of fresh weight, and temperature within which Harrington's rules are usually said to hold (from memory).
HARRINGTON_DRIEST = 5.0
HARRINGTON_DAMPEST = 14.0
HARRINGTON_COLDEST_C = 0.0
HARRINGTON_HOTTEST_C = 50.0


def fresh_basis(dry_percent: float) -> float:
    """Moisture in % of dry weight (0 or more) as % of fresh weight: 100 d / (100 + d), by definition."""
    if not dry_percent >= 0:
        raise ValueError(f"moisture must be 0 or more, got {dry_percent}")
    return 100.0 * dry_percent / (100.0 + dry_percent)


def dry_basis(fresh_percent: float) -> float:
    """Moisture in % of fresh weight (0 to below 100) as % of dry weight: 100 w / (100 - w), by definition."""
    if not 0 <= fresh_percent < 100:
        raise ValueError(f"moisture must lie between 0 and 100 % of fresh weight, got {fresh_percent}")
    return 100.0 * fresh_percent / (100.0 - fresh_percent)


def _per_dry_point(celsius: float, oil: float) -> float:
    if not 0 <= oil < 1 or not -90 < celsius < 90:
        raise ValueError(f"need an oil content from 0 to below 1 and a temperature of -90 to 90 °C, got {oil}, {celsius}")
    return (1.1 + celsius / 90.0) / (1.0 - oil)


def equilibrium_moisture(humidity: float, celsius: float, oil: float) -> float:
    """Moisture, % of fresh weight, of seed in balance with air of that relative humidity and temperature.

    (1 - R) = exp(-[Me (1.1 + T/90)/(1 - Do)]²/440) solved for Me, % of dry weight (Cromarty, Ellis & Roberts 1982, read
    in web copies). `humidity` R and `oil` Do, the oil content of dry seed, are fractions in 0..1 (both below 1).
    """
    if not 0 <= humidity < 1:
        raise ValueError(f"relative humidity must lie between 0 and 1, got {humidity}")
    return fresh_basis(math.sqrt(-440.0 * math.log1p(-humidity)) / _per_dry_point(celsius, oil))


def equilibrium_humidity(fresh_percent: float, celsius: float, oil: float) -> float:
    """Relative humidity, a fraction, of air in balance with seed of that moisture: equilibrium_moisture turned round."""
    return -math.expm1(-((dry_basis(fresh_percent) * _per_dry_point(celsius, oil)) ** 2) / 440.0)


def probit_days(moisture: float, celsius: float, ke: float, cw: float, ch: float, cq: float) -> float:
    """σ: days in which viability falls by one probit. `moisture` in % of fresh weight, above 0 and below 100."""
    if not 0 < moisture < 100:
        raise ValueError(f"moisture must lie between 0 and 100 %, got {moisture}")
    return 10.0 ** (ke - cw * math.log10(moisture) - ch * celsius - cq * celsius * celsius)


def days_between(start: float, end: float, sigma: float) -> float:
    """Days in which viability falls from `start` to `end` (fractions strictly between 0 and 1, end not above)."""
    if not 0 < end <= start < 1 or not sigma > 0:
        raise ValueError(f"need 0 < end <= start < 1 and a sigma above 0, got {start}, {end}, {sigma}")
    return (normal_quantile(start) - normal_quantile(end)) * sigma


def probits_now(k: int, n: int, confidence: float) -> dict:
    """{"low", "mid", "high"}: the probit of the viable fraction after a test of k in n.

    The fraction follows Beta(k + ½, n - k + ½) (Jeffreys). The probit rises with it, so quantiles map to quantiles
    exactly: low and high leave out equal tails, mid is the median. When none or all came up, mid is the
    probit of (k + ½)/(n + 1) instead: the median would lie nearer to 0 or 1 than so few seeds can say.
    """
    check_count(k, n)
    if not 0.0 < confidence < 1.0:
        raise ValueError(f"confidence must lie between 0 and 1, got {confidence}")
    tail = (1.0 - confidence) / 2.0
    good, bad = k + 0.5, n - k + 0.5
    mid = _beta_probit(good, bad, 0.5) if 0 < k < n else normal_quantile(good / (n + 1.0))
    return {"low": _beta_probit(good, bad, tail), "mid": mid, "high": -_beta_probit(bad, good, tail)}


def _beta_probit(a: float, b: float, probability: float) -> float:
    """Probit of a beta quantile; near 1 by way of its complement, which keeps the digits."""
    x = float(special.betaincinv(a, b, probability))
    return normal_quantile(x) if x <= 0.5 else -normal_quantile(float(special.betainccinv(b, a, probability)))


def after_storage(k: int, n: int, confidence: float, days: float, sigma: float) -> dict:
    """{"low", "mid", "high"}: viable fraction `days` after a test of k in n, in a store with that sigma (days).

    Only the uncertainty of the test is in the range, not that of the equation or its constants.
    """
    if not days >= 0 or not sigma > 0:
        raise ValueError(f"need days of 0 or more and a sigma above 0, got {days}, {sigma}")
    return {end: float(special.ndtr(z - days / sigma)) for end, z in probits_now(k, n, confidence).items()}


def days_until(k: int, n: int, confidence: float, line: float, sigma: float) -> dict:
    """{"low", "mid", "high"}: days until the lot has fallen to `line` (fraction); 0 where it is there already."""
    if not 0 < line < 1 or not sigma > 0:
        raise ValueError(f"need a line between 0 and 1 and a sigma above 0, got {line}, {sigma}")
    at_line = normal_quantile(line)
    return {end: max(0.0, (z - at_line) * sigma) for end, z in probits_now(k, n, confidence).items()}


def doublings(from_value: float, to_value: float, step: float) -> float:
    """How many times as long seed keeps by a rule of thumb: life doubles for each `step` less (°C, or % moisture).

    Harrington's rules (University of Washington EHUF 473, read): 10 °F cooler, 1 % drier. Above 1 when `to_value` is lower.
    """
    if not step > 0:
        raise ValueError(f"step must be above 0, got {step}")
    return 2.0 ** ((from_value - to_value) / step)
