"""The sowing calendar: what the browser gets, and the calendar of the example place that answers without scripts."""

from __future__ import annotations

from datetime import date

from ...model.reference import Crop, Judged, Reference
from ...science.emergence import RANGE_FACTOR
from ...science.sowing_times import TASKS, season
from ...units import span
from .. import wording
from . import Calculator, frame_context
from . import sowing_times_events as words
from .warmth import usual_days as printed_days

EXAMPLE = ("tomato", "pepper-sweet", "cabbage", "lettuce", "carrot", "bean-snap")
FILE = "downloads/example-sowing-calendar.ics"
TIMING = {"sow_indoors": "sow_indoors_weeks", "plant_out": "plant_out_weeks", "sow_outdoors": "sow_outdoors_weeks", "transplant_age": "transplant_age_weeks"}
RULES = {"least_window_days": "sowing_window_days", "test_lead_days": "test_lead_days", "buy_days": "buy_seed_days", "give_up_times": "give_up_times", "test_good_months": "retest_usual_months", "soak_least_hours": "soak_least_hours", "soak_most_hours": "soak_most_hours", "towel_least_days": "towel_least_days"}
WORTH_TRYING = ("worth-doing", "may-help")
INDOORS_C = 20.0  # where the form begins; the reader types over it
NEAR_C = 0.5  # minima are °F to the half degree (60 °F is 15.5 °C), tested temperatures steps of 5 °C


def timing(reference: Reference, judged: Judged) -> dict | None:
    """Weeks of one kind with their words, sources and doubts; None where none are published."""
    if not judged.known:
        return None
    text = f"{span(judged.low, judged.high)} weeks" if judged.quantity == "transplant_age_weeks" else wording.weeks(judged.low, judged.high)
    return {"weeks": [judged.low, judged.high], "text": text, "from": "; ".join(wording.source_label(reference, s) for s in judged.sources), "note": " ".join(filter(None, (judged.note, judged.departs)))}


def points(crop: Crop) -> list[list[float]]:
    """[°C, days] at every half degree inside the tested temperatures."""
    return [[at.celsius, at.days] for at in crop.by_temperature if at.days is not None]


def outdoors(crop: Crop) -> dict | None:
    """Days in soil from the coldest tested temperature at the crop's minimum or above to its optimum: {"slow", "fast": [°C, days]}.

    A tested temperature half a degree under the minimum counts as at it. The optimum is taken inside the tested
    temperatures; without one it is the top of the best range, or the warmest tested. None without measured days.
    """
    by = dict(points(crop))
    if not by:
        return None
    minimum = crop["minimum_c"].low
    tested = [c for c, _ in crop.days[0].points()]
    slow = next((c for c in tested if minimum is None or c >= minimum - NEAR_C), tested[-1])
    best = next((crop[q].low for q in ("optimum_c", "optimum_high_c") if crop[q].known), tested[-1])
    fast = min(max(round(2 * best) / 2, slow), tested[-1])
    return {"slow": [slow, by[slow]], "fast": [fast, by[fast]]}


def usual_days(reference: Reference, crop: Crop) -> dict | None:
    """Days to seedlings printed without a temperature, from the first source that counts; None when there is none."""
    found = next((row for row in printed_days(reference, crop) if row["low_c"] is None), None)
    return found and {"days": [found["low"], found["high"]], "from": found["source"]}


def crop_entry(reference: Reference, crop: Crop) -> dict:
    """What the calendar needs of a crop; what is not published is None."""
    official = crop.method.final_count_days if crop.method else None
    helpful = [w for w in crop.pretreatments if w.advice in WORTH_TRYING]
    frost = crop["frost_class"].choice
    measured = points(crop)
    return {
        "name": crop.name,
        "frost": wording.FROST_WORDS[frost] if frost else "",
        "frost_words": reference.choices["frost_class"][frost] if frost else "",
        "timing": {name: timing(reference, crop[quantity]) for name, quantity in TIMING.items()},
        "test_days": official or int(reference.practice["towel_least_days"]["value"]),
        "test_official": official is not None,
        "soak": any(w.about == "soak" for w in helpful),
        "treatments": [reference.treatments[w.about].name for w in helpful if w.about != "soak"],
        "points": measured,
        "measured_by": wording.source_label(reference, crop.days[0].source) if measured else "",
        "outdoors": outdoors(crop),
        "usual": None if measured else usual_days(reference, crop),
        "doubts": [w.text for w in crop.disagreements if w.about in ("timing", "frost_class")],
    }


def first_year(reference: Reference) -> int:
    """The year of the first average last frost after the data were issued."""
    issued = issue_day(reference)
    return issued.year + (issued.strftime("%m-%d") > reference.place["last_frost"])


def issue_day(reference: Reference) -> date:
    """The first day of the month in which the data were issued: "2026.11" is 1 November 2026."""
    year, month = reference.library["data_version"].split(".")[:2]
    return date(int(year), int(month), 1)


def page_data(reference: Reference) -> dict:
    """What the browser gets."""
    crops = sorted(reference.crops.values(), key=lambda c: c.name.casefold())
    place = reference.place
    return {
        "crops": {c.id: crop_entry(reference, c) for c in crops},
        "example": [c for c in EXAMPLE if c in reference.crops] or [crops[0].id],
        "place": {key: place[key] for key in ("name", "invented", "last_frost", "first_frost")},
        "rules": {name: reference.practice[key]["value"] for name, key in RULES.items()},
        "indoors_c": INDOORS_C,
        "range_factor": RANGE_FACTOR,
        "tasks": words.TASK_WORDS,
        "sentences": words.SENTENCES,
    }


def example_calendar(reference: Reference) -> dict:
    """The example crops at the place of data/place.yml: {"season", "lots": [...], "tasks": [...]} as in the browser."""
    data, place = page_data(reference), reference.place
    frosts = season(place["last_frost"], place["first_frost"], first_year(reference))
    lots = [words.planned(data, {"crop": c, "lot": "", "tested": None}, frosts["last"], data["rules"], data["indoors_c"]) for c in data["example"]]
    return {"data": data, "season": frosts, "lots": lots, "tasks": words.by_date(lots)}


def calendar_file(reference: Reference) -> str:
    """The example calendar as an iCalendar file, the same that the browser makes of it."""
    made, place = example_calendar(reference), reference.place
    values = {"place": place["name"], "invented": place["invented"], "celsius": made["data"]["indoors_c"], "rules": made["data"]["rules"]}
    return words.calendar_file(made["data"], values, made["season"], made["tasks"], f"{issue_day(reference):%Y%m%d}T000000Z")


def context(reference: Reference) -> dict:
    """Template variables: the form's data and the example calendar, crop by crop."""
    made = example_calendar(reference)
    return {
        "calculator": frame_context(made["data"]),
        "months": [(str(i), f"{date(2000, i, 1):%B}") for i in range(1, 13)],
        "season_words": {key: long_day(day) for key, day in made["season"].items()},
        "rows": [{"name": lot["entry"]["name"], "cells": [window_words(lot["plan"].get(task)) for task in shown_tasks()]} for lot in made["lots"]],
        "heads": [words.HEADS[task] for task in shown_tasks()],
        "file": FILE,
        "practice": [reference.practice[key] for key in RULES.values()],
    }


def shown_tasks() -> list[str]:
    """The tasks that the table without scripts has columns for."""
    return [task for task in TASKS if not task.startswith("soak")]


def long_day(day: str) -> str:
    """8 May 2027"""
    found = date.fromisoformat(day)
    return f"{found.day} {found:%B} {found.year}"


def window_words(window: list[str] | None) -> str:
    """8–14 May 2027, 28 May – 3 June 2027, with both years where they differ; words where nothing is published."""
    if window is None:
        return "not published here"
    first, last = map(date.fromisoformat, window)
    if first.year != last.year:
        return f"{long_day(window[0])} – {long_day(window[1])}"
    if first.month != last.month:
        return f"{first.day} {first:%B} – {long_day(window[1])}"
    return f"{first.day}–{long_day(window[1])}" if window == sorted(set(window)) else long_day(window[0])


def files(reference: Reference) -> dict:
    """Site path → what makes the file: the example calendar for readers without scripts."""
    return {FILE: lambda: calendar_file(reference)}




CALCULATOR = Calculator(
    "calculators/sowing-times",
    "Sowing calendar",
    "When do I test, soak, sow and plant out, and when should seedlings show?",
    "Windows counted from your average last frost for every crop you grow: testing, soaking, sowing, planting out, looking for seedlings; to print, or to put into your calendar.",
    "calculators/sowing_times.html",
    context,
)
