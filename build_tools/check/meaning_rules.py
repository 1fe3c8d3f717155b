"""Rules of meaning inside one file."""

from __future__ import annotations

import re

from ..lots.dates import days_in_month
from ..read import DataTree
from ..registry import ONE_FILE, rule
from ..units import celsius

TEMPERATURES = ("minimum_c", "optimum_low_c", "optimum_c", "optimum_high_c", "maximum_c")  # must not fall in this order
DAY_OF_YEAR = re.compile(r"(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])")
NOT_IN_NAMES = re.compile("[^A-Za-z0-9\u00c0-\u00d6\u00d8-\u00f6\u00f8-\u024f\u1e00-\u1eff ,.()'×-]")  # Latin letters: others can look the same
STRAIGHT = str.maketrans({"’": "'", "‘": "'", "´": "'", "`": "'", "–": "-"})
ORDINARY_YEAR = 2001  # without a 29th of February
WORDS_FOR_SOURCES = ("common practice", "from memory")


def values_of(crop: dict):
    """(path, quantity, value mapping) of every reference value of a crop file."""
    for key in ("season", "seed_life_years", "sowing_depth_mm", "light", "frost_class"):
        if key in crop:
            yield (key,), key, crop[key]
    for group in ("temperature", "timing"):
        for key, value in crop.get(group, {}).items():
            yield (group, key), key, value


@rule("id-is-name", ONE_FILE)
def id_is_name(tree: DataTree):
    """The id inside a file is the file's (or source folder's) name, so that address, name and id are one."""
    for documents in (tree.crops, tree.treatments, {k: s.document for k, s in tree.sources.items()}):
        for name, document in documents.items():
            found = document.data.get("id") if isinstance(document.data, dict) else None
            if isinstance(found, str) and found != name:
                yield document.problem(("id",), "id-is-name", f'The id is "{found}" but the name is "{name}".', "Make them the same.")


@rule("temperature-order", ONE_FILE)
def temperature_order(tree: DataTree):
    """Temperatures rise in this order: minimum, lower end of the optimum range, optimum, upper end, maximum."""
    for document in tree.crops.values():
        temperature = document.data.get("temperature", {})
        present = [key for key in TEMPERATURES if key in temperature]
        for colder, warmer in zip(present, present[1:]):
            a, b = temperature[colder]["value"], temperature[warmer]["value"]
            if a > b:
                yield document.problem(("temperature", warmer), "temperature-order", f"{warmer} is {b:g}, below {colder} at {a:g}.", "Check both against the tables.")


@rule("half-degree", ONE_FILE)
def half_degree(tree: DataTree):
    """Temperatures are given to the nearest half degree Celsius, which keeps every whole Fahrenheit value exact."""
    for document in tree.crops.values():
        for key, value in document.data.get("temperature", {}).items():
            if value["value"] * 2 % 1:
                nearest = round(value["value"] * 2) / 2
                yield document.problem(("temperature", key, "value"), "half-degree", f"{value['value']} is not a half degree.", f"Write {nearest:g}.")


@rule("range-order", ONE_FILE)
def range_order(tree: DataTree):
    """The low end of a range is not above its high end."""
    for document in tree.crops.values():
        for path, key, value in values_of(document.data):
            if "low" in value and value["low"] > value["high"]:
                yield document.problem(path, "range-order", f"{key}: low {value['low']} is above high {value['high']}.", "Swap them, or check both.")


@rule("plausible", ONE_FILE, acceptable=True)
def plausible(tree: DataTree):
    """Every number lies inside the plausible limits that data/quantities.yml sets for its quantity."""
    if "quantities" not in tree.singles:  # it is itself being mended
        return
    limits = tree.singles["quantities"].data["quantities"]
    for document in tree.crops.values():
        for path, key, value in values_of(document.data):
            for end in ("value", "low", "high"):
                if end not in value:
                    continue
                if key not in limits:
                    yield document.problem(path, "plausible", f"{key} has no entry in data/quantities.yml.", "Add its unit, limits and definition there.")
                elif not limits[key]["lowest"] <= value[end] <= limits[key]["highest"]:
                    yield document.problem(path + (end,), "plausible", f"{key} is {value[end]:g}; plausible is {limits[key]['lowest']:g} to {limits[key]['highest']:g}.", _unit_hint(key, value[end], limits[key]), see=(tree.singles["quantities"].see(("quantities", key)),))


def _unit_hint(key: str, number: float, limits: dict) -> str:
    """What the number would be if it was typed in °F or inches, where that is plausible."""
    if key.endswith("_c") and limits["lowest"] <= (in_celsius := celsius(number)) <= limits["highest"]:
        return f"Temperatures are °C to the half degree: {number:g} °F is {round(in_celsius * 2) / 2:g}."
    return "Check the decimal point and the unit: temperatures are °C, depths mm."


@rule("name-characters", ONE_FILE)
def name_characters(tree: DataTree):
    """Names of crops are Latin letters, spaces and plain signs: curly quotes, or letters of another alphabet that look the same, would keep a reader's search from finding them."""
    for document in tree.crops.values():
        names = document.data["names"]
        for path, name in [(("names", key), names[key]) for key in ("common", "botanical", "family")] + [(("names", "other", i), n) for i, n in enumerate(names.get("other", ()))]:
            odd = sorted(set(NOT_IN_NAMES.findall(name)))
            if odd:
                straight = name.translate(STRAIGHT)
                hint = "Write it with letters, spaces, hyphens, apostrophes, points, commas and brackets." if NOT_IN_NAMES.search(straight) else f'Write "{straight}".'
                yield document.problem(path, "name-characters", f'"{name}" has {" ".join(odd)} in it.', hint)


@rule("no-such-day", ONE_FILE)
def no_such_day(tree: DataTree):
    """The frost dates in data/place.yml are days that every year has."""
    document = tree.singles.get("place")
    for key in ("last_frost", "first_frost"):
        text = document.data.get(key) if document and isinstance(document.data, dict) else None
        if not isinstance(text, str) or not DAY_OF_YEAR.fullmatch(text):
            continue  # the shape of the file says so
        month, day = map(int, text.split("-"))
        last = days_in_month(ORDINARY_YEAR, month)
        if day > last:
            yield document.problem((key,), "no-such-day", f'"{text}" is a day that not every year has.', f"Month {month} ends on the {last}th: type month and day, as 05-08.")
