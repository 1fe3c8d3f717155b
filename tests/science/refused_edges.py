"""Input at the very edge of what is refused, just beyond it too: (module, function, arguments, words of the message).

The words tell that the function's own check refuses it, and not by chance one further down that has other things to say.
What lies on the allowed side of the same edges has its value in published_edges.py.
"""

from __future__ import annotations

from tests.science.published_trials import two_test_table

PLAN = [{"seeds": 10, "accept": 1, "flag": 5}]
GOOD = {"mean": 1, "amplitude": 1, "warmest_day": 1}


def _of(module: str, function: str, says: str, *cases: list) -> list[tuple]:
    return [(module, function, list(arguments), says) for arguments in cases]


AGEING = [
    *_of("ageing", "probits_per_year", "need a life above 0", [0, 0.9, 0.5], [-0.5, 0.9, 0.5], [4, 0.9, 0], [4, 0.9, -0.5], [4, 0.5, 0.5], [4, 1, 0.5], [4, 1.5, 0.5], [0, 0.9, 0]),
    *_of("ageing", "expected_fraction", "age must be 0 or more", [-0.5, 4, 0.9, 0.5]),
    *_of("ageing", "update", "need an expectation", [0, 4, 8, 10], [-0.5, 4, 8, 10], [1, 4, 8, 10], [1.5, 4, 8, 10], [0.5, 0, 8, 10], [0.5, -0.5, 8, 10]),
    *_of("ageing", "update", "at least one seed", [0.5, 4, 1, 0], [0.5, 4, -1, 0]),
    *_of("ageing", "update", "seedlings must lie", [0.5, 4, 3, 2], [0.5, 4, -1, 2]),
    *_of("ageing", "beta_summary", "impossible beta", [0, 1, 0.9], [1, 0, 0.9], [-0.5, 1, 0.9], [1, -0.5, 0.9], [1, 1, 0], [1, 1, -0.5], [1, 1, 1], [1, 1, 1.5]),
    *_of("ageing", "chance_above", "line must lie", [1, 1, -0.5], [1, 1, 1.5]),
    *_of("ageing", "years_until", "need a line", [0.9, 0, 0.3], [0.9, -0.5, 0.3], [0.9, 1, 0.3], [0.9, 1.5, 0.3], [0.9, 0.5, 0], [0.9, 0.5, -0.5]),
]
COUNTS = [
    *_of("counting", "reading_stage", "days since the start", [-0.5, 5, 14], [-0.5, None, None]),
    *_of("counting", "reading_stage", "comes before the first", [3, 5, 4], [None, 5, 4]),
    *_of("proportions", "normal_quantile", "probability must lie", [0], [-0.5], [1], [1.5]),
    *_of("proportions", "wilson", "whole numbers", [1.5, 10, 0.95], [1, 10.5, 0.95]),
    *_of("proportions", "wilson", "at least one seed", [0, 0, 0.95], [0, -1, 0.95]),
    *_of("proportions", "wilson", "seedlings must lie", [-1, 10, 0.95], [11, 10, 0.95]),
    *_of("proportions", "clopper_pearson", "seedlings must lie", [-1, 10, 0.95], [11, 10, 0.95]),
    *_of("proportions", "clopper_pearson", "confidence must lie", [3, 10, 0], [3, 10, -0.5], [3, 10, 1], [3, 10, 1.5]),
    *_of("lot", "chance_at_least", "threshold must lie", [3, 10, -0.5], [3, 10, 1.5]), *_of("lot", "chance_at_least", "seedlings must lie", [11, 10, 0.5]),
    *_of("lot", "chance_count_at_least", "k must lie between 0", [-1, 10, 0.5], [12, 10, 0.5]), *_of("lot", "chance_count_at_least", "fraction must lie", [3, 10, -0.5], [3, 10, 1.5]),
    *_of("lot", "chance_count_at_most", "k must lie between -1", [-2, 10, 0.5], [11, 10, 0.5]), *_of("lot", "chance_count_at_most", "fraction must lie", [3, 10, -0.5], [3, 10, 1.5]),
    *_of("replicates", "miles_factor", "replicates must be", [1], [9]),
    *_of("replicates", "miles_tolerance", "impossible fraction", [-0.5, 10, 4], [1.5, 10, 4], [0.5, 0, 4], [0.5, -0.5, 4]),
    *_of("replicates", "chance_of_range", "exact chance is for", [[1, 2], [3999, 2]]), *_of("replicates", "chance_of_range", "need 1 to 8 replicates", [[], []], [[1] * 9, [2] * 9], [[1], [2, 3]]),
    *_of("replicates", "chance_of_range", "seedlings must lie", [[1, 3], [2, 2]]),
    *_of("replicates", "largest_common_range", "cannot be computed", [0.5, 10, 1], [0.5, 10, 9], [0.5, 2001, 2]),
    *_of("replicates", "judge_replicates", "need 1 to 8 replicates", [[], []], [[1] * 9, [2] * 9]), *_of("replicates", "judge_replicates", "seedlings must lie", [[3], [2]]),
    *_of("repeated_tests", "dispersion", "need as many counts", [[], []], [[1, 2], [10]], [[], [10]]), *_of("repeated_tests", "dispersion", "seedlings must lie", [[1, 11], [10, 10]]),
    *_of("repeated_tests", "judge_tests", "seedlings must lie", [[401, 1], [400, 400]], [[401, 1], [400, 400], two_test_table()]), *_of("repeated_tests", "judge_tests", "need 1 to 8 replicates", [[1, 2, 3], [400, 400]]),
]
SOWING = [
    *_of("sowing", "chance_of_enough", "plants must be a whole", [0, 9, 8, 10], [1.5, 9, 8, 10]), *_of("sowing", "chance_of_enough", "seedlings must lie", [2, 9, 11, 10]),
    *_of("sowing", "chance_of_enough", "field factor must be", [2, 9, 8, 10, 0], [2, 9, 8, 10, -0.5], [2, 9, 8, 10, 1.5]),
    *_of("sowing", "seeds_needed", "certainty must lie", [5, 0, 8, 10], [5, -0.5, 8, 10], [5, 1, 8, 10], [5, 1.5, 8, 10]),
    *_of("sowing", "seeds_needed", "plants must be a whole", [0, 0.9, 0, 10]), *_of("sowing", "seeds_needed", "field factor must be", [5, 0.9, 0, 10, 0]),
    *_of("cells", "chance_empty", "seeds must be a whole", [0, 8, 10], [1.5, 8, 10]), *_of("cells", "chance_empty", "field factor must be", [2, 8, 10, 0], [2, 8, 10, 1.5]),
    *_of("cells", "seeds_per_cell", "chance must lie", [0, 8, 10], [-0.5, 8, 10], [1, 8, 10], [1.5, 8, 10]),
    *_of("cells", "expected_plants", "seeds must be a whole", [0, 8, 10]), *_of("cells", "expected_plants", "seedlings must lie", [2, 11, 10]),
    *_of("cells", "known_seeds_per_cell", "chance", [0, 0.5], [-0.5, 0.5], [1, 0.5], [1.5, 0.5]), *_of("cells", "known_seeds_per_cell", "fraction", [0.9, 0], [0.9, -0.5], [0.9, 1.5]),
    *_of("cells", "row_places", "length and spacing", [0, 1], [-0.5, 1], [1, 0], [1, -0.5]),
    *_of("outcomes", "plants_range", "seeds must be a whole", [2.5, 8, 10], [1.5, 8, 10]), *_of("outcomes", "plants_range", "seedlings must lie", [0, 11, 10]),
    *_of("outcomes", "plants_range", "field factor must be", [0, 8, 10, 0]),
    *_of("outcomes", "seeds_if_known", "impossible plants", [0, 0.9, 0.8], [1.5, 0.9, 0.8], [5, 0, 0.8], [5, -0.5, 0.8], [5, 1, 0.8], [5, 1.5, 0.8], [5, 0.9, 0], [5, 0.9, -0.5], [5, 0.9, 1.5]),
    *_of("outcomes", "likely_shares", "at least one seed", [0, 0]), *_of("outcomes", "likely_shares", "field factor must be", [1, 2, 0]),
    *_of("seed_mass", "pure_live_seed", "purity must lie", [-0.5, 0.5], [1.5, 0.5]), *_of("seed_mass", "pure_live_seed", "germination must lie", [0.5, -0.5], [0.5, 1.5]),
    *_of("seed_mass", "bulk_needed", "without live seed", [5, 0, 0.9], [5, 0.9, 0]), *_of("seed_mass", "grams_of_seeds", "seeds per gram must", [5, 0], [5, -0.5]),
    *_of("seed_mass", "seeds_per_gram_of_sample", "need seeds and grams", [0, 1], [-0.5, 1], [1, 0], [1, -0.5]),
]
PLANS = [
    *_of("plans", "seeds_for_half_width", "half width and fraction", [0, 0.5, 0.95], [-0.5, 0.5, 0.95], [1, 0.5, 0.95], [1.5, 0.5, 0.95], [0.1, 0, 0.95], [0.1, -0.5, 0.95], [0.1, 1, 0.95], [0.1, 1.5, 0.95]),
    *_of("plans", "fixed_plan", "a good lot must lie", [0.6, 0.6, 0.1, 0.1], [0.8, 0, 0.1, 0.1], [0.8, -0.5, 0.1, 0.1], [1, 0.8, 0.1, 0.1], [1.5, 0.8, 0.1, 0.1]),
    *_of("plans", "fixed_plan", "error rates must lie", [0.8, 0.6, 0, 0.1], [0.8, 0.6, -0.5, 0.1], [0.8, 0.6, 0.5, 0.1], [0.8, 0.6, 0.52, 0.1], [0.8, 0.6, 0.1, 0], [0.8, 0.6, 0.1, -0.5], [0.8, 0.6, 0.1, 0.5], [0.8, 0.6, 0.1, 0.52]),
    *_of("plans", "sequential_lines", "a good lot must lie", [0.4, 0.2, 0.1, 0.1], [0, 0.2, 0.1, 0.1], [0.2, 1, 0.1, 0.1]), *_of("plans", "sequential_lines", "error rates must lie", [0.2, 0.4, 0, 0.1]),
    *_of("plans", "sequential_plan", "groups must be", [0.8, 0.6, 0.1, 0.1, 0], [0.8, 0.6, 0.1, 0.1, 0.5], [0.8, 0.6, 0.1, 0.1, 51], [0.8, 0.6, 0.1, 0.1, 50.5]),
    *_of("plans", "operating_characteristic", "fraction must lie", [PLAN, -0.5], [PLAN, 1.5]),
    *_of("two_treatments", "newcombe_difference", "seedlings must lie", [11, 10, 3, 10], [1, 10, 11, 10]),
    *_of("two_treatments", "fisher_exact", "seedlings must lie", [11, 10, 3, 10], [1, 10, 11, 10]), *_of("two_treatments", "fisher_exact", "at least one seed", [0, 0, 1, 2], [1, 2, 0, 0]),
    *_of("two_treatments", "fisher_power", "impossible fractions", [-0.5, 0.5, 10], [1.5, 0.5, 10], [0.5, -0.5, 10], [0.5, 1.5, 10], [0.5, 0.6, 0], [0.5, 0.6, 201], [0.5, 0.6, 1.5]),
    *_of("two_treatments", "approximate_seeds", "need two different", [0.5, 0.5, 0.8], [-0.5, 0.5, 0.8], [1.5, 0.5, 0.8], [0.5, -0.5, 0.8], [0.5, 1.5, 0.8], [0.5, 0.6, 0.49], [0.5, 0.6, 1], [0.5, 0.6, 1.5]),
]
COURSES = [
    *_of("time_course", "check_course", "need as many days", [[1, 2], [1], 5], [[], [], 5], [[], [1], 5]), *_of("time_course", "check_course", "seeds must be a whole", [[1], [0], 0], [[1], [0], 1.5]),
    *_of("time_course", "check_course", "days must rise", [[0, 1], [1, 1], 5], [[-0.5, 1], [1, 1], 5], [[2, 2], [1, 1], 5], [[1, 3, 3], [1, 1, 1], 5]),
    *_of("time_course", "check_course", "counts must be whole", [[1, 2], [1, -1], 5], [[1, 2], [1, 1.5], 5]), *_of("time_course", "check_course", "seedlings from", [[1, 2], [3, 3], 5]),
    *_of("time_course", "time_course", "seedlings from", [[1, 2], [3, 3], 5]), *_of("time_course", "new_from_totals", "a running total", [[1, 3, 2]], [[-1, 3]]),
    *_of("day_course", "hours_of_day", "the minimum", [10.5, 10]), *_of("day_course", "fill_gaps", "there is no reading", [[None, None]], [[]]),
    *_of("day_course", "degree_days", "impossible day", [10.5, 10, 0, None, "sine"], [5, 10, 12, 12, "sine"], [5, 10, 12, 11, "sine"], [5, 10, 0, None, "square"]),
]
LIQUIDS = [
    *_of("dilution", "stock_needed", "cannot be diluted", [3, 3.1, 100]), *_of("dilution", "stock_needed", "stock must be above 0", [0, 0.1, 100], [-0.5, 0.1, 100]),
    *_of("dilution", "stock_needed", "wanted must be above 0", [3, 0, 100]), *_of("dilution", "stock_needed", "total must be above 0", [3, 1, 0]),
    *_of("dilution", "mixed_strength", "stock must be above 0", [0, 1, 1]), *_of("dilution", "mixed_strength", "must be above 0", [3, 0, 10]), *_of("dilution", "mixed_strength", "must not be below 0", [3, 1, -0.5]),
    *_of("dilution", "topped_up_strength", "does not fit", [3, 11, 10]), *_of("dilution", "topped_up_strength", "must be above 0", [0, 1, 10], [3, 0, 10], [3, -1, 0]),
    *_of("dilution", "times_weaker", "must be above 0", [0, 1]), *_of("dilution", "times_weaker", "must not be below 0", [1, -0.5]),
    *_of("dilution", "water_parts", "cannot be diluted", [1, 2]), *_of("dilution", "water_parts", "must be above 0", [0, 0.5], [1, 0]),
    *_of("dilution", "strength_range", "impossible slip", [3, 2, 10, 2.5], [3, 12, 10, 1], [3, 2, 10, -0.5]), *_of("dilution", "strength_range", "must be above 0", [0, 2, 10, 1], [3, 0, 10, 0], [3, 2, 0, 1]),
    *_of("dilution", "nearest_part", "must be above 0", [1, 0, 4]), *_of("dilution", "nearest_part", "must not be below 0", [-0.5, 15, 4]), *_of("dilution", "nearest_part", "parts must be", [1, 15, 0], [1, 15, 1.5]),
    *_of("dilution", "grams_for", "must be above 0", [0, 100], [0.2, 0]),
    *_of("viability", "fresh_basis", "moisture must be 0 or more", [-0.5]), *_of("viability", "dry_basis", "of fresh weight", [-0.5], [100], [100.5]),
    *_of("viability", "equilibrium_moisture", "need an oil content", [0.5, 20, -0.5], [0.5, 20, 1], [0.5, 20, 1.5], [0.5, -90, 0.1], [0.5, -90.5, 0.1], [0.5, 90, 0.1], [0.5, 90.5, 0.1], [0.5, 95, -0.5]),
    *_of("viability", "equilibrium_moisture", "relative humidity must", [-0.5, 20, 0.1], [1, 20, 0.1], [1.5, 20, 0.1]), *_of("viability", "equilibrium_humidity", "of fresh weight", [100, 20, 0.1]),
    *_of("viability", "probit_days", "moisture must lie", [0, 20, 8, 5, 0.03, 0.0005], [-0.5, 20, 8, 5, 0.03, 0.0005], [100, 20, 8, 5, 0.03, 0.0005], [100.5, 20, 8, 5, 0.03, 0.0005]),
    *_of("viability", "days_between", "need 0 < end", [0.9, 0, 100], [0.9, -0.5, 100], [0.5, 0.6, 100], [1, 0.6, 100], [1.5, 0.6, 100], [0.9, 0.6, 0], [0.9, 0.6, -0.5]),
    *_of("viability", "probits_now", "seedlings must lie", [11, 10, 0.9], [-1, 10, 0.9]), *_of("viability", "probits_now", "at least one seed", [0, 0, 0.9]),
    *_of("viability", "probits_now", "confidence must lie", [8, 10, 0], [8, 10, -0.5], [8, 10, 1], [8, 10, 1.5]),
    *_of("viability", "after_storage", "need days of 0", [8, 10, 0.9, -0.5, 100], [8, 10, 0.9, 1, 0], [8, 10, 0.9, 1, -0.5]),
    *_of("viability", "days_until", "need a line", [8, 10, 0.9, 0, 100], [8, 10, 0.9, -0.5, 100], [8, 10, 0.9, 1, 100], [8, 10, 0.9, 1.5, 100], [8, 10, 0.9, 0.5, 0], [8, 10, 0.9, 0.5, -0.5]),
    *_of("viability", "doublings", "step must be above 0", [20, 5, 0], [20, 5, -0.5]),
]
SOIL = [
    *_of("soil_temperature", "damping_depth", "diffusivity and period", [0, 365], [-0.5, 365], [0.5, 0], [0.5, -0.5], [-0.5, -0.5]), *_of("soil_temperature", "annual_harmonic", "twelve monthly", [[1] * 11], [[1] * 13]),
    *_of("soil_temperature", "annual_wave", "depth must not", [GOOD, -0.5]), *_of("soil_temperature", "annual_wave", "diffusivity and period", [GOOD, 50, 0]),
    *_of("soil_temperature", "exponential_mean", "each value needs", [[1, 1], [2, 3], 3, 7, 0], [[2, 1], [2, 3], 3, 7, 0], [[1, 2], [3], 3, 7, 0], [[1], [3, 4], 3, 7, 0]),
    *_of("soil_temperature", "exponential_mean", "the time constant", [[1, 2], [3, 4], 0, 7, 0], [[1, 2], [3, 4], -0.5, 7, 0]),
    *_of("soil_temperature", "scaled_errors", "the measured swing", [[[-1, 1]] * 4, 9, 0], [[[-1, 1]] * 4, 9, -0.5]),
    *_of("soil_windows", "holding", "days to hold", [[1, 2], 1, 0], [[1, 2], 1, 0.5]),
]
DATES = [
    *_of("sowing_times", "add_days", "a date reads", ["8 May 2027", 1], ["20026-05-08", 1], ["2027-5-08", 1], ["2027-05-8", 1], ["202-05-08", 1], ["2027-05-08-1", 1], ["2027-0a-08", 1], ["2027-05-0²", 1], ["2027/05/08", 1]),
    *_of("sowing_times", "add_days", "whole days only", ["2027-05-08", 0.5], ["2027-05-08", -0.5]),
    *_of("sowing_times", "add_days", "outside the calendar", ["1000-01-01", -1], ["9999-12-31", 1], ["9998-05-08", 999999], ["1000-01-01", -999999]),
    *_of("sowing_times", "add_days", "0999-12-31", ["0999-12-31", 1]),
    *_of("sowing_times", "day_in_year", "a year has four digits", ["05-08", 999], ["05-08", 9999], ["05-08", -2027]),
    *_of("sowing_times", "season", "are the same day", ["05-08", "05-08", 2027]), *_of("sowing_times", "season", "a year has four digits", ["05-08", "05-07", 9998]),
    *_of("sowing_times", "weeks_window", "no window from", ["2027-05-08", 1.5, 1, 7], ["2027-05-08", 1, 2, 0], ["2027-05-08", 1, 2, 0.5]),
    *_of("sowing_times", "before_planting", "no age from", [["2027-05-08", "2027-05-14"], 5.5, 5], [["2027-05-08", "2027-05-14"], 0, 5], [["2027-05-08", "2027-05-14"], -0.5, 5]),
    *_of("sowing_times", "window_for_test", "a test takes", ["2027-05-08", 0, 14, 14], ["2027-05-08", 7, -1, 14], ["2027-05-08", 7, 14, 0]),
    *_of("sowing_times", "days_range", "no range of days", [0, 5, 1.3], [-0.5, 5, 1.3], [5.5, 5, 1.3], [5, 6, 0.9]),
    *_of("sowing_times", "days_at", "points must rise", [[[20, 5], [20, 6]], 20], [[[21, 5], [20, 6]], 20], [[[20, 0], [21, 6]], 20], [[[20, -0.5], [21, 6]], 20], [[[20, 6], [21, 0]], 20], [[[20, 0], [21, 0]], 20]),
]
REFUSED_EDGES = [*AGEING, *COUNTS, *SOWING, *PLANS, *COURSES, *LIQUIDS, *SOIL, *DATES]
