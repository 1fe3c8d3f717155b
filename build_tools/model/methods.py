"""Official test methods, minimum percentages and the replicate table, from their printed rows."""

from __future__ import annotations

import re
from collections import defaultdict

from ..check.tables import doubts_of, tables_of
from ..read import DataTree
from .reference import MinimumGermination, OfficialMethod


def _codes(tree: DataTree) -> dict[str, str]:
    return {row["code"]: row["meaning"] for _, _, table in tables_of(tree, "method-codes") for row in table.rows}


def _words(text: str, codes: dict[str, str]) -> tuple[str, ...]:
    """Codes such as "LIGHT+KNO3" or "B,T" in words; a code without an entry is shown as it stands."""
    whole = codes.get(text)
    if whole:
        return (whole,)
    combined = {part: meaning for code, meaning in codes.items() for part in code.split(" / ")}
    return tuple(combined.get(part, part) for part in filter(None, re.split(r"[,+]", text)))


def _temperatures(row, left_out: set[str]) -> tuple[str, float | None, float | None]:
    """The printed temperatures in words, and the lowest and highest of them in °C; a regime with a doubtful cell is left out."""
    parts, numbers = [], []
    for which in ("regular", "alternate"):
        long, short = f"{which}_temp_c_16h", f"{which}_temp_c_8h"
        first, second = row[long], row[short]
        if not first or left_out & {long, short}:
            continue
        numbers += [float(v) for v in (first, second) if v]
        parts.append(f"{first} °C for 16 hours and {second} °C for 8 hours a day" if second else f"{first} °C all day")
    return ", or ".join(parts), min(numbers, default=None), max(numbers, default=None)


def official_methods(tree: DataTree) -> dict[str, list[OfficialMethod]]:
    """Rows of the official-methods tables by crop id, codes in words."""
    codes, found = _codes(tree), defaultdict(list)
    for source, entry, table in tables_of(tree, "official-methods"):
        for row in table.rows:
            doubted = doubts_of(entry, table, row)
            words, low, high = _temperatures(row, {column for column, d in doubted.items() if d["action"] == "leave-out"})
            doubts = "; ".join(d["why"] for d in doubted.values())
            method = OfficialMethod(
                source, row["crop_as_printed"], _words(row["substrata"], codes), words, low, high,
                int(row["first_count_days"]) if row["first_count_days"] else None,
                int(row["final_count_days"]) if row["final_count_days"] else None,
                row["light"], row["hard_seed_possible"] == "yes",
                _words(row["specific_requirement_codes"], codes), _words(row["fresh_or_dormant_codes"], codes), row["note"], doubts, table.file, row.line,
            )
            for crop in filter(None, row["crop_id"].split(";")):
                found[crop].append(method)
    return found


def minimums_by_crop(tree: DataTree) -> dict[str, list[MinimumGermination]]:
    """Published minimum germination percentages by crop id."""
    found = defaultdict(list)
    for source, _, table in tables_of(tree, "minimum-germination"):
        for row in table.rows:
            for crop in filter(None, row["crop_id"].split(";")):
                found[crop].append(MinimumGermination(source, row["crop_as_printed"], float(row["min_percent"]), table.file, row.line))
    return found


def replicate_range(tree: DataTree) -> tuple[dict[str, float | None], ...]:
    """The published largest range between replicates of 100 seeds (7 CFR 201.55), by average percentage."""

    def value(text):
        return float(text) if text else None

    return tuple(
        {"average_high": value(r["average_high"]), "average_low": value(r["average_low"]), "four": value(r["four_replicates"]), "two": value(r["two_replicates"])}
        for _, _, table in tables_of(tree, "replicate-range")
        for r in table.rows
    )


def two_test_range(tree: DataTree) -> tuple[dict[str, int], ...]:
    """The published largest difference between two tests of 400 seeds, by average percentage, spans as from and to."""

    def ends(text):
        first, _, last = text.partition("-")
        return int(first), int(last or first)

    rows = []
    for _, _, table in tables_of(tree, "two-test-range"):
        for row in table.rows:
            (low, high), (mirror_low, mirror_high) = ends(row["average_percent_high_as_printed"]), ends(row["average_percent_low_as_printed"])
            rows.append({"from": low, "to": high, "mirror_from": mirror_low, "mirror_to": mirror_high, "limit": int(row["tolerance_percent"])})
    return tuple(rows)
