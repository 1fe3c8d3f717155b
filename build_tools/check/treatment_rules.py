"""Rules for the times and amounts of treatments."""

from __future__ import annotations

from collections import Counter

from ..read import DataTree
from ..registry import ONE_FILE, rule


def ways_of(document):
    """(path, way) of every way of a treatment."""
    for index, way in enumerate(document.data.get("times", ())):
        yield ("times", index), way


@rule("times-order", ONE_FILE)
def times_order(tree: DataTree):
    """In a treatment's timed steps the shortest time, the lowest temperature and the shortest wait between looks are not above the longest and highest; the last step has no time after it, every other has."""
    for document in tree.treatments.values():
        for path, way in ways_of(document):
            for index, step in enumerate(way["steps"]):
                at = path + ("steps", index)
                for key in ("lasts", "at_c", "look_every"):
                    low, high = step.get(key, {}).get("low"), step.get(key, {}).get("high")
                    if low is not None and high is not None and low > high:
                        yield document.problem(at + (key,), "times-order", f'{key}: low {low:g} is above high {high:g}.', "Swap them, or check both.")
                timed = sum(key in step for key in ("lasts", "from_table", "until"))
                last = index == len(way["steps"]) - 1
                if timed != (0 if last else 1):
                    says = "is the last and has a time" if last else "has no time" if timed == 0 else "has more than one time"
                    yield document.problem(at, "times-order", f'Step {index + 1} of "{way["id"]}" {says}.', "Give each step but the last one of lasts, from_table, until; the last one none.")


@rule("times-or-reason", ONE_FILE)
def times_or_reason(tree: DataTree):
    """A treatment has times or the reason for having none, never both; one for laboratories only has neither times, amounts nor steps."""
    for document in tree.treatments.values():
        data = document.data
        if "no_recipe" in data and ("times" in data or "amounts" in data):
            yield document.problem(("no_recipe",), "times-or-reason", "There is a reason for giving no times, and there are times or amounts.", "Keep one of them.")
        if data.get("laboratory_only"):
            for key in ("times", "amounts", "steps"):
                if data.get(key):
                    yield document.problem((key,), "times-or-reason", f"The treatment is for laboratories only and has {key}.", "Take them out: such a treatment is named with its reason, not shown how.")


@rule("times-crops")
def times_crops(tree: DataTree):
    """The crops that a treatment's ways and exceptions name exist, and a crop that it must not be done to has no way of its own; ways have ids of their own."""
    kinds = set(tree.crops) | set(tree.singles["other-kinds"].data if "other-kinds" in tree.singles else ())
    for document in tree.treatments.values():
        barred = {crop for entry in document.data.get("not_for", ()) for crop in entry.get("crops", ())}
        named = [(("not_for", i, "crops", k), crop) for i, e in enumerate(document.data.get("not_for", ())) for k, crop in enumerate(e.get("crops", ()))]
        for path, way in ways_of(document):
            for k, crop in enumerate(way.get("crops", ())):
                named.append((path + ("crops", k), crop))
                if crop in barred:
                    yield document.problem(path + ("crops", k), "times-crops", f'{crop} has a way of its own and stands under not_for.', "Take it out of one of them.", see=(document.see(("not_for",)),))
        for path, crop in named:
            if crop not in kinds:
                yield document.problem(path, "times-crops", f'"{crop}" is neither a crop nor listed in data/other-kinds.yml.', "Check the spelling.")
        for other in document.data.get("counts_as", ()):
            if other not in tree.treatments or other == document.data["id"]:
                yield document.problem(("counts_as",), "times-crops", f'"{other}" is no other treatment.', "Name a file of data/treatments/.")
        for way_id, count in Counter(way["id"] for _, way in ways_of(document)).items():
            if count > 1:
                yield document.problem(("times",), "times-crops", f'Two ways have the id "{way_id}".', "Give each its own.")
