"""The form of a table: commas between cells, quotes only where a cell needs them, one line end, no empty lines."""

from __future__ import annotations

import csv
import io


def fix_csv(text: str) -> str:
    """The table in the house's form; the cells are the same. A text that is no readable CSV comes back as it is.

    A table whose header is one cell with semicolons or tabs in it is taken to be separated by those.
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    header = text.split("\n", 1)[0]
    separator = "," if "," in header else next((s for s in ";\t" if s in header), ",")
    try:
        rows = [row for row in csv.reader(io.StringIO(text), delimiter=separator, strict=True) if row]
    except csv.Error:
        return text
    if separator != "," and len({len(row) for row in rows}) > 1:
        return text  # which of them is wrong can only be told by looking at it
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    return out.getvalue()
