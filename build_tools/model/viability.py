"""What is published on the life of stored seed: constants of the viability equation, its limits, rules of thumb."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ..check.tables import doubts_of, tables_of
from ..read import DataTree

# Facts shown beside the rules of thumb, by their topic in the tables of facts.
TOPICS = (
    "harrington moisture", "harrington temperature f", "sum rule", "half life", "ideal moisture", "desiccant", "drying limit", "insects",
    "freezing safe moisture", "fridge not freezer", "freezer", "freezer life",
)
FIRST_HAND = "measured"


@dataclass(frozen=True)
class ViabilityConstants:
    """One published row: log10 of the days a probit takes is ke - cw·log10(moisture, % fresh weight) - ch·°C - cq·°C².

    `single_temperature`: one storage temperature was tested, ch and cq are the universal values of `Viability`.
    `doubt`: why the row is not to be used; empty for a sound one.
    """

    source: str
    file: str
    line: int
    kind_as_printed: str
    single_temperature: bool
    ke: float
    cw: float
    ch: float
    cq: float
    reference: str
    note: str
    doubt: str


@dataclass(frozen=True)
class Span:
    """From low to high, with the source that states it."""

    low: float
    high: float
    source: str


@dataclass(frozen=True)
class Limits:
    """Within which the equation and the step from humidity to moisture are stated: °C, % of fresh weight, % humidity."""

    celsius: Span
    moisture: Span
    starchy_celsius: Span
    oily_celsius: Span
    humidity: Span
    upper_moisture: Mapping[str, Span]


@dataclass(frozen=True)
class RulesOfThumb:
    """Harrington's rules: life doubles for each so many % of moisture and °F less; the sum of °F and % humidity; ice."""

    moisture_points: float
    fahrenheit: float
    source: str
    sum_limit: float
    sum_source: str
    freezing_moisture: float


@dataclass(frozen=True)
class StorageFact:
    topic: str
    fact: str
    note: str
    source: str


@dataclass(frozen=True)
class Viability:
    """Constants by crop id, best known first; limits and rules are None in a reference without such tables."""

    constants: Mapping[str, tuple[ViabilityConstants, ...]]
    limits: Limits | None
    rules: RulesOfThumb | None
    facts: tuple[StorageFact, ...]

    def usable(self, crop_id: str) -> tuple[ViabilityConstants, ...]:
        """The rows of a crop that may be computed with; doubtful ones only beside a sound one, to show how far they lie apart."""
        rows = self.constants.get(crop_id, ())
        return rows if any(not row.doubt for row in rows) else ()


def viability(tree: DataTree) -> Viability:
    """All of it from a data tree."""
    facts = _facts(tree)
    return Viability(MappingProxyType(_constants(tree)), _limits(tree), _rules(facts), tuple(StorageFact(f["topic"], f["fact"], f["note"], source) for source, f in facts))


def _constants(tree: DataTree) -> dict[str, tuple[ViabilityConstants, ...]]:
    found = defaultdict(list)
    for source, entry, table in tables_of(tree, "viability-constants"):
        for row in table.rows:
            if not all(row[name] for name in ("KE", "CW", "CH", "CQ")):
                continue
            doubts = doubts_of(entry, table, row).values()
            fields = tree.sources[source].document.data
            constants = ViabilityConstants(
                source, table.file, row.line, row["crop_as_printed"], row["single_temperature"] == "yes",
                *(float(row[name]) for name in ("KE", "CW", "CH", "CQ")),
                row["reference_as_printed"] or f"{fields.get('authors', '')}, {fields['year']}", row["note"] or ("" if row["reference_as_printed"] else f"read in {fields['copy_read']}"), " ".join(f"{d['column']} {d['printed']}: {d['why']}" for d in doubts),
            )
            for crop in filter(None, row["crop_id"].split(";")):
                found[crop].append(constants)
    # First a sound row, tested at several temperatures, read in the paper's own words; else in the order of the tables.
    rank = {s: tree.sources[s].document.data["evidence"] != FIRST_HAND for s in tree.sources}
    return {crop: tuple(sorted(rows, key=lambda r: (bool(r.doubt), r.single_temperature, rank[r.source]))) for crop, rows in found.items()}


def _limits(tree: DataTree) -> Limits | None:
    cells = {row["name"]: (row["value"], source) for source, _, table in tables_of(tree, "viability-equations") for row in table.rows}
    wanted = ("valid_temperature", "valid_moisture", "cromarty_validity_starchy", "cromarty_validity_oily")
    if not all(name in cells for name in wanted):
        return None
    temperature, moisture, starchy, oily = ([Span(low, high, cells[name][1]) for low, high in _spans(cells[name][0])] for name in wanted)
    upper = {
        name.removesuffix("_upper_moisture"): Span(0.0, float(value), source)
        for name, (value, source) in cells.items() if name.endswith("_upper_moisture")
    }
    humidity = Span(max(starchy[1].low, oily[1].low), min(starchy[1].high, oily[1].high), starchy[1].source)
    return Limits(temperature[0], moisture[0], starchy[0], oily[0], humidity, MappingProxyType(upper))


def _spans(text: str) -> list[tuple[float, float]]:
    """The ranges in a text: "0-40 C; 10-70 % RH", "-20 to 90"."""
    return [(float(low), float(high)) for low, high in re.findall(r"(-?\d+(?:\.\d+)?)(?:-| to )(\d+(?:\.\d+)?)", text)]


def _facts(tree: DataTree) -> list[tuple[str, dict[str, str]]]:
    """(source, row) of the facts on storage, in the order of TOPICS."""
    rows = [
        (source, {column: row[column] for column in ("topic", "fact", "value", "note")})
        for source, _, table in tables_of(tree, "facts") for row in table.rows if row["topic"] in TOPICS
    ]
    return sorted(rows, key=lambda pair: TOPICS.index(pair[1]["topic"]))


def _rules(facts: list[tuple[str, dict[str, str]]]) -> RulesOfThumb | None:
    first = {}
    for source, row in facts:
        first.setdefault(row["topic"], (source, [float(v) for v in re.findall(r"\d+(?:\.\d+)?", row["value"])]))
    wanted = ("harrington moisture", "harrington temperature f", "sum rule", "freezing safe moisture")
    if not all(topic in first for topic in wanted):
        return None
    moisture, fahrenheit, total, ice = (first[topic] for topic in wanted)
    return RulesOfThumb(moisture[1][1], fahrenheit[1][1], moisture[0], total[1][0], total[0], ice[1][0])
