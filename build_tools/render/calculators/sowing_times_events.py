"""The tasks of a sowing calendar in words, and as calendar events. Twin: docs/assets/js/calculators/sowing-times/{answer,events}.js.

The sentences stand here once; the browser gets them with the page's data and fills them the same way.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence

from ...icalendar import calendar_text, uid
from ...science.emergence import RANGE_FACTOR
from ...science.sowing_times import HAIR, TASKS, days_at, days_range, sowing_plan

TASK_WORDS = {
    "test": "start a germination test",
    "soak-indoors": "soak overnight before sowing indoors",
    "sow-indoors": "sow indoors",
    "look-indoors": "look for seedlings indoors",
    "give-up-indoors": "give up if nothing shows indoors",
    "plant-out": "plant out",
    "soak-outdoors": "soak overnight before sowing outdoors",
    "sow-outdoors": "sow outdoors",
    "look-outdoors": "look for seedlings outdoors",
    "give-up-outdoors": "give up if nothing shows outdoors",
}
HEADS = {
    "test": "Start a test", "sow-indoors": "Sow indoors", "look-indoors": "Seedlings indoors", "give-up-indoors": "Give up indoors", "plant-out": "Plant out",
    "sow-outdoors": "Sow outdoors", "look-outdoors": "Seedlings outdoors", "give-up-outdoors": "Give up outdoors",
}
SENTENCES = {
    "test": "The test takes {test_days} days ({test_source}). {buy_days} days are left after it to buy other seed if it fails (our own choice), before sowing can begin.",
    "official": "final count day of the official method",
    "towel": "no official count day is published here; a towel test is left at least that long, common practice, no source",
    "soak": "Soak in plain water for {soak_least_hours} to {soak_most_hours} hours, overnight, the day before you sow (common practice, no source). Never soak treated or coloured seed.",
    "published": "Published: {weeks} ({from}).",
    "worked_out": "No weeks are published here for sowing indoors; worked out from planting out ({weeks}) and transplants {age} old.",
    "widened": "Printed as a single week; the days from it on are given, our own choice.",
    "note": "{note}",
    "frost_class": "{frost_words}",
    "frost": "Counted from an average last frost on {frost}; in many years frost comes later.",
    "look": "{early} to {late} days after you sow.",
    "indoors": "About {days} days at {temperature} (after {from}), and a third either way.",
    "outdoors": "From about {fast_days} days at {fast} (its optimum, or the nearest tested) to {slow_days} days at {slow} (the coldest tested soil at its minimum or above), after {from}, and a third either way.",
    "usual": "Printed without a temperature: {low} to {high} days ({from}).",
    "give_up": "Nothing up {after} days after you sow: dig for the seed, check the warmth, sow again.",
    "rule_indoors": "Our own rule: {give_up_times} times the late end of the expected days.",
    "rule_outdoors": "Our own rule: past the late end for the coldest soil.",
    "invented": "Invented example: the frost dates of {place} are made up.",
}
CATEGORY, INVENTED = "Sowing calendar", "Invented example"
GAP = re.compile(r"{(\w+)}")


def fill(sentence: str, values: Mapping) -> str:
    """A sentence with its {gaps} filled."""
    return GAP.sub(lambda found: str(values[found[1]]), sentence)


def planned(data: Mapping, row: Mapping, frost: str, rules: Mapping, celsius: float) -> dict:
    """One lot of the calendar: {entry, lot, crop, tested, days: {indoors, outdoors}, plan}.

    `row` is {crop, lot, tested}; days are {"range": [early, late], …} or None where nothing is published.
    """
    entry = data["crops"][row["crop"]]
    days = {"indoors": days_indoors(entry, celsius), "outdoors": days_outdoors(entry)}
    weeks = {name: found and found["weeks"] for name, found in entry["timing"].items()}
    facts = {
        **weeks, "test_days": entry["test_days"], "soak": entry["soak"],
        "indoor_days": days["indoors"] and days["indoors"]["range"], "outdoor_days": days["outdoors"] and days["outdoors"]["range"],
    }
    return {**row, "entry": entry, "days": days, "plan": sowing_plan(facts, frost, rules, row["tested"])}


def days_indoors(entry: Mapping, celsius: float) -> dict | None:
    """Days to seedlings at a temperature: {"range", "days", "celsius"}, or the printed usual days; None outside what was tested."""
    days = days_at(entry["points"], celsius)
    if days is not None:
        return {"range": days_range(days, days, RANGE_FACTOR), "days": days, "celsius": celsius, "from": entry["measured_by"]}
    return days_usual(entry)


def days_outdoors(entry: Mapping) -> dict | None:
    """Days to seedlings from the coldest soil that will do to the best: {"range", "slow", "fast"}, or the usual days, or None."""
    found = entry["outdoors"]
    if found is None:
        return days_usual(entry)
    low, high = sorted((found["fast"][1], found["slow"][1]))
    return {"range": days_range(low, high, RANGE_FACTOR), "slow": found["slow"], "fast": found["fast"], "from": entry["measured_by"]}


def days_usual(entry: Mapping) -> dict | None:
    """Days printed without a temperature: as printed, or a third either way of a single number."""
    usual = entry["usual"]
    if usual is None:
        return None
    low, high = usual["days"]
    return {"range": days_range(low, high, RANGE_FACTOR if low == high else 1), "usual": usual}


def by_date(lots: Sequence[Mapping]) -> list[dict]:
    """Every task of every lot, by its first day, then its last, then in the order of the lots."""
    tasks = [{"task": task, "lot": lot, "first": lot["plan"][task][0], "last": lot["plan"][task][1], "place": i} for i, lot in enumerate(lots) for task in lot["plan"]]
    return sorted(tasks, key=lambda t: (t["first"], t["last"], t["place"], TASKS.index(t["task"])))


def degrees(celsius: float) -> str:
    """20 °C"""
    return f"{math.floor(celsius * 10 + 0.5) / 10:g} °C"


def description(task: Mapping, data: Mapping, values: Mapping, frost: str) -> str:
    """What an event says of itself: how its days came about, and how far to trust them."""
    return " ".join(fill(data["sentences"][name], filled) for name, filled in _told(task, values, frost))


def _told(task: Mapping, values: Mapping, frost: str) -> list[tuple[str, Mapping]]:
    name, lot, rules = task["task"], task["lot"], values["rules"]
    entry, (kind, _, where) = lot["entry"], name.rpartition("-")
    numbers = {key: f"{value:g}" for key, value in rules.items()}
    told: list[tuple[str, Mapping]] = []
    if name == "test":
        source = SENTENCES["official" if entry["test_official"] else "towel"]
        told.append(("test", {"test_days": entry["test_days"], "test_source": source, "buy_days": numbers["buy_days"]}))
    elif kind == "soak":
        told.append(("soak", numbers))
    elif kind in ("look", "give-up"):
        days = lot["days"][where]
        told += _days_told(days, where) if kind == "look" else [
            ("give_up", {"after": task_days(name, days["range"], rules)}), (f"rule_{where}", numbers)]
    else:
        told += _weeks_told(name, entry, rules)
    told.append(("frost", {"frost": frost}))
    if values["invented"]:
        told.append(("invented", {"place": values["place"]}))
    return told


def _days_told(days: Mapping, where: str) -> list[tuple[str, Mapping]]:
    told = [("look", {"early": days["range"][0], "late": days["range"][1]})]
    if "usual" in days:
        low, high = days["usual"]["days"]
        return [*told, ("usual", {"low": f"{low:g}", "high": f"{high:g}", "from": days["usual"]["from"]})]
    if where == "indoors":
        return [*told, ("indoors", {"days": whole(days["days"]), "temperature": degrees(days["celsius"]), "from": days["from"]})]
    (slow, slow_days), (fast, fast_days) = days["slow"], days["fast"]
    return [*told, ("outdoors", {"fast": degrees(fast), "fast_days": whole(fast_days), "slow": degrees(slow), "slow_days": whole(slow_days), "from": days["from"]})]


def _weeks_told(name: str, entry: Mapping, rules: Mapping) -> list[tuple[str, Mapping]]:
    timing = entry["timing"]
    found = timing[name.replace("-", "_")]
    if found is None:
        return [("worked_out", {"weeks": timing["plant_out"]["text"], "age": timing["transplant_age"]["text"]})]
    low, high = found["weeks"]
    told: list[tuple[str, Mapping]] = [("published", {"weeks": found["text"], "from": found["from"]})]
    if 7 * (high - low) < rules["least_window_days"] - 1:
        told.append(("widened", {}))
    if found["note"]:
        told.append(("note", found))
    if name != "sow-indoors" and entry["frost_words"]:
        told.append(("frost_class", entry))
    return told


def task_days(name: str, days: Sequence[int], rules: Mapping) -> int:
    """Days after sowing at which a sowing is given up."""
    return math.ceil(days[1] * rules["give_up_times"] - HAIR) if name.endswith("indoors") else days[1]


def whole(days: float) -> int:
    """Days to the nearest whole, halves upward."""
    return int(days + 0.5)


def named(lot: Mapping) -> str:
    """Tomato, or Tomato (A 12) with the lot's own name."""
    return f"{lot['entry']['name']} ({lot['lot']})" if lot["lot"] else lot["entry"]["name"]


def calendar_file(data: Mapping, values: Mapping, season: Mapping, tasks: Sequence[Mapping], stamp: str) -> str:
    """The tasks as an iCalendar file. An event keeps its UID while place, year, crop, lot and task stay the same."""
    year = season["last"][:4]
    return calendar_text([{
        "uid": uid((year, values["place"], task["lot"]["crop"], task["lot"]["lot"], task["task"])),
        "first": task["first"], "last": task["last"],
        "summary": f"{named(task['lot'])}: {data['tasks'][task['task']]}",
        "description": description(task, data, values, season["last"]),
        "categories": [CATEGORY, INVENTED] if values["invented"] else [CATEGORY],
    } for task in tasks], stamp)
