"""The one shape of an error: where it is, what was seen, how to mend it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches


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

    @property
    def text(self) -> str:
        return f"{self.message} {self.hint}".strip()


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
