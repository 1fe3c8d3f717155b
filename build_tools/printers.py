"""Problems printed: as text for people, as annotations for pull requests, as JSON for programs."""

from __future__ import annotations

import json
import sys
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import asdict
from functools import partial
from pathlib import Path

from .problem import Problem, errors

WIDEST = 100  # letters of an offending line that are shown


def visible(text: str) -> str:
    """The text with control, format and unpaired surrogate characters written out, so that a terminal or a form can't be led astray."""
    return "".join(f"\\u{ord(c):04x}" if unicodedata.category(c) in ("Cc", "Cf", "Cs", "Zl", "Zp") else c for c in text)


def _lines_of(root: Path) -> Callable[[str], list[str]]:
    """A reader of files' lines that remembers; a file that can't be read has none."""
    known: dict[str, list[str]] = {}

    def lines(file: str) -> list[str]:
        if file not in known:
            path = root / file
            try:
                known[file] = path.read_text(encoding="utf-8", errors="replace").split("\n") if path.is_file() and path.stat().st_size < 500_000 else []
            except OSError:
                known[file] = []
        return known[file]

    return lines


def offending(problem: Problem, lines: list[str]) -> list[str]:
    """The line of a problem and a caret under its column; long lines are shown around it."""
    if not 0 < problem.line <= len(lines) or not lines[problem.line - 1].strip():
        return []
    line, column = lines[problem.line - 1], problem.column - 1
    start = max(0, min(column - WIDEST // 2, len(line) - WIDEST))
    before, after = visible(line[start:column]), visible(line[column : start + WIDEST])
    before, after = "…" * (start > 0) + before, after + "…" * (len(line) > start + WIDEST)
    number = str(problem.line)
    return [f"  {number} | {before}{after}", f"  {' ' * len(number)} | {' ' * len(before)}^"]


def as_text(problems: Iterable[Problem], root: Path | None = None) -> str:
    """Place and rule, then the words, the other places there are, and a count at the end.

    With `root`, the project's folder, the offending line is shown too, with a caret under the place.
    """
    problems = sorted(problems)
    lines, lines_of = [], _lines_of(root) if root else None
    for problem in problems:
        lines.append(f"{visible(problem.file)}:{problem.line}:{problem.column}  {problem.rule}{' (warning)' if problem.level == 'warning' else ''}")
        if lines_of:
            lines += offending(problem, lines_of(problem.file))
        lines.append(f"  {visible(problem.text)}")
        for place in problem.see:
            lines.append(f"  see {visible(place.file)}:{place.line}:{place.column}" + (f"  {visible(place.words)}" if place.words else ""))
    lines.append(counted(problems))
    return "\n".join(lines)


def counted(problems: list[Problem]) -> str:
    """How many problems and warnings there are, in words."""
    stopping = len(errors(problems))
    parts = [f"{n} {word}{'s' if n != 1 else ''}" for n, word in ((stopping, "problem"), (len(problems) - stopping, "warning")) if n]
    return ", ".join(parts) + "." if parts else "No problems found."


def as_annotations(problems: Iterable[Problem]) -> str:
    """Workflow annotations: one `::error file=…,line=…,col=…::…` line a problem."""

    def escaped(text: str) -> str:
        return visible(text).replace("%", "%25")

    def property_(text: str) -> str:
        return escaped(text).replace(":", "%3A").replace(",", "%2C")

    def words(problem: Problem) -> str:
        return " ".join([problem.text, *(f"See {place.file}:{place.line}{' ' + place.words if place.words else ''}." for place in problem.see)])

    return "\n".join(
        f"::{p.level} file={property_(p.file)},line={p.line},col={p.column},title={property_(p.rule)}::{escaped(words(p))}" for p in sorted(problems)
    )


def as_json(problems: Iterable[Problem]) -> str:
    """A JSON array of problems."""
    return json.dumps([asdict(p) for p in sorted(problems)], ensure_ascii=True, indent=1)


PRINTERS = {"text": as_text, "annotations": as_annotations, "json": as_json}


def report(problems: Iterable[Problem], form: str = "text", root: Path | None = None, stream=None, strict: bool = False) -> int:
    """Print the problems in the wanted form; return the exit status: 1 if any stops a build, or if there is any and `strict`.

    `root` lets the text show the offending lines; it does so on a terminal only.
    """
    problems, stream = list(problems), stream or sys.stdout
    printer = partial(as_text, root=root if stream.isatty() else None) if form == "text" else PRINTERS[form]
    out = printer(problems)
    print(out, file=stream) if out else None
    return 1 if (problems if strict else errors(problems)) else 0
