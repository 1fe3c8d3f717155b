"""The command that writes posters as PDF files."""

from __future__ import annotations

import sys
import time
from pathlib import Path

from .. import model
from ..printers import as_text
from ..render.choose import crops_asked_for, sizes_asked_for
from ..render.sheets.paper import PAPERS
from ..render.sheets.posters import POSTERS, file_name, page_data, poster_pdf
from ..write_file import write_whole


def arguments(parser) -> None:
    parser.add_argument("--size", default="A3", metavar="PAPER", help="A2, A3 (unless given), A4, Letter, Tabloid or 24x36; several with commas")
    parser.add_argument("--units", choices=("C", "F", "both"), default="both", help="temperatures in °C, °F or both")
    parser.add_argument("--crops", metavar="NAMES", help="names with commas, such as tomato,pepper; all crops unless given")
    parser.add_argument("--poster", metavar="NAMES", help="bands, days, seed-life, steps or towel-test, several with commas; all unless given")
    parser.add_argument("--orientation", choices=("portrait", "landscape"), default="portrait")
    parser.add_argument("--order", choices=("name", "minimum", "optimum"), default="name", help="crops by name, or from cold to warm")
    parser.add_argument("--out", type=Path, metavar="DIR", help="folder for the files, build/posters unless given")


def main(root: Path, options) -> int:
    """Write the posters that the options ask for; the exit status. Nothing is written when a word is not understood."""
    reference, problems = model.load(root)
    if reference is None:
        print(f"{as_text(problems)}\nNo poster was written.", file=sys.stderr)
        return 1
    try:
        papers, posters = sizes_asked_for(options.size, PAPERS, "paper"), _posters(options.poster, options.orientation)
        crops = crops_asked_for(reference, options.crops)
    except ValueError as error:
        print(f"{error}\nNo poster was written.", file=sys.stderr)
        return 2
    return _write(reference, options, options.out or root / "build" / "posters", papers, posters, crops)


def _write(reference, options, out: Path, papers, posters, crops) -> int:
    data, start, names = page_data(reference), time.monotonic(), []
    try:
        for paper in papers:
            for poster in posters:
                name = file_name(poster, paper, options.orientation, options.units)
                write_whole(out / name, poster_pdf(reference, poster, paper, options.orientation, options.units, crops, options.order, data))
                names.append(name)
    except OSError as error:
        print(f"Cannot write to {out}: {error.strerror}. Choose another folder with --out.", file=sys.stderr)
        return 1
    which = "all crops" if crops is None else ", ".join(reference.crops[crop].name for crop in crops)
    print("\n".join(f"{out / name}" for name in names))
    print(f"{len(names)} poster{'' if len(names) == 1 else 's'} of {which} in {time.monotonic() - start:.1f} s.")
    if crops is not None and any(not POSTERS[p].of_crops for p in posters):
        print("“From packet to seedling” and “Towel test” are the same for every crop.")
    return 0


def _posters(words: str | None, orientation: str) -> list[str]:
    if words is None:
        return [p.name for p in POSTERS.values() if orientation in p.orientations]
    chosen = [word.strip() for word in words.split(",")]
    for name in chosen:
        if name not in POSTERS:
            raise ValueError(f'--poster {name}: there is no such poster. Known: {", ".join(POSTERS)}.')
        if orientation not in POSTERS[name].orientations:
            raise ValueError(f"--orientation {orientation}: the poster {name} is made in {POSTERS[name].orientations[0]} only.")
    return chosen
