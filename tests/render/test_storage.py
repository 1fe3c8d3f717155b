"""The storage page as rendered: its table without scripts against scipy, and a library without such tables."""

from dataclasses import replace
from types import MappingProxyType

import numpy as np
import pytest

from build_tools.model.reference import SeedOil
from build_tools.model.viability import Viability
from build_tools.render.calculators.storage import (
    CALCULATOR,
    how_known,
    ratios,
    times_text,
)
from build_tools.render.environment import make_environment


def days(ke, cw, ch, cq, moisture, celsius):
    return 10 ** (ke - cw * np.log10(moisture) - ch * celsius - cq * celsius**2)


def moisture(humidity, celsius, oil):
    dry = np.sqrt(-440 * np.log(1 - humidity)) * (1 - oil) / (1.1 + celsius / 90)
    return 100 * dry / (100 + dry)


def test_common_stores_by_hand(reference):
    # onion, two sets retyped from the compilation; oil 22 % assumed
    rows = [(6.975, 3.47, 0.04, 0.000428), (9.083, 5.81, 0.0329, 0.000478)]
    stores = [(20, moisture(0.5, 20, 0.22)), (25, moisture(0.65, 25, 0.22)), (20, moisture(0.35, 20, 0.22)), (5, moisture(0.35, 20, 0.22))]
    for (low, high), (celsius, m) in zip(ratios(reference, reference.crops["onion"]), stores, strict=True):
        found = [days(*row, m, celsius) / days(*row, stores[0][1], 20) for row in rows]
        assert (low, high) == pytest.approx((min(found), max(found)))


def test_every_crop_with_sound_constants_is_in_the_table(reference):
    shown = {crop.id for crop, _, _ in CALCULATOR.context(reference)["table"]}
    assert shown == {crop for crop in reference.crops if any(not r.doubt for r in reference.viability.constants.get(crop, ()))}
    assert ratios(reference, reference.crops["eggplant"]) is None is ratios(reference, reference.crops["carrot"])


@pytest.mark.parametrize(("pair", "text"), [((1.5, 2.04), "1.5–2.0 times"), ((12.4, 12.3), "12 times"), ((0.2, 0.246), "0.20–0.25 times"), ((1, 1), "1.0 times")])
def test_times_in_words(pair, text):
    assert times_text(*pair) == text


def test_each_oil_content_says_how_it_is_known(reference):
    crops = CALCULATOR.context(reference)["calculator"]["data"]["crops"]
    assert crops["lettuce"]["oil"] == {"percent": 37, "how": "assumed by us"}
    assert crops["sunflower"]["oil"] == {"percent": 45, "how": "from memory"}
    assert crops["carrot"]["oil"] is None
    # a published value, once there is one, names its source
    assert "Washington" in how_known(SeedOil(40, ("washington-ehuf473",), ""), reference)


def test_no_fact_is_without_both_units(reference):
    facts = [text for text, _ in CALCULATOR.context(reference)["facts"]]
    assert "Most seed should not be dried above 38 °C (100 °F)" in facts and "Storage life doubles for each 5.6 °C (10 °F) cooler" in facts
    assert not any("DIFFERS" in text or " F " in text for text in facts)


def test_a_library_without_such_tables_still_has_the_page(reference):
    crop = replace(reference.crops["lettuce"], rows=MappingProxyType({}))
    bare = replace(reference, crops=MappingProxyType({"lettuce": crop}), sources=reference.sources, viability=Viability(MappingProxyType({}), None, None, ()), seed_oil=MappingProxyType({}))
    context = CALCULATOR.context(bare)
    data = context["calculator"]["data"]
    assert data["limits"] is None is data["rules"] and data["crops"]["lettuce"]["sets"] == [] and data["example_crop"] == ""
    html = make_environment(bare).get_template(CALCULATOR.template).render(root="../../", title=CALCULATOR.title, **context)
    assert "Common stores compared" in html and "None is recorded" in html
