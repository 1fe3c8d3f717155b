"""Places of the house or garden, and the crops that suit them."""

from __future__ import annotations

from ...model.reference import Reference
from . import Calculator, frame_context
from .emergence import warmth_data


def context(reference: Reference) -> dict:
    banded = [c for c in sorted(reference.crops.values(), key=lambda c: c.name.casefold()) if c["optimum_low_c"].known]
    return {
        "calculator": frame_context({**warmth_data(reference), "mat": reference.practice["heat_mat_rise_c"]}),
        "banded": banded,
        "mat": reference.practice["heat_mat_rise_c"],
        "warming": reference.treatments.get("bottom-heat"),
    }


CALCULATOR = Calculator(
    "calculators/warm-spots",
    "Warm spots",
    "Windowsill, cupboard, porch or cold frame: which crop suits which place?",
    "List the places of your house and garden with their lowest and highest temperatures: which crops suit each, how long they take there, what a heat mat would change.",
    "calculators/warm_spots.html",
    context,
)
