"""The command that writes labels for packets of tested lots as PDF."""

from __future__ import annotations

from pathlib import Path

from ..lots.words import counted
from ..render.sheets.fonts import widths
from ..render.sheets.label_sheets import LABEL_SHEETS, sheet_words
from ..render.sheets.labels import label_pages, label_words, warmth_words
from ..render.sheets.paper import PAPERS, Sheet
from ..render.sheets.poster_data import poster_data
from ..render.sheets.type import Type
from ..render.sheets.typeset import pdf
from ..write_file import write_whole
from .lots import GOOD, NOTHING_READ, SOME_LEFT_OUT, read_and_judge, say

MOST_COPIES = 100


def arguments(parser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE.csv")
    parser.add_argument("--sheet", default="A4-3x8", metavar="SHEET", help="A4-3x7, A4-3x8 (unless given), A4-2x7, A4-2x8, A4-4x10, Letter-3x10, Letter-2x10 or Letter-2x5: columns × rows")
    parser.add_argument("--start", type=int, default=1, metavar="N", help="first label of a sheet that is partly used")
    parser.add_argument("--copies", type=int, default=1, metavar="N", help="labels for each lot")
    parser.add_argument("--units", choices=("C", "F", "both"), default="both", help="temperatures in °C, °F or both")
    parser.add_argument("--outlines", action="store_true", help="draw each label's edge, for a trial on plain paper")
    parser.add_argument("--line", metavar="PERCENT", help="lending line, instead of the one in data/library.yml")
    parser.add_argument("--today", metavar="DATE", help="reckon as on this day, such as 2026-03-12")
    parser.add_argument("--out", type=Path, metavar="DIR", help="folder for the file, beside FILE unless given")


def main(root: Path, options) -> int:
    """Exit status: 0 all rows were good, 1 some were left out, 2 nothing could be read or written."""
    sheet = LABEL_SHEETS.get(options.sheet)
    if sheet is None:
        known = "\n".join(f"  {name}: {sheet_words(other)}" for name, other in LABEL_SHEETS.items())
        say(f"--sheet {options.sheet}: there is no such sheet. Known:\n{known}\nFor other measures use the page “Labels”.")
        return NOTHING_READ
    for name, value, most in (("start", options.start, sheet.count), ("copies", options.copies, MOST_COPIES)):
        if not 1 <= value <= most:
            say(f"--{name} {value}: write a number from 1 to {most}.")
            return NOTHING_READ
    judged = read_and_judge(root, options.file, options.line, options.today)
    if judged is None:
        return NOTHING_READ
    data = poster_data(judged.reference)
    bands = {crop["name"]: crop["band"] for crop in data["crops"]}
    labels = [label_words(row._asdict(), warmth_words(bands[row.crop], options.units), data["library"]["name"]) for row in judged.results]
    pages = label_pages(Type(widths()), sheet, labels, start=options.start, copies=options.copies, outline=options.outlines)
    content = pdf(pages, Sheet(*PAPERS[sheet.paper], 1.0), title=f"Labels of {options.file.name}", author=data["library"]["name"], description=sheet_words(sheet))
    target = (options.out or options.file.parent) / f"{options.file.stem}-labels.pdf"
    try:
        write_whole(target, content)
    except OSError as error:
        say(f"The labels cannot be written to {target.parent}: {error.strerror or error}. Name another folder with --out.")
        return NOTHING_READ
    print(f"{counted(len(labels) * options.copies, 'label')} on {counted(len(pages), 'page')}, {sheet_words(sheet)}. Print at actual size (100 %).\n  {target}")
    return SOME_LEFT_OUT if judged.reading.left_out else GOOD
