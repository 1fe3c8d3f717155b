"""Values as a guide shows them: both systems of units, ranges, one and many."""

import re

import pytest

from build_tools.render.guides.values import in_words, taken, us_volume
from build_tools.render.guides import values


def plain(words) -> str:
    return re.sub(r"<[^>]*>", "", str(words))


@pytest.mark.parametrize(("low", "high", "unit", "words"), [
    (0, 0, "°C", "0 °C (32 °F)"), (25, 25, "°C", "25 °C (77 °F)"), (15.5, 29.5, "°C", "15.5–29.5 °C (60–85 °F)"), (-18, -18, "°C", "−18 °C (0 °F)"), (37.8, 37.8, "°C", "37.8 °C (100 °F)"),
    (10, 10, "°C more", "10 °C (18 °F)"), (2.8, 2.8, "°C more", "2.8 °C (5 °F)"), (1.1, 2.2, "°C more", "1.1–2.2 °C (2–4 °F)"), (0.2, 0.5, "°C more", "0.2–0.5 °C (0.4–0.9 °F)"),
    (13, 13, "mm", "13 mm (½ in)"), (25, 50, "mm", "25–50 mm (1–2 in)"), (38, 38, "mm", "38 mm (1½ in)"), (3, 3, "mm", "3 mm (⅛ in)"), (0, 0, "mm", "on the surface"), (0, 6, "mm", "0–6 mm (0–¼ in)"),
    (5, 5, "cm", "5 cm (2 in)"), (2, 3, "cm", "2–3 cm (¾–1¼ in)"), (30, 30, "cm", "30 cm (11¾ in)"),
    (1, 1, "hours", "1 hour"), (2, 2, "hours", "2 hours"), (0.5, 0.5, "hours", "0.5 hours"), (1, 2, "days", "1–2 days"), (1, 1, "weeks", "1 week"), (1, 1, "months", "1 month"), (1, 1, "years", "1 year"), (1, 1, "seeds", "1 seed"),
    (3, 3, "parts", "3 parts"), (1, 1, "points", "1 point"), (12, 15, "points", "12–15 percentage points"), (96, 96, "%", "96 %"), (3, 5, "times", "3–5 times"), (4, 4, "", "4"), (4, 6, "", "4–6"), (2, 2, "g", "2 g (0.1 oz)"), (113, 113, "g", "113 g (4 oz)"), (227, 454, "g", "227–454 g (8–16 oz)"), (1, 1, "minutes", "1 minute"),
])  # fmt: skip
def test_a_number_in_words(low, high, unit, words):
    assert plain(in_words(low, high, unit)) == words


@pytest.mark.parametrize(("mm", "inches"), [(6.35, "¼"), (12.7, "½"), (19.05, "¾"), (25.4, "1"), (31.75, "1¼"), (76.2, "3")])
def test_inches_are_exact_where_the_inch_is(mm, inches):
    """An inch is 25.4 mm exactly (NIST Handbook 44, appendix C)."""
    assert f"({inches} in)" in in_words(mm, mm, "mm") and f"({inches} in)" in in_words(mm / 10, mm / 10, "cm")


def test_millimetres_go_to_the_eighth_and_centimetres_to_the_quarter():
    assert "(⅛ in)" in in_words(3.175, 3.175, "mm") and "(4 in)" in in_words(10, 10, "cm") and "(18 in)" in in_words(46, 46, "cm")


# NIST Handbook 44, appendix C, general tables, “Units of liquid volume”: 1 fluid dram 3.696 7 mL; 1 teaspoon 4.928 92 mL;
# 1 tablespoon 14.786 76 mL (3 teaspoons); 1 cup 236.588 2 mL (16 tablespoons, 8 fluid ounces). One in the last place more, so as not to be below.
TEASPOON, TABLESPOON, CUP = 4.92892, 14.78677, 236.5883


def test_spoons_and_cups_are_those_of_handbook_44():
    assert values.TEASPOON_ML == pytest.approx(TEASPOON, abs=5e-4) and values.TABLESPOON_ML == pytest.approx(TABLESPOON, abs=5e-4) and values.CUP_ML == pytest.approx(CUP, abs=5e-4)
    assert values.TABLESPOON_ML == pytest.approx(3 * values.TEASPOON_ML, rel=1e-4) and values.CUP_ML == pytest.approx(16 * values.TABLESPOON_ML, rel=1e-4)


@pytest.mark.parametrize(("ml", "words"), [
    (TEASPOON / 4, "¼ teaspoon"), (TEASPOON / 2, "½ teaspoon"), (5, "1 teaspoon"), (10, "2 teaspoons"), (TABLESPOON, "1 tablespoon"), (15, "1 tablespoon"), (1.5 * TABLESPOON, "1½ tablespoons"), (30, "2 tablespoons"),
    (CUP / 4, "¼ cup"), (CUP / 2, "½ cup"), (0.75 * CUP, "¾ cup"), (CUP, "1 cup"), (240, "1 cup"), (500, "2 cups"), (1.25 * CUP, "1¼ cups"), (1000, "4¼ cups"), (0.3, "less than ⅛ teaspoon"),
])  # fmt: skip
def test_millilitres_in_us_measures(ml, words):
    assert us_volume(ml) == words


def test_a_range_of_millilitres_names_both_measures():
    assert in_words(15, 240, "mL") == "15–240 mL (1 tablespoon to 1 cup)" and in_words(5, 5, "mL") == "5 mL (1 teaspoon)"


@pytest.mark.parametrize(("names", "words", "kind", "sources"), [
    (("soak_least_hours",), "8 hours", "common practice", ("common practice",)), (("soak_least_hours", "soak_most_hours"), "8–12 hours", "common practice", ("common practice",)),
    (("heat_mat_rise_c",), "8.3 °C (15 °F)", "a rule of the trade", ("portland-monthly",)), (("warm_season_soil_c",), "15.5 °C (60 °F)", "common practice", ("common practice",)),
    (("alpha.best",), "15.5–29.5 °C (60–85 °F)", "judged", ("table-one",)), (("alpha.sowing_depth_mm",), "13–25 mm (½–1 in)", "judged", ("table-two",)), (("alpha.seed_life_years",), "3 years", "judged", ("table-two",)),
    (("alpha.season",), "warm", "judged", ("common practice",)), (("beta.minimum_c", "alpha.minimum_c"), "1.5–10 °C (35–50 °F)", "judged", ("table-one",)),
    (("table-one.beta-warm",), "4–5 days", None, ("table-one",)), (("common-practice.lift",), "2 times", "common practice", ("common practice",)),
])  # fmt: skip
def test_a_value_of_each_kind(small, names, words, kind, sources):
    found = taken(small, names, "../../")
    assert plain(found.words) == words and found.sources == sources and found.address.startswith("../../")
    assert kind is None or found.kind == kind
    assert found.file.startswith("data/") and found.line > 1


def test_every_value_of_every_crop_can_be_taken_in(reference):
    """What the checks let a guide name, the renderer can say, and something stands in it."""
    from build_tools.check.meaning_rules import values_of
    from build_tools.read import read_tree
    from tests.conftest import ROOT

    seen = 0
    for name, document in read_tree(ROOT / "data").crops.items():
        keys = {key for _, key, _ in values_of(document.data)}
        for key in keys | ({"best"} if {"optimum_low_c", "optimum_high_c"} <= keys else set()):
            assert plain(taken(reference, (f"{name}.{key}",), "").words).strip(), (name, key)
            seen += 1
    assert seen > 500


def test_a_name_that_the_checks_would_have_refused_is_an_error(small):
    with pytest.raises(KeyError):
        taken(small, ("nothing_such",), "")
