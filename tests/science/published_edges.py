"""Values at the very edge of what is allowed, and of defaults: each by hand, from the definition named beside it.

Python and browser must both give them. What lies just beyond the same edges is refused: refused_edges.py.
"""

from __future__ import annotations

from math import ceil, exp, floor, log, pi, prod

from scipy import special

from tests.science.published import Published

HAND = "by hand"


def _of(module: str, source: str, *cases: tuple) -> list[Published]:
    """Cases are (function, arguments, value) or (function, arguments, value, tolerance)."""
    return [Published(module, function, tuple(arguments), value, *(rest or (1e-12,)), source, HAND) for function, arguments, value, *rest in cases]


def _year(days: dict, other: float | None = None) -> list:
    """365 days, those given and all others."""
    return [days.get(day, other) for day in range(365)]


def _wald(dead_good: float, dead_bad: float, error: float, groups: int) -> list:
    """Wald 1947: with both errors alike, h1 = h2 = ln((1 - e)/e)/k."""
    k = log(dead_bad * (1 - dead_good) / (dead_good * (1 - dead_bad)))
    slope, apart = log((1 - dead_good) / (1 - dead_bad)) / k, log((1 - error) / error) / k
    lines = [(seeds, floor(slope * seeds - apart), ceil(slope * seeds + apart)) for seeds in range(10, 10 * groups + 1, 10)]
    return [{"seeds": seeds, "accept": accept if accept >= 0 else None, "flag": flag if flag <= seeds else None} for seeds, accept, flag in lines]


def _empty(seeds: float) -> float:
    """Chance of an empty cell after none of one seed; of a half in between, the mean of both."""
    if seeds % 1:
        return (_empty(seeds - 0.5) + _empty(seeds + 0.5)) / 2
    return prod((1.5 + i) / (2 + i) for i in range(int(seeds)))


_QUARTER = {"days": {"knots": [10, 20], "cubics": [[0, 0, 0, log(4)]]}, "none_below": 5, "none_above": None}  # four days at 10 to 20 °C, none at 5
_STEPS = {"knots": [0, 1, 2], "cubics": [[0, 0, 1, 1], [0, 0, 2, 3]]}
_TWO = ((0, "measured", 5), (1, "measured", 4))
EDGES = [
    *_of("lot", "none or all of the chance: fewer than 0 and more than n never happen, 0 or more and n or fewer always",
         ("chance_count_at_most", (-1, 10, 0.5), 0.0), ("chance_count_at_most", (10, 10, 0.5), 1.0), ("chance_count_at_most", (0, 2, 0.5), 0.25), ("chance_count_at_most", (1, 2, 0), 1.0),
         ("chance_count_at_most", (1, 2, 1), 0.0), ("chance_count_at_least", (0, 10, 0.5), 1.0), ("chance_count_at_least", (11, 10, 0.5), 0.0), ("chance_count_at_least", (11, 10, 1), 0.0), ("chance_count_at_most", (-1, 10, 0), 0.0), ("chance_count_at_least", (0, 10, 0), 1.0), ("chance_count_at_most", (10, 10, 1), 1.0), ("chance_count_at_least", (2, 2, 0.5), 0.25),
         ("chance_count_at_least", (1, 2, 0), 0.0), ("chance_count_at_least", (1, 2, 1), 1.0), ("chance_at_least", (3, 10, 0), 1.0), ("chance_at_least", (3, 10, 1), 0.0)),
    *_of("ageing", "Beta(1, 1) is flat: mean 1/2, variance 1/12, chance above a line 1 - line",
         ("chance_above", (1, 1, 0), 1.0), ("chance_above", (1, 1, 1), 0.0), ("chance_above", (1, 1, 0.25), 0.75),
         ("beta_summary", (1, 1, 0.9), {"mean": 0.5, "sd": 12**-0.5, "low": 0.05, "high": 0.95})),
    *_of("ageing", "without a test, or with no age, nothing changes; a lot at the line or below has no time left",
         ("update", (0.25, 4, 0, 0), (1.0, 3.0)), ("expected_fraction", (0, 4, 0.9, 0.5), 0.9), ("expected_fraction", (4, 4, 0.9, 0.5), 0.5), ("expected_fraction", (0, 4, 0.999, 0.5), 0.98), ("expected_fraction", (400, 4, 0.9, 0.5), 0.02),
         ("years_until", (0.5, 0.5, 0.3), 0.0), ("years_until", (0.4, 0.5, 0.3), 0.0)),
    *_of("ageing", "a third of the time in whole months, within the least and the most",
         ("months_to_next_test", (3, 3, 60), 12), ("months_to_next_test", (3.2, 3, 60), 12), ("months_to_next_test", (0.5, 3, 60), 3), ("months_to_next_test", (30, 3, 60), 60)),
    *_of("counting", "the first and the final count day themselves count as reached; a week is enough where no day is published",
         ("reading_stage", (0, None, None), "short-wait"), ("reading_stage", (6, None, None), "short-wait"), ("reading_stage", (7, None, None), "waited"), ("reading_stage", (5, 5, 5), "complete"),
         ("reading_stage", (5, 5, 14), "before-final"), ("reading_stage", (4, 5, 14), "before-first"), ("reading_stage", (14, 5, 14), "complete")),
    *_of("counting", "a count may still rise until the final count day, or a week where none is published",
         *(("can_still_rise", (stage,), stage in ("before-first", "before-final", "short-wait")) for stage in ("no-day", "before-first", "before-final", "complete", "short-wait", "waited"))),
    *_of("proportions", "Wilson after 0 of 1: 0 to z²/(1 + z²) = 3.8415/4.8415; ten seeds as in TEN_SEEDS, mirrored; halves upward",
         ("whole_percent_table", (1,), [{"k": 0, "low": 0, "high": 79}, {"k": 1, "low": 21, "high": 100}], 0), ("whole_percent_table", (1, 0.5), [{"k": 0, "low": 0, "high": 31}, {"k": 1, "low": 69, "high": 100}], 0),
         ("whole_percent_table", (), [{"k": k, "low": low, "high": high} for k, (low, high) in enumerate([(0, 28), (2, 40), (6, 51), (11, 60), (17, 69), (24, 76), (31, 83), (40, 89), (49, 94), (60, 98), (72, 100)])], 0),
         ("round_half_up", (0.5,), 1, 0), ("round_half_up", (1.49,), 1, 0), ("wilson", (0, 1), (0.0, 3.8414588206941236 / 4.8414588206941236)), ("wilson", (1, 1), (1 / 4.8414588206941236, 1.0)),
         ("clopper_pearson", (1, 1), (0.025, 1.0)), ("clopper_pearson", (0, 1), (0.0, 0.975)), ("clopper_pearson", (1, 1, 0.5), (0.25, 1.0)), ("z_for_confidence", (0.5,), 0.67448975019608)),
    *_of("replicates", "no spread where none or all come up; two replicates of one seed at one half differ half of the time; of 3 by 3 twice in 64 times, of 4 by 4 twice in 256",
         ("miles_tolerance", (0, 10, 4), 0.0), ("miles_tolerance", (1, 10, 4), 0.0), ("chance_of_range", ((1, 0), (1, 1)), 0.5), ("chance_of_range", ((1, 1), (2, 2)), 1.0),
         ("largest_common_range", (0, 10, 4), 0, 0), ("largest_common_range", (1, 10, 4), 0, 0), ("largest_common_range", (0.5, 1, 2), 1, 0), ("largest_common_range", (0.5, 3, 2), 3, 0), ("largest_common_range", (0.5, 4, 2), 3, 0), ("largest_common_range", (0, 500, 8), 0, 0)),
    *_of("replicates", "a table that prints 9 for an average of 50: range 9 agrees, 10 does not; one replicate has nothing to agree with",
         ("judge_replicates", ((50,), (100,)), None), ("published_limit", ([{"average_high": 51, "average_low": 50, "two": 9, "four": 12}], 51, 2), 9, 0),
         ("published_limit", ([{"average_high": 51, "average_low": 50, "two": 9, "four": 12}], 50, 4), 12, 0), ("published_limit", ([{"average_high": 51, "average_low": 50, "two": 9, "four": 12}], 50, 3), None, 0),
         ("judge_replicates", ((46, 55), (100, 100), [{"average_high": 51, "average_low": 50, "two": 9, "four": 12}]), {"agree": True, "rule": "table", "range": 9.0, "limit": 9.0, "chance": None}, 0),
         ("judge_replicates", ((45, 55), (100, 100), [{"average_high": 51, "average_low": 50, "two": 9, "four": 12}]), {"agree": False, "rule": "table", "range": 10.0, "limit": 9.0, "chance": None}, 0)),
    *_of("replicates", "beyond 4000 seeds Miles' formula: 100 q √(p (1 - p)/n); q of two is √2 times the 98.75 % point of the normal distribution, 2.241403; that of three 3.682268 (published tables of the studentized range, 2.5 % point)",
         ("judge_replicates", ((2500, 5000), (5000, 10_000)), {"agree": True, "rule": "miles", "range": 0.0, "limit": 100 * 2**0.5 * 2.241402727604947 * (0.25 / 10_000) ** 0.5, "chance": None}, 1e-9),
         *(("judge_replicates", (counts, (10_000,) * 3), {"agree": False, "rule": "miles", "range": 10.0, "limit": 100 * 3.682267756830824 * (share * (1 - share) / 10_000) ** 0.5, "chance": None}, 1e-9)
           for counts, share in (((5000, 6000, 5100), 16_100 / 30_000), ((5000, 5900, 6000), 16_900 / 30_000))),
         ("miles_tolerance", (0.5, 0.25, 2), 100 * 2**0.5 * 2.241402727604947, 1e-7), ("judge_replicates", ((50, 100), (100, 200), [{"average_high": 75, "average_low": 26, "two": 9, "four": 12}]), {"agree": True, "rule": "exact", "range": 0.0, "limit": None, "chance": 1.0})),
    *_of("repeated_tests", "a deviance of nothing where all tests show the same; 0 and 2 of 2: 2(2 ln 2 + 2 ln 2), (1 + 1)/(1/2)",
         ("dispersion", ((1, 1), (2, 2)), {"deviance": 0.0, "pearson": 0.0, "freedom": 1}), ("dispersion", ((0, 2), (2, 2)), {"deviance": 8 * 0.6931471805599453, "pearson": 4.0, "freedom": 1}),
         ("dispersion", ((0, 0), (2, 2)), {"deviance": 0.0, "pearson": 0.0, "freedom": 1}), ("dispersion", ((3,), (3,)), {"deviance": 0.0, "pearson": 0.0, "freedom": 0})),
    *_of("sowing", "Jeffreys after 1 of 1 is Beta(3/2, 1/2), mean 3/4, that of both of two 5/8; uniform Beta(2, 1), mean 2/3",
         ("chance_of_enough", (1, 1, 1, 1), 0.75), ("chance_of_enough", (2, 2, 1, 1), 0.625), ("chance_of_enough", (1, 1, 1, 1, 0.5), 0.375), ("chance_of_enough", (1, 1, 1, 1, 1, 1), 2 / 3), ("chance_of_enough", (2, 1, 1, 1), 0.0),
         ("seeds_needed", (1, 0.75, 1, 1), 1, 0), ("seeds_needed", (1, 0.76, 1, 1), 2, 0), ("seeds_needed", (3, 0.5, 0, 4), None, 0)),
    *_of("cells", "a seed that comes with chance 3/4 (Jeffreys after 1 of 1) or 2/3 (uniform); half of the seedlings lost",
         ("chance_empty", (1, 1, 1), 0.25), ("chance_empty", (1, 1, 1, 0.5), 0.625), ("chance_empty", (1, 1, 1, 1, 1), 1 / 3), ("expected_plants", (4, 1, 1), 3.0), ("expected_plants", (4, 1, 1, 0.5), 1.5), ("expected_plants", (3, 1, 1, 1, 1), 2.0),
         ("expected_thinned", (1, 1, 1), 0.0), ("expected_thinned", (1, 1, 1, 0.5), 0.0), ("seeds_per_cell", (0.7, 1, 1), 1, 0), ("seeds_per_cell", (0.8, 1, 1), 2, 0), ("seeds_per_cell", (0.7, 1, 1, 1, 1), 2, 0), ("seeds_per_cell", (0.375, 1, 1, 0.5), 1, 0)),
    *_of("cells", "1 - (1 - p)^m reaches 3/4 with two seeds at one half exactly; a row of 3 with a place every 1 has four",
         ("known_seeds_per_cell", (0.75, 0.5), 2, 0), ("known_seeds_per_cell", (0.875, 0.5), 3, 0), ("known_seeds_per_cell", (0.9999999, 0.9), 7, 0), ("known_seeds_per_cell", (0.01, 0.9), 1, 0), ("known_seeds_per_cell", (1e-12, 0.9), 1, 0), ("known_seeds_per_cell", (0.9, 1), 1, 0),
         ("row_places", (3, 1), 4, 0), ("row_places", (0.3, 0.1), 4, 0), ("row_places", (2.9, 1), 3, 0), ("row_places", (0.5, 1), 1, 0)),
    *_of("cells", "none of one, Jeffreys: m seeds leave a cell empty with chance (1.5 · 2.5 · …)/(2 · 3 · …), m factors each; 30 seeds a cell are the most",
         ("seeds_per_cell", (1 - _empty(29.5), 0, 1), 30, 0), ("seeds_per_cell", (1 - _empty(30.5), 0, 1), None, 0), ("chance_empty", (30, 0, 1), _empty(30)), ("chance_empty", (2, 0, 1), 1.5 * 2.5 / 6)),
    *_of("outcomes", "with certain germination every seed is a plant; two seeds at one half both come with chance 1/4",
         ("plants_range", (0, 1, 1), (0, 0), 0), ("seeds_if_known", (5, 0.9, 1), 5, 0), ("seeds_if_known", (1, 0.5, 0.5), 1, 0), ("seeds_if_known", (1, 0.75, 0.5), 2, 0), ("seeds_if_known", (1, 0.76, 0.5), 3, 0), ("seeds_if_known", (2, 0.25, 0.5), 2, 0),
         ("seeds_if_known", (200_000, 0.9, 1), 200_000, 0), ("seeds_if_known", (200_001, 0.9, 1), None, 0),
         ("chance_of_cells", (2, 2, 1, (0.5,)), 0.25), ("chance_of_cells", (1, 1, 2, (0.5,)), 0.75), ("chance_of_cells", (1, 1, 1, (0.5, 1)), 0.75), ("chance_of_cells", (0, 1, 1, (0.5,)), 1.0), ("chance_of_cells", (2, 1, 1, (1,)), 0.0), ("chance_of_cells", (-1, 1, 1, (0.5,)), 1.0),
         ("cells_range", (10, 1, (1,)), (10, 10), 0), ("cells_range", (0, 1, (1,)), (0, 0), 0), ("cells_needed", (5, 0.9, 1, (1,), 5), 5, 0), ("cells_needed", (6, 0.9, 1, (1,), 5), None, 0), ("cells_needed", (1, 0.75, 1, (0.5,), 9), 2, 0), ("cells_needed", (1, 0.75, 1, (0.5,), 2), 2, 0), ("cells_needed", (1, 0.75, 1, (0.5,), 1), None, 0)),
    *_of("outcomes", "scipy.special.betaincinv, Jeffreys after 1 of 1: the middles of 200 equal parts", ("likely_shares", (1, 1), [float(special.betaincinv(1.5, 0.5, (i + 0.5) / 200)) for i in range(200)], 1e-9)),
    *_of("seed_mass", "products and quotients", ("pure_live_seed", (0, 1), 0.0), ("pure_live_seed", (1, 0), 0.0), ("pure_live_seed", (1, 1), 1.0), ("bulk_needed", (3, 0.75, 0.5), 8.0), ("grams_of_seeds", (3, 0.5), 6.0), ("seeds_per_gram_of_sample", (0.5, 0.25), 2.0), ("ounces", (56.69904625,), 2.0)),
    *_of("plans", "z² p (1 - p)/h² with z = 1.959964: 384.15 at one half and 5 points; never less than one seed; Wald's lines are met by both ends of the groups",
         ("seeds_for_half_width", (0.9, 0.5, 0.95), 2, 0), ("seeds_for_half_width", (0.9, 0.001, 0.5), 1, 0),
         ("fixed_plan", (0.9, 0.1, 0.2, 0.2), {"seeds": 1, "accept_at": 1}, 0), ("fixed_plan", (0.9, 0.1, 0.1, 0.1), {"seeds": 1, "accept_at": 1}, 0)),
    *_of("plans", "z = 1 at 68.27 %: p (1 - p)/h² = 4 exactly; error rates up to one half; Wald's lines, d = s n ± h, for .8 against .2 with errors of 1/17: s = 1/2, h = 1; for .8 against .6 by the formula",
         ("seeds_for_half_width", (0.25, 0.5, 0.6826894921370859), 4, 0), ("seeds_for_half_width", (0.9, 1e-12, 0.95), 1, 0), ("fixed_plan", (0.9, 0.1, 0.49, 0.49), {"seeds": 1, "accept_at": 1}, 0),
         ("sequential_plan", (0.8, 0.2, 1 / 17, 1 / 17, 2), [{"seeds": 10, "accept": 4, "flag": 6}, {"seeds": 20, "accept": 9, "flag": 11}], 0), ("sequential_plan", (0.8, 0.6, 0.1, 0.1, 50), _wald(0.2, 0.4, 0.1, 50), 0), ("sequential_plan", (0.8, 0.6, 0.1, 0.1, 1), _wald(0.2, 0.4, 0.1, 1), 0)),
    *_of("plans", "smallest plans by scipy.stats.binom, every size tried in turn: 1997 seeds are the last below the limit of 2000 for these questions, 2002 are too many",
         ("fixed_plan", (0.62, 0.58, 0.034121319360522366, 0.034121319360522366), {"seeds": 1997, "accept_at": 1199}, 0), ("fixed_plan", (0.62, 0.58, 0.03394711248836177, 0.03394711248836177), None, 0)),
    *_of("plans", "ten seeds at a time: 3/4^10 keep all alive; pass with none dead, flag with one or more, or none of either",
         ("operating_characteristic", ([{"seeds": 10, "accept": 0, "flag": 1}], 0.75), {"accept": 0.75**10, "flag": 1 - 0.75**10, "between": 0.0, "mean_seeds": 10.0}),
         ("operating_characteristic", ([{"seeds": 10, "accept": None, "flag": None}, {"seeds": 20, "accept": 0, "flag": None}], 0.75), {"accept": 0.75**20, "flag": 0.0, "between": 1 - 0.75**20, "mean_seeds": 20.0}),
         ("operating_characteristic", ([{"seeds": 10, "accept": 0, "flag": 10}, {"seeds": 20, "accept": None, "flag": 20}], 0), {"accept": 0.0, "flag": 1.0, "between": 0.0, "mean_seeds": 10.0}),
         ("operating_characteristic", ([{"seeds": 10, "accept": 0, "flag": 10}], 1), {"accept": 1.0, "flag": 0.0, "between": 0.0, "mean_seeds": 10.0})),
    *_of("two_treatments", "four of four against none of four: 2/70 in Fisher's test; three against none of three: 2/20, never seen at 5 %",
         ("fisher_exact", (4, 4, 0, 4), 2 / 70), ("fisher_exact", (3, 3, 0, 3), 0.1), ("fisher_exact", (1, 1, 1, 1), 1.0), ("fisher_exact", (0, 3, 0, 3), 1.0),
         ("fisher_power", (1, 0, 4), 1.0), ("fisher_power", (0, 1, 4), 1.0), ("fisher_power", (1, 0, 3), 0.0), ("fisher_power", (1, 0, 1), 0.0), ("fisher_power", (0.5, 0.5, 4), 2 / 256),
         ("seeds_for_trial", (1, 0, 0.5), {"seeds": 5, "exact": True}, 0)),
    *_of("two_treatments", "Newcombe 1998, Statistics in Medicine 17:873-890, Table II, method 10, row (b); 95 % when nothing else is said", ("newcombe_difference", (9, 10, 3, 10), (0.1705, 0.8090), 5e-5)),
    *_of("two_treatments", "power summed with scipy.stats.hypergeom and binom: .824 against .7 is seen by 195 with .7949, by 200 with .8041; .644 against .5 with .7901 and .8025; .6815 against .5 by 200 with less than .95, so more are needed, though the formula says 199",
         ("seeds_for_trial", (0.824, 0.7, 0.8), {"seeds": 200, "exact": True}, 0), ("seeds_for_trial", (0.644, 0.5, 0.8), {"seeds": 200, "exact": True}, 0), ("approximate_seeds", (0.6815, 0.5, 0.95), 199, 0), ("approximate_seeds", (0.824, 0.7, 0.8), 200, 0),
         ("seeds_for_trial", (0.6815, 0.5, 0.95), {"seeds": 201, "exact": False}, 0), ("fisher_power", (0.824, 0.7, 195), 0.7949, 5e-5), ("fisher_power", (0.824, 0.7, 200), 0.80411, 5e-6)),
    *_of("time_course", "two seedlings on day 2 and two on day 4: half of four at the first count, 2.5 of them a quarter of the way to the second",
         ("day_of_count", ((2, 4), (2, 2), 2), {"kind": "by-first-count", "day": 2.0}), ("day_of_count", ((2, 4), (2, 2), 1), {"kind": "by-first-count", "day": 2.0}), ("day_of_count", ((2, 4), (2, 2), 2.5), {"kind": "between", "day": 2.5}),
         ("day_of_count", ((2, 4), (2, 2), 4), {"kind": "at-count", "day": 4.0}), ("day_of_count", ((2, 4), (2, 2), 4.5), {"kind": "none", "day": None}), ("new_from_totals", ((0, 0, 3),), [0, 0, 3]), ("new_from_totals", ((),), []),
         ("time_course", ((2, 4), (1, 1), 4), {
             "germinated": 2, "first_day": 2.0, "last_day": 4.0, "peak_day": 2.0, "t50_coolbear": {"kind": "between", "day": 3.0}, "t50_farooq": {"kind": "by-first-count", "day": 2.0},
             "mean_days": 3.0, "variance": 2.0, "spread_days": 2**0.5, "standard_error": 1.0, "velocity": 100 / 3, "speed": 0.75, "synchrony": 0.0, "uncertainty": 1.0}),
         ("time_course", ((2, 4), (2, 2), 4), {
             "germinated": 4, "first_day": 2.0, "last_day": 4.0, "peak_day": 2.0, "t50_coolbear": {"kind": "between", "day": 2.5}, "t50_farooq": {"kind": "by-first-count", "day": 2.0},
             "mean_days": 3.0, "variance": 4 / 3, "spread_days": (4 / 3) ** 0.5, "standard_error": 3**-0.5, "velocity": 100 / 3, "speed": 1.5, "synchrony": 1 / 3, "uncertainty": 1.0})),
    *_of("day_course", "a steady day; a target met by the last thousandth; a break of straight lines",
         ("hours_of_day", (10, 10), [10.0] * 24), ("first_day", ((0.5, 0.5), 0, 1), 2, 0), ("first_day", ((0.5,), 0.25, 1), 3, 0), ("first_day", ((), 0.25, 1), 4, 0), ("first_day", ((0.5,), 0, 1), None, 0), ("first_day", ((), 0.001, 1), 1000, 0),
         ("first_day", ((), 1 / 1000.5, 1), None, 0), ("first_day", ((0,), 0, 1e-6), 1, 0), ("first_day", ((), 5, 2e-6), 1, 0), ("fill_gaps", ((None, 2, None, None, 8, None),), [2.0, 2.0, 4.0, 6.0, 8.0, 8.0]), ("longest_gap", ((None, 2, None, None, 8, None),), 2, 0), ("longest_gap", ((),), 0, 0),
         ("expected_days", (0.1, 0.3), {"early": 1 / 0.3 / 1.3, "likely": 5.0, "late": 13.0}), ("expected_days", (0, 0.5), {"early": 2 / 1.3, "likely": 4.0, "late": None}), ("expected_days", (0, 0), {"early": None, "likely": None, "late": None}),
         ("development_of_day", (_QUARTER, 10, 10), {"least": 0.25, "most": 0.25, "outside_hours": 0}), ("development_of_day", (_QUARTER, 20, 20), {"least": 0.25, "most": 0.25, "outside_hours": 0}), ("development_of_day", (_QUARTER, 9, 9), {"least": 0.0, "most": 0.25, "outside_hours": 24}),
         ("development_of_day", (_QUARTER, 5, 5), {"least": 0.0, "most": 0.0, "outside_hours": 24}), ("development_of_day", (_QUARTER, 30, 30), {"least": 0.0, "most": 0.25, "outside_hours": 24}), ("development_rate", (_QUARTER, 5), (0.0, 0.0)), ("development_rate", (_QUARTER, 5.5), (0.0, 0.25)),
         ("development_rate", (_QUARTER | {"none_above": 30}, 30), (0.0, 0.0)), ("development_rate", (_QUARTER | {"none_above": 30}, 29.5), (0.0, 0.25)),
         ("degree_days", (10, 20, 10, None, "sine"), 5.0), ("degree_days", (10, 20, 20, None, "sine"), 0.0), ("degree_days", (10, 20, 5, None, "triangle"), 10.0), ("degree_days", (10, 20, 15, None, "triangle"), 1.25),
         ("degree_days", (10, 20, 15, None, "sine"), 5 / pi), ("degree_days", (10, 20, 0, 10, "sine"), 10.0), ("degree_days", (10, 20, 0, 20, "triangle"), 15.0), ("degree_days", (10, 10, 0, None, "sine"), 10.0), ("degree_days", (10, 10, 10, None, "triangle"), 0.0)),
    *_of("emergence", "a straight line, a step at a knot (the piece on its right counts), and pieces beyond what a percentage can be",
         ("curve_at", (_STEPS, 0), 1.0), ("curve_at", (_STEPS, 1), 3.0), ("curve_at", (_STEPS, 2), 5.0), ("curve_at", (_STEPS, 1.5), 4.0), ("curve_at", (_STEPS, 2.5), None), ("curve_at", (_STEPS, -0.5), None), ("curve_at", ({"knots": [1, 3], "cubics": [[1, 2, 3, 4]]}, 3), 26.0),
         ("percent_at", ({"knots": [0, 1], "cubics": [[0, 0, 0, 150]]}, 0.5), 100.0), ("percent_at", ({"knots": [0, 1], "cubics": [[0, 0, 0, -5]]}, 0.5), 0.0), ("percent_at", ({"knots": [0, 1], "cubics": [[0, 0, 50, 0]]}, 0.5), 25.0), ("percent_at", (_STEPS, 3), None),
         ("days_at", ({"knots": [0, 1], "cubics": [[0, 0, 0, 0]]}, 0.5), 1.0), ("days_at", ({"knots": [0, 1], "cubics": [[0, 0, 1, 0]]}, 1), exp(1)), ("days_at", (_STEPS, 3), None)),
    *_of("emergence", "nearer than 0.05 °C is the same temperature, exactly 0.05 is another",
         ("tested_state", (((0, "doubtful", 5), (1, "measured", 4)), 0.05), {"state": "not tested", "below": None, "above": 1}), ("tested_state", (((0, "doubtful", 5), (1, "measured", 4)), 0.045), {"state": "doubtful", "below": 0, "above": 0}),
         ("tested_state", (_TWO, -0.05), {"state": "not tested", "below": None, "above": 0}), ("tested_state", (_TWO, 0.05), {"state": "between", "below": 0, "above": 1}), ("tested_state", (_TWO, 0.052), {"state": "between", "below": 0, "above": 1}),
         ("tested_state", (_TWO, 0.047), {"state": "measured", "below": 0, "above": 0}), ("tested_state", (_TWO, 0.5), {"state": "between", "below": 0, "above": 1}), ("tested_state", (_TWO, 2), {"state": "not tested", "below": 1, "above": None})),
    *_of("dilution", "strength times volume stays the same; a bottle that is not diluted keeps its strength",
         ("stock_needed", (3, 3, 100), 100.0), ("stock_needed", (0.5, 0.25, 0.5), 0.25), ("mixed_strength", (3, 1, 0), 3.0), ("mixed_strength", (0.5, 0.5, 0.5), 0.25), ("topped_up_strength", (3, 10, 10), 3.0), ("times_weaker", (0.5, 0), 1.0), ("water_parts", (3, 3), 0.0),
         ("strength_range", (3, 2, 10, 0), [0.6, 0.6]), ("strength_range", (3, 2, 10, 2), [0.0, 1.2]), ("strength_range", (3, 10, 10, 2), [2.4, 3.0]), ("nearest_part", (0, 15, 4), 0.0), ("nearest_part", (0.125, 1, 4), 0.25), ("nearest_part", (0.124, 1, 4), 0.0), ("nearest_part", (1.4, 1, 1), 1.0), ("grams_for", (0.5, 0.5), 0.0025)),
    *_of("viability", "dry seed is dry on either basis; 50 % of fresh weight is 100 % of dry weight; air without water dries seed out; no time changes nothing",
         ("fresh_basis", (0,), 0.0), ("fresh_basis", (100,), 50.0), ("dry_basis", (0,), 0.0), ("dry_basis", (50,), 100.0), ("equilibrium_moisture", (0, 20, 0.1), 0.0), ("equilibrium_humidity", (0, 20, 0), 0.0),
         ("probit_days", (10, 0, 3, 1, 0.5, 0.5), 100.0), ("probit_days", (10, 1, 3, 1, 0.5, 0.5), 10.0), ("probit_days", (10, 2, 4, 1, 0.25, 0.25), 10**1.5, 1e-10), ("days_between", (0.6, 0.6, 100), 0.0), ("days_between", (0.75, 0.25, 0.5), 0.67448975019608, 1e-9), ("probit_days", (0.5, 0, 3, 1, 0, 0), 2000.0, 1e-9), ("probit_days", (99.5, 0, 3, 1, 0, 0), 1000 / 99.5),
         ("doublings", (25, 20, 5), 2.0), ("doublings", (20, 25, 5), 0.5), ("doublings", (21, 20, 0.5), 4.0),
         *(("equilibrium_moisture", (1 - exp(-100 / 440), celsius, oil), 100 * dry / (100 + dry), 1e-10) for celsius, oil, dry in (  # air that dries fat-free seed at -9 °C to 10 % of dry weight
             (-9, 0, 10), (-9, 0.5, 5), (-89.9, 0, 10 / (1.1 - 89.9 / 90)), (89.9, 0, 10 / (1.1 + 89.9 / 90)), (81, 0.75, 2.5 / 2)))),
    *_of("viability", "Beta(3/2, 3/2) is a half circle: 1/4 of its breadth has 1/3 - √3/4π of its area on the outer side; no time changes nothing",
         ("after_storage", (1, 2, 1 / 3 + 3**0.5 / (2 * pi), 0, 100), {"low": 0.25, "mid": 0.5, "high": 0.75}), ("after_storage", (1, 2, 1 / 3 + 3**0.5 / (2 * pi), 0, 0.5), {"low": 0.25, "mid": 0.5, "high": 0.75}),
         ("days_until", (1, 2, 1 / 3 + 3**0.5 / (2 * pi), 0.5, 100), {"low": 0.0, "mid": 0.0, "high": 67.448975019608}, 1e-9), ("days_until", (1, 2, 1 / 3 + 3**0.5 / (2 * pi), 0.25, 0.5), {"low": 0.0, "mid": 0.33724487509804, "high": 0.67448975019608}, 1e-9)),
    *_of("ageing", "the same half circle: variance 1/16", ("beta_summary", (1.5, 1.5, 1 / 3 + 3**0.5 / (2 * pi)), {"mean": 0.5, "sd": 0.25, "low": 0.25, "high": 0.75})),
    *_of("soil_temperature", "at the surface the wave is that of the air; e^-1 a day with a time constant of one day",
         ("exponential_mean", ((1, 2), (0, 1), 1, 7, 0), [0.0, 1 - exp(-1)]), ("exponential_mean", ((1, 3), (0, 1), 1, 1, 0), [0.0, 1 - exp(-2)]), ("exponential_mean", ((1, 3), (0, 1), 1, 0, 0), [0.0, 1.0]),
         ("exponential_mean", ((1, 2, 3), (0, 0, 0), 0.5, 7, 2), [None, None, 0.0]), ("exponential_mean", ((1, 2, 9, 10), (0, 0, 5, 5), 1, 3, 1), [None, 0.0, None, 5.0]), ("exponential_mean", ((), (), 1, 7, 0), []),
         ("damping_depth", (pi / 0.0864 / 2, 2), 1.0), ("damping_depth", (pi / 0.0864 / 2, 0.5), 0.5), ("damping_depth", (0.5, 2 * pi / 0.0864), 1.0), ("scaled_errors", ([[-1, 2]], 3, 2), [[-1.5, 3.0]]), ("scaled_errors", ([[-1, 2]], 9, 2), [[-1.5, 3.0]]), ("scaled_errors", ([[-1, 2]], 1, 2), [[-0.5, 1.0]]), ("scaled_errors", ([[-1, 2]], 0, 2), [[-0.5, 1.0]]),
         ("scaled_errors", ([[-1, 2]], 0.5, 0.5), [[-1.0, 2.0]]), ("centred_mean", ((1, 2, 4), (1, 3, 8), 1), [2.0, 2.0, 8.0]), ("centred_mean", ((1, 2, 4), (1, 3, 8), 2), [2.0, 4.0, 5.5]), ("centred_mean", ((1, 2, 4), (1, 3, 8), 0), [1.0, 3.0, 8.0])),
    *_of("soil_temperature", "a day is the mean of what fell on it; straight lines over gaps of so many days, over New Year too; half of a month's days are enough for its mean",
         ("average_year", ((10, 10), (4, 6), 7), _year({10: 5.0})), ("average_year", ((10, 10, 10), (None, 4, None), 7), _year({10: 4.0})), ("average_year", ((10, 12), (1, 3), 1), _year({10: 1.0, 11: 2.0, 12: 3.0})), ("average_year", ((10, 12), (1, 3), 0), _year({10: 1.0, 12: 3.0})),
         ("average_year", ((363, 1), (3, 9), 2), _year({363: 3.0, 364: 5.0, 0: 7.0, 1: 9.0})), ("average_year", ((363, 1), (3, 9), 1), _year({363: 3.0, 1: 9.0})), ("average_year", ((10,), (5,), 364), [5.0] * 365), ("average_year", ((10,), (5,), 363), _year({10: 5.0})),
         ("average_year", ((0, 1, 2, 364), (2, 4, 6, 8), 300), _year({0: 2.0, 1: 4.0, 2: 6.0, 364: 8.0})), ("average_year", ((0, 182, 364), (0, 182, 364), 181), [float(day) for day in range(365)]), ("average_year", ((), (), 7), [None] * 365),
         ("monthly_means", (_year({day: None for day in range(31, 45)}, 1.0),), [1.0] * 12), ("monthly_means", (_year({day: None for day in range(31, 46)}, 1.0),), None), ("monthly_means", (_year({30: 32.0, 31: 29.0}, 1.0),), [2.0, 2.0, *[1.0] * 10]),
         ("monthly_means", (_year({364: 32.0}, 1.0),), [*[1.0] * 11, 2.0])),
    *_of("soil_windows", "one day is enough to hold a temperature when one is asked for; as warm as the threshold is warm enough, unless more is wanted",
         ("holding", ([1, 2, 1], 2, 1), [False, True, False]), ("holding", ([1, 2, 1], 2, 1, True), [False, False, False]), ("holding", ([1, 3, 1], 2, 1, True), [False, True, False]), ("holding", ([2, 2], 2, 1), [True, True]), ("holding", ([None, 2], 2, 1), [None, True]), ("holding", ([None, 2, None, None], 2, 1), [None, True, None, None]),
         ("holding", ([3, 3, 3, 0, 0, 0], 2, 3), [True] * 3 + [False] * 3), ("holding", ([3, 3, 0, 0, 0, 3], 2, 3), [True, True, False, False, False, True]), ("holding", ([3, 3, 0, 0, 0, 3], 2, 4), [False] * 6)),
    *_of("soil_windows", "three warm days in ten; in a cool year none is warm enough, or only the middle one; as long as what is called brief is brief",
         *(("windows", ([0, 0, 3, middle, 3, 0, 0, 0, 0, 0], {"low": [-4] * 10, "high": [0] * 10}, 2, None, 1, short),
            {"state": "windows", "why": None, "sure": False, "windows": [{"start": 2, "starts": [2, sure], "by": "warmed", "end": 4, "ends": [sure, 4], "until": "cold", "brief": brief}]})
           for middle, short, sure, brief in ((3, 3, None, True), (3, 2, None, False), (7, 3, 3, False), (6, 9, 3, False)))),
    *_of("sowing_times", "the calendar of four-digit years, both ends of it included; 2000 and 2024 have a 29 February, 1900 and 2027 none",
         ("add_days", ("1000-01-01", 0), "1000-01-01"), ("add_days", ("9999-12-30", 1), "9999-12-31"), ("add_days", ("2024-02-28", 1), "2024-02-29"), ("add_days", ("2027-02-28", 1), "2027-03-01"), ("add_days", ("2027-03-01", -1), "2027-02-28"),
         ("days_between", ("2024-02-28", "2024-03-01"), 2, 0), ("days_between", ("2027-05-08", "2027-05-01"), -7, 0), ("day_in_year", ("05-08", 1000), "1000-05-08"), ("day_in_year", ("05-08", 9998), "9998-05-08"),
         ("day_in_year", ("02-29", 2024), "2024-02-29"), ("day_in_year", ("02-29", 1900), "1900-02-28"), ("season", ("05-08", "05-09", 2027), {"last": "2027-05-08", "first": "2027-05-09"}), ("season", ("05-08", "05-07", 9997), {"last": "9997-05-08", "first": "9998-05-07"})),
    *_of("sowing_times", "weeks of seven days, halves of a day upward; a window is as long as asked for; a test of one day, bought on the same day",
         ("weeks_window", ("2027-05-08", 1, 1, 1), ["2027-05-15", "2027-05-15"]), ("weeks_window", ("2027-05-08", -1, 0, 7), ["2027-05-01", "2027-05-08"]), ("weeks_window", ("2027-05-08", 0, 1, 8), ["2027-05-08", "2027-05-15"]), ("weeks_window", ("2027-05-08", 0, 1, 9), ["2027-05-08", "2027-05-16"]),
         ("weeks_window", ("2027-05-08", 0.5, 1.5, 1), ["2027-05-12", "2027-05-19"]), ("before_planting", (("2027-05-08", "2027-05-14"), 1, 1), ["2027-05-01", "2027-05-07"]), ("before_planting", (("2027-05-08", "2027-05-14"), 0.5, 1.5), ["2027-04-27", "2027-05-10"]),
         ("window_for_test", ("2027-05-08", 1, 0, 1), ["2027-05-07", "2027-05-07"]), ("window_for_test", ("2027-05-08", 1, 1, 3), ["2027-05-04", "2027-05-06"])),
    *_of("sowing_times", "calendar months; the last day of a shorter month; a range of days outward to whole ones",
         ("still_good", ("2026-05-08", "2027-05-08", 12), True), ("still_good", ("2026-05-08", "2027-05-09", 12), False), ("still_good", ("2026-01-31", "2026-02-28", 1), True), ("still_good", ("2026-01-31", "2026-03-01", 1), False), ("still_good", ("2026-12-15", "2027-01-15", 1), True), ("still_good", ("2026-11-15", "2026-12-15", 1), True), ("still_good", ("2026-11-15", "2026-12-16", 1), False),
         ("still_good", ("2026-12-15", "2027-01-16", 1), False), ("days_range", (5, 5, 1), [5, 5], 0), ("days_range", (0.5, 0.5, 1), [1, 1], 0), ("days_range", (13, 10 / 1.3 * 1.3 + 3, 1.3), [10, 17], 0), ("days_range", (10, 10, 1.3), [7, 13], 0),
         ("days_range", (9.1, 9.1, 1.3), [7, 12], 0), ("days_range", (1e-10, 1e-10, 1), [1, 1], 0), ("season", ("02-28", "02-29", 2027), {"last": "2027-02-28", "first": "2028-02-29"}),
         ("weeks_window", ("2027-05-08", 0.35, 1.35, 1), ["2027-05-10", "2027-05-17"]), ("before_planting", (("2027-05-08", "2027-05-14"), 0.35, 1.35), ["2027-04-29", "2027-05-12"]),
         ("days_at", (((20, 4), (22, 9)), 20), 4.0), ("days_at", (((20, 4), (22, 9)), 21), 6.0), ("days_at", (((20, 4), (22, 9)), 22), 9.0), ("days_at", (((20, 4), (22, 9)), 22.5), None), ("days_at", (((20, 4), (22, 9)), 19.5), None), ("days_at", (((20, 0.5), (22, 0.125)), 21), 0.25),
         ("shifted", (("2027-05-08", "2027-05-14"), 1, -1), ["2027-05-09", "2027-05-13"]), ("weeks_apart", (("2027-05-01", "2027-05-09"), ("2027-05-08", "2027-05-29")), [1, 2], 0), ("weeks_apart", (("2027-05-01", "2027-05-01"), ("2027-05-14", "2027-05-07")), [0, 1], 0)),
    *_of("sowing_times", "what is open today comes first, then by its start, then by its end, then as listed",
         ("next_tasks", ([["2027-05-01", "2027-05-08"]], "2027-05-08", 3), [0], 0), ("next_tasks", ([["2027-05-01", "2027-05-08"]], "2027-05-09", 3), [], 0), ("next_tasks", ([["2027-05-01", "2027-05-08"]] * 12, "2027-05-02", 30), list(range(12)), 0),
         ("next_tasks", ([["2027-05-02", "2027-05-20"], ["2027-05-03", "2027-05-10"]], "2027-05-01", 3), [0, 1], 0), ("next_tasks", ([["2027-05-03", "2027-05-10"], ["2027-05-02", "2027-05-20"]], "2027-05-01", 3), [1, 0], 0),
         ("next_tasks", ([["2027-05-02", "2027-05-20"], ["2027-05-03", "2027-05-10"]], "2027-05-04", 3), [1, 0], 0), ("next_tasks", ([["2027-05-02", "2027-05-20"], ["2027-05-03", "2027-05-10"]], "2027-05-04", 1), [1], 0)),
]
