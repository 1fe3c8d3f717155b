"""Minimum germination percentages for vegetable seed in the United States.

Source: USDA Agricultural Marketing Service, 7 CFR 201.31 (Federal Seed Act regulations), US Government Publishing Office, 2015
annual edition, read in a copy of the section; all 68 kinds compared by eye with a second copy of 2020 or later.
"""

from __future__ import annotations

import pytest

from .printed import source_rows, table

SOURCE = "cfr-201-31"
# kind, our ids ("_" = no page), percent (hard seed included)
PRINTED = """
Artichoke             artichoke                    60
Asparagus             asparagus                    70
Asparagusbean         bean-asparagus               75
Bean, garden          bean-snap                    70
Bean, lima            bean-lima                    70
Bean, runner          bean-runner                  75
Beet                  beet                         65
Broadbean             bean-fava                    75
Broccoli              broccoli                     75
Brussels sprouts      brussels-sprouts             70
Burdock, great        _                            60
Cabbage               cabbage                      75
Cabbage, tronchuda    _                            70
Cardoon               _                            60
Carrot                carrot                       55
Cauliflower           cauliflower                  75
Celeriac              celeriac                     55
Celery                celery                       55
Chard, Swiss          chard                        65
Chicory               chicory                      65
Chinese cabbage       cabbage-chinese              75
Chives                chives                       50
Citron                _                            65
Collards              collards                     80
Corn, sweet           corn-sweet                   75
Cornsalad             corn-salad                   70
Cowpea                cowpea                       75
Cress, garden         cress-garden                 75
Cress, upland         _                            60
Cress, water          cress-water                  40
Cucumber              cucumber                     80
Dandelion             _                            60
Dill                  dill                         60
Eggplant              eggplant                     60
Endive                endive                       70
Kale                  kale                         75
Kale, Chinese         kale-chinese                 75
Kale, Siberian        kale-siberian                75
Kohlrabi              kohlrabi                     75
Leek                  leek                         60
Lettuce               lettuce                      80
Melon                 muskmelon                    75
Mustard, India        mustard-greens               75
Mustard, spinach      mustard-spinach              75
Okra                  okra                         50
Onion                 onion                        70
Onion, Welsh          onion-bunching               70
Pak-choi              pak-choi                     75
Parsley               parsley                      60
Parsnip               parsnip                      60
Pea                   pea                          80
Pepper                pepper-sweet;pepper-hot      55
Pumpkin               pumpkin                      75
Radish                radish                       75
Rhubarb               rhubarb                      60
Rutabaga              rutabaga                     75
Sage                  sage                         60
Salsify               salsify                      75
Savory, summer        savory-summer                55
Sorrel                sorrel                       65
Soybean               soybean                      75
Spinach               spinach                      60
Spinach, New Zealand  spinach-new-zealand          40
Squash                squash-summer;squash-winter  75
Tomato                tomato                       75
Tomato, husk          _                            50
Turnip                turnip                       80
Watermelon            watermelon                   70
"""
ROWS = table(PRINTED, "crop_as_printed", "crop_id", "percent")
BY_PAGE = [(row["crop_as_printed"], crop, row["percent"]) for row in ROWS for crop in filter(None, row["crop_id"].split(";"))]


def test_table_has_all_68_kinds(reference):
    # 7 CFR 201.31
    assert len(ROWS) == 68
    found = [(row["crop_as_printed"], row["min_percent"]) for row in source_rows(reference, SOURCE, "minimum-germination")]
    assert sorted(found) == sorted((row["crop_as_printed"], row["percent"]) for row in ROWS)


@pytest.mark.parametrize("row", [row for row in ROWS if not row["crop_id"]], ids=lambda row: row["crop_as_printed"])
def test_kind_without_a_page(reference, row):
    # 7 CFR 201.31
    found = [r for r in source_rows(reference, SOURCE, "minimum-germination") if r["crop_as_printed"] == row["crop_as_printed"]]
    assert [r["min_percent"] for r in found] == [row["percent"]]
    assert not set(filter(None, found[0]["crop_id"].split(";"))) & set(reference.crops)


@pytest.mark.parametrize(("kind", "crop", "percent"), BY_PAGE, ids=[crop for _, crop, _ in BY_PAGE])
def test_crop_has_the_federal_minimum(reference, kind, crop, percent):
    # 7 CFR 201.31; a crop's own minimum is the federal one, whatever a state adds
    federal = [m for m in reference.crops[crop].minimums if m.source == SOURCE]
    assert [(m.kind_as_printed, m.percent) for m in federal] == [(kind, float(percent))]
    assert reference.crops[crop].minimum_percent == float(percent)


def test_no_other_crop_has_a_federal_minimum(reference):
    # 7 CFR 201.31
    found = {crop.id for crop in reference.crops.values() if any(m.source == SOURCE for m in crop.minimums)}
    assert found == {crop for _, crop, _ in BY_PAGE}
