"""A value that a guide takes in: how it reads, where it leads, and what kind of number it is."""

from __future__ import annotations

from dataclasses import dataclass, replace

from markupsafe import Markup

from ...model.guides import FIGURES_FILE, Figure
from ...model.reference import Crop, Reference
from ...science.dilution import US_CUP_ML, US_TABLESPOON_ML, nearest_part
from ...science.seed_mass import GRAMS_PER_OUNCE, ounces
from ...units import inches, number, round_half_up, span
from .. import wording
from ..correct_links import VOCABULARY

F_IN_C = 1.8
TEASPOON_ML, TABLESPOON_ML, CUP_ML = US_TABLESPOON_ML / 3, US_TABLESPOON_ML, US_CUP_ML  # NIST Handbook 44
MM_PER_CM = 10
ONE = {"hours": "hour", "days": "day", "weeks": "week", "months": "month", "years": "year", "minutes": "minute", "seeds": "seed", "parts": "part", "points": "point", "times": "times"}
PART_OF = {  # of a crop page, by quantity
    "season": "warmth", "minimum_c": "warmth", "optimum_low_c": "warmth", "optimum_high_c": "warmth", "optimum_c": "warmth", "maximum_c": "warmth", "best": "warmth",
    "sowing_depth_mm": "depth", "light": "depth", "seed_life_years": "seed-life",
}
QUARTERS = {0.25: "¼", 0.5: "½", 0.75: "¾"}


@dataclass(frozen=True)
class Taken:
    """A value as a guide shows it: its words, the address of its evidence, its name, what kind of number it is, its sources, its place in the data."""

    words: Markup | str
    address: str
    name: str
    kind: str
    sources: tuple[str, ...]
    file: str
    line: int
    crop: str = ""
    quantity: str = ""


def taken(reference: Reference, names: tuple[str, ...], up: str) -> Taken:
    """The value of one name, or the range from the first to the second. KeyError for a name that the checks would have refused."""
    parts = [_one(reference, name) for name in names]
    (low, _, unit, first), (_, high, _, _) = parts[0], parts[-1]
    if isinstance(low, str):
        return _with(first, low, up)
    return _with(first, in_words(low, high, unit), up)


def _with(found: Taken, words, up: str) -> Taken:
    return replace(found, words=words, address=up + found.address)


def _one(reference: Reference, name: str) -> tuple[float | str, float | str, str, Taken]:
    """(low, high, unit, what is known of it); text for a choice."""
    owner, dot, key = name.partition(".")
    if not dot:
        entry = reference.practice[name]
        value = float(entry["value"])
        unit = _unit_of_practice(name, str(entry["unit"]))
        kind = "common practice" if entry["sources"] == ["common practice"] else "a rule of the trade"
        return value, value, unit, Taken("", f"methods/#practice-{name.replace('_', '-')}", str(entry["name"]), kind, tuple(entry["sources"]), VOCABULARY, reference.vocabulary_lines[f"practice.{name}"], quantity="practice")
    if owner in reference.crops:
        return _of_crop(reference, reference.crops[owner], key)
    return _of_figure(reference, reference.figures[name])


def _unit_of_practice(name: str, unit: str) -> str:
    """Degrees of `practice` are temperatures but where the name says that they are added."""
    return "°C more" if unit == "°C" and name.endswith("_rise_c") else unit


def _of_crop(reference: Reference, crop: Crop, key: str):
    if key == "best":
        low, high = crop["optimum_low_c"], crop["optimum_high_c"]
        return low.low, high.low, "°C", Taken("", f"crops/{crop.id}/#warmth", f"{crop.name}, best range", "judged", low.sources, crop.file, low.line, crop.id, "optimum_low_c")
    judged = crop[key]
    found = Taken("", f"crops/{crop.id}/#{PART_OF.get(key, 'when')}", f"{crop.name}, {wording.quantity_name(reference, key).lower()}", "judged", judged.sources, crop.file, judged.line, crop.id, key)
    if judged.choice is not None or key.endswith("_weeks"):
        words = str(wording.value_text(judged))
        return words, words, "", found
    unit = {"sowing_depth_mm": "mm", "seed_life_years": "years"}.get(key, "°C")
    return judged.low, judged.high, unit, found


def _of_figure(reference: Reference, figure: Figure):
    known = reference.sources.get(figure.source)
    kind = wording.GRADE_WORDS[known.evidence] if known else figure.source
    return figure.low, figure.high, figure.unit, Taken("", f"sources/#{figure.source}" if known else "guides/evidence/#grades", figure.what, kind, (figure.source,), FIGURES_FILE, figure.line)


def in_words(low: float, high: float, unit: str) -> Markup | str:
    """A number or range with its unit, in both systems where there are two."""
    if unit == "°C":
        return wording.temperature(low, high)
    if unit == "°C more":
        digits = 0 if low * F_IN_C >= 0.5 else 1  # a difference is never shown as none
        return wording.both(span(round(low, 1), round(high, 1)), span(*(round_half_up(end * F_IN_C, digits) for end in (low, high))))
    if unit == "mm":
        return wording.depth(low, high)
    if unit == "cm":
        a, b = (inches(end * MM_PER_CM, 4) for end in (low, high))
        return f"{span(low, high)} cm ({a if a == b else f'{a}–{b}'} in)"
    if unit == "mL":
        return f"{span(low, high)} mL ({us_volume(low) if low == high else f'{us_volume(low)} to {us_volume(high)}'})"
    if unit == "g":
        return f"{span(low, high)} g ({span(*(round_half_up(ounces(end), 1 if end < GRAMS_PER_OUNCE else 0) for end in (low, high)))} oz)"
    if unit in ("", "times"):
        return f"{span(low, high)} {unit}".strip()
    return f"{span(low, high)} {ONE.get(unit, unit) if low == high == 1 else 'percentage points' if unit == 'points' else unit}"


def us_volume(ml: float) -> str:
    """Millilitres in the US spoon or cup that suits, to the nearest quarter."""
    size, name = (TEASPOON_ML, "teaspoon") if ml < TABLESPOON_ML else (TABLESPOON_ML, "tablespoon") if ml < CUP_ML / 4 else (CUP_ML, "cup")
    count = nearest_part(ml, size, 4)
    if not count:
        return f"less than ⅛ {name}"
    whole, part = divmod(count, 1)
    return f"{number(whole) if whole or not part else ''}{QUARTERS.get(part, '')} {name}{'s' if count > 1 else ''}"
