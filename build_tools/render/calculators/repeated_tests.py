"""Replicates and repeated tests: do the counts agree?"""

from __future__ import annotations

from ...model.reference import Reference
from ...science.replicates import largest_common_range
from . import Calculator, frame_context

DESIGNS = ((2, 10), (4, 10), (2, 25), (4, 25), (2, 50), (4, 50))
AVERAGES = (95, 90, 80, 70, 50)


def context(reference: Reference) -> dict:
    """Template variables: the form's data, the published tables, and limits for small replicates."""
    return {
        "calculator": frame_context({
            "replicate_range_percent": list(map(dict, reference.replicate_range)),
            "two_test_range_percent": list(map(dict, reference.two_test_range)),
        }),
        "replicate_range": reference.replicate_range,
        "two_test_range": reference.two_test_range,
        "averages": AVERAGES,
        "small": [{"replicates": m, "seeds": n, "limits": [largest_common_range(p / 100, n, m) for p in AVERAGES]} for m, n in DESIGNS],
    }


CALCULATOR = Calculator(
    "calculators/repeated-tests",
    "Do the counts agree?",
    "Two towels, two answers: average them, or test again?",
    "Replicates of one test, or two tests of one lot: whether they agree within what chance allows, so whether to average them or to repeat the test.",
    "calculators/repeated_tests.html",
    context,
)
