"""Windows of a sowing season against printed advice and worked dates, and what holds whatever the dates."""

from __future__ import annotations

import csv
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.science import sowing_times as times
from tests.science.test_properties import steady

RULES = {"least_window_days": 7, "test_lead_days": 14, "buy_days": 14, "give_up_times": 2, "test_good_months": 12}
DAY = st.dates(date(1900, 1, 1), date(2200, 12, 31)).map(date.isoformat)
SPAN = st.tuples(st.floats(-20, 10), st.floats(0, 12)).map(lambda pair: [pair[0], pair[0] + pair[1]])
DAYS = st.tuples(st.integers(1, 60), st.integers(0, 120)).map(lambda pair: [pair[0], pair[0] + pair[1]])
AGE = st.tuples(st.floats(1, 12), st.floats(0, 6)).map(lambda pair: [pair[0], pair[0] + pair[1]])
CROP = st.fixed_dictionaries({
    "sow_indoors": st.none() | SPAN, "plant_out": st.none() | SPAN, "sow_outdoors": st.none() | SPAN, "transplant_age": st.none() | AGE,
    "test_days": st.integers(1, 60), "soak": st.booleans(), "indoor_days": st.none() | DAYS, "outdoor_days": st.none() | DAYS,
})


def sow_timing(root, source, crop):
    with (root / "data" / "sources" / source / "sow-timing.csv").open(encoding="utf-8", newline="") as file:
        return next(row for row in csv.DictReader(file) if row["crop_id"] == crop)


def test_days_before_the_frost_as_printed(root):
    # Utah State University Extension, Beddes 2021: hardy crops from 45–60 days before the average last frost until it; the table holds -8.6 weeks
    row = sow_timing(root, "usu-beddes-2021", "pea")
    first, last = times.weeks_window("2027-05-08", float(row["direct_weeks_rel_last_frost_min"]), float(row["direct_weeks_rel_last_frost_max"]), 7)
    assert times.days_between(first, "2027-05-08") == 60 and last == "2027-05-08"
    # Deseret News, “Backyard gardeners will find a crop of beets is hard to beat”: about 30 days before the last killing frost; -4.3 weeks
    row = sow_timing(root, "deseret-sagers-1991", "beet")
    weeks = float(row["direct_weeks_rel_last_frost_min"])
    assert times.days_between(times.weeks_window("2027-05-08", weeks, weeks, 7)[0], "2027-05-08") == 30


def test_worked_dates_of_a_gardener():
    # preparednessmama.com, “Last Frost Date Planting Worksheet”, a worked example: last frost March 5th; broccoli is set out three weeks
    # before it, “the week of Feb 12th”, and sown indoors six weeks before that, “Jan 1st” (a year without a 29 February)
    out = times.weeks_window("2013-03-05", -3, -3, 7)
    assert out == ["2013-02-12", "2013-02-18"]
    assert times.before_planting(out, 6, 6)[0] == "2013-01-01"


def test_eight_weeks_before_mid_may_is_in_march():
    # The Morning Call, Allentown, 13 February 2021: eight weeks before the last frost, counted back from mid-May, is “sometime in March”
    first, last = times.weeks_window("2021-05-15", -8, -8, 7)
    assert first[:7] == last[:7] == "2021-03"


def test_weeks_of_a_printed_table_around_its_frost(root):
    # Utah State University Extension, Wasatch Front 2009: semi-hardy crops from two weeks before the average last frost (until it: Beddes 2021)
    row = sow_timing(root, "usu-wasatch-2009", "carrot")
    low, high = (float(row[f"direct_weeks_rel_last_frost_{end}"]) for end in ("min", "max"))
    assert times.weeks_window("2027-05-08", low, high, 7) == ["2027-04-24", "2027-05-08"]
    # Cornell Cooperative Extension of Oneida County 2020: tomatoes indoors six to eight weeks before the last frost
    row = sow_timing(root, "cce-oneida-2020", "tomato")
    low, high = (-float(row[f"indoor_weeks_before_last_frost_{end}"]) for end in ("max", "min"))
    assert times.weeks_window("2027-05-08", low, high, 7) == ["2027-03-13", "2027-03-27"]


def test_sowing_for_a_day_of_planting_out():
    # data/crops: “Worked out from the age of the transplant and the week of planting out”: cucumber out at 2 weeks, 3–4 weeks old, so sown at -2 to -1
    out = times.weeks_window("2027-05-08", 2, 2, 1)
    assert times.before_planting(out, 3, 4) == times.weeks_window("2027-05-08", -2, -1, 1)


def test_a_tomato_of_two_sources_is_eight_to_ten_weeks_old():
    # the sentence of data/crops/tomato.yml on two printed timings: “plants are eight to ten weeks old”
    assert times.weeks_apart(times.weeks_window("2027-05-08", -8, -6, 7), times.weeks_window("2027-05-08", 2, 2, 7)) == [8, 10]


def test_days_range_is_that_of_the_emergence_curve():
    from build_tools.science.emergence import RANGE_FACTOR

    assert times.days_range(8, 8, RANGE_FACTOR) == [6, 11]
    assert times.days_range(10, 10, RANGE_FACTOR) == [7, 13]  # 10 × 1.3 is 13 days, whatever the binary fraction says
    assert times.days_range(1, 1, RANGE_FACTOR) == [1, 2]


def test_between_half_degrees_the_curve_is_met(root):
    # scipy's PCHIP through ln(days), of which the points are taken: between two of them the straight line is within 2 %
    from build_tools.science.emergence import days_curve

    curve = days_curve([10, 15, 20, 25, 30, 35], [43, 14, 8, 6, 6, 9])
    points = [[c / 2, float(curve(c / 2))] for c in range(20, 71)]
    for celsius in (10.1, 12.25, 17.3, 20.0, 26.6, 34.9):
        assert times.days_at(points, celsius) == pytest.approx(float(curve(celsius)), rel=0.02)
    assert times.days_at(points, 9.9) is None and times.days_at(points, 35.1) is None


def test_southern_season_and_new_year():
    assert times.season("10-15", "04-20", 2026) == {"last": "2026-10-15", "first": "2027-04-20"}
    assert times.season("05-08", "10-06", 2027) == {"last": "2027-05-08", "first": "2027-10-06"}
    assert times.weeks_window("2027-01-10", -8, -6, 7) == ["2026-11-15", "2026-11-29"]
    assert times.weeks_window("2024-03-01", -1, 0, 7)[0] == "2024-02-23" and times.weeks_window("2023-03-01", -1, 0, 7)[0] == "2023-02-22"


def test_test_is_counted_back_and_not_repeated():
    assert times.window_for_test("2027-03-13", 14, 14, 14) == ["2027-01-31", "2027-02-13"]
    assert times.still_good("2026-03-13", "2027-03-13", 12) and not times.still_good("2026-03-12", "2027-03-13", 12)
    assert times.still_good("2024-02-29", "2025-02-28", 12)


def test_soak_giving_up_and_what_is_left_out():
    crop = {"sow_indoors": None, "plant_out": [-8.6, 0], "sow_outdoors": [0, 0], "transplant_age": None, "test_days": 7, "soak": True, "indoor_days": [3, 5], "outdoor_days": [4, 20]}
    plan = times.sowing_plan(crop, "2027-05-08", RULES)
    assert plan == {
        "test": ["2027-04-04", "2027-04-17"], "plant-out": ["2027-03-09", "2027-05-08"], "soak-outdoors": ["2027-05-07", "2027-05-13"], "sow-outdoors": ["2027-05-08", "2027-05-14"],
        "look-outdoors": ["2027-05-12", "2027-06-03"], "give-up-outdoors": ["2027-05-29", "2027-06-04"],
    }
    assert times.sowing_plan({**crop, "sow_outdoors": None, "plant_out": None}, "2027-05-08", RULES) == {}
    indoors = times.sowing_plan({**crop, "sow_indoors": [-8, -6]}, "2027-05-08", RULES)
    assert indoors["give-up-indoors"][0] == times.add_days(indoors["sow-indoors"][0], 11)  # the day after twice the late end
    assert "test" not in times.sowing_plan(crop, "2027-05-08", RULES, "2026-06-01")


def test_next_tasks_are_those_that_can_be_done_soonest():
    windows = [["2027-01-01", "2027-03-01"], ["2027-02-01", "2027-02-10"], ["2027-02-20", "2027-02-25"], ["2026-12-01", "2026-12-31"]]
    assert times.next_tasks(windows, "2027-02-05", 3) == [1, 0, 2]
    assert times.next_tasks(windows, "2027-03-02", 3) == []


@steady
@given(DAY, st.integers(-20_000, 20_000))
def test_days_are_those_of_the_calendar(day, days):
    assert times.add_days(day, days) == (date.fromisoformat(day) + timedelta(days=days)).isoformat()
    assert times.days_between(day, times.add_days(day, days)) == days


@steady
@given(CROP, DAY, st.integers(-400, 400))
def test_windows_are_ordered_and_move_with_the_frost(crop, frost, moved):
    plan = times.sowing_plan(crop, frost, RULES)
    later = times.sowing_plan(crop, times.add_days(frost, moved), RULES)
    assert plan.keys() == later.keys() and set(plan) <= set(times.TASKS)
    for task, (first, last) in plan.items():
        assert times.days_between(first, last) >= 6  # never a single day
        assert later[task] == [times.add_days(first, moved), times.add_days(last, moved)]
    for where in ("indoors", "outdoors"):
        if f"look-{where}" in plan:
            assert plan[f"sow-{where}"][0] < plan[f"look-{where}"][0] and plan[f"look-{where}"][1] < plan[f"give-up-{where}"][1]
    sowings = [plan[task][0] for task in ("sow-indoors", "sow-outdoors") if task in plan]
    assert ("test" in plan) == bool(sowings)
    if sowings:
        assert times.days_between(plan["test"][1], min(sowings)) == crop["test_days"] + RULES["buy_days"]


@steady
@given(st.lists(st.tuples(DAY, st.integers(0, 90)), max_size=20), DAY)
def test_nothing_that_is_over_comes_next(starts, today):
    windows = [[day, times.add_days(day, length)] for day, length in starts]
    found = times.next_tasks(windows, today, 3)
    assert all(windows[i][1] >= today for i in found)
    assert len(found) == min(3, sum(end >= today for _, end in windows))
    begins = [max(windows[i][0], today) for i in found]
    assert begins == sorted(begins)
