"""Scales: a value to a place in percent of the chart's width, or in pixels of its height."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Linear:
    """low…high → from…to, clipped to the ends."""

    low: float
    high: float
    start: float = 0.0
    end: float = 100.0

    def __call__(self, value: float) -> float:
        share = (min(max(value, self.low), self.high) - self.low) / (self.high - self.low)
        return round(self.start + share * (self.end - self.start), 3)


@dataclass(frozen=True)
class Log:
    """low…high (both above 0) → from…to on a logarithmic scale, clipped to the ends."""

    low: float
    high: float
    start: float
    end: float

    def __call__(self, value: float) -> float:
        return Linear(math.log(self.low), math.log(self.high), self.start, self.end)(math.log(max(value, self.low)))
