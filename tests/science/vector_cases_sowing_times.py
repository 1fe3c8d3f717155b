"""Arguments of the vectors for the sowing calendar; same form as in vector_cases.py. Leap years, New Year, both halves of the world."""

from __future__ import annotations

from itertools import product

from build_tools.science import sowing_times

DAYS = ("2024-02-28", "2024-02-29", "2023-02-28", "2027-12-31", "2028-01-01", "2000-02-29", "2100-02-28", "2027-05-08", "1999-10-15")
FROSTS = ("2027-05-08", "2028-02-29", "2026-10-15", "2027-01-10", "2024-03-01")
WEEKS = ((-8, -6), (0, 0), (2, 2), (-2, 0), (-17, -12), (-8.6, 0), (-4.3, -4.3), (0.5, 3.5), (4, 10))
RULES = {"least_window_days": 7, "test_lead_days": 14, "buy_days": 14, "give_up_times": 2, "test_good_months": 12}
OTHER_RULES = {"least_window_days": 1, "test_lead_days": 1, "buy_days": 0, "give_up_times": 1.5, "test_good_months": 6}
POINTS = [[10, 42.9], [10.5, 39.7], [11, 36.8], [11.5, 34], [12, 31.4], [15, 14], [20, 8], [25, 6], [30, 6], [35, 9]]
NOTHING = {"sow_indoors": None, "plant_out": None, "sow_outdoors": None, "transplant_age": None, "test_days": 7, "soak": False,
           "indoor_days": None, "outdoor_days": None}
CROPS = (
    NOTHING,
    {**NOTHING, "sow_indoors": [-8, -6], "plant_out": [2, 2], "transplant_age": [5, 7], "test_days": 14, "indoor_days": [6, 11]},
    {**NOTHING, "plant_out": [2, 2], "transplant_age": [5, 6], "indoor_days": [3, 5], "outdoor_days": [4, 20]},
    {**NOTHING, "plant_out": [-8.6, 0]},
    {**NOTHING, "sow_outdoors": [-2, 0], "test_days": 28, "soak": True, "outdoor_days": [9, 75]},
    {**NOTHING, "sow_indoors": [-2, -1], "plant_out": [2, 2], "sow_outdoors": [0, 0], "transplant_age": [3, 4], "soak": True,
     "indoor_days": [5, 8], "outdoor_days": [2, 17]},
)
WINDOWS = ([["2027-01-31", "2027-02-13"], ["2027-01-31", "2027-02-10"], ["2027-03-13", "2027-03-27"], ["2026-12-01", "2027-06-01"]], [])
MODULES = {"sowing_times": sowing_times}
CASES = {
    "sowing_times": {
        "add_days": (["day", "days"], lambda: [[day, days] for day in DAYS for days in (0, 1, -1, 28, -60, 366, -3653, 40_000)]),
        "days_between": (["first", "second"], lambda: [list(pair) for pair in product(DAYS, DAYS)]),
        "day_in_year": (["month_day", "year"], lambda: [[day, year] for day in ("05-08", "02-29", "02-28", "12-31", "01-01")
                                                        for year in (2000, 2023, 2024, 2100, 2199)]),
        "season": (["last_frost", "first_frost", "year"], lambda: [
            [last, first, year] for last, first in (("05-08", "10-06"), ("10-15", "04-20"), ("02-29", "11-30"), ("01-31", "01-05"), ("12-31", "01-01"))
            for year in (2023, 2024, 2027)]),
        "weeks_window": (["frost", "low", "high", "least_days"], lambda: [
            [frost, *weeks, least] for frost in FROSTS for weeks in WEEKS for least in (1, 7, 30)]),
        "before_planting": (["plant_out", "age_low", "age_high"], lambda: [
            [[day, sowing_times.add_days(day, 6)], *age] for day in FROSTS for age in ((5, 7), (3, 3), (8.7, 13))]),
        "window_for_test": (["first_sowing", "test_days", "buy_days", "lead_days"], lambda: [
            [day, *rest] for day in FROSTS for rest in ((14, 14, 14), (7, 0, 1), (28, 30, 7))]),
        "still_good": (["tested", "sowing", "months"], lambda: [
            [tested, sowing, months] for tested in ("2026-02-28", "2024-02-29", "2026-11-30") for sowing in ("2027-02-28", "2027-03-01", "2025-02-28")
            for months in (0, 3, 12)]),
        "days_range": (["fast", "slow", "factor"], lambda: [[*pair, factor] for pair in ((6, 6), (10, 10), (0.4, 0.4), (5.9, 42.9), (30, 30.1), (13, 13))
                                                            for factor in (1, 1.3)]),
        "days_at": (["points", "celsius"], lambda: [[POINTS, c] for c in (9.99, 10, 10.25, 13.5, 20, 26.7, 35, 35.01)] + [[[], 20], [[[20, 5]], 20]]),
        "shifted": (["window", "first_days", "last_days"], lambda: [[["2027-12-25", "2028-01-02"], *days] for days in ((-1, -1), (6, 11), (0, 0), (60, 75), (-400, 400))]),
        "weeks_apart": (["sow", "plant_out"], lambda: [[[a, sowing_times.add_days(a, 14)], [b, sowing_times.add_days(b, 6)]]
                                                       for a, b in (("2027-03-13", "2027-05-22"), ("2027-03-13", "2027-04-10"), ("2027-05-01", "2027-04-20"),
                                                                    ("2027-12-20", "2028-03-01"), ("2028-02-28", "2028-03-01"))]),
        "sowing_plan": (["crop", "frost", "rules", "tested"], lambda: [
            [crop, frost, rules, tested] for crop in CROPS for frost in FROSTS for rules in (RULES, OTHER_RULES) for tested in (None, "2026-09-01")]),
        "next_tasks": (["windows", "today", "most"], lambda: [[windows, today, most] for windows in WINDOWS
                                                              for today in ("2026-11-25", "2027-02-12", "2027-06-02") for most in (0, 3)]),
    },
}
