"""How large the type of the standard posters is, and from how far it can be read."""

from __future__ import annotations

import math

from .marks import flat
from .paper import PAPERS, poster_sheet
from .posters import POSTERS, poster_pages

POINTS_PER_MM = 72 / 25.4
CAPITAL = 0.66  # height of a capital, of the type size (the typeface's own figure, OS/2 sCapHeight)
# A letter seen at 5 minutes of arc is the finest that normal sight (20/20, 6/6) reads on a test chart; twice that is 20/40, what a
# driving licence usually asks for. The definition of visual acuity, ISO 8596.
EASY_ARC_MINUTES = 10.0


def distance_m(size_mm: float) -> float:
    """How far away, in metres, a capital of this type size still spans EASY_ARC_MINUTES."""
    return size_mm * CAPITAL / math.tan(math.radians(EASY_ARC_MINUTES / 60)) / 1000


def type_sizes(data: dict) -> list[dict]:
    """For each poster of crops and paper, all crops in portrait: {poster, paper, name_pt, name_m, least_name_pt, small_pt}.

    `name_pt` is the size of most names, `least_name_pt` that of the longest, which are set smaller; points on the paper, metres.
    """
    found = []
    for poster in POSTERS.values():
        if not poster.of_crops:
            continue
        for paper in PAPERS:
            scale = poster_sheet(paper, "portrait").scale
            marks = [mark for page in poster_pages(data, poster.name, paper, "portrait", "both") for mark in flat(page)]
            names = sorted(m["size"] * scale for m in marks if m["mark"] == "lines" and m["weight"] == 600)
            small = min(m["size"] * scale for m in marks if m["mark"] in ("text", "lines"))
            usual = names[len(names) // 2]
            found.append({"poster": poster, "paper": paper, "name_pt": usual * POINTS_PER_MM, "name_m": distance_m(usual), "least_name_pt": names[0] * POINTS_PER_MM, "small_pt": small * POINTS_PER_MM})
    return found
