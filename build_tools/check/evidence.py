"""How a reference value stands to what is printed about it.

A family is a group of sources that copy one another; it counts once, with the span of its members. Historical and
doubtful sources are shown but do not count while any other does. Nothing is averaged.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from .printed import Printed

TOLERANCE = {"temperature": 0.3, "other": 0.75}  # half-degree rounding; millimetres and years as printed
LEAVES_OPEN = {"cover": ("dark", "either")}  # "cover it" does not say whether darkness matters


@dataclass(frozen=True, slots=True)
class FamilyEvidence:
    """One family's span for a value, and where the value lies: inside, below, above, same, differs."""

    family: str
    printed: tuple[Printed, ...]
    low: float | None
    high: float | None
    choices: tuple[str, ...]
    stands: str
    counts: bool


@dataclass(frozen=True, slots=True)
class Comparison:
    """How a reference value stands to the published families.

    status: agrees | within span | departs | single family | not counted | common practice | from memory | cited only
    """

    status: str
    families: tuple[FamilyEvidence, ...]
    shown: str
    span_text: str


def _span(low, high, unit_digits: int = 1) -> str:
    a, b = f"{low:.{unit_digits}f}".rstrip("0").rstrip("."), f"{high:.{unit_digits}f}".rstrip("0").rstrip(".")
    return a if a == b else f"{a} to {b}"


def _families(value: dict, printed: Sequence[Printed], tolerance: float) -> tuple[FamilyEvidence, ...]:
    groups: dict[tuple[str, bool], list[Printed]] = defaultdict(list)
    for item in printed:
        groups[item.family, item.counts].append(item)
    families = []
    for (family, counts), items in groups.items():
        if "choice" in value:
            choices = tuple(sorted({i.choice for i in items if i.choice}))
            same = any(value["choice"] == c or value["choice"] in LEAVES_OPEN.get(c, ()) for c in choices)
            families.append(FamilyEvidence(family, tuple(items), None, None, choices, "same" if same else "differs", counts))
            continue
        low, high = min(i.low for i in items), max(i.high for i in items)
        a, b = value.get("low", value.get("value")), value.get("high", value.get("value"))
        stands = "below" if b < low - tolerance else "above" if a > high + tolerance else "inside"
        families.append(FamilyEvidence(family, tuple(items), low, high, (), stands, counts))
    return tuple(sorted(families, key=lambda f: (not f.counts, f.family)))


def compare(value: dict, printed: Sequence[Printed]) -> Comparison:
    """Compare one reference value (a mapping of a crop file) with what is printed about it."""
    temperature = any("°" in item.as_printed for item in printed)
    families = _families(value, printed, TOLERANCE["temperature" if temperature else "other"])
    counted = [f for f in families if f.counts] or list(families)
    if "choice" in value:
        shown = value["choice"]
        span = ", ".join(sorted({c for f in counted for c in f.choices}))
        inside = [f for f in counted if f.stands == "same"]
        outside = not inside
    else:
        a, b = value.get("low", value.get("value")), value.get("high", value.get("value"))
        shown = _span(a, b)
        low, high = min((f.low for f in counted), default=a), max((f.high for f in counted), default=b)
        span = _span(low, high)
        inside = [f for f in counted if f.stands == "inside"]
        tolerance = TOLERANCE["temperature" if temperature else "other"]
        outside = b < low - tolerance or a > high + tolerance
    sources = set(value["sources"])
    if not counted:
        word = next((w for w in ("from memory", "common practice") if sources == {w}), None)
        status = word or ("common practice" if "common practice" in sources else "cited only")
    elif outside:
        status = "departs"
    elif not any(f.counts for f in counted):
        status = "not counted"
    elif len(counted) == 1:
        status = "single family"
    else:
        status = "agrees" if len(inside) == len(counted) else "within span"
    return Comparison(status, families, shown, span)
