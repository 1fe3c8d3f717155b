"""The structured times and amounts of treatments say what their sources print."""

from __future__ import annotations

import csv

import pytest

from build_tools.render.calculators.treatment_times import (
    baths,
    calculator_data,
    ready_rows,
)
from build_tools.science.dilution import grams_for


def rows_of(root, source, table="treatment-evidence.csv"):
    text = (root / "data" / "sources" / source / table).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


def way(reference, treatment, crop):
    return next(w for w in reference.treatments[treatment].times.ways if crop in w.crops)


@pytest.mark.parametrize(("source", "crop"), [("saima-okra-2019", "okra"), ("knust-okra", "okra"), ("soga-okra-2023", "okra"), ("ehow-parsons", "okra"), ("chili-plants-soak", "pepper-hot"), ("granata-2024", "pepper-sweet"), ("roxton-column", "corn-sweet"), ("roxton-column", "cucumber")])
def test_hours_of_soaks_lie_within_what_is_printed(reference, root, source, crop):
    lasts = way(reference, "soak", crop).steps[1].lasts
    assert lasts.unit == "hours" and lasts.in_all
    found = [r for r in rows_of(root, source) if r["crop_id"] == crop and r["treatment"] in ("soak", "prime") and (r.get("hours_max") or r.get("hours_min"))]
    assert found
    for row in found:
        if row.get("hours_min"):
            assert lasts.low <= float(row["hours_min"]) <= lasts.high
        assert float(row["hours_max"]) <= lasts.high or float(row["hours_max"]) == lasts.high


def test_general_soak_ends_at_the_printed_limit(reference, root):
    row = next(r for r in rows_of(root, "ragdoll-factsheet"))
    usual = next(w for w in reference.treatments["soak"].times.ways if not w.crops)
    assert (usual.steps[1].lasts.low, usual.steps[1].lasts.high) == (float(row["hours_min"]), float(row["hours_max"])) == (8, 12)


def test_chilling_is_that_of_the_official_test(reference):
    # 7 CFR 201.58: the codes in words, as the crops' own pages show them
    checked = 0
    for chill in reference.treatments["chill"].times.ways:
        for crop in (reference.crops[c] for c in chill.crops if c in reference.crops):
            words = " ".join((*crop.method.requirements, *crop.method.if_dormant))
            step = chill.steps[-2]
            degrees = " or ".join(f"{t:g}" for t in dict.fromkeys(step.at_c))
            assert f"{step.lasts.high:g} days moist at {degrees} C" in words, crop.id
            checked += 1
    assert checked == 12
    named = {c for w in reference.treatments["chill"].times.ways for c in w.crops}
    assert {c.id for c in reference.crops.values() if c.method and any("days moist at" in t for t in c.method.if_dormant + c.method.requirements)} <= named


def test_wild_flowers_as_listed(reference, root):
    for row in rows_of(root, "wmich-seed-library"):
        lasts = way(reference, "chill", row["crop_id"]).steps[-2].lasts
        assert lasts.unit == "days" and lasts.low == float(row["duration"].split()[0]), row
    lavender = way(reference, "chill", "lavender").steps[0]
    assert (lavender.lasts.low, lavender.lasts.high, lavender.at_c) == (6, 10, (4, 4))


def test_rinsing_and_the_salt_as_in_the_official_test(reference):
    for crop in ("beet", "chard"):
        words = " ".join(reference.crops[crop].method.requirements + reference.crops[crop].method.if_dormant)
        assert "soak 2 h in 250 ml or more of water per 100 seeds" in words and "20 C or warmer" in words
        step = way(reference, "leach", crop).steps[0]
        assert (step.lasts.low, step.lasts.high, step.lasts.unit, step.at_c) == (2, 2, "hours", (20, None))
    water = reference.treatments["leach"].times.amounts["water"]
    assert (water["ml"], water["seeds"]) == (250, 100)
    salt = reference.treatments["potassium-nitrate"].times.amounts["salt"]
    assert grams_for(salt["percent"], 1000) == pytest.approx(2)
    for crop in way(reference, "potassium-nitrate", "tomato").crops:
        method = reference.crops[crop].method
        assert any("potassium nitrate at 0.2 % (2 g per litre)" in t for t in method.requirements + method.if_dormant), crop


def test_baths_are_the_rows_that_count(reference, root):
    for crop in reference.crops.values():
        for bath in baths(reference, crop):
            assert bath["source"] in ("adirondack-2010", "dpird-wa-2014", "hortidaily-gugino")
            row = [r for r in rows_of(root, bath["source"]) if r["crop_id"] == crop.id and float(r["temp_c"]) == bath["bath"]["c"] and float(r["minutes"]) == bath["bath"]["minutes"]]
            assert len(row) == 1
            assert bath["bath"]["f"] == pytest.approx(bath["bath"]["c"] * 1.8 + 32, abs=0.1)
    assert [b["source"] for b in baths(reference, reference.crops["tomato"])] == ["adirondack-2010", "dpird-wa-2014"]


def test_no_crop_has_a_way_of_what_its_page_says_to_avoid(reference):
    for treatment in reference.treatments.values():
        kin = (treatment.id, *treatment.times.counts_as)
        for one in treatment.times.ways:
            for crop in (reference.crops[c] for c in one.crops if c in reference.crops):
                assert not any(e.about in kin and e.advice in ("avoid", "laboratory-only") for e in crop.pretreatments), (treatment.id, crop.id)


def test_laboratory_treatments_have_a_reason_and_nothing_to_follow(reference):
    laboratory = [t for t in reference.treatments.values() if t.laboratory_only]
    assert len(laboratory) >= 2
    for treatment in laboratory:
        assert treatment.times.reason and not treatment.times.ways and not treatment.times.amounts and not treatment.steps


def test_what_the_browser_gets_is_whole(reference):
    data = calculator_data(reference)
    text = repr(data)
    assert "mappingproxy" not in text and "nan" not in text.split()
    for treatment in data["treatments"].values():
        assert treatment["ways"] or treatment["reason"]
        for one in treatment["ways"]:
            assert set(one["crops"]) <= set(data["crops"]) | set(data["kinds"])
    assert len(ready_rows(reference)) > 20
