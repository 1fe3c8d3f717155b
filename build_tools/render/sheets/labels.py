"""Labels for packets of tested lots. Twin: docs/assets/js/sheets/labels.js.

A label always has the crop's name and the percentage with its range and number of seeds; of the rest, in this order, what fits:
lot and day of the test, verdict and next test, soil temperature, harvest, library.
"""

from __future__ import annotations

from collections.abc import Mapping

from .label_sheets import LabelSheet
from .marks import group, lines, rect, text
from .type import Type

LEADING = 1.24  # times the type size
NAME, MOST_NAME = 0.19, 7.0  # of a label's height; mm
BODY, LEAST_BODY, MOST_BODY = 0.105, 2.0, 2.9  # of a label's height; mm
LARGER = (1.6, 1.45, 1.3, 1.15)  # times that, where everything still fits


def warmth_words(band: Mapping | None, units: str) -> str:
    """ "sow above 10 °C, best at 15.5–29.5 °C"; empty when neither is known. `band` as in poster_data.

    Soil to sow in, not the least that seed bears: warm-season crops follow the trade's rule, as on their pages.
    """
    if band is None:
        return ""
    parts = [f"{words} {_in_units(said, units)}" for words, said in (("sow in soil above", band["sow"]), ("best at" if "near" not in band["said"][1]["c"] else "best", band["said"][1])) if said["c"] != "–"]
    return ", ".join(parts).replace(" °", "\u00a0°")  # a number and its unit stay on one line


def _in_units(said: Mapping, units: str) -> str:
    return f"{said['c']} °C ({said['f'].removeprefix('near ')} °F)" if units == "both" else f"{said[units.lower()]} °{units}"


def label_words(row: Mapping[str, str], warmth: str, library: str) -> tuple[str, str, list[str]]:
    """(name, result, the rest in order of need) of a lot's results; `row` has the keys of RESULT_COLUMNS of lots/."""
    name = f"{row['crop']}, {row['variety']}" if row["variety"] else row["crop"]
    tested = row["tested"] != ""
    result = f"{row['percent']} % ({row['low']}–{row['high']} %) of {row['seeds']} seed{'' if row['seeds'] == '1' else 's'}" if tested else "not tested"
    rest = [
        f"lot {row['lot']}" + (f", tested {row['tested']}" if tested else ""),
        "; ".join(filter(None, [row["verdict"], f"next test {row['next_test']}" if row["next_test"] else ""])) if tested else "",
        warmth,
        f"harvested {row['harvested']}" if row["harvested"] else "",
        library,
    ]
    return name, result, [words for words in rest if words]


def label(type_: Type, sheet: LabelSheet, words: tuple[str, str, list[str]], x: float, y: float, *, outline: bool) -> dict:
    """One label as a group of marks, its corner at x, y; in the largest type in which everything fits."""
    usual = min(max(sheet.height * BODY, LEAST_BODY), MOST_BODY)
    made = (_set(type_, sheet, words, x, y, size) for size in [*(usual * more for more in LARGER), usual])
    marks, said = next((found for found in made if len(found[1]) == 2 + len(words[2])), None) or _set(type_, sheet, words, x, y, usual)
    edge = [rect(x, y, sheet.width, sheet.height, None, edge="rule", edge_width=0.2)] if outline else []
    return group("; ".join(said), [*edge, *marks])


def _set(type_: Type, sheet: LabelSheet, words: tuple[str, str, list[str]], x: float, y: float, size: float) -> tuple[list[dict], list[str]]:
    """(marks, what is said) of a label in one type size; what does not fit is left out."""
    name, result, rest = words
    free_x, free_y = sheet.inside()
    width, bottom = sheet.width - 2 * free_x, y + sheet.height - free_y
    names, name_size = type_.name(name, min(sheet.height * NAME, MOST_NAME), 600, width)
    at = y + free_y + 0.74 * name_size
    marks = [lines(x + free_x, at, name_size, name_size * 1.06, names, weight=600)]
    at += name_size * 1.06 * (len(names) - 1) + size * LEADING * 1.08
    marks.append(text(x + free_x, at, type_.one_line(result, size * 1.08, 600, width), result, weight=600))
    said = [name, result]
    for more in rest:
        wrapped = type_.wrap(more, size, 400, width)
        if at + size * LEADING * len(wrapped) + size * 0.22 > bottom or any(type_.width(line, size) > width for line in wrapped):
            continue
        marks.append(lines(x + free_x, at + size * LEADING, size, size * LEADING, wrapped))
        at += size * LEADING * len(wrapped)
        said.append(more)
    return marks, said


def label_pages(type_: Type, sheet: LabelSheet, labels: list[tuple[str, str, list[str]]], *, start: int = 1, copies: int = 1, outline: bool = False) -> list[list[dict]]:
    """Pages of labels, each `copies` times, from label `start` (1 is the first) of the first sheet on."""
    all_labels = [words for words in labels for _ in range(copies)]
    pages: list[list[dict]] = []
    for number, words in enumerate(all_labels, start - 1):
        page, index = divmod(number, sheet.count)
        while len(pages) <= page:
            pages.append([])
        pages[page].append(label(type_, sheet, words, *sheet.place(index), outline=outline))
    return pages
