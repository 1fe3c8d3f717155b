"""Seeds per gram that the sowing page gives to the browser, and the tables it shows without scripts."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest
from scipy import stats

from build_tools.render.calculators import seeds_to_sow
from build_tools.render.calculators.seeds_to_sow import seeds_per_gram
from build_tools.science.outcomes import seeds_if_known
from build_tools.render.environment import make_environment

# 7 CFR 201.46, Table 1 (2015 edition), column "approximate number of seeds per gram"; retyped from the copy that was read.
OFFICIAL = [("tomato", 405, 405), ("carrot", 825, 825), ("lettuce", 890, 890), ("bean-snap", 4, 4), ("cress-water", 5170, 5170),
            ("celery", 2520, 2520), ("soybean", 6, 13), ("pepper-hot", 165, 165), ("beet", 60, 60)]


@pytest.mark.parametrize(("crop", "low", "high"), OFFICIAL)
def test_official_numbers(reference, crop, low, high):
    found = seeds_per_gram(reference, reference.crops[crop])
    assert (found["low"], found["high"]) == (low, high)
    assert found["sources"] == ["7 CFR 201.46 (US seed rules)"] and found["word"] is None


# Seeds per ounce as printed by N. Sperry, "How many seeds per ounce?" (2021), read on his page; one ounce is 28.3495 g.
@pytest.mark.parametrize(("crop", "low", "high"), [("zinnia", 2000, 6000), ("marigold", 7500, 10_000), ("petunia", 250_000, 300_000), ("corn-sweet", 200, 200)])
def test_a_weak_source_alone_is_shown_and_called_so(reference, crop, low, high):
    found = seeds_per_gram(reference, reference.crops[crop])
    # two digits, so within half a unit of the second
    assert found["low"] == pytest.approx(low / 28.3495, rel=0.05) and found["high"] == pytest.approx(high / 28.3495, rel=0.05)
    assert found["word"].startswith("common practice") and "unnamed web sources" in found["word"]


def test_a_weak_source_never_stands_beside_the_rule(reference):
    # tomato is in both tables: 405 a gram in the rule, 8000 to 12,000 an ounce (282 to 423 a gram) in the column
    assert {row.source for row in reference.crops["tomato"].rows["seeds-per-gram"]} == {"cfr-201-46", "sperry-2021"}
    assert seeds_per_gram(reference, reference.crops["tomato"])["low"] == 405


@pytest.mark.parametrize("crop", ["chives", "bean-fava", "sunflower", "basil"])
def test_a_kind_printed_without_a_number_has_none(reference, crop):
    # 7 CFR 201.46 leaves the column empty for the first three; the last is in no table
    assert seeds_per_gram(reference, reference.crops[crop]) is None


def test_a_source_that_does_not_count_is_left_out(reference):
    doubted = replace(reference.sources["cfr-201-46"], counts=False)
    changed = replace(reference, sources=MappingProxyType({**reference.sources, "cfr-201-46": doubted}))
    assert seeds_per_gram(changed, changed.crops["carrot"]) is None
    assert seeds_per_gram(changed, changed.crops["tomato"])["sources"] == ["Sperry 2021"]


def test_a_doubted_row_is_left_out(reference):
    crop = reference.crops["carrot"]
    rows = tuple(replace(row, doubt="a slip of the print") for row in crop.rows["seeds-per-gram"])
    assert seeds_per_gram(reference, replace(crop, rows=MappingProxyType({**crop.rows, "seeds-per-gram": rows}))) is None


def test_printed_names_of_other_kinds_are_told(reference):
    assert seeds_per_gram(reference, reference.crops["squash-winter"])["kinds"] == ["Squash"]
    assert seeds_per_gram(reference, reference.crops["tomato"])["kinds"] == []


def test_units_of_several_seeds(reference):
    # 7 CFR 201.56(d) names beet and New Zealand spinach; chard is the species of beet. Spinach and carrot are other kinds.
    found = {crop for crop, entry in seeds_to_sow.calculator_data(reference)["crops"].items() if entry["several"]}
    assert found == {"beet", "chard", "spinach-new-zealand"}


@pytest.mark.parametrize("plants", [1, *seeds_to_sow.PLANTS])
@pytest.mark.parametrize("share", [1.0, *seeds_to_sow.SHARES, 0.05])
@pytest.mark.parametrize("certainty", [0.8, 0.9, 0.99])
def test_known_germination_against_the_negative_binomial(plants, share, certainty):
    # scipy: failures before the last wanted plant
    assert seeds_if_known(plants, certainty, share) == plants + stats.nbinom.ppf(certainty, plants, share)


def test_the_table_without_scripts(reference):
    # 90 % certainty, worked out beforehand by other code: 6 at .8, 12 at .9 and .7, 24 at .8, 72 at .9 and .8
    sown = {row["plants"]: dict(zip((90, 80, 70, 60), row["seeds"], strict=True)) for row in seeds_to_sow.CALCULATOR.context(reference)["sown"]}
    assert (sown[6][80], sown[12][90], sown[12][70], sown[24][80], sown[72][90], sown[72][80]) == (9, 15, 21, 34, 84, 96)


def test_a_library_without_such_tables_still_has_the_page(reference):
    crop = replace(reference.crops["tomato"], rows=MappingProxyType({}), methods=())
    bare = replace(reference, crops=MappingProxyType({"tomato": crop}), sources=MappingProxyType({}))
    page = seeds_to_sow.CALCULATOR
    context = page.context(bare)
    assert context["calculator"]["data"] == {"crops": {"tomato": {"name": "Tomato", "seeds_per_gram": None, "hard_seed": False, "several": False}}}
    html = make_environment(bare).get_template(page.template).render(root="../../", title=page.title, **context)
    assert "Seeds to sow for so many plants" in html and "Seeds per gram:" not in html and "may hold several" not in html
