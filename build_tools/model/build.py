"""From a checked data tree to the frozen Reference."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import numpy as np

from ..check import check_data
from ..check.cross_rules import citations
from ..check.evidence import compare
from ..check.meaning_rules import WORDS_FOR_SOURCES, values_of
from ..check.printed import collect
from ..check.tables import doubts_of, evidence_kinds, tables_of
from ..problem import Problem, errors
from ..read import DataTree
from .corrections import corrections_of
from .guides import figures_of, guides_of, terms_of
from .measured import measured_rows
from .methods import minimums_by_crop, official_methods, replicate_range, two_test_range
from .places import lines_of
from .posters import poster_words
from .reference import (
    Crop,
    Judged,
    Reference,
    SeedOil,
    Source,
    SourceTable,
    TableRow,
    Treatment,
    Words,
)
from .releases import releases_of
from .treatment_times import times_of
from .viability import viability

QUANTITIES = (
    "season", "minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c", "sowing_depth_mm", "light",
    "seed_life_years", "frost_class", "sow_outdoors_weeks", "sow_indoors_weeks", "plant_out_weeks", "transplant_age_weeks",
)
CHOICES = ("season", "light", "frost_class")
ROW_KINDS = (
    "temperature-bands", "germination-temperature", "sowing-thresholds", "cardinal-temperatures", "seed-life", "measured-life",
    "sowing-depth", "light", "hardiness", "sow-timing", "transplant-age", "days-usual", "treatment-evidence", "thermodormancy",
    "seeds-per-gram", "sealed-moisture", "minimum-germination", "spacing", "official-methods", "facts",
)


def load(root: Path) -> tuple[Reference | None, list[Problem]]:
    """Read, check and build from <root>/data and <root>/schema. The Reference is None when there are problems that stop a build."""
    tree, problems = check_data(root)
    found = errors(problems)
    return (None, found) if found else (build_reference(tree), [])


def build_reference(tree: DataTree) -> Reference:
    """The model of a data tree that has no problems."""
    quantities = tree.singles["quantities"].data
    days, percents = measured_rows(tree, "days-by-temperature"), measured_rows(tree, "normal-seedlings-by-temperature")
    methods, minimums, rows = official_methods(tree), minimums_by_crop(tree), _rows_by_crop(tree)
    crops = {}
    for crop_id, document in tree.crops.items():
        data = document.data
        names = data["names"]
        crops[crop_id] = Crop(
            id=crop_id,
            name=names["common"],
            other_names=tuple(names.get("other", ())),
            botanical=names["botanical"],
            family=names["family"],
            name_sources=tuple(names["sources"]),
            kind=data["kind"],
            file=document.file,
            values=MappingProxyType(_values(tree, crop_id, document)),
            days=tuple(days.get(crop_id, ())),
            percents=tuple(percents.get(crop_id, ())),
            methods=tuple(methods.get(crop_id, ())),
            minimums=tuple(minimums.get(crop_id, ())),
            rows=MappingProxyType({kind: tuple(rows[crop_id, kind]) for kind in ROW_KINDS if (crop_id, kind) in rows}),
            pretreatments=_words(document, "pretreatments", about="treatment", grade="evidence", advice="advice"),
            cautions=_words(document, "cautions"),
            disagreements=_words(document, "disagreements", about="about"),
            notes=_words(document, "notes"),
            neighbours=(),
            evidence_kinds=tuple(sorted(evidence_kinds(tree).get(crop_id, ()))),
            lines=lines_of(document, 2, only=("names", "kind")),
        )
    return Reference(
        crops=MappingProxyType(_with_neighbours(crops)),
        sources=MappingProxyType(_sources(tree)),
        treatments=MappingProxyType({key: _treatment(document) for key, document in tree.treatments.items()}),
        quantities=MappingProxyType(quantities["quantities"]),
        choices=MappingProxyType(quantities["choices"]),
        practice=MappingProxyType(quantities["practice"]),
        vocabulary_lines=lines_of(tree.singles["quantities"]),
        library=MappingProxyType(tree.singles["library"].data),
        place=MappingProxyType(tree.singles["place"].data),
        cautions=MappingProxyType({page: tuple(Words(e["text"], tuple(e["sources"]), line=tree.singles["cautions"].place((page, i))[0]) for i, e in enumerate(said)) for page, said in tree.singles["cautions"].data.items()}),
        posters=MappingProxyType(poster_words(tree.singles["posters"].data, quantities["practice"])),
        other_kinds=MappingProxyType(tree.singles["other-kinds"].data),
        replicate_range=replicate_range(tree),
        two_test_range=two_test_range(tree),
        demo=MappingProxyType(dict(tree.demo)),
        viability=viability(tree),
        accepted=tuple(MappingProxyType(entry) for entry in tree.singles["accepted"].data["findings"]) if "accepted" in tree.singles else (),
        seed_oil=MappingProxyType({crop: SeedOil(e["percent"], tuple(e["sources"]), e.get("note", "")) for crop, e in tree.singles["seed-oil"].data.items()}),
        corrections=corrections_of(tree.singles.get("corrections")),
        releases=releases_of(tree),
        figures=figures_of(tree),
        glossary=terms_of(tree),
        guides=guides_of(tree),
    )


def _values(tree: DataTree, crop_id: str, document) -> dict[str, Judged]:
    printed = collect(tree)
    found = {}
    for path, quantity, value in values_of(document.data):
        comparison = compare(value, printed.get((crop_id, quantity), ()))
        low, high = value.get("low", value.get("value")), value.get("high", value.get("value"))
        found[quantity] = Judged(quantity, low, high, value.get("choice"), tuple(value["sources"]), value.get("note", ""), value.get("departs", ""), document.place(path)[0], comparison.status, comparison.families, comparison.span_text)
    for quantity in QUANTITIES:
        if quantity not in found:
            nothing = {"choice": "", "sources": []} if quantity in CHOICES else {"value": 0, "sources": []}
            families = compare(nothing, printed.get((crop_id, quantity), ())).families
            found[quantity] = Judged(quantity, None, None, None, (), "", "", 1, "none", families, "")
    return found


def _words(document, key: str, **named: str) -> tuple[Words, ...]:
    """Texts of a list in a file of a crop or treatment; `named` says which of its keys go where."""
    return tuple(
        Words(entry["text"], tuple(entry["sources"]), **{field: entry.get(name, "") for field, name in named.items()}, line=document.place((key, index))[0])
        for index, entry in enumerate(document.data.get(key, ()))
    )


def _rows_by_crop(tree: DataTree) -> dict[tuple[str, str], list[TableRow]]:
    rows: dict[tuple[str, str], list[TableRow]] = defaultdict(list)
    for source, entry, table in tables_of(tree):
        if entry["kind"] not in ROW_KINDS or "crop_id" not in table.columns:
            continue
        for row in table.rows:
            doubts = "; ".join(d["why"] for d in doubts_of(entry, table, row).values())
            shown = TableRow(source, entry["kind"], table.file, row.line, MappingProxyType(row.cells), doubts)
            for crop in filter(None, row["crop_id"].split(";")):
                rows[crop, entry["kind"]].append(shown)
    return rows


def _with_neighbours(crops: dict[str, Crop], count: int = 5) -> dict[str, Crop]:
    """Each crop with those whose minimum, optimum and maximum are nearest to its own; without any, those of its family.

    The distance is the mean difference in °C over the temperatures that both have, and 3 °C more for each that only one has.
    """
    keys = list(crops)
    bands = np.array([_band(crop) for crop in crops.values()], dtype=float).reshape(-1, 3)
    result = {}
    for index, key in enumerate(keys):
        difference = np.abs(bands - bands[index])
        shared = np.isfinite(difference).sum(axis=1)
        one_sided = (np.isfinite(bands) ^ np.isfinite(bands[index])).sum(axis=1)
        distance = np.where(shared > 0, np.nansum(difference, axis=1) / np.maximum(shared, 1) + 3.0 * one_sided, np.inf)
        distance[index] = np.inf
        near = [keys[i] for i in np.argsort(distance, kind="stable")[:count] if np.isfinite(distance[i])]
        near = near or [k for k, other in crops.items() if k != key and other.family == crops[key].family][:count]
        result[key] = replace(crops[key], neighbours=tuple(near))
    return result


def _band(crop: Crop) -> tuple[float | None, float | None, float | None]:
    """Minimum, optimum (or the middle of the best range) and maximum in °C; None for what is not known."""
    low, high = crop["optimum_low_c"].low, crop["optimum_high_c"].low
    best = crop["optimum_c"].low if crop["optimum_c"].known else None if low is None else (low + high) / 2
    return crop["minimum_c"].low, best, crop["maximum_c"].low


def _treatment(document) -> Treatment:
    data = document.data
    return Treatment(
        data["id"], data["name"], data["what"], bool(data.get("laboratory_only")), tuple(data["steps"]),
        _words(document, "evidence", grade="grade"),
        _words(document, "cautions"),
        document.file,
        times_of(data),
        bool(data.get("hazard")),
        lines_of(document, 2),
    )


def _sources(tree: DataTree) -> dict[str, Source]:
    cited = defaultdict(set)
    for document, _, source in citations(tree):
        if source not in WORDS_FOR_SOURCES:
            cited[source].add(document.data["id"])
    found = {}
    for name, source in tree.sources.items():
        fields = source.document.data
        tables = tuple(_source_table(source, index, e) for index, e in enumerate(fields.get("tables", ())))
        crops = {c for t in tables for r in t.rows for c in r.get("crop_id", "").split(";") if c in tree.crops}
        found[name] = Source(name, MappingProxyType({k: v for k, v in fields.items() if k != "tables"}), fields["family"], fields["evidence"], not (fields.get("historical") or fields.get("doubtful")), tables, tuple(sorted(crops)), tuple(sorted(cited[name])), source.document.file, lines_of(source.document, 1))
    return found


def _source_table(source, index: int, entry) -> SourceTable:
    table, doubts, place = source.tables[entry["file"]], tuple(entry.get("doubts", ())), source.document.place
    return SourceTable(
        entry["file"], entry["kind"], entry["caption"], entry.get("notes", ""), tuple(table.columns), tuple(MappingProxyType(row.cells) for row in table.rows), doubts,
        place(("tables", index))[0], tuple(row.line for row in table.rows), tuple(place(("tables", index, "doubts", i))[0] for i in range(len(doubts))),
    )
