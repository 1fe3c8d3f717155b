"""The command that writes crop cards as PDF files."""

from __future__ import annotations

import sys
import time
from pathlib import Path

from .. import model
from ..printers import as_text
from ..render.choose import crops_asked_for, sizes_asked_for
from ..render.rows import by_name
from ..render.sheets.card_text import card_data
from ..render.sheets.cards import CardMaker, cards_file_name, cards_pdf
from ..render.sheets.cut_sheets import CUT_SHEETS
from ..write_file import write_whole


def arguments(parser) -> None:
    parser.add_argument("--size", default="A6", metavar="SIZE", help="A6 (unless given), 4x6, A4-4, A4-8, Letter-4 or Letter-8; several with commas")
    parser.add_argument("--units", choices=("C", "F", "both"), default="both", help="temperatures in °C, °F or both")
    parser.add_argument("--crops", metavar="NAMES", help="names with commas, such as tomato,pepper; all crops unless given")
    parser.add_argument("--out", type=Path, metavar="DIR", help="folder for the files, build/cards unless given")


def main(root: Path, options) -> int:
    """Write the cards that the options ask for; the exit status. Nothing is written when a word is not understood."""
    out = options.out or root / "build" / "cards"
    reference, problems = model.load(root)
    if reference is None:
        print(f"{as_text(problems)}\nNo card was written.", file=sys.stderr)
        return 1
    try:
        sheets = sizes_asked_for(options.size, CUT_SHEETS, "size of card")
        chosen = crops_asked_for(reference, options.crops)
    except ValueError as error:
        print(f"{error}\nNo card was written.", file=sys.stderr)
        return 2
    crops = [crop.id for crop in by_name(reference)] if chosen is None else chosen
    return _write(reference, options, out, sheets, crops, all_crops=chosen is None)


def _write(reference, options, out: Path, sheets: list[str], crops: list[str], all_crops: bool) -> int:
    data, start, files = card_data(reference), time.monotonic(), []
    try:
        for sheet in sheets:
            files.append(out / cards_file_name(sheet, options.units))
            write_whole(files[-1], cards_pdf(reference, sheet, options.units, crops, data))
    except OSError as error:
        print(f"Cannot write to {out}: {error.strerror}. Choose another folder with --out.", file=sys.stderr)
        return 1
    print("\n".join(map(str, files)))
    for sheet in sheets:
        maker = CardMaker(data, CUT_SHEETS[sheet], options.units)
        for crop in crops:
            dropped = maker.dropped(crop)
            if dropped:
                print(f"{reference.crops[crop].name}, {CUT_SHEETS[sheet].title}: no room for {', '.join(name.lower() for name in dropped)}.")
    which = "all crops" if all_crops else ", ".join(reference.crops[crop].name for crop in crops)
    print(f"Cards of {which} in {time.monotonic() - start:.1f} s. Print them at actual size.")
    return 0
