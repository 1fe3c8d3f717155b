"""Results and problems as text: CSV, the table for a terminal, the summary. The printed sheet: sheet.py.

Twin: docs/assets/js/lots/write.js.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from ..problem import Problem
from ..spreadsheet import guarded
from .columns import FINE, RESULT_COLUMNS, VERDICTS
from .judge import Result
from .read import FILE, ROW, Reading
from .words import counted, grouped

MOST_ON_TERMINAL = 60
NEEDS_QUOTES = re.compile('[",\n\r]')


def csv_cell(text: str) -> str:
    """A cell of RFC 4180; an apostrophe stands before what a spreadsheet would take for a formula."""
    text = guarded(text)
    return '"' + text.replace('"', '""') + '"' if NEEDS_QUOTES.search(text) else text


def csv_lines(results: Iterable[Result]) -> Iterator[str]:
    """The results as lines of CSV, header first, each ending in a line feed."""
    yield ",".join(RESULT_COLUMNS) + "\n"
    for result in results:
        # Only the first three and the sentence hold words; the rest are numbers, dates and words of ours.
        yield f"{','.join(map(csv_cell, result[:3]))},{','.join(result[3:-1])},{csv_cell(result.words)}\n"


def problem_line(problem: Problem) -> str:
    """ "lots.csv:12 seeds: what was seen. What to do." """
    column = "" if problem.rule in (FILE, ROW) else f" {problem.rule}"
    note = "Note: " if problem.level == "note" else ""
    return f"{problem.file}:{problem.line}{column}: {note}{problem.text}"


def problems_text(problems: Iterable[Problem]) -> str:
    """One line a problem."""
    return "".join(problem_line(problem) + "\n" for problem in problems)


def tally(results: Iterable[Result]) -> dict[str, int]:
    """How many lots have each verdict, in the order of need for action."""
    counts = Counter(result.verdict for result in results)
    return {verdict: counts[verdict] for verdict in VERDICTS}


def summary(reading: Reading, verdicts: dict[str, int]) -> str:
    """ "43 lots read; 12 need a look; 2 rows were left out." """
    lots = sum(verdicts.values())
    look = lots - sum(verdicts[verdict] for verdict in FINE)
    needing = f"{'none needs' if not look else '1 needs' if look == 1 else f'{grouped(look)} need'} a look"
    left = "" if not reading.left_out else f"; {counted(reading.left_out, 'row')} {'was' if reading.left_out == 1 else 'were'} left out"
    return f"{counted(lots, 'lot')} read; {needing}{left}."


def verdicts_text(verdicts: dict[str, int]) -> str:
    """ "Hold: 3; lend: 12.": those that occur."""
    text = "; ".join(f"{verdict}: {grouped(number)}" for verdict, number in verdicts.items() if number)
    return f"{text[:1].upper()}{text[1:]}."


def result_text(result: Result) -> str:
    """ "36 of 50, 72 % (58–83 %)", from the row's own cells; "not tested"."""
    if not result.seeds:
        return "not tested"
    return f"{result.normal} of {result.seeds}, {result.percent} % ({result.low}–{result.high} %)"


def terminal_table(results: Sequence[Result], widest: int = 28) -> str:
    """Lot, crop, result, chance, verdict and next test of the first MOST_ON_TERMINAL results, in columns."""
    head = ("Lot", "Crop", "Result", "Chance", "Verdict", "Next test")
    rows = [head] + [
        (result.lot, result.crop, result_text(result), f"{result.chance} %" if result.chance else "", result.verdict, result.next_test or "none")
        for result in results[:MOST_ON_TERMINAL]
    ]
    cut = [[cell if len(cell) <= limit else cell[: limit - 1] + "…" for cell, limit in zip(row, (widest, widest, 60, 9, 30, 10), strict=True)] for row in rows]
    widths = [max(map(len, column)) for column in zip(*cut, strict=True)]
    return "\n".join("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in cut)
