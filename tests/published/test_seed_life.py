"""Seed life in years: five printed lists of four origins, and how the reference values stand to them.

Sources: see seed_life_tables.py (Iowa State 1999 from Knott's handbook, Madison and Florida copies of one older list, Oregon
State, Watts).
"""

from __future__ import annotations

import pytest

from .printed import by_crop, counted_span, held, inside_or_explained, source_rows
from .seed_life_tables import COUNTS, FAMILIES, KNOTT_PRINTS, TABLES

CASES = [
    pytest.param(source, crop, row["years"], id=f"{source}-{crop}")
    for source, rows in TABLES.items()
    for crop, row in by_crop(rows).items()
]
CROPS = sorted({crop for rows in TABLES.values() for crop in by_crop(rows)})


def ends(years: str) -> tuple[float, float]:
    """"3-5" → (3, 5); "4" → (4, 4)."""
    parts = [float(part) for part in years.split("-")]
    return parts[0], parts[-1]


@pytest.mark.parametrize("source", TABLES)
def test_table_is_whole_and_as_printed(reference, source):
    # each list, see seed_life_tables.py
    assert len(TABLES[source]) == COUNTS[source]
    found = [
        (row["crop_as_printed"], row["years_as_printed"])
        for t in reference.sources[source].tables if t.file == "seed-life.csv"
        for row in t.rows
    ]
    assert sorted(found) == sorted((row["crop_as_printed"], row["years"]) for row in TABLES[source])


@pytest.mark.parametrize(("source", "crop", "years"), CASES)
def test_years_are_held(reference, source, crop, years):
    # each list, see seed_life_tables.py
    values = held(reference, crop, "seed_life_years", source)
    assert [(v.low, v.high) for v in values] == [ends(years)]
    assert values[0].family == FAMILIES[source]
    assert values[0].counts


@pytest.mark.parametrize("crop", CROPS)
def test_reference_value_lies_inside_what_is_published(reference, crop):
    # all lists that count: outside their span a reason is given. Years are printed whole, so nothing is forgiven.
    judged = reference.crops[crop]["seed_life_years"]
    assert judged.known
    assert inside_or_explained(judged, 0), (judged.low, counted_span(judged))


@pytest.mark.parametrize("crop", CROPS)
def test_a_family_counts_once(reference, crop):
    # each origin is one voice, however often it was reprinted
    counted = [family.family for family in reference.crops[crop]["seed_life_years"].families if family.counts]
    assert len(counted) == len(set(counted))
    expected = {FAMILIES[source] for source, rows in TABLES.items() if crop in by_crop(rows)}
    assert expected <= set(counted)


@pytest.mark.parametrize("source", KNOTT_PRINTS)
def test_reprints_of_knott_share_a_family_and_its_figures(reference, source):
    # Knott's table as printed by Iowa State 1999; Nebraska 2018 credits it, the others were compared value by value
    assert reference.sources[source].family == "knott"
    iowa, compared = by_crop(TABLES["iowa-state-1999"]), 0
    for crop in iowa:
        for value in held(reference, crop, "seed_life_years", source):
            assert (value.low, value.high) == ends(iowa[crop]["years"]), crop
            compared += 1
    assert compared >= 7  # the shortest quotation has seven kinds


def test_six_prints_of_lettuce_are_one_voice_among_four(reference):
    # lettuce: 6 years in Knott's table (four prints at least), 5, 3 and 4 in the other three origins
    families = {family.family: family for family in reference.crops["lettuce"]["seed_life_years"].families if family.counts}
    spans = {name: (family.low, family.high) for name, family in families.items()}
    assert spans == {"knott": (6, 6), "usda-old": (5, 5), "oregon": (3, 3), "watts": (4, 4)}
    assert len(families["knott"].printed) >= 4


@pytest.mark.parametrize(("crop", "low", "high"), [("brussels-sprouts", 4, 5), ("corn-sweet", 1, 2)], ids=["brussels-sprouts", "corn-sweet"])
def test_two_copies_that_differ_widen_their_one_family(reference, crop, low, high):
    # Madison and Florida copies: Brussels sprouts 4 and 5, sweet corn 2 and 1
    family = next(f for f in reference.crops[crop]["seed_life_years"].families if f.family == "usda-old")
    assert (family.low, family.high) == (low, high)


@pytest.mark.parametrize("source", ["beecher-1859", "rensselaer-union-1869"])
def test_lists_of_the_19th_century_are_shown_but_do_not_count(reference, source):
    # Beecher 1859 (year from memory) and the Rensselaer Union 1869: history, not advice
    assert source_rows(reference, source, "seed-life")
    assert not reference.sources[source].counts
