"""The command that writes posters as PDF files."""

from __future__ import annotations

import sys
import time
from pathlib import Path

from . import model
from .problem import as_text
from .render.choose import crops_asked_for, sizes_asked_for
from .render.sheets.paper import PAPERS
from .render.sheets.posters import POSTERS, file_name, page_data, poster_pdf
from .write_file import write_whole


def run(root: Path, options) -> int:
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
    return _write(reference, options, papers, posters, crops)


def _write(reference, options, papers, posters, crops) -> int:
    data, start, names = page_data(reference), time.monotonic(), []
    try:
        for paper in papers:
            for poster in posters:
                name = file_name(poster, paper, options.orientation, options.units)
                write_whole(options.out / name, poster_pdf(reference, poster, paper, options.orientation, options.units, crops, options.order, data))
                names.append(name)
    except OSError as error:
        print(f"Cannot write to {options.out}: {error.strerror}. Choose another folder with --out.", file=sys.stderr)
        return 1
    which = "all crops" if crops is None else ", ".join(reference.crops[crop].name for crop in crops)
    print("\n".join(f"{options.out / name}" for name in names))
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
