"""The one shape of an error: where it is, what was seen, how to mend it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from difflib import get_close_matches

LONGEST = 480  # letters of a message or a hint
MOST_ALIKE = 100  # problems of one rule in one file that are listed


@dataclass(frozen=True, order=True)
class Place:
    """A line of another file that has to do with a problem; `words` says what stands there."""

    file: str
    line: int
    column: int = 1
    words: str = ""


@dataclass(frozen=True, order=True)
class Problem:
    """Something to mend: where it is, what was seen, how to mend it.

    `file` is relative to the project's top folder; `line` and `column` count from 1. `see` holds the other places of a problem that
    lies between files. `at` names the place by keys (`temperature.minimum_c`) or by row and column (`Beets/max_f`): it stays when lines move.
    """

    file: str
    line: int
    column: int
    rule: str
    message: str
    hint: str = ""
    level: str = field(default="error", compare=False)
    see: tuple[Place, ...] = field(default=(), compare=False)
    at: str = field(default="", compare=False)

    def __post_init__(self):
        # What was found is quoted in messages, and may be as long as a file.
        for part in ("message", "hint"):
            if len(getattr(self, part)) > LONGEST:
                object.__setattr__(self, part, getattr(self, part)[: LONGEST - 1] + "…")

    @property
    def text(self) -> str:
        return f"{self.message} {self.hint}".strip()


def bounded(problems: Iterable[Problem]) -> list[Problem]:
    """The problems, sorted; of one rule in one file the first MOST_ALIKE, the last of them saying how many more there are."""
    kept: list[Problem] = []
    seen: Counter = Counter()
    problems = sorted(set(problems))
    for problem in problems:
        seen[problem.file, problem.rule] += 1
        if seen[problem.file, problem.rule] <= MOST_ALIKE:
            kept.append(problem)
    last = {(problem.file, problem.rule): index for index, problem in enumerate(kept)}
    for alike, count in seen.items():
        if count > MOST_ALIKE:
            found = kept[last[alike]]
            kept[last[alike]] = replace(found, hint=f"{found.hint} {count - MOST_ALIKE:,} more like it in this file are not listed.".strip())
    return kept


def errors(problems: Iterable[Problem]) -> list[Problem]:
    """Those that stop a build; the others are said and no more."""
    return [problem for problem in problems if problem.level == "error"]


def did_you_mean(seen: str, allowed: Iterable[str]) -> str:
    """A hint naming the nearest allowed word, or all of them when they are few."""
    allowed = sorted(allowed)
    near = get_close_matches(seen[:200], allowed, n=1, cutoff=0.6)
    if near:
        return f'Did you mean "{near[0]}"?'
    if 0 < len(allowed) <= 12:
        return "Allowed: " + ", ".join(allowed) + "."
    return ""
