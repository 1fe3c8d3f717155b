"""What the published tables print about each reference value, read into the value's own unit."""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass

from ..read import DataTree, of_tree
from ..units import celsius
from .tables import doubts_of, tables_of


@dataclass(frozen=True, slots=True)
class Printed:
    """One value as a source prints it. Numbers are in the quantity's own unit (°C, mm, years, weeks)."""

    source: str
    family: str
    file: str
    line: int
    as_printed: str
    low: float | None = None
    high: float | None = None
    choice: str | None = None
    doubt: str = ""
    counts: bool = True


def _bands(entry, table, row):
    unit = "f" if any(c.endswith("_f") for c in table.columns) else "c"
    convert = celsius if unit == "f" else float
    names = {"min": "minimum_c", "opt_low": "optimum_low_c", "opt_high": "optimum_high_c", "opt": "optimum_c", "max": "maximum_c"}
    for column, quantity in names.items():
        cell = row[f"{column}_{unit}"]
        if cell:
            value = convert(float(cell))
            yield quantity, f"{column}_{unit}", f"{cell} °{unit.upper()}", value, value


def _germination_temperature(entry, table, row):
    for unit, convert in (("f", celsius), ("c", float)):
        low, high = row[f"temp_low_{unit}"], row[f"temp_high_{unit}"]
        if not low:
            continue
        low_c, high_c = convert(float(low)), convert(float(high or low))
        if low_c == high_c:
            yield "optimum_c", f"temp_low_{unit}", f"{low} °{unit.upper()}", low_c, low_c
        else:
            yield "optimum_low_c", f"temp_low_{unit}", f"{low} °{unit.upper()}", low_c, low_c
            yield "optimum_high_c", f"temp_high_{unit}", f"{high} °{unit.upper()}", high_c, high_c


def _cardinal(entry, table, row):
    """Fitted optima count; a fitted base temperature is not a practical minimum, nor a ceiling a practical maximum."""
    low, high = row["opt_low_c"], row["opt_high_c"]
    if low and high and low != high:
        yield "optimum_low_c", "opt_low_c", f"{low} °C", float(low), float(low)
        yield "optimum_high_c", "opt_high_c", f"{high} °C", float(high), float(high)
    elif low or high:
        value = float(low or high)
        yield "optimum_c", "opt_low_c" if low else "opt_high_c", f"{value:g} °C", value, value


def _seed_life(entry, table, row):
    if row["years_min"]:
        yield "seed_life_years", "years_min", f"{row['years_as_printed'].replace('-', '–')} years", float(row["years_min"]), float(row["years_max"] or row["years_min"])


def _depth(entry, table, row):
    if row["depth_mm_min"] and row["depth_mm_max"]:
        ends = sorted({row["depth_mm_min"], row["depth_mm_max"]}, key=float)
        shown = row["depth_in_as_printed"].replace("-", "–") or f"{'–'.join(ends)} mm"
        if re.fullmatch(r"[\d/ .–]+", shown):
            shown += " in"
        yield "sowing_depth_mm", "depth_mm_min", shown, float(row["depth_mm_min"]), float(row["depth_mm_max"])


def _weeks(low: float, high: float) -> str:
    """Weeks from the last frost as words without a minus sign."""

    def one(value):
        return "at it" if value == 0 else f"{abs(value):g} weeks {'before' if value < 0 else 'after'}"

    return one(low) if low == high else f"{one(low)} to {one(high)}"


def _timing(entry, table, row):
    for columns, quantity, sign in (
        ("direct_weeks_rel_last_frost", "sow_outdoors_weeks", 1),
        ("plant_out_weeks_rel_last_frost", "plant_out_weeks", 1),
        ("indoor_weeks_before_last_frost", "sow_indoors_weeks", -1),
    ):
        low, high = row[columns + "_min"], row[columns + "_max"]
        if low:
            ends = sorted((sign * float(low), sign * float(high or low)))
            yield quantity, columns + "_min", _weeks(*ends), *ends


def _age(entry, table, row):
    low, high = row["weeks_min"], row["weeks_max"]
    if low:
        yield "transplant_age_weeks", "weeks_min", f"{low if low == (high or low) else f'{low}–{high}'} weeks", float(low), float(high or low)


NUMERIC = {
    "temperature-bands": _bands,
    "germination-temperature": _germination_temperature,
    "cardinal-temperatures": _cardinal,
    "seed-life": _seed_life,
    "sowing-depth": _depth,
    "sow-timing": _timing,
    "transplant-age": _age,
}


def _light(row) -> str | None:
    text = row["light"].lower()
    if text.startswith("light"):
        return "light"
    if text.startswith("dark"):
        return "dark"
    if text.startswith("cover lightly"):
        return "cover-lightly"
    return "either" if text.startswith("indifferent") else "cover" if text.startswith("cover") else None


LIGHT_CODES = {"L": "light", "D": "dark", "L-D": "cover-lightly", "LC": "cover-lightly", "C": "cover"}


def _frost_class(text: str) -> str | None:
    words = text.lower()
    for start, choice in (("very tender", "very-tender"), ("tender", "tender"), ("semi", "semi-hardy"), ("half", "semi-hardy"), ("hardy", "hardy"), ("very hardy", "hardy"), ("damaged by light frost", "tender")):
        if words.startswith(start):
            return choice
    return None


def _choices(entry, row):
    kind = entry["kind"]
    if kind == "light" and _light(row):
        yield "light", "light", _light(row), row["light"]
    elif kind == "germination-temperature" and row["light_code"] in LIGHT_CODES:
        yield "light", "light_code", LIGHT_CODES[row["light_code"]], row["light_code"]
    elif kind == "hardiness" and "DOUBTFUL" not in row["note"] and _frost_class(row["class_as_printed"]):
        yield "frost_class", "class_as_printed", _frost_class(row["class_as_printed"]), row["class_as_printed"]
    elif kind == "sow-timing":
        text = row["frost_class"] or row["class_as_printed"]
        if _frost_class(text):
            yield "frost_class", "frost_class" if row["frost_class"] else "class_as_printed", _frost_class(text), text


@of_tree
def collect(tree: DataTree) -> dict[tuple[str, str], tuple[Printed, ...]]:
    """Every printed value by (crop id, quantity)."""
    found: dict[tuple[str, str], list[Printed]] = defaultdict(list)
    for name, entry, table in tables_of(tree):
        kind = entry["kind"]
        if kind not in NUMERIC and kind not in ("light", "hardiness"):
            continue
        source = tree.sources[name].document.data
        whole = source.get("doubtful", "") or ("historical" if source.get("historical") else "")
        for row in table.rows:
            doubted = doubts_of(entry, table, row)
            numbers = [(q, c, s, low, high, None) for q, c, s, low, high in (NUMERIC[kind](entry, table, row) if kind in NUMERIC else ())]
            words = [(q, c, s, None, None, choice) for q, c, choice, s in _choices(entry, row)]
            for quantity, column, shown, low, high, choice in numbers + words:
                doubt = doubted.get(column)
                printed = Printed(name, source["family"], table.file, row.line, shown, low, high, choice, doubt["why"] if doubt else whole, not whole and not (doubt and doubt["action"] == "leave-out"))
                for crop in filter(None, row["crop_id"].split(";")):
                    found[crop, quantity].append(printed)
    return {key: tuple(values) for key, values in found.items()}
