"""The one shape of an error, and its printers."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field
from difflib import get_close_matches


@dataclass(frozen=True, order=True)
class Problem:
    """Something to mend: where it is, what was seen, how to mend it.

    `file` is relative to the project's top folder; `line` and `column` count from 1.
    """

    file: str
    line: int
    column: int
    rule: str
    message: str
    hint: str = ""
    level: str = field(default="error", compare=False)

    @property
    def text(self) -> str:
        return f"{self.message} {self.hint}".strip()


def did_you_mean(seen: str, allowed: Iterable[str]) -> str:
    """A hint naming the nearest allowed word, or all of them when they are few."""
    allowed = sorted(allowed)
    near = get_close_matches(seen, allowed, n=1, cutoff=0.6)
    if near:
        return f'Did you mean "{near[0]}"?'
    if 0 < len(allowed) <= 12:
        return "Allowed: " + ", ".join(allowed) + "."
    return ""


def as_text(problems: Iterable[Problem]) -> str:
    """Two lines a problem (place and rule, then the words), and a count at the end."""
    problems = sorted(problems)
    lines = []
    for problem in problems:
        lines.append(f"{problem.file}:{problem.line}:{problem.column}  {problem.rule}")
        lines.append(f"  {problem.text}")
    count = len(problems)
    lines.append("No problems found." if not count else f"{count} problem{'s' if count != 1 else ''}.")
    return "\n".join(lines)


def as_annotations(problems: Iterable[Problem]) -> str:
    """Workflow annotations: one `::error file=…,line=…,col=…::…` line a problem."""

    def escaped(text: str) -> str:
        return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")

    return "\n".join(
        f"::{p.level} file={escaped(p.file)},line={p.line},col={p.column},title={p.rule}::{escaped(p.text)}"
        for p in sorted(problems)
    )


def as_json(problems: Iterable[Problem]) -> str:
    """A JSON array of problems."""
    return json.dumps([asdict(p) for p in sorted(problems)], ensure_ascii=False, indent=1)


PRINTERS = {"text": as_text, "annotations": as_annotations, "json": as_json}


def report(problems: Iterable[Problem], form: str = "text", stream=None) -> int:
    """Print the problems in the wanted form; return the exit status (1 if there are any)."""
    problems = list(problems)
    print(PRINTERS[form](problems), file=stream or sys.stdout)
    return 1 if problems else 0
