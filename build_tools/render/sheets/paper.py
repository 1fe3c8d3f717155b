"""Papers, and how a design drawn for A2 scales to them."""

from __future__ import annotations

from dataclasses import dataclass

DESIGN_SHORT_SIDE = 420.0  # mm, of A2: every measure and type size of a poster is given for it
# Short and long side in mm. ISO 216 (A series); Letter and Tabloid (ANSI/ASME Y14.1 A and B); 24 × 36 in, a common printing size.
PAPERS = {
    "A2": (420.0, 594.0), "A3": (297.0, 420.0), "A4": (210.0, 297.0), "Letter": (215.9, 279.4), "Tabloid": (279.4, 431.8), "24x36": (609.6, 914.4),
}
PAPER_NAMES = {"24x36": "24 × 36 in", "Letter": "Letter (8½ × 11 in)", "Tabloid": "Tabloid (11 × 17 in)"}
ORIENTATIONS = ("portrait", "landscape")


@dataclass(frozen=True)
class Sheet:
    """A page to design on: `width` × `height` in design mm, and `scale` from them to mm on the paper."""

    width: float
    height: float
    scale: float


def poster_sheet(paper: str, orientation: str) -> Sheet:
    """The sheet of a poster; its short side is 420 design mm whatever the paper. KeyError for an unknown paper."""
    short, long = PAPERS[paper]
    scale = short / DESIGN_SHORT_SIDE
    sides = (DESIGN_SHORT_SIDE, long / scale)
    return Sheet(*(sides if orientation == "portrait" else sides[::-1]), scale)
