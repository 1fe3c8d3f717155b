"""Marks to PDF by typst: vector, fonts embedded, tagged (PDF/UA-1), the same bytes for the same marks."""

from __future__ import annotations

import atexit
import json
import shutil
import tempfile
from collections.abc import Mapping
from functools import lru_cache
from importlib.metadata import version
from pathlib import Path

from ... import kept
from . import fonts
from .palette import PALETTE
from .paper import Sheet

MOST_KEPT = 200  # results kept while one process runs: a server that rebuilds sets only what has changed
_made: dict[str, bytes | list[bytes]] = {}
TEMPLATE = Path(__file__).with_name("sheet.typ")


@lru_cache(maxsize=1)
def font_folder() -> str:
    """The fonts in a folder of their own: typst takes folders only, and the package's holds every weight in two formats."""
    chosen = tempfile.mkdtemp(prefix="sheet-fonts-")
    atexit.register(shutil.rmtree, chosen, ignore_errors=True)
    for name in fonts.FILES.values():
        shutil.copy(fonts.folder() / name, chosen)
    return chosen


@lru_cache(maxsize=1)
def _fonts():
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[font_folder()])


@lru_cache(maxsize=1)
def _setter() -> bytes:
    """What sets: the typesetter's version, its template and its fonts."""
    parts = [version("typst").encode(), TEMPLATE.read_bytes(), *((fonts.folder() / name).read_bytes() for name in fonts.FILES.values())]
    return kept.key(*parts).encode()


def forget() -> None:
    """Drop every result kept, so that the next ones are set anew."""
    _made.clear()


def pdf(pages: list[list[dict]], sheet: Sheet, *, title: str, author: str, description: str, pictures: Mapping[str, str] | None = None) -> bytes:
    """The PDF of one document; `pictures` maps a picture's name to its SVG text.

    Raises typst.TypstError when a mark can't be set, such as a picture that is no SVG.
    """
    return _typeset(pages, sheet, title, author, description, pictures, format="pdf", pdf_standards="ua-1")


def png(pages: list[list[dict]], sheet: Sheet, *, title: str, pictures: Mapping[str, str] | None = None, ppi: float = 72) -> bytes | list[bytes]:
    """The same as an image a page, for looking at and for tests."""
    return _typeset(pages, sheet, title, "", "", pictures, format="png", ppi=ppi)


def _drawable(text: str) -> str:
    """The text with a question mark for each letter that the typeface lacks: the typesetter would refuse the whole document for one."""
    lacking = set(text) - fonts.drawn()
    return text.translate({ord(letter): "?" for letter in lacking}) if lacking else text


def _typeset(pages, sheet, title, author, description, pictures, **options):
    rest = {
        "width": sheet.width, "height": sheet.height, "scale": sheet.scale, "room": 2 * max(sheet.width, sheet.height),
        "palette": PALETTE, "family": fonts.FAMILY, "title": title, "author": author, "description": description, "pictures": dict(pictures or {}),
    }
    marks = _drawable(json.dumps(pages, ensure_ascii=False))
    text = f'{{"pages": {marks}, {json.dumps(rest, ensure_ascii=False)[1:]}'
    key = kept.key(_setter(), text.encode(), repr(sorted(options.items())).encode())
    if key not in _made:
        while len(_made) >= MOST_KEPT:
            _made.pop(next(iter(_made)), None)
        _made[key] = _kept_or_set(key, text, options)
    return _made[key]


def _kept_or_set(key: str, text: str, options: dict) -> bytes | list[bytes]:
    found = kept.get("sheets", key) if options["format"] == "pdf" else None
    if found is None:
        import typst

        found = typst.compile(TEMPLATE.read_bytes(), font_paths=_fonts(), sys_inputs={"data": text}, **options)
        if options["format"] == "pdf":
            kept.put("sheets", key, found)
    return found
