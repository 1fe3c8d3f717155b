"""From lots with their tests to verdicts, next test dates and the sentence that gives the reason.

Twin: docs/assets/js/lots/judge.js.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

import numpy as np
from scipy import special

from ..science.ageing import months_to_next_test, probits_per_year, years_until
from ..science.lot import JEFFREYS
from ..science.proportions import z_for_confidence
from .agreement import Agreement
from .catalogue import Catalogue
from .columns import (
    DO_NOT_LEND,
    EVEN_CHANCE,
    GOOD_CHANCE,
    HOLD,
    LEND,
    LEND_MARKED,
    POOR_CHANCE,
    REPEAT,
    TEST,
    TEST_DUE,
    VERDICTS,
)
from .dates import add_months
from .gather import Lot, Test
from .read import Reading
from .sentences import count_text, sentence
from .words import chance_in_words, chance_text, number_text, percent_digits, percent_of_count

# Python and the browser differ in the last digit; what falls on a limit falls on it in both.
SLACK = 1e-9
EVERY = 5000


class Result(NamedTuple):
    """A row of the results, all text as in the CSV; names and order are RESULT_COLUMNS."""

    lot: str
    crop: str
    variety: str
    harvested: str
    storage: str
    tests: str
    tested: str
    seeds: str
    normal: str
    percent: str
    low: str
    high: str
    line: str
    chance: str
    replicates: str
    earlier: str
    verdict: str
    next_test: str
    words: str


class Count(NamedTuple):
    """What k of n says: texts for the table, the chance to reach the line, the verdict before other things."""

    percent: str
    low: str
    high: str
    chance: str
    verdict: str
    text: str
    reaches: str


def judge_lots(reading: Reading, catalogue: Catalogue, line: float, today: str, progress: Callable[[int, int], None] = lambda done, total: None) -> Iterator[Result]:
    """A Result for each lot, in the order of `reading.lots`. `line` is the lending line in percent, 0..100."""
    judge = Judge(catalogue, line, today, reading.lots.values())
    for done, lot in enumerate(reading.lots.values()):
        if done % EVERY == 0:
            progress(done, len(reading.lots))
        yield judge.result(lot)


class Judge:
    """Judges lots one by one; the counts and replicates that occur in `lots` are worked out together first."""

    def __init__(self, catalogue: Catalogue, line: float, today: str, lots: Iterable[Lot] = ()):
        self.catalogue, self.line, self.today = catalogue, line, today
        self.line_text = number_text(line)
        tested = [lot.tests for lot in lots if lot.tests]
        self.counts = counts_of(sorted({(tests[-1].normal, tests[-1].seeds) for tests in tested}), line)
        self.agreement = Agreement(catalogue.replicate_range, catalogue.two_test_range)
        self.agreement.learn(tests[-1].replicates for tests in tested if len(tests[-1].replicates) > 1)
        self.agreement.learn(last_two(tests) for tests in tested if len(tests) > 1)
        self.months: dict[tuple, int] = {}
        self.dates: dict[tuple[str, int], str] = {}

    def result(self, lot: Lot) -> Result:
        crop = self.catalogue.crops[lot.crop]
        about = lot.name, crop.name, lot.variety, lot.harvested, lot.storage, str(len(lot.tests))
        if not lot.tests:
            return Result(*about, "", "", "", "", "", "", self.line_text, "", "", "", TEST, self.today, sentence(lot, TEST))
        last = lot.tests[-1]
        k, n = last.normal, last.seeds
        count = self.counts[k, n]
        agree = len(last.replicates) == 1 or self.agreement.replicates(last.replicates)
        earlier = self._earlier(lot)
        verdict = count.verdict if agree else REPEAT
        next_test = ""
        if verdict in (HOLD, REPEAT):
            next_test = self.today
        elif verdict != DO_NOT_LEND:
            months = self._months(k, n, lot, verdict)
            next_test = self._date(last.tested, months)
            if next_test < self.today:
                verdict = TEST_DUE
        replicates = "one" if len(last.replicates) == 1 else "agree" if agree else "do not agree"
        words = sentence(lot, verdict, count, next_test, earlier)
        return Result(*about, last.tested, str(n), str(k), count.percent, count.low, count.high, self.line_text, count.chance, replicates, earlier, verdict, next_test, words)

    def _earlier(self, lot: Lot) -> str:
        if len(lot.tests) < 2:
            return ""
        return "agrees" if self.agreement.tests(last_two(lot.tests)) else "differs"

    def _months(self, k: int, n: int, lot: Lot, verdict: str) -> int:
        key = k, n, lot.crop, lot.storage, verdict
        if key not in self.months:
            self.months[key] = months_until_test(self.catalogue, self.line, k, n, lot.crop, lot.storage, verdict)
        return self.months[key]

    def _date(self, tested: str, months: int) -> str:
        key = tested, months
        if key not in self.dates:
            self.dates[key] = add_months(tested, months)
        return self.dates[key]


def last_two(tests: tuple[Test, ...]) -> tuple[tuple[int, int], ...]:
    """(seeds, normal) of the last two tests, in rising order."""
    before, last = (tests[-2].seeds, tests[-2].normal), (tests[-1].seeds, tests[-1].normal)
    return (before, last) if before <= last else (last, before)


def months_until_test(catalogue: Catalogue, line: float, k: int, n: int, crop: str, storage: str, verdict: str) -> int:
    """Months from a test of a lot that may be lent to its next one.

    A third of the time in which the lot is expected to age to the line (science/ageing), within the
    library's limits; the usual interval where the seed life is not known. Never more than the least
    for a lot whose chance is not good.
    """
    practice, life = catalogue.practice, catalogue.crops[crop].seed_life_years
    least, most = practice["retest_least_months"], practice["retest_most_months"]
    if life is None:
        months = practice["retest_usual_months"]
    elif not 0 < line < 100:
        months = most
    else:
        factor = {"cold-dry": practice["cold_store_life_factor"], "warm": practice["warm_store_life_factor"]}.get(storage, 1)
        slope = probits_per_year(life * factor, practice["new_seed_percent"] / 100, practice["life_end_percent"] / 100)
        years = years_until((k + JEFFREYS) / (n + 2 * JEFFREYS), line / 100, slope)
        months = months_to_next_test(years + SLACK, least, most)
    return int(min(months, least) if verdict == LEND_MARKED else months)


def counts_of(pairs: list[tuple[int, int]], line: float) -> dict[tuple[int, int], Count]:
    """What each (normal k, seeds n) says, by pair: Wilson 95 % interval (as science/proportions), chance (as science/lot)."""
    if not pairs:
        return {}
    k, n = np.array(pairs, dtype=float).T
    z = z_for_confidence(0.95)
    share, scale = k / n, 1.0 + z * z / n
    centre = (share + z * z / (2 * n)) / scale
    half = z / scale * np.sqrt(share * (1.0 - share) / n + z * z / (4.0 * n * n))
    lows, highs = np.where(k == 0, 0.0, centre - half), np.where(k == n, 1.0, centre + half)
    chances = special.betaincc(k + JEFFREYS, n - k + JEFFREYS, line / 100)
    found = {}
    for (normal, seeds), low, high, chance in zip(pairs, lows.tolist(), highs.tolist(), chances.tolist(), strict=True):
        low_text, high_text = percent_digits(low, seeds), percent_digits(high, seeds)
        text = count_text(normal, seeds, low_text, high_text)
        shown = chance_text(chance)
        reaches = f"the line of {number_text(line)} % with a chance of {chance_in_words(shown)}"
        found[normal, seeds] = Count(percent_of_count(normal, seeds), low_text, high_text, shown, _verdict(chance), text, reaches)
    return found


def _verdict(chance: float) -> str:
    """Verdict by the chance to reach the line."""
    if chance >= GOOD_CHANCE - SLACK:
        return LEND
    if chance >= EVEN_CHANCE - SLACK:
        return LEND_MARKED
    return HOLD if chance > POOR_CHANCE + SLACK else DO_NOT_LEND


RANK = {verdict: rank for rank, verdict in enumerate(VERDICTS)}


def by_need(results: Iterable[Result]) -> list[Result]:
    """Results by need for action, then by the next test; otherwise in their order."""
    return sorted(results, key=lambda result: (RANK[result.verdict], result.next_test))
