"""The command `time-course`: every number of tests counted day by day, and a fit that knows what lies between the counts.

The descriptive numbers take each seedling at the day it was counted (science/time_course.py). The fit
(science/time_to_event.py) takes it as having come up somewhere since the count before, and a seed
that never came up as not having done so by the last count: log-logistic, with a final share of its own.
"""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass
from pathlib import Path

from ..lots.table import LARGEST_FILE
from ..lots.words import counted, grouped, percent_digits, percent_in_words
from ..printers import as_text
from ..problem import Problem
from ..render.downloads import csv_text
from ..science.proportions import wilson
from ..science.time_course import time_course
from ..science.time_to_event import Estimate, Fit, Intervals, fit
from ..test_files import Course, Reading, day_text, read_courses
from ..write_file import write_whole

ALL_GOOD, SOME_LEFT_OUT, NOTHING_READ = 0, 1, 2
ENDING = "-time-course.csv"


@dataclass(frozen=True)
class Described:
    """A test with its numbers: `course` of time_course(), `range` the Wilson interval, `fit` or, as words, why there is none."""

    test: Course
    confidence: float
    course: dict
    range: tuple[float, float]
    fit: Fit | None
    unfitted: str

    @property
    def name(self) -> str:
        return self.test.name or "Test"


def arguments(parser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE.csv", help="columns test, seeds, day, new, one row a count; the page “Follow a test day by day” saves such files")
    parser.add_argument("--out", type=Path, metavar="DIR", help="folder for the results, beside FILE unless given")
    parser.add_argument("--confidence", default="95", metavar="PERCENT", help="confidence of the ranges, 95 unless given")


def main(root: Path, options) -> int:
    """Work the file out; the exit status."""
    return run(options.file, options.out, options.confidence)


def run(file: Path, out: Path | None = None, confidence: str = "95") -> int:
    """Print and write the numbers of every test; exit status 0 all good, 1 some left out, 2 nothing read or written."""
    level = read_confidence(confidence)
    if level is None:
        print(f"“{confidence}” is no confidence. Write a percentage from 50 to 99.9 after --confidence, such as 95.", file=sys.stderr)
        return NOTHING_READ
    reading = read_file(file)
    if reading.problems:
        print(as_text(reading.problems), end="\n\n")
    described = []
    for test in reading.courses:
        described.append(describe(test, level))
        print(in_words(described[-1]), end="\n\n", flush=True)
    left = f" {counted(reading.left_out, 'test')} left out." if reading.left_out else ""
    if not described:
        print(f"No test could be read from {file.name}.{left}")
        return NOTHING_READ
    folder = out or file.parent
    try:
        target = write(csv_text(row(one) for one in described), file, folder)
    except OSError as error:
        print(f"The results could not be written into {folder}: {error.strerror}. Choose a folder you may write to with --out.", file=sys.stderr)
        return NOTHING_READ
    print(f"{counted(len(described), 'test')} read.{left} Results: {target}")
    return ALL_GOOD if reading.all_good else SOME_LEFT_OUT


def read_confidence(text: str) -> float | None:
    """A percentage from 50 to 99.9 as a fraction; None for anything else."""
    if not re.fullmatch(r"[0-9]{1,2}([.,][0-9]{1,4})? ?%?", text.strip()):
        return None
    percent = float(text.strip(" %").replace(",", "."))
    return percent / 100 if 50 <= percent <= 99.9 else None


def read_file(file: Path) -> Reading:
    """The tests of a file; one that cannot be opened is a problem like any other."""
    try:
        with file.open("rb") as stream:
            return read_courses(stream.read(LARGEST_FILE + 1), str(file))
    except OSError as error:
        return Reading(problems=[Problem(str(file), 1, 1, "unreadable", f"Cannot be read: {error.strerror}.", "Check the name, and that it is a file you may read.")])


def describe(test: Course, level: float) -> Described:
    """All numbers of a test. Fractions in 0..1, times in days; `level` is the confidence, a fraction."""
    course = time_course(test.days, test.new, test.seeds)
    fitted, unfitted = _fit(test, level)
    return Described(test, level, course, wilson(course["germinated"], test.seeds, level), fitted, unfitted)


def _fit(test: Course, level: float) -> tuple[Fit | None, str]:
    """The fit, or None and why there is none worth showing."""
    if sum(test.new) == 0:
        return None, "not fitted: nothing came up"
    if sum(count > 0 for count in test.new) < 2:
        return None, "not fitted: all seedlings were seen at one count, so how they were spread cannot be told"
    found = fit([Intervals.of_counts(test.days, test.new, test.seeds)], confidence=level)
    # Two counts next to each other are met by ever steeper curves; a number without a range would be where the search stopped.
    if found.shape.low is None or found.t50_days[0].low is None:
        return None, "not fitted: seedlings at too few counts, so many curves fit them alike; count more often"
    return found, ""


def in_words(one: Described) -> str:
    """The numbers of a test for a terminal: its name, then a line for each."""
    test, course = one.test, one.course
    total = course["germinated"]
    days = f"day {day_text(test.days[0])}" if len(test.days) == 1 else f"{len(test.days)} days from {day_text(test.days[0])} to {day_text(test.days[-1])}"
    lines = [f"{one.name}: {counted(test.seeds, 'seed')}, counted on {days}"]

    def say(name: str, text: str) -> None:
        lines.append(f"  {name:<19}{text}")

    ending = ", and still coming at the last count" if test.new[-1] and total < test.seeds else ""
    say("came up", f"{grouped(total)} of {grouped(test.seeds)}: {percent_in_words(total, test.seeds)} ({percents(*one.range, test.seeds)}, Wilson){ending}")
    if total:
        say("first, most, last", ", ".join(f"day {day_text(course[key])}" for key in ("first_day", "peak_day", "last_day")))
        if total > 1:
            say("half of these up", f"{_half(course['t50_farooq'])} (Farooq), {_half(course['t50_coolbear'])} (Coolbear)")
        say("mean", f"{course['mean_days']:.2f} days" + (f", spread {course['spread_days']:.2f}, standard error {course['standard_error']:.2f}" if total > 1 else "; one seedling has no half-way day and no spread"))
        say("speed", f"{course['speed']:.3f} seedlings a day (Maguire), velocity {course['velocity']:.2f}")
    if total > 1:
        say("evenness", f"synchrony {course['synchrony']:.3f}, uncertainty {course['uncertainty']:.2f} bits")
    if one.fit is None:
        say("fit", one.unfitted)
    else:
        say("fit: half up", f"day {range_text(one.fit.t50_days[0], '.2f')}, of those that will ever sprout{_beyond(one)}")
        say("fit: final share", _final(one))
        say("fit: slope b", f"{range_text(one.fit.shape, '.2f')}; log-likelihood {one.fit.log_likelihood:.3f}")
    return "\n".join(lines)


def percents(low: float, high: float, seeds: int) -> str:
    """ "58–83 %"."""
    return f"{percent_digits(low, seeds)}–{percent_digits(high, seeds)} %"


def range_text(estimate: Estimate, form: str) -> str:
    """ "5.35 (4.97–5.76)"."""
    return f"{estimate.value:{form}} ({estimate.low:{form}}–{estimate.high:{form}})"


def _half(found: dict) -> str:
    if found["kind"] == "by-first-count":
        return f"by the first count, day {day_text(found['day'])}"
    return f"day {found['day']:.2f}"


def _beyond(one: Described) -> str:
    """A warning where the fit's half-way day lies after the last count, so that nobody saw it."""
    return "; that is after the last count: a guess" if one.fit.t50_days[0].value > one.test.days[-1] else ""


def _final(one: Described) -> str:
    final, seeds = one.fit.final[0], one.test.seeds
    if final.low is not None:
        return f"{percent_digits(final.value, seeds)} % ({percents(final.low, final.high, seeds)})"
    if one.course["germinated"] == seeds:
        return "100 %: every seed had come up"
    return "no end below 100 % is seen: the fit takes every seed as coming up sooner or later"


def row(one: Described) -> dict[str, str]:
    """The numbers of a test as a row of the results; empty where there is none."""
    test, course, fitted = one.test, one.course, one.fit
    low, high = one.range

    def number(value: float | None, times: float = 1.0) -> str:
        return "" if value is None else f"{value * times:.6g}"

    def three(name: str, estimate: Estimate | None, times: float = 1.0) -> dict[str, str]:
        values = (estimate.value, estimate.low, estimate.high) if estimate else (None, None, None)
        return {name + ending: number(value, times) for ending, value in zip(("", "_low", "_high"), values, strict=True)}

    def half(found: dict) -> str:
        return "" if found["kind"] == "by-first-count" or course["germinated"] < 2 else number(found["day"])

    remarks = [one.unfitted]
    if course["t50_farooq"]["kind"] == "by-first-count" and course["germinated"] > 1:
        remarks.append(f"half were up by the first count, day {day_text(test.days[0])}")
    if fitted and fitted.final[0].low is None and course["germinated"] < test.seeds:
        remarks.append("the fit sees no end below 100 % and takes every seed as coming up sooner or later")
    if fitted and _beyond(one):
        remarks.append("the fit's half-way day lies after the last count")
    final = fitted.final[0] if fitted and (fitted.final[0].low is not None or course["germinated"] == test.seeds) else None
    return {
        "test": one.name, "seeds": str(test.seeds), "came_up": str(course["germinated"]), "percent": number(course["germinated"] / test.seeds, 100),
        "percent_low": number(low, 100), "percent_high": number(high, 100), "confidence_percent": number(one.confidence, 100),
        **{key: number(course[key]) for key in ("first_day", "peak_day", "last_day")},
        **{key: half(course[key]) for key in ("t50_farooq", "t50_coolbear")},
        **{key: number(course[key]) for key in ("mean_days", "spread_days", "standard_error", "speed", "velocity", "synchrony", "uncertainty")},
        **three("fit_t50_days", fitted and fitted.t50_days[0]), **three("fit_final_percent", final, 100), **three("fit_slope", fitted and fitted.shape),
        "fit_log_likelihood": f"{fitted.log_likelihood:.4f}" if fitted else "",
        "remarks": "; ".join(filter(None, remarks)),
    }


def write(text: str, file: Path, folder: Path) -> Path:
    """Write the results as FOLDER/<name>-time-course.csv, whole or not at all; the path. OSError where that cannot be.

    A link of that name, even to the input, is replaced rather than followed.
    """
    target = folder / f"{file.stem}{ENDING}"
    write_whole(target, [text])
    return target
