"""Marks: what a layout puts on a page, as plain dictionaries that go to the typesetter and to the browser alike.

Places are mm from the sheet's upper left corner; a text's y is its baseline. Colours are names of palette.py.
Twin: docs/assets/js/sheets/marks.js.
"""

from __future__ import annotations


def text(x: float, y: float, size: float, words: str, *, weight: int = 400, anchor: str = "start", ink: str = "ink") -> dict:
    """A line of text at `size` mm; `anchor` start, middle or end."""
    return {"mark": "text", "x": x, "y": y, "size": size, "text": words, "weight": weight, "anchor": anchor, "ink": ink}


def lines(x: float, y: float, size: float, leading: float, texts: list[str], *, weight: int = 400, ink: str = "ink", anchor: str = "start") -> dict:
    """Lines of one paragraph, the first baseline at y, the next ones `leading` mm below."""
    return {"mark": "lines", "x": x, "y": y, "size": size, "leading": leading, "lines": texts, "weight": weight, "anchor": anchor, "ink": ink}


def heading(level: int, mark: dict) -> dict:
    """A text or lines that is a heading for whoever reads by structure."""
    return {**mark, "level": level}


def rect(x: float, y: float, width: float, height: float, fill: str | None, *, hatch: str = "", edge: str = "", edge_width: float = 0.0) -> dict:
    """A filled or outlined rectangle; `hatch` rising or falling lines over the fill."""
    return {"mark": "rect", "x": x, "y": y, "width": width, "height": height, "fill": fill, "hatch": hatch, "edge": edge, "edge_width": edge_width}


def line(x1: float, y1: float, x2: float, y2: float, width: float, ink: str, *, dashed: bool = False) -> dict:
    return {"mark": "line", "x1": x1, "y1": y1, "x2": x2, "y2": y2, "width": width, "ink": ink, "dashed": dashed}


def polygon(points: list[tuple[float, float]], fill: str) -> dict:
    return {"mark": "polygon", "points": [list(p) for p in points], "fill": fill}


def picture(x: float, y: float, width: float, height: float, name: str, alt: str) -> dict:
    """An SVG by its name among the sheet's pictures."""
    return {"mark": "picture", "x": x, "y": y, "width": width, "height": height, "name": name, "alt": alt}


def group(alt: str, marks: list[dict]) -> dict:
    """Marks that are one figure, read aloud as `alt`."""
    return {"mark": "group", "alt": alt, "marks": marks}


def flat(marks: list[dict]):
    """Every mark, those in groups too."""
    for mark in marks:
        if mark["mark"] == "group":
            yield from flat(mark["marks"])
        else:
            yield mark
