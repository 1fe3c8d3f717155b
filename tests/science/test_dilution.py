"""Dilution: published mixtures and unit tables, then properties that hold for any mixture."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.science.dilution import (
    METRIC_CUP_ML,
    METRIC_TABLESPOON_ML,
    US_CUP_ML,
    US_TABLESPOON_ML,
    grams_for,
    mixed_strength,
    nearest_part,
    stock_needed,
    strength_range,
    times_weaker,
    topped_up_strength,
    water_parts,
)
from tests.science.test_properties import steady

STOCK = st.floats(0.05, 3)
SHARE = st.floats(0.001, 1)
VOLUME = st.floats(0.5, 20_000)


def test_customary_measures():
    # NIST Handbook 44, appendix C, units of liquid volume: 1 cup 236.588 2 mL, 1 tablespoon 14.786 76 mL;
    # exactly, from the US gallon of 231 cubic inches at 2.54 cm
    gallon = Fraction(231) * Fraction("2.54") ** 3
    assert US_CUP_ML == float(gallon / 16) and US_TABLESPOON_ML == float(gallon / 256)
    assert (round(US_CUP_ML, 3), round(US_TABLESPOON_ML, 3)) == (236.588, 14.787)
    assert US_CUP_ML == 16 * US_TABLESPOON_ML
    assert (METRIC_CUP_ML, METRIC_TABLESPOON_ML) == (250, 15)  # common practice, no source


@pytest.mark.parametrize(("stock", "wanted", "total", "needed"), [
    # worked by hand from C1V1 = C2V2 (textbook arithmetic)
    (3, 0.3, 1000, 100), (3, 1, 1000, 333 + 1 / 3), (3, 0.3, 250, 25), (1.5, 0.5, 300, 100), (3, 3, 500, 500),
])
def test_bottle_to_wanted_strength(stock, wanted, total, needed):
    assert stock_needed(stock, wanted, total) == pytest.approx(needed, rel=1e-12)


def test_two_tablespoons_in_a_cup_are_one_ninth():
    # 2 of 16 + 2 tablespoons: 3 % gives 0.333 %; filled up to one cup in all 2 of 16, 0.375 %
    spoons, cup = 2 * US_TABLESPOON_ML, US_CUP_ML
    assert times_weaker(spoons, cup) == pytest.approx(9, rel=1e-15)
    assert mixed_strength(3, spoons, cup) == pytest.approx(1 / 3, rel=1e-15)
    assert topped_up_strength(3, spoons, cup) == pytest.approx(0.375, rel=1e-15)
    assert round(mixed_strength(3, 2 * METRIC_TABLESPOON_ML, METRIC_CUP_ML), 3) == 0.321  # 30 of 280 mL


def test_table_of_two_tablespoons():
    """A table worked out apart from this code: bottles of 1 to 3 %, two tablespoons to a cup, three decimals."""
    text = (Path(__file__).parent / "two_tablespoons_in_a_cup.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(text.splitlines()))
    assert len(rows) == 5
    for row in rows:
        stock, spoons = float(row["stock_percent"]), float(row["tablespoons"]) * US_TABLESPOON_ML
        assert round(spoons, 3) == float(row["ml_stock"]) and round(US_CUP_ML, 3) == float(row["ml_water"])
        assert f"{mixed_strength(stock, spoons, US_CUP_ML):.3f}" == row["added_to_1_cup"]
        assert f"{topped_up_strength(stock, spoons, US_CUP_ML) + 1e-12:.3f}" == row["topped_up_to_1_cup"]


def test_half_and_half_of_the_drugstore_bottle():
    # Greenblatt, Maize Genetics Cooperation Newsletter 60: 3 % cut by half with tap water is 1.5 %
    assert mixed_strength(3, 100, 100) == 1.5 and water_parts(3, 1.5) == 1


def test_official_potassium_nitrate():
    # 7 CFR 201.58: 0.2 % is 2 g in a litre
    assert grams_for(0.2, 1000) == pytest.approx(2, rel=1e-15)


def test_quarters_of_a_spoon():
    assert nearest_part(100, US_TABLESPOON_ML, 4) == 6.75  # 6.763 spoons
    assert nearest_part(15, 15, 4) == 1 and nearest_part(1.8, 15, 4) == 0 and nearest_part(1.875, 15, 4) == 0.25


@steady
@given(STOCK, SHARE, VOLUME)
def test_what_is_dissolved_stays(stock, share, total):
    needed = stock_needed(stock, stock * share, total)
    assert 0 < needed <= total * (1 + 1e-12)
    assert stock * needed == pytest.approx(stock * share * total, rel=1e-12)
    assert topped_up_strength(stock, min(needed, total), total) == pytest.approx(stock * share, rel=1e-9)
    assert mixed_strength(stock, needed, max(0.0, total - needed)) == pytest.approx(stock * share, rel=1e-9)


@steady
@given(STOCK, SHARE)
def test_parts_and_times_say_the_same(stock, share):
    parts = water_parts(stock, stock * share)
    assert times_weaker(1, parts) == pytest.approx(1 / share, rel=1e-9)


@steady
@given(STOCK, VOLUME, VOLUME, st.floats(1.001, 50))
def test_more_water_is_weaker_and_never_stronger_than_the_bottle(stock, volume, water, more):
    assert 0 < mixed_strength(stock, volume, water * more) < mixed_strength(stock, volume, water) < stock
    # adding a cup to the spoons is weaker than filling up to that cup
    if volume <= water:
        assert mixed_strength(stock, volume, water) < topped_up_strength(stock, volume, water)


@steady
@given(STOCK, VOLUME, SHARE, st.floats(0, 1), st.floats(1.01, 1000))
def test_units_do_not_matter(stock, total, share, slip, factor):
    volume = total * share
    low, high = strength_range(stock, volume, total, volume * slip)
    scaled = strength_range(stock, volume * factor, total * factor, volume * factor * slip)
    assert scaled == pytest.approx([low, high], rel=1e-9, abs=1e-12)
    assert low <= topped_up_strength(stock, volume, total) <= high <= stock * (1 + 1e-12)


@steady
@given(st.floats(0, 10_000), st.sampled_from([US_TABLESPOON_ML, 15.0, US_CUP_ML, 250.0]), st.integers(1, 8))
def test_nearest_part_is_within_half_a_part(volume, unit, parts):
    found = nearest_part(volume, unit, parts)
    assert found * parts == pytest.approx(round(found * parts), rel=1e-12)
    assert abs(found - volume / unit) <= 0.5 / parts + 1e-9


@pytest.mark.parametrize("stock", [1, 1.5, 2, 3])
def test_strength_range_is_what_a_slip_of_the_spoon_gives(stock):
    low, high = strength_range(stock, 30, 300, 3)
    assert low == pytest.approx(stock * 27 / 300) and high == pytest.approx(stock * 33 / 300)
