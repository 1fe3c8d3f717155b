"""A tray's progress from a log of its daily minimum and maximum."""

from __future__ import annotations

from ...model.reference import Reference
from . import Calculator, frame_context
from .emergence import warmth_data


def context(reference: Reference) -> dict:
    return {
        "calculator": frame_context({**warmth_data(reference), "give_up": reference.practice["give_up_times"]}),
    }


CALCULATOR = Calculator(
    "calculators/tray",
    "A tray’s progress",
    "Sown, and nothing shows: how far along is it, when to look, when to give up?",
    "From the day of sowing and a max–min thermometer’s log: the share of development done, the days to look for seedlings, and when to give up.",
    "calculators/tray.html",
    context,
)
