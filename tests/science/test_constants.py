"""Constants by their definitions and sources; test_twins.py holds those of the browser against these."""

from __future__ import annotations

from math import isclose

from build_tools.science import dilution, seed_mass, soil_temperature, viability

CUBIC_INCH_ML = 2.54**3  # the inch is 2.54 cm (international yard and pound agreement, 1959)


def test_kitchen_measures():
    # NIST Handbook 44, appendix C: a gallon is 231 cubic inches, 16 cups; a tablespoon is a sixteenth of a cup
    assert isclose(dilution.US_CUP_ML, 231 * CUBIC_INCH_ML / 16, rel_tol=1e-15)
    assert isclose(dilution.US_TABLESPOON_ML, 231 * CUBIC_INCH_ML / 256, rel_tol=1e-15)
    # common practice in metric kitchens
    assert (dilution.METRIC_CUP_ML, dilution.METRIC_TABLESPOON_ML) == (250, 15)


def test_masses():
    # the avoirdupois pound is 0.453 592 37 kg (the same agreement), 16 ounces
    assert seed_mass.GRAMS_PER_POUND == 453.59237
    assert seed_mass.GRAMS_PER_OUNCE * 16 == seed_mass.GRAMS_PER_POUND


def test_a_year():
    assert viability.DAYS_PER_YEAR == soil_temperature.PERIOD_DAYS == (3 * 365 + 366) / 4  # Julian
    assert soil_temperature.SECONDS_A_DAY == 24 * 60 * 60
    assert sum(soil_temperature.MONTH_LENGTHS) == soil_temperature.YEAR_DAYS == 365


def test_where_rules_of_thumb_hold():
    # Harrington's rules are usually said to hold from 5 to 14 % of moisture and from 0 to 50 °C (from memory)
    assert (viability.HARRINGTON_DRIEST, viability.HARRINGTON_DAMPEST) == (5, 14)
    assert (viability.HARRINGTON_COLDEST_C, viability.HARRINGTON_HOTTEST_C) == (0, 50)
