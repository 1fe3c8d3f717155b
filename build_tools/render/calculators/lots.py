"""A file of lots: its page, and the demo file beside it."""

from __future__ import annotations

from ...lots import COLUMNS, VERDICTS, data_of
from ...model.reference import Reference
from . import Calculator, data_json


def context(reference: Reference) -> dict:
    """Template variables: what the page's scripts need, and the columns and verdicts as documentation."""
    data = data_of(reference)
    return {"lots": {"data": data, "data_json": data_json(data)}, "columns": COLUMNS, "verdicts": VERDICTS}


CALCULATOR = Calculator(
    "calculators/lots",
    "A file of lots",
    "Hundreds of lots and their counts: which to lend, which to test, which to let go?",
    "Open a CSV file of lots and germination counts in the browser: percentage, range, chance to meet the lending line, verdict and next test for each.",
    "calculators/lots.html",
    context,
)
