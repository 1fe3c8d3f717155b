"""What the sowing calendar says of each crop, and its example as a calendar file."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from types import MappingProxyType

import pytest

from build_tools.model.reference import TableRow
from build_tools.render.calculators import sowing_times
from build_tools.render.calculators import sowing_times_events as events
from build_tools.science.sowing_times import TASKS
from tests.render.test_icalendar import events_of, lines_of


@pytest.fixture(scope="module")
def made(reference):
    return sowing_times.example_calendar(reference)


@pytest.fixture(scope="module")
def file(reference):
    return sowing_times.calendar_file(reference)


def entry(reference, crop):
    return sowing_times.crop_entry(reference, reference.crops[crop])


def test_file_is_rfc_5545(file):
    for line in lines_of(file):
        assert len(line.encode()) <= 75
    found = events_of(file)
    assert len({str(event["UID"]) for event in found}) == len(found) > 20


def test_dates_of_the_file_are_those_of_the_table(made, file):
    found = {str(event["UID"]): event for event in events_of(file)}
    tasks = made["tasks"]
    assert len(found) == len(tasks)
    for task in tasks:
        event = found[events.uid((made["season"]["last"][:4], "Wrenfield (invented)", task["lot"]["crop"], "", task["task"]))]
        assert event.DTSTART == date.fromisoformat(task["first"])
        assert event.DTEND == date.fromisoformat(task["last"]) + timedelta(days=1)
        assert str(event["SUMMARY"]) == f"{task['lot']['entry']['name']}: {events.TASK_WORDS[task['task']]}"
        assert "Invented example" in event["DESCRIPTION"] and "Invented example" in event["CATEGORIES"].cats
        assert "in many years frost comes later" in event["DESCRIPTION"]


def test_real_place_is_not_called_invented(reference):
    real = replace(reference, place=MappingProxyType({**reference.place, "name": "Somewhere", "invented": False}))
    text = sowing_times.calendar_file(real).replace("\r\n ", "")
    assert "nvented" not in text and "/Somewhere/" in text


def test_southern_place_has_its_calendar_in_its_own_spring(reference):
    south = replace(reference, place=MappingProxyType({**reference.place, "last_frost": "10-15", "first_frost": "04-20"}))
    assert sowing_times.first_year(south) == 2027  # the data are of November 2026: the frost of that October is past
    found = sowing_times.example_calendar(south)
    assert found["season"] == {"last": "2027-10-15", "first": "2028-04-20"}
    assert {task["first"][:4] for task in found["tasks"]} == {"2027"}


def test_every_task_of_every_crop_has_words(reference):
    data = sowing_times.page_data(reference)
    values = {"place": "x", "invented": True, "celsius": 20, "rules": data["rules"]}
    lots = [events.planned(data, {"crop": crop, "lot": "A", "tested": None}, "2027-05-08", data["rules"], 20) for crop in data["crops"]]
    tasks = events.by_date(lots)
    assert {task["task"] for task in tasks} == set(TASKS)
    for task in tasks:
        told = events.description(task, data, values, "2027-05-08")
        assert "{" not in told and "None" not in told and len(told) > 60, task
    assert tasks == sorted(tasks, key=lambda t: (t["first"], t["last"]))


def test_final_count_days_are_the_official_ones(reference):
    # 7 CFR 201.58, table: tomato 14, cabbage 10, carrot 14, lettuce 7, snap (garden) bean 8 days to the final count
    for crop, days in (("tomato", 14), ("cabbage", 10), ("carrot", 14), ("lettuce", 7), ("bean-snap", 8)):
        assert entry(reference, crop)["test_days"] == days and entry(reference, crop)["test_official"]
    # Cosmos has no official count here: a week at least (common practice, no source)
    assert entry(reference, "cosmos")["test_days"] == 7 and not entry(reference, "cosmos")["test_official"]


def test_days_are_those_of_the_table_and_never_beyond_it(reference):
    # Harrington & Minges 1954: tomato 43 days at 10 °C, 14 at 15, 8 at 20, 6 at 25; carrot 51 at 5, 17 at 10
    tomato, carrot = entry(reference, "tomato"), entry(reference, "carrot")
    assert [events.days_indoors(tomato, c)["days"] for c in (10, 15, 20, 25)] == pytest.approx([43, 14, 8, 6], abs=0.05)
    assert events.days_indoors(tomato, 9.5) is None and events.days_indoors(tomato, 36) is None
    assert carrot["outdoors"]["slow"][0] == 5 and carrot["outdoors"]["slow"][1] == pytest.approx(51, abs=0.05)
    assert entry(reference, "broccoli")["outdoors"] is None and events.days_outdoors(entry(reference, "broccoli")) is None


def test_outdoors_from_the_minimum_to_the_optimum(reference):
    for crop in reference.crops.values():
        found = sowing_times.outdoors(crop)
        if found is None:
            continue
        tested = [c for c, _ in crop.days[0].points()]
        minimum = crop["minimum_c"].low
        assert found["slow"][0] in tested and tested[0] <= found["fast"][0] <= tested[-1]
        if minimum is not None:
            assert found["slow"][0] >= minimum - 0.5 and all(c < minimum - 0.5 for c in tested if c < found["slow"][0])
    # snap bean: minimum 15.5 °C (60 °F); the table's 15 °C counts as at it
    assert entry(reference, "bean-snap")["outdoors"]["slow"] == [15.0, pytest.approx(16, abs=0.05)]


def test_soak_only_where_the_evidence_says_so(reference):
    assert entry(reference, "parsley")["soak"] and entry(reference, "pepper-sweet")["soak"]
    for crop in ("tomato", "lettuce", "bean-snap", "pea"):  # not needed, or harmful
        assert not entry(reference, crop)["soak"]


def test_usual_days_stand_in_where_nothing_is_measured(reference):
    crop = reference.crops["arugula"]
    assert sowing_times.usual_days(reference, crop) is None  # Pliny alone prints days for rocket: historical, never counted
    # Baxter County Master Gardeners: parsnips in 2 to 3 weeks
    assert sowing_times.usual_days(reference, reference.crops["parsnip"])["days"] == [14, 21]
    row = TableRow("baxter-mg-parsnip", "days-usual", "days-usual.csv", 2, {"days_min": "14", "days_max": "14"})
    found = sowing_times.usual_days(reference, replace(crop, rows=MappingProxyType({"days-usual": (row,)})))
    assert events.days_usual({"usual": found})["range"] == [10, 19]  # a single number: a third either way
    assert events.days_usual({"usual": {"days": [14, 21], "from": "x"}})["range"] == [14, 21]


def test_doubts_travel_with_the_weeks(reference):
    lettuce, kale = entry(reference, "lettuce"), entry(reference, "kale")
    assert "no extension figure was found" in lettuce["timing"]["sow_indoors"]["note"]
    assert kale["timing"]["sow_outdoors"]["note"] == "Advice for Texas." and any("eight to ten weeks old" in text for text in entry(reference, "tomato")["doubts"])
    assert entry(reference, "basil")["timing"]["sow_indoors"] is None


def test_windows_in_words():
    assert sowing_times.window_words(["2027-05-08", "2027-05-14"]) == "8–14 May 2027"
    assert sowing_times.window_words(["2027-05-28", "2027-06-03"]) == "28 May – 3 June 2027"
    assert sowing_times.window_words(["2026-12-28", "2027-01-03"]) == "28 December 2026 – 3 January 2027"
    assert sowing_times.window_words(None) == "not published here"
