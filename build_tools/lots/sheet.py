"""The results as one self-contained page to print on A4 or Letter paper: no script, nothing fetched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from ..problem import Problem
from .columns import VERDICTS
from .judge import Result
from .words import grouped, number_text
from .write import problem_line, verdicts_text

MOST_PROBLEMS = 200
STYLE = """
@page { margin: 14mm 12mm; }
* { box-sizing: border-box; }
body { font: 10pt/1.35 Georgia, Cambria, serif; color: #000; background: #fff; margin: 1em auto; max-width: 62em; padding: 0 1em; }
h1 { font-size: 1.6em; margin: 0 0 .2em; }
h2 { font-size: 1.15em; margin: 1.2em 0 .3em; break-after: avoid; }
p { margin: .3em 0; }
table { border-collapse: collapse; width: 100%; margin: .6em 0; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { border-bottom: 1px solid #999; padding: .3em .6em .3em 0; text-align: left; vertical-align: top; overflow-wrap: anywhere; }
th:last-child, td:last-child { padding-right: 0; }
tbody th { min-width: 5.5em; }
.crop { min-width: 9em; }
.verdict { min-width: 6em; overflow-wrap: normal; }
.day { white-space: nowrap; }
.verdict { font-weight: 700; }
.invented { border: 1px solid #000; padding: .2em .5em; display: inline-block; }
dt { font-weight: 700; float: left; clear: left; margin-right: .5em; }
dd { margin: 0 0 .25em; }
dl, .problems { font-size: .92em; }
.problems li { margin: .15em 0; }
@media print { body { margin: 0; padding: 0; max-width: none; font-size: 9pt; } }
"""
HEAD = ("Lot", "Crop, variety", "Tested", "Why", "Verdict", "Next test")
HEAD_CELLS = "".join(f'<th scope="col">{text}</th>' for text in HEAD)


def sheet_html(results: Sequence[Result], problems: Sequence[Problem], *, name: str, library: str, line: float, today: str, invented: bool, verdicts: dict[str, int], said: str) -> Iterator[str]:
    """The page in pieces. `results` in the order they are to stand in; `said` is the summary; `invented` puts a mark at the top."""
    title = f"Seed lots, {today}"
    yield f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<meta name="viewport" content="width=device-width">\n<title>{escape(title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n'
    yield f"<h1>{escape(title)}</h1>\n<p>{escape(library)}. From {escape(name)}; lending line {number_text(line)} %.</p>\n"
    if invented:
        yield '<p class="invented">Invented example: library, varieties and counts do not exist.</p>\n'
    yield f"<p>{escape(said)} {escape(verdicts_text(verdicts))}</p>\n"
    yield f"<table>\n<thead><tr>{HEAD_CELLS}</tr></thead>\n<tbody>\n"
    for result in results:
        yield row_html(result)
    yield "</tbody>\n</table>\n<h2>What the verdicts mean</h2>\n<dl>\n"
    for verdict, meaning in VERDICTS.items():
        if verdicts.get(verdict):
            yield f"<dt>{escape(verdict)}</dt><dd>{escape(meaning)}</dd>\n"
    yield "</dl>\n<p>Percentages are counts of normal seedlings with their 95 % interval.</p>\n"
    if problems:
        yield '<h2>Rows left out, and notes</h2>\n<ul class="problems">\n'
        for problem in problems[:MOST_PROBLEMS]:
            yield f"<li>{escape(problem_line(problem))}</li>\n"
        yield "</ul>\n"
        if len(problems) > MOST_PROBLEMS:
            yield f"<p>And {grouped(len(problems) - MOST_PROBLEMS)} more.</p>\n"
    yield "</body>\n</html>\n"


def row_html(result: Result) -> str:
    """One row of the sheet's table."""
    crop = ", ".join(filter(None, (result.crop, result.variety)))
    return (
        f'<tr><th scope="row">{escape(result.lot)}</th><td class="crop">{escape(crop)}</td><td class="day">{result.tested or "not tested"}</td>'
        f'<td>{escape(result.words)}</td><td class="verdict">{escape(result.verdict)}</td><td class="day">{result.next_test or "none"}</td></tr>\n'
    )
