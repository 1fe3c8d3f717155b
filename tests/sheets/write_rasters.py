"""Stored images of a few posters, to be compared by tolerance: `python -m tests.sheets.write_rasters` renews them; look at them before you commit them."""

from __future__ import annotations

import io
from pathlib import Path

import pdfplumber
from PIL.Image import Image

FOLDER = Path(__file__).parent / "rasters"
SHOWN = (("bands", "A3", "portrait", "both"), ("days", "Letter", "portrait", "F"), ("seed-life", "Tabloid", "landscape", "C"), ("steps", "A4", "portrait", "C"), ("towel-test", "24x36", "portrait", "both"))
CROPS = ("asparagus", "basil", "celery", "chard", "cowpea", "lettuce", "onion", "spinach", "spinach-new-zealand", "tomato")  # whose values seldom change
LONG_SIDE = 420  # dots


def raster(content: bytes) -> Image:
    """The first page of a PDF as a grey image."""
    with pdfplumber.open(io.BytesIO(content)) as pdf:
        page = pdf.pages[0]
        return page.to_image(resolution=72 * LONG_SIDE / float(max(page.width, page.height)), antialias=True).original.convert("L")


def content_of(reference, poster, paper, orientation, units) -> bytes:
    from build_tools.render.sheets.posters import POSTERS, poster_pdf

    return poster_pdf(reference, poster, paper, orientation, units, list(CROPS) if POSTERS[poster].of_crops else None)


def main() -> None:
    from build_tools.model import load

    reference, _ = load(Path(__file__).resolve().parents[2])
    FOLDER.mkdir(exist_ok=True)
    for shown in SHOWN:
        raster(content_of(reference, *shown)).quantize(16).save(FOLDER / f"{'-'.join(shown)}.png", optimize=True)


if __name__ == "__main__":
    main()
