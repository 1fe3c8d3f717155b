"""Printed tables typed as text: how they are read, and where the model holds the same values.

In every typed table the columns stand at least two spaces apart, the first is the kind as printed, the second our crop
ids joined by ";", and "_" is an empty cell.
"""

from __future__ import annotations

import re

import pytest

BAND_QUANTITIES = {
    "min_f": "minimum_c", "opt_low_f": "optimum_low_c", "opt_high_f": "optimum_high_c", "opt_f": "optimum_c", "max_f": "maximum_c",
}
GRID = ("f32", "f41", "f50", "f59", "f68", "f77", "f86", "f95", "f104")
HALF_STEP = 0.25 + 1e-9  # °C: the most that rounding to half a degree can move a value


def table(text: str, *columns: str) -> list[dict[str, str]]:
    """Rows of a typed table by column name; a row with a missing or extra cell is an error of the test file."""
    rows = []
    for line in text.strip().splitlines():
        cells = ["" if cell == "_" else cell for cell in re.split(r" {2,}", line.strip())]
        assert len(cells) == len(columns), f"{len(cells)} cells where {len(columns)} are expected: {line}"
        rows.append(dict(zip(columns, cells, strict=True)))
    return rows


def split_range(row: dict[str, str]) -> dict[str, str]:
    """The row with "60-85" of `range_f` as `opt_low_f` and `opt_high_f`; anything else than a range gives two blanks."""
    found = re.fullmatch(r"(\d+)-(\d+)", row["range_f"])
    low, high = found.groups() if found else ("", "")
    return {**{k: v for k, v in row.items() if k != "range_f"}, "opt_low_f": low, "opt_high_f": high}


def by_crop(rows: list[dict[str, str]]) -> dict[str, dict[str, str]]:
    """The row of each crop id; an id stands in one row only."""
    found: dict[str, dict[str, str]] = {}
    for row in rows:
        for crop in filter(None, row["crop_id"].split(";")):
            assert crop not in found, f"{crop} stands in two rows"
            found[crop] = row
    return found


def band_cases(rows: list[dict[str, str]]) -> list:
    """(crop, quantity, °F as printed or "") for every crop and column of a table of temperature bands."""
    return [
        pytest.param(crop, quantity, row.get(column, ""), id=f"{crop}-{quantity}")
        for crop, row in by_crop(rows).items()
        for column, quantity in BAND_QUANTITIES.items()
    ]


def celsius(fahrenheit: str) -> float:
    """°F → °C, unrounded, by the definition of the scale."""
    return (float(fahrenheit) - 32) * 5 / 9


def held(reference, crop: str, quantity: str, source: str) -> list:
    """The values of one source among all that the model shows beside a reference value."""
    return [p for family in reference.crops[crop][quantity].families for p in family.printed if p.source == source]


def assert_band(reference, source: str, crop: str, quantity: str, fahrenheit: str) -> None:
    """The model holds exactly the printed °F of that source, converted without rounding; nothing where nothing is printed."""
    values = held(reference, crop, quantity, source)
    assert [v.as_printed for v in values] == ([f"{fahrenheit} °F"] if fahrenheit else [])
    for value in values:
        assert value.low == value.high == pytest.approx(celsius(fahrenheit), abs=1e-9)


def source_rows(reference, source: str, kind: str) -> list:
    """The rows of the source's one table of that kind."""
    tables = [t for t in reference.sources[source].tables if t.kind == kind]
    assert len(tables) == 1, f"{source} has {len(tables)} tables of kind {kind}"
    return list(tables[0].rows)


def assert_same_table(reference, source: str, kind: str, typed: list[dict[str, str]], columns: tuple[str, ...]) -> None:
    """The source's table has the typed rows and no other, with the typed cells."""
    names = ("crop_as_printed", *columns)
    found = [tuple(row.get(c, "") for c in names) for row in source_rows(reference, source, kind)]
    assert sorted(found) == sorted(tuple(row.get(c, "") for c in names) for row in typed)


def counted_span(judged) -> tuple[float, float]:
    """Lowest and highest of all published values that count for a reference value."""
    counted = [p for family in judged.families for p in family.printed if p.counts]
    assert counted, "no published value counts here"
    return min(p.low for p in counted), max(p.high for p in counted)


def inside_or_explained(judged, tolerance: float) -> bool:
    """Whether a reference value lies inside the published span, or says why it does not."""
    low, high = counted_span(judged)
    return low - tolerance <= judged.low <= judged.high <= high + tolerance or len(judged.departs) >= 10
