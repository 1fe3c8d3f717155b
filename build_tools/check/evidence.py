"""What the published tables say about each reference value, and how the value stands to them.

A family is a group of sources that copy one another; it counts once, with the span of its members. Historical and
doubtful sources are shown but do not count while any other does. Nothing is averaged.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from ..read import DataTree, Table
from ..read.csv_file import Row

GRID_C = {"f32": 0, "f41": 5, "f50": 10, "f59": 15, "f68": 20, "f77": 25, "f86": 30, "f95": 35, "f104": 40}  # exact
TOLERANCE = {"temperature": 0.3, "other": 0.75}  # half-degree rounding; millimetres and years as printed
KINDS_OF_EVIDENCE = ("temperature table", "official test method", "seed life")
KIND_OF_TABLE = {
    "temperature-bands": "temperature table",
    "days-by-temperature": "temperature table",
    "normal-seedlings-by-temperature": "temperature table",
    "germination-temperature": "temperature table",
    "cardinal-temperatures": "temperature table",
    "sowing-thresholds": "temperature table",
    "official-methods": "official test method",
    "seed-life": "seed life",
    "measured-life": "seed life",
}


@dataclass(frozen=True)
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


@dataclass(frozen=True)
class FamilyEvidence:
    """One family's span for a value, and where the value lies: inside, below, above, same, differs."""

    family: str
    printed: tuple[Printed, ...]
    low: float | None
    high: float | None
    choices: tuple[str, ...]
    stands: str
    counts: bool


@dataclass(frozen=True)
class Comparison:
    """How a reference value stands to the published families.

    status: agrees | within span | departs | single family | not counted | common practice | from memory | cited only
    """

    status: str
    families: tuple[FamilyEvidence, ...]
    shown: str
    span_text: str


def tables_of(tree: DataTree, kind: str | None = None) -> Iterator[tuple[str, dict, Table]]:
    """(source id, its entry in source.yml, table) of every table, or of one kind."""
    for name, source in tree.sources.items():
        for entry in source.document.data.get("tables", []):
            if (kind is None or entry.get("kind") == kind) and entry.get("file") in source.tables:
                yield name, entry, source.tables[entry["file"]]


def doubts_of(entry: dict, table: Table, row: Row) -> dict[str, dict]:
    """The listed doubts about a row, by column."""
    first = row[table.columns[0]]
    return {d["column"]: d for d in entry.get("doubts", []) if d["row"] == first and row[d["column"]] == d["printed"]}


def days_cell(cell: str) -> float | None:
    """The days of a cell such as "12" or "61(53)"; None for NG, not tested and empty."""
    match = re.fullmatch(r"(?:\d+(?:\.\d+)?\()?(\d+(?:\.\d+)?)\)?", cell)
    return float(match[1]) if match else None


def celsius(fahrenheit: float) -> float:
    """°F → °C, unrounded."""
    return (fahrenheit - 32) / 1.8


@lru_cache(maxsize=4)
def evidence_kinds(tree: DataTree) -> dict[str, frozenset[str]]:
    """For each crop id, which of the three kinds of evidence exist."""
    kinds: dict[str, set[str]] = defaultdict(set)
    for name, entry, table in tables_of(tree):
        kind = KIND_OF_TABLE.get(entry.get("kind"))
        for row in table.rows if kind else ():
            for crop in filter(None, row["crop_id"].split(";")):
                kinds[crop].add(kind)
    return {crop: frozenset(found) for crop, found in kinds.items()}


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


LEAVES_OPEN = {"cover": ("dark", "either")}  # "cover it" does not say whether darkness matters
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


@lru_cache(maxsize=4)
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
