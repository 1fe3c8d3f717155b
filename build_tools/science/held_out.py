"""How far models of days to emergence miss a temperature that they have not seen.

Each inner temperature of each row with four measured ones or more is left out in turn, the model fitted to the rest and
asked for it. The gap is then twice as wide as in use, so the errors in use are smaller. Build time only.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from build_tools.science.emergence import days_curve, smooth_curve

FEWEST_POINTS = 4
Points = Sequence[tuple[float, float]]


def _pchip_of_rate(t, days):
    curve = smooth_curve(t, 1.0 / np.asarray(days))
    return lambda celsius: 1.0 / curve(celsius)


def thermal_time(t: Sequence[float], days: Sequence[float]) -> tuple[float, float]:
    """(base temperature °C, degree-days) of the straight line rate = (T - base)/degree-days through the points up to the fastest.

    Least squares on 1/days. Raises ValueError for fewer than two such points.
    """
    rate = 1.0 / np.asarray(days, dtype=float)
    rising = int(np.argmax(rate)) + 1
    if rising < 2:
        raise ValueError("fewer than two temperatures up to the fastest")
    slope, start = np.polyfit(np.asarray(t, dtype=float)[:rising], rate[:rising], 1)
    return float(-start / slope), float(1.0 / slope)


def _thermal_time_curve(t, days):
    base, degree_days = thermal_time(t, days)
    fastest = t[int(np.argmin(days))]
    return lambda celsius: degree_days / max(1e-9, min(celsius, fastest) - base)


MODELS: dict[str, Callable] = {
    "Smooth curve (PCHIP) through the logarithm of days": days_curve,
    "Straight lines through the rate, 1/days": lambda t, d: lambda c: 1.0 / np.interp(c, t, 1.0 / np.asarray(d)),
    "Smooth curve (PCHIP) through the rate": _pchip_of_rate,
    "Thermal time: rate rises straight from a base temperature to the fastest": _thermal_time_curve,
    "Straight lines through the logarithm of days": lambda t, d: lambda c: np.exp(np.interp(c, t, np.log(d))),
    "Straight lines through days": lambda t, d: lambda c: np.interp(c, t, d),
}


def held_out_pairs(rows: Sequence[Points], model: Callable) -> list[tuple[float, float]]:
    """(printed, predicted) for each inner point of each row with FEWEST_POINTS or more; rows are (°C, value) from cold to warm."""
    pairs = []
    for points in rows:
        if len(points) < FEWEST_POINTS:
            continue
        for index in range(1, len(points) - 1):
            rest = [*points[:index], *points[index + 1:]]
            celsius, printed = points[index]
            pairs.append((printed, float(model(*zip(*rest, strict=True))(celsius))))
    return pairs


def errors(pairs: Sequence[tuple[float, float]]) -> dict[str, float]:
    """Errors of days: {"n", "factor": typical (root mean square of ln), "median_factor", "nine_in_ten": factor, "mean_days"}."""
    printed, predicted = np.asarray(pairs, dtype=float).T
    logs = np.abs(np.log(predicted / printed))
    return {
        "n": len(pairs),
        "factor": float(np.exp(np.sqrt(np.mean(logs**2)))),
        "median_factor": float(np.exp(np.median(logs))),
        "nine_in_ten": float(np.exp(np.quantile(logs, 0.9))),
        "mean_days": float(np.mean(np.abs(predicted - printed))),
    }


def point_errors(pairs: Sequence[tuple[float, float]]) -> dict[str, float]:
    """Errors of percentages in points: {"n", "median", "nine_in_ten"}."""
    printed, predicted = np.asarray(pairs, dtype=float).T
    misses = np.abs(predicted - printed)
    return {"n": len(pairs), "median": float(np.median(misses)), "nine_in_ten": float(np.quantile(misses, 0.9))}
