"""The sentence that gives the reason for a verdict, and what has to be known besides.

Twin: docs/assets/js/lots/sentences.js.
"""

from __future__ import annotations

from .columns import REPEAT, TEST, TEST_DUE
from .gather import Lot
from .words import grouped, listed, percent_in_words


def count_text(k: int, n: int, low: str, high: str) -> str:
    """ "36 of 50, 72 % (58–83 %)"."""
    return f"{grouped(k)} of {grouped(n)}, {percent_in_words(k, n)} ({low}–{high} %)"


def sentence(lot: Lot, verdict: str, count=None, next_test: str = "", earlier: str = "") -> str:
    """One plain sentence with count, interval and chance; further ones only where something is amiss.

    `count` is the Count of the last test.
    """
    left_out = " A row of this lot was left out: see the problems." if lot.marked else ""
    if verdict == TEST:
        return "No test of this lot in the file." + left_out
    last = lot.tests[-1]
    if verdict == REPEAT:
        parts = [f"{grouped(normal)} of {grouped(seeds)}" for seeds, normal in last.replicates]
        said = f"The replicates, {listed(parts)}, differ by more than chance; together {count.text}."
    elif verdict == TEST_DUE:
        said = f"{count.text} on {last.tested}: reached {count.reaches}; the next test was due on {next_test}."
    else:
        said = f"{count.text}: reaches {count.reaches}."
    if earlier == "differs":
        before = lot.tests[-2]
        said += f" The test before, {grouped(before.normal)} of {grouped(before.seeds)} on {before.tested}, differs by more than chance."
    if last.hard or last.fresh:
        still = [f"{grouped(number)} {name}" for number, name in ((last.hard, "hard"), (last.fresh, "fresh")) if number]
        total = last.hard + last.fresh
        said += f" Not counted: {listed(still[:-1] + [counted_still(still[-1], total)])}, which may still be alive."
    return said + left_out


def counted_still(text: str, total: int) -> str:
    """ "2 fresh" as "2 fresh seeds"."""
    return f"{text} {'seed' if total == 1 else 'seeds'}"
