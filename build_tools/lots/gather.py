"""From good rows to lots: rows of one lot and day are replicates of one test, other days are earlier tests.

Nothing depends on the order of the rows. Twin: docs/assets/js/lots/gather.js.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from .catalogue import Catalogue, fold
from .words import quoted

MOST_REPLICATES = 8


class Row(NamedTuple):
    """A good row: crop id, tidy texts, ISO dates ("" where empty), counts (None for a lot not yet tested)."""

    line: int
    crop: str
    variety: str
    harvested: str
    storage: str
    tested: str
    seeds: int | None
    normal: int | None
    hard: int
    fresh: int


class Test(NamedTuple):
    """One test: its day, seeds and normal seedlings in all, (seeds, normal) of each replicate in rising order, and seeds that lay still."""

    tested: str
    seeds: int
    normal: int
    replicates: tuple[tuple[int, int], ...]
    hard: int
    fresh: int


class Lot(NamedTuple):
    """A lot with its tests, oldest first; `marked` when a row of it was left out."""

    name: str
    crop: str
    variety: str
    harvested: str
    storage: str
    tests: tuple[Test, ...]
    marked: bool


def gather(rows: dict[str, list[Row]], marked: set[str], catalogue: Catalogue, reading, problem) -> None:
    """Fill `reading.lots` from the rows by lot; `problem(line, column, message, hint, level)` takes what does not fit."""
    for name, of_lot in rows.items():
        first = of_lot[0]
        if len(of_lot) == 1:
            tests = (_test(first.tested, of_lot),) if first.tested else ()
            reading.lots[name] = Lot(name, *first[1:5], tests, name in marked)
            continue
        other = next((row for row in of_lot if row.crop != first.crop), None)
        if other:
            here, there = catalogue.crops[other.crop].name, catalogue.crops[first.crop].name
            problem(other.line, "crop", f"Lot {quoted(name)} is {here} here and {there} in line {first.line}.", f"Give each crop a lot of its own, or mend the name. Until then all rows of this lot are left out ({len(of_lot)}).")
            reading.left_out += len(of_lot)
            continue
        by_day: dict[str, list[Row]] = {}
        for row in of_lot:
            by_day.setdefault(row.tested, []).append(row)
        tests = []
        for tested in sorted(by_day):
            of_test = by_day[tested]
            if tested and len(of_test) > MOST_REPLICATES:
                problem(of_test[MOST_REPLICATES].line, "tested", f"{len(of_test)} rows of lot {quoted(name)} for {tested}; at most {MOST_REPLICATES} replicates are judged together.", "Check the dates, or add up dishes that belong together. Until then this test is left out.")
                reading.left_out += len(of_test)
                marked.add(name)
                del by_day[tested]
            elif tested:
                tests.append(_test(tested, of_test))
        kept = of_lot if len(by_day) == 1 else [row for row in of_lot if row.tested in by_day]
        if by_day:
            reading.lots[name] = Lot(name, first.crop, *_described(name, kept, problem), tuple(tests), name in marked)


def _test(tested: str, rows: list[Row]) -> Test:
    if len(rows) == 1:
        (row,) = rows
        return Test(tested, row.seeds, row.normal, ((row.seeds, row.normal),), row.hard, row.fresh)
    replicates = tuple(sorted([row[6:8] for row in rows]))
    seeds, normal, hard, fresh = map(sum, zip(*[row[6:] for row in rows], strict=True))
    return Test(tested, seeds, normal, replicates, hard, fresh)


def _described(name: str, rows: list[Row], problem) -> tuple[str, str, str]:
    """Variety, harvest and storage of a lot."""
    first = rows[0]
    described = first[2:5]
    if all(row[2:5] == described for row in rows):
        return described
    _note_differences(name, rows, problem)
    return (
        latest((row.tested, row.variety) for row in rows),
        exact_harvest([(row.tested, row.harvested) for row in rows]),
        latest((row.tested, row.storage) for row in rows),
    )


def latest(dated: Iterable[tuple[str, str]]) -> str:
    """The text of the latest row that has one; of several on one day the last in order."""
    return max((pair for pair in dated if pair[1]), default=("", ""))[1]


def exact_harvest(dated: list[tuple[str, str]]) -> str:
    """The harvest of the latest row that has one, to the day if another row gives it to the day."""
    date = latest(dated)
    return max((text for _, text in dated if text.startswith(date)), key=lambda text: (len(text), text), default=date) if date else date


def _note_differences(name: str, rows: list[Row], problem) -> None:
    """Variety and harvest ought to be the same in all rows of a lot; say where they are not."""
    for column in ("variety", "harvested"):
        given = [(row.line, getattr(row, column)) for row in rows if getattr(row, column)]
        for line, text in given[1:]:
            before = given[0][1]
            same = text.startswith(before) or before.startswith(text) if column == "harvested" else fold(text) == fold(before)
            if not same:
                problem(line, column, f"Lot {quoted(name)} has {quoted(text)} here and {quoted(before)} in line {given[0][0]}.", "The one of its latest test is shown. Mend the other, or give it a lot of its own.", "note")
                break
