"""The one typeface of printed sheets, from an installed package, and the widths of its letters."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

FAMILY = "Source Sans Pro"
FILES = {400: "SourceSansPro-Regular.ttf", 600: "SourceSansPro-Semibold.ttf"}
LICENCE = "LICENSE.txt"  # goes with the files wherever they are given away
MEASURED = [*range(0x20, 0x7F), *range(0xA0, 0x180), *(ord(c) for c in "⅛⅜⅝⅞–—‘’“”…−≤≥≠×≈°")]


def folder() -> Path:
    """Where the font files are."""
    import font_source_sans_pro

    return Path(font_source_sans_pro.__file__).parent / "files"


@lru_cache(maxsize=1)
def widths() -> dict[str, dict[str, int]]:
    """Advance widths in thousandths of the type size: {weight: {character: width, "": the mean of the small letters}}."""
    from fontTools.ttLib import TTFont

    found = {}
    for weight, name in FILES.items():
        with TTFont(folder() / name) as font:
            glyphs, advances, per_em = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
            known = {chr(code): round(advances[glyphs[code]][0] * 1000 / per_em) for code in MEASURED if code in glyphs}
        found[str(weight)] = {**known, "": round(sum(known[c] for c in "abcdefghijklmnopqrstuvwxyz") / 26)}
    return found


@lru_cache(maxsize=1)
def drawn() -> frozenset[str]:
    """The characters that the typeface can draw in every weight."""
    from fontTools.ttLib import TTFont

    found = []
    for name in FILES.values():
        with TTFont(folder() / name) as font:
            found.append({chr(code) for code in font.getBestCmap()})
    return frozenset(set.intersection(*found))
