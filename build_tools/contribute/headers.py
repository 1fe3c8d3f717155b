"""Which of our columns a header of somebody's table means: the same name, the same words, or a near spelling."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches

from ..check.tables import GRID_C
from ..lots.catalogue import fold

SAME = {
    "min": "minimum", "mini": "minimum", "lowest": "minimum", "max": "maximum", "highest": "maximum", "opt": "optimum", "optimal": "optimum", "best": "optimum", "ideal": "optimum",
    "f": "fahrenheit", "°f": "fahrenheit", "degf": "fahrenheit", "c": "celsius", "°c": "celsius", "degc": "celsius", "in": "inch", "inches": "inch", "day": "days", "year": "years", "yrs": "years", "yr": "years",
    "week": "weeks", "wks": "weeks", "notes": "note", "remarks": "note", "remark": "note", "comments": "note", "comment": "note", "millimetres": "mm", "millimeters": "mm", "pct": "percent", "%": "percent",
}
FILLER = {"temp", "temperature", "temperatures", "soil", "germination", "of", "the", "to", "for", "as", "printed", "degrees", "degree", "deg", "seed", "seeds", "sowing", "planting", "emergence", "in", "about", "number", "viability", "longevity", "life"}
CROP_WORDS = {"crop", "crops", "vegetable", "vegetables", "plant", "plants", "kind", "kinds", "name", "species", "flower", "flowers", "herb", "herbs", "common"}
UNITS = {"fahrenheit": "f", "celsius": "c"}
TEMPERATURE = re.compile(r"(\d+) ?(?:°|º|deg(?:rees)?)? ?([fc])?")
WORD = re.compile(r"°?[^\W_]+|%")


@dataclass(frozen=True)
class Reading:
    """Our column for a header ("" when it is left out on purpose), and how it was found: exact | same words | near | given."""

    column: str
    how: str


def unit_of(header: str) -> str:
    """"f" or "c" when the header names a unit of temperature, else ""."""
    found = {UNITS[word] for word in _words(header) if word in UNITS}
    return next(iter(found)) if len(found) == 1 else ""


def match_headers(headers: list[str], columns: list[str], given: Mapping[str, str], unit: str = "") -> tuple[dict[str, Reading], dict[str, list[str]]]:
    """(header → Reading, header → columns it may mean) for headers of a table and the columns of its kind.

    `given`: header → column as the person said ("" leaves it out). `unit`: "f" or "c" for headers that do not say theirs.
    """
    read: dict[str, Reading] = {}
    folded_given = {fold(header): column for header, column in given.items()}
    for header in headers:
        if fold(header) in folded_given:
            read[header] = Reading(folded_given[fold(header)], "given")
    taken = {reading.column for reading in read.values()}
    for how, find in (("exact", _exact), ("same words", _same_words), ("near", _near)):
        for header in headers:
            if header in read:
                continue
            free = [column for column in columns if column not in taken]
            found = find(header, free, unit)
            if len(found) == 1:
                read[header] = Reading(found[0], how)
                taken.add(found[0])
    free = [column for column in columns if column not in taken]
    return read, {header: _candidates(header, free) for header in headers if header not in read}


def _exact(header: str, columns: list[str], unit: str) -> list[str]:
    plain = fold(header).replace(" ", "_")
    return [column for column in columns if column in (plain, _of_the_grid(header, unit))]


def _of_the_grid(header: str, unit: str) -> str:
    """The column of a table by temperature whose temperature the header is: "41 °F" and "5 °C" are f41. "" for any other header."""
    found = TEMPERATURE.fullmatch(fold(header))
    if not found:
        return ""
    said = found[2] or unit
    return next((column for column, celsius in GRID_C.items() if (said == "f" and column == f"f{found[1]}") or (said == "c" and celsius == int(found[1]))), "")


def _words(text: str) -> list[str]:
    return [SAME.get(word, word) for word in WORD.findall(fold(text.replace("_", " ").replace(".", " ")))]


def _bare(text: str) -> frozenset[str]:
    words = [word for word in _words(text) if word not in FILLER]
    return frozenset(words)


def _same_words(header: str, columns: list[str], unit: str) -> list[str]:
    """Columns whose words are those of the header, fillers apart; a unit may be left unsaid on either side."""
    wanted = _bare(header)
    if wanted and wanted <= CROP_WORDS and "crop_as_printed" in columns:
        return ["crop_as_printed"]
    if not wanted:
        return []
    found = [column for column in columns if _bare(column) == wanted]
    if found:
        return found
    without = wanted - set(UNITS)
    printed = [column for column in columns if column.endswith("_as_printed") and without and _bare(column) - {"inch"} == without - {"inch"}]
    if printed:
        return printed
    if unit and not unit_of(header):
        return [column for column in columns if _bare(column) == wanted | {{"f": "fahrenheit", "c": "celsius"}[unit]}]
    return []


def _near(header: str, columns: list[str], unit: str) -> list[str]:
    """A column spelt nearly so; one that differs only in a short ending, such as _f and _c, is never guessed."""
    plain = fold(header).replace(" ", "_")
    near = get_close_matches(plain, columns, n=2, cutoff=0.87)
    if len(near) == 1 and (unit_of(header) or "") == (near[0][-1] if near[0].endswith(("_f", "_c")) else "") and len(plain) > 4:
        return near
    return []


def _candidates(header: str, columns: list[str]) -> list[str]:
    """Up to three free columns that share a word with the header, else those of like letters."""
    wanted = _bare(header)
    sharing = sorted((column for column in columns if _bare(column) & wanted), key=lambda column: (len(_bare(column) ^ wanted), columns.index(column)))
    return (sharing or get_close_matches(fold(header).replace(" ", "_"), columns, n=3, cutoff=0.5))[:3]
