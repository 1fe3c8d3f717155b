"""Times and amounts of treatments: what is done when, how much of what, and for what it is not."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True)
class Span:
    """How long: `low` is None where only a longest time is given; `in_all` counts from the start of the list.

    unit: minutes | hours | days | weeks | months
    """

    low: float | None
    high: float
    unit: str
    in_all: bool = False


@dataclass(frozen=True)
class TimedStep:
    """One step: what to do, and how long it lasts until the next.

    At most one of `lasts`, `from_table` (warming | bath, of the crop's hot-water table) and `until` (last-count) is set;
    none at the last step. `at_c` is (lowest, highest) °C, the highest None for "at least"; `look_every` is (fewest, most) days.
    """

    label: str
    text: str
    lasts: Span | None
    from_table: str | None
    until: str | None
    at_c: tuple[float, float | None] | None
    look_every: tuple[int, int] | None
    sources: tuple[str, ...]


@dataclass(frozen=True)
class Way:
    """One way of doing a treatment. `crops` are those it is for; empty: any that no other way names."""

    id: str
    name: str
    crops: tuple[str, ...]
    without_crop: bool
    steps: tuple[TimedStep, ...]
    note: str


@dataclass(frozen=True)
class NotFor:
    """Crops, or a state of seed (treated | coated | primed | old), that the treatment is not for, and why."""

    crops: tuple[str, ...]
    seed: str | None
    text: str
    sources: tuple[str, ...]


@dataclass(frozen=True)
class Times:
    """All of it for one treatment. `reason` is (text, sources) where no times are given, else None."""

    ways: tuple[Way, ...]
    amounts: Mapping[str, Mapping[str, object]]
    not_for: tuple[NotFor, ...]
    counts_as: tuple[str, ...]
    reason: tuple[str, tuple[str, ...]] | None


def times_of(data: Mapping) -> Times:
    """From the mapping of a checked treatment file."""
    reason = data.get("no_recipe")
    return Times(
        tuple(_way(way) for way in data.get("times", ())),
        MappingProxyType({key: MappingProxyType(dict(value)) for key, value in data.get("amounts", {}).items()}),
        tuple(NotFor(tuple(e.get("crops", ())), e.get("seed"), e["text"], tuple(e["sources"])) for e in data.get("not_for", ())),
        tuple(data.get("counts_as", ())),
        (reason["text"], tuple(reason["sources"])) if reason else None,
    )


def _way(data: Mapping) -> Way:
    return Way(data["id"], data["name"], tuple(data.get("crops", ())), bool(data.get("without_crop")), tuple(_step(step) for step in data["steps"]), data.get("note", ""))


def _step(data: Mapping) -> TimedStep:
    lasts, at, look = data.get("lasts"), data.get("at_c"), data.get("look_every")
    return TimedStep(
        data["label"], data["text"],
        Span(lasts.get("low"), lasts["high"], lasts["unit"], bool(lasts.get("in_all"))) if lasts else None,
        data.get("from_table"), data.get("until"),
        (at["low"], at.get("high")) if at else None,
        (look["low"], look["high"]) if look else None,
        tuple(data["sources"]),
    )
