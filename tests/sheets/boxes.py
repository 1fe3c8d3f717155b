"""Where texts stand: boxes of marks as laid out, and the same texts found again in a PDF."""

from __future__ import annotations

from build_tools.render.sheets.fonts import widths
from build_tools.render.sheets.marks import flat
from build_tools.render.sheets.type import Type

ASCENT, DESCENT = 0.72, 0.2  # of the type size, for letters and figures: the highest accents reach further
POINTS = 72 / 25.4  # a mm
SLACK = 0.15  # mm: letters may come that near


def text_boxes(marks: list[dict]) -> list[tuple[str, float, float, float, float]]:
    """(text, left, top, right, bottom) in design mm of every line of text."""
    type_, found = Type(widths()), []
    for mark in flat(marks):
        if mark["mark"] not in ("text", "lines"):
            continue
        for index, words in enumerate([mark["text"]] if mark["mark"] == "text" else mark["lines"]):
            wide, size = type_.width(words, mark["size"], mark["weight"]), mark["size"]
            left = mark["x"] - {"start": 0.0, "middle": wide / 2, "end": wide}[mark["anchor"]]
            baseline = mark["y"] + index * mark.get("leading", 0.0)
            found.append((words, left, baseline - ASCENT * size, left + wide, baseline + DESCENT * size))
    return found


def outside(marks: list[dict], width: float, height: float, margin: float) -> list[str]:
    """Texts that reach into the margin."""
    return [box[0] for box in text_boxes(marks) if box[1] < margin - SLACK or box[3] > width - margin + SLACK or box[2] < 0 or box[4] > height - margin / 2]


def overlapping(marks: list[dict]) -> list[tuple[str, str]]:
    """Pairs of texts that lie on one another. Lines of a row nearly touch above and below: a fifth of the size is forgiven there."""
    boxes, found = sorted(text_boxes(marks), key=lambda box: box[2]), []
    for index, (words, left, top, right, bottom) in enumerate(boxes):
        for other, left2, top2, right2, bottom2 in boxes[index + 1 :]:
            if top2 > bottom:
                break
            forgiven = 0.2 * min(bottom - top, bottom2 - top2)
            if min(right, right2) - max(left, left2) > SLACK and min(bottom, bottom2) - max(top, top2) > forgiven:
                found.append((words, other))
    return found


def missing_in_pdf(page, marks: list[dict], scale: float) -> list[str]:
    """Texts of marks whose letters are not found, whole and in order, at their place on a page of pdfplumber."""
    by_line: dict[int, list] = {}
    for char in page.chars:
        baseline = page.height - char["matrix"][5]
        by_line.setdefault(round(baseline), []).append(char)
    missing = []
    for mark in flat(marks):
        if mark["mark"] not in ("text", "lines"):
            continue
        for index, words in enumerate([mark["text"]] if mark["mark"] == "text" else mark["lines"]):
            wide = Type(widths()).width(words, mark["size"], mark["weight"]) * scale * POINTS
            x = mark["x"] * scale * POINTS - {"start": 0.0, "middle": wide / 2, "end": wide}[mark["anchor"]]
            y = (mark["y"] + index * mark.get("leading", 0.0)) * scale * POINTS
            near = [c for row in (round(y) - 1, round(y), round(y) + 1) for c in by_line.get(row, ()) if abs(page.height - c["matrix"][5] - y) < 0.6]
            inside = sorted((c for c in near if x - 1 < (c["x0"] + c["x1"]) / 2 < x + wide + 1), key=lambda c: c["x0"])
            if "".join(c["text"] for c in inside).replace(" ", "").replace("\u00a0", "") != words.replace(" ", "").replace("\u00a0", ""):
                missing.append(words)
    return missing
