"""Rows for whatever shows many crops at once: comparing pages, charts to explore, posters, cards. One row a crop, by name."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..model.reference import Cell, Crop, Reference
from .calculators.warmth import usual_days
from .charts.bands import reference_parts


@dataclass(frozen=True)
class BandRow:
    """Soil temperatures of one crop, °C, None where none is published. `parts` as in charts/bands.py: {part, low, high}, cold to hot."""

    crop: Crop
    minimum: float | None
    best_low: float | None
    best_high: float | None
    optimum: float | None
    maximum: float | None
    parts: tuple[dict, ...]

    @property
    def known(self) -> bool:
        return any(v is not None for v in (self.minimum, self.best_low, self.optimum, self.maximum))

    @property
    def drawn(self) -> list[dict]:
        """The parts to draw beside other crops: {part, low, high}, °C, cold to hot.

        Where no best range is published, none is drawn around the optimum: what lies between minimum and maximum is then
        one plain part, "between".
        """
        if self.best_low is not None:
            return list(self.parts)
        parts = [part for part in self.parts if part["part"] == "cold"]
        if self.minimum is not None and self.maximum is not None:
            parts.append({"part": "between", "low": self.minimum, "high": self.maximum})
        return parts + [part for part in self.parts if part["part"] == "hot"]


@dataclass(frozen=True)
class DaysRow:
    """Days to emergence of one crop: `cells` of its first measured table, cold to warm (none: not measured), and `usual` as advised.

    `usual` as in calculators/warmth.py: {low, high, low_c, high_c, source}; days, °C.
    """

    crop: Crop
    cells: tuple[Cell, ...]
    source: str | None
    usual: tuple[dict, ...]


@dataclass(frozen=True)
class LifeRow:
    """Seed life of one crop in years: the reference value, and the span over the independent families that count; None when unknown."""

    crop: Crop
    low: float | None
    high: float | None
    span_low: float | None
    span_high: float | None
    families: int

    @property
    def known(self) -> bool:
        return self.low is not None


def by_name(reference: Reference, crops: Iterable[str] | None = None) -> list[Crop]:
    """The crops of these ids (all when None), in order of names."""
    chosen = reference.crops.values() if crops is None else (reference.crops[c] for c in crops)
    return sorted(chosen, key=lambda crop: (crop.name.casefold(), crop.id))


def band_row(crop: Crop) -> BandRow:
    """The reference band of a crop."""
    return BandRow(crop, *(crop[q].low for q in ("minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c")), tuple(reference_parts(crop)))


def sow_from(reference: Reference, crop: Crop) -> tuple[float | None, bool]:
    """(°C of soil from which to sow, whether that is the trade's rule for warm-season crops and not the published minimum)."""
    least, warm = crop["minimum_c"].low, float(reference.practice["warm_season_soil_c"]["value"])
    by_rule = least is not None and crop["season"].choice == "warm" and least < warm
    return (warm if by_rule else least), by_rule


def days_row(reference: Reference, crop: Crop) -> DaysRow:
    """Measured and usual days of a crop."""
    measured = crop.days[0] if crop.days else None
    cells = tuple(cell for cell in measured.cells if cell.state != "blank") if measured else ()
    return DaysRow(crop, cells, measured.source if measured else None, tuple(usual_days(reference, crop)))


def life_row(crop: Crop) -> LifeRow:
    """Seed life of a crop."""
    judged = crop["seed_life_years"]
    counted = [f for f in judged.families if f.counts and f.low is not None]
    return LifeRow(crop, judged.low, judged.high, min((f.low for f in counted), default=None), max((f.high for f in counted), default=None), len(counted))


def tested_temperatures(rows: Iterable[DaysRow]) -> list[float]:
    """Every temperature (°C) at which days of any of these crops are printed, cold to warm."""
    return sorted({cell.celsius for row in rows for cell in row.cells})
