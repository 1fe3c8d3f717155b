"""Percentages, intervals, chances, verdicts and dates, against published figures, scipy, statsmodels and the calendar.

Intervals: Wilson 1927 as in statsmodels (`proportion_confint`, method "wilson"), and the figures of Newcombe 1998 named in
tests/science/published.py. Chances: the Jeffreys posterior (Brown, Cai & DasGupta 2001), as scipy.stats.beta has it.
Ageing: a normal curve (Ellis & Roberts 1980), as scipy.stats.norm has it. Months: pandas' DateOffset.
"""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal

import pandas
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

from build_tools.lots.dates import add_months, days_in_month, is_day
from build_tools.lots.judge import counts_of, months_until_test
from tests.lots.files import TODAY, file_of, judged, row


def one(catalogue, line=70, today=TODAY, **cells):
    (result,) = judged(file_of(row(**cells)), catalogue, line, today)
    return result


def half_up(value: float, places: str) -> str:
    return str(Decimal(repr(float(value))).quantize(Decimal(places), ROUND_HALF_UP))


@pytest.mark.parametrize(("k", "n", "percent", "low", "high"), [
    (8, 10, "80", "49", "94"),      # 0.4902-0.9433: known value in a public test file
    (0, 20, "0", "0", "16"),        # 0-0.1611: Newcombe 1998, from memory
    (1, 29, "3", "1", "17"),        # 0.0061-0.1718: Newcombe 1998, from memory
    (81, 263, "31", "26", "37"),    # 0.2553-0.3662: Newcombe 1998, read in a public file that quotes it
    (36, 50, "72", "58", "83"), (320, 400, "80.0", "75.8", "83.6"), (173, 200, "87", "81", "91"), (1, 400, "0.3", "0.0", "1.4"),
])
def test_percentages_and_intervals(k, n, percent, low, high, catalogue):
    result = one(catalogue, seeds=str(n), normal=str(k))
    assert (result.percent, result.low, result.high) == (percent, low, high)


def test_intervals_and_chances_are_those_of_statsmodels_and_scipy():
    pairs = [(k, n) for n in (1, 2, 7, 10, 25, 50, 100, 399, 400, 401, 800) for k in range(0, n + 1, max(1, n // 40))] + [(99_999, 100_000)]
    for line in (50, 70, 72.5):
        for (k, n), count in counts_of(pairs, line).items():
            places = "0.1" if n >= 400 else "1"
            low, high = proportion_confint(k, n, method="wilson")
            # Both ends are exact 0 and 1 where nothing or everything came up.
            assert count.low == half_up(100 * (low if k else 0.0), places) and count.high == half_up(100 * (high if k < n else 1.0), places)
            assert count.percent == str((Decimal(100 * k) / n).quantize(Decimal(places), ROUND_HALF_UP))
            chance = stats.beta.sf(line / 100, k + 0.5, n - k + 0.5)
            shown = "<1" if chance < 0.01 else ">99" if chance > 0.99 else half_up(100 * chance, "1")
            assert count.chance == shown
            wanted = "lend" if chance >= 0.95 else "lend marked" if chance >= 0.5 else "hold" if chance > 0.05 else "do not lend unmarked"
            if abs(chance - 0.5) > 1e-9:
                assert count.verdict == wanted


@pytest.mark.parametrize("n", [10, 25, 50, 100])
def test_verdicts_change_where_the_chance_passes_its_limit(n, catalogue):
    verdicts = [one(catalogue, seeds=str(n), normal=str(k), tested=TODAY).verdict for k in range(n + 1)]
    chances = stats.beta.sf(0.7, [k + 0.5 for k in range(n + 1)], [n - k + 0.5 for k in range(n + 1)])
    assert verdicts.index("hold") == min(k for k in range(n + 1) if chances[k] > 0.05)
    assert verdicts.index("lend marked") == min(k for k in range(n + 1) if chances[k] >= 0.5)
    assert verdicts.index("lend") == min(k for k in range(n + 1) if chances[k] >= 0.95)
    order = ["do not lend unmarked", "hold", "lend marked", "lend"]
    assert verdicts == sorted(verdicts, key=order.index)


def test_an_even_chance_lends_with_a_mark(catalogue):
    # By symmetry half the seed up at a line of 50 % is a chance of exactly one half.
    for n in (2, 10, 50, 398):
        assert one(catalogue, line=50, seeds=str(n), normal=str(n // 2), tested=TODAY).verdict == "lend marked"


def test_the_sentence_gives_count_interval_and_chance(catalogue):
    # The chance of 36 of 50 at 70 %: scipy.stats.beta.sf(0.7, 36.5, 14.5) = 0.61.
    assert round(100 * stats.beta.sf(0.7, 36.5, 14.5)) == 61
    assert one(catalogue, tested=TODAY).words == "36 of 50, 72 % (58–83 %): reaches the line of 70 % with a chance of 61 %."
    assert one(catalogue, tested=TODAY, line=72.5).words.endswith("reaches the line of 72.5 % with a chance of 46 %.")
    assert one(catalogue, tested=TODAY, seeds="300", normal="1").words.startswith("1 of 300, less than 1 % (0–2 %): ")
    assert "more than 99 %" in one(catalogue, tested=TODAY, normal="50").words
    words = one(catalogue, tested=TODAY, hard="3", fresh="1").words
    assert words.endswith(" Not counted: 3 hard and 1 fresh seeds, which may still be alive.")
    assert one(catalogue, tested=TODAY, hard="1").words.endswith(" Not counted: 1 hard seed, which may still be alive.")


def test_hard_seed_is_not_counted(catalogue):
    assert one(catalogue, hard="14").percent == "72"


def test_replicates_that_do_not_agree_are_repeated(catalogue):
    # Two replicates of 100 about 90 %: 7 CFR 201.55 allows 9 points apart (tests/science/replicate_range_201_55.csv).
    def pair(low, high):
        (result,) = judged(file_of(row(seeds="100", normal=str(low)), row(seeds="100", normal=str(high))), catalogue)
        return result

    assert pair(86, 94).replicates == "agree"
    worse = pair(84, 96)
    assert (worse.replicates, worse.verdict, worse.next_test, worse.percent) == ("do not agree", "repeat the test", TODAY, "90")
    assert worse.words == "The replicates, 84 of 100 and 96 of 100, differ by more than chance; together 180 of 200, 90 % (85–93 %)."


def test_the_last_test_is_held_against_the_one_before(catalogue):
    # Two tests of 400 about 85 %: a difference of 7 points is allowed (Louisiana XIII, 139; the printed table of the data).
    def last_two(first, second):
        rows = [row(tested=day, seeds="400", normal=str(normal)) for day, normal in (("2024-03-12", 1), ("2025-03-12", first), ("2026-03-12", second))]
        (result,) = judged(file_of(*rows), catalogue)
        return result

    assert last_two(354, 326).earlier == "agrees"  # 88.5 and 81.5 %: 89 and 82 rounded, 7 apart
    apart = last_two(356, 324)  # 89 and 81 %, 8 apart
    assert apart.earlier == "differs" and apart.tests == "3"
    assert apart.words.endswith(" The test before, 356 of 400 on 2025-03-12, differs by more than chance.")


def test_a_lot_never_tested_is_tested_today(catalogue):
    result = one(catalogue, tested="", seeds="", normal="")
    assert (result.verdict, result.next_test, result.tests, result.percent, result.chance) == ("test", TODAY, "0", "", "")
    assert result.line == "70"


def test_lots_held_are_due_at_once_and_poor_ones_never(catalogue):
    held = one(catalogue, normal="32")
    assert (held.verdict, held.next_test) == ("hold", TODAY)
    poor = one(catalogue, normal="20")
    assert (poor.verdict, poor.next_test) == ("do not lend unmarked", "")


def expected_months(reference, crop, k, n, line, factor):
    """The rule in other words: probits left above the line, at the probits lost a year, a third of that in whole months."""
    practice = {name: entry["value"] for name, entry in reference.practice.items()}
    life = reference.crops[crop]["seed_life_years"].low * factor
    yearly = (stats.norm.ppf(practice["new_seed_percent"] / 100) - stats.norm.ppf(practice["life_end_percent"] / 100)) / life
    mean = min(0.98, stats.beta.mean(k + 0.5, n - k + 0.5))
    months = math.floor((stats.norm.ppf(mean) - stats.norm.ppf(line / 100)) / yearly * 12 / 3)
    return min(practice["retest_most_months"], max(practice["retest_least_months"], months))


@pytest.mark.parametrize(("storage", "factor_name"), [("", None), ("cool-dry", None), ("cold-dry", "cold_store_life_factor"), ("warm", "warm_store_life_factor")])
@pytest.mark.parametrize("crop", ["tomato", "onion", "cucumber"])
def test_sound_lots_are_tested_after_a_third_of_the_time_to_the_line(crop, storage, factor_name, catalogue, reference):
    factor = reference.practice[factor_name]["value"] if factor_name else 1
    for k, n in ((48, 50), (92, 100), (25, 25), (390, 400)):
        months = expected_months(reference, crop, k, n, 70, factor)
        result = one(catalogue, crop=crop, storage=storage, seeds=str(n), normal=str(k), tested="2026-08-31", harvested="2025")
        wanted = (pandas.Timestamp("2026-08-31") + pandas.DateOffset(months=months)).date().isoformat()
        assert result.next_test == wanted and result.verdict == ("test due" if wanted < TODAY else "lend")


def test_the_limits_of_the_next_test(catalogue, reference):
    practice = {name: entry["value"] for name, entry in reference.practice.items()}
    unknown = next(crop.id for crop in reference.crops.values() if not crop["seed_life_years"].known)
    assert months_until_test(catalogue, 70, 48, 50, unknown, "", "lend") == practice["retest_usual_months"]
    assert months_until_test(catalogue, 70, 400, 400, "cucumber", "cold-dry", "lend") == practice["retest_most_months"]
    assert months_until_test(catalogue, 70, 42, 50, "onion", "warm", "lend") == practice["retest_least_months"]
    for crop in ("cucumber", unknown):
        assert months_until_test(catalogue, 70, 39, 50, crop, "cold-dry", "lend marked") == practice["retest_least_months"]
    assert months_until_test(catalogue, 0, 0, 50, "onion", "", "lend") == practice["retest_most_months"]


def test_a_test_is_due_the_day_after_its_date(catalogue):
    # Of a lot lent marked: due after the least number of months, six in the data.
    assert one(catalogue, tested="2026-05-25").verdict == "lend marked"
    due = one(catalogue, tested="2026-05-24")
    assert (due.verdict, due.next_test) == ("test due", "2026-11-24")
    assert due.words == "36 of 50, 72 % (58–83 %) on 2026-05-24: reached the line of 70 % with a chance of 61 %; the next test was due on 2026-11-24."


@pytest.mark.parametrize(("line", "normal", "verdict"), [(0, 0, "lend"), (100, 50, "do not lend unmarked")])
def test_the_ends_of_the_lending_line(line, normal, verdict, catalogue):
    assert one(catalogue, line=line, normal=str(normal), tested=TODAY).verdict == verdict


@pytest.mark.parametrize(("date", "months", "wanted"), [
    ("2026-08-31", 6, "2027-02-28"), ("2027-08-31", 6, "2028-02-29"), ("2024-02-29", 12, "2025-02-28"), ("2024-02-29", 48, "2028-02-29"),
    ("2026-12-31", 6, "2027-06-30"), ("2026-01-15", 36, "2029-01-15"), ("2099-08-31", 6, "2100-02-28"),
])
def test_months_are_those_of_the_calendar(date, months, wanted):
    assert add_months(date, months) == wanted


@given(st.dates(min_value=pandas.Timestamp("1900-01-01").date(), max_value=pandas.Timestamp("2200-12-31").date()), st.integers(0, 60))
def test_months_are_those_of_pandas(date, months):
    assert add_months(date.isoformat(), months) == (pandas.Timestamp(date) + pandas.DateOffset(months=months)).date().isoformat()


def test_leap_years_are_the_gregorian_ones():
    # 2000 and 2024 were leap years, 1900 and 2023 not (Gregorian rule).
    assert [days_in_month(year, 2) for year in (1900, 2000, 2023, 2024)] == [28, 29, 28, 29]
    assert is_day(2024, 2, 29) and not is_day(2023, 2, 29) and not is_day(2024, 4, 31) and not is_day(2024, 0, 1) and not is_day(0, 1, 1)
