"""Text cells that a spreadsheet leaves alone. Twin of the browser's: docs/assets/js/csv.js."""

from __future__ import annotations

import re

FORMULA = ("=", "+", "@", "-", "\t", "\r")
PLAIN_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?( to -?[0-9]+(\.[0-9]+)?)?|-")


def guarded(cell: str) -> str:
    """A text cell that a spreadsheet will not take for a formula (an apostrophe in front, as spreadsheets write it)."""
    return "'" + cell if cell.startswith(FORMULA) and not PLAIN_NUMBER.fullmatch(cell) else cell
