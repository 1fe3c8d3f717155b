"""The columns of the file, of the results, and the verdicts: defined here once, for reading and for the documentation.

Twin: docs/assets/js/lots/columns.js.
"""

from __future__ import annotations

from dataclasses import dataclass

LONGEST_LOT = 60  # characters
MOST_SEEDS = 100_000  # in one row
STORAGES = ("cool-dry", "cold-dry", "warm")


@dataclass(frozen=True)
class Column:
    """A column of the file: its exact name, when it has to be filled in, and what goes in."""

    name: str
    needed: str
    what: str


COLUMNS = (
    Column("lot", "always", "Number or name of the lot, up to 60 characters. Rows with the same lot belong together."),
    Column("crop", "always", "Any English name of the crop in this reference, or its id: Aubergine, Eggplant or eggplant. Capitals and accents do not matter."),
    Column("variety", "if known", "Name of the variety. It is printed, not judged."),
    Column("harvested", "if known", "Year, month or day of the harvest: 2024, 2024-09 or 2024-09-15."),
    Column("storage", "if known", "cool-dry, cold-dry (a closed jar in a refrigerator) or warm. Empty counts as cool-dry."),
    Column("tested", "if tested", "Day of the final count: 2026-03-12. Rows of one lot with the same day are replicates of one test."),
    Column("seeds", "if tested", "How many seeds were set in this towel or dish."),
    Column("normal", "if tested", "How many normal seedlings it gave."),
    Column("abnormal", "if counted", "Abnormal seedlings."),
    Column("hard", "if counted", "Hard seeds: they took up no water. Not counted as germinated."),
    Column("fresh", "if counted", "Fresh seeds: firm, but still waiting. Not counted as germinated."),
    Column("dead", "if counted", "Dead seeds."),
    Column("note", "if wanted", "Your own words. They are not read."),
)
NAMES = tuple(column.name for column in COLUMNS)
HEADINGS_NEEDED = ("lot", "crop", "tested", "seeds", "normal")
COUNTS = ("seeds", "normal", "abnormal", "hard", "fresh", "dead")

# What people call the columns, so that a missing one can be found under another heading.
OTHER_WORDS = {
    "accession": "lot", "batch": "lot", "number": "lot", "kind": "crop", "species": "crop", "vegetable": "crop", "name": "crop",
    "cultivar": "variety", "harvest": "harvested", "year": "harvested", "store": "storage", "stored": "storage", "place": "storage",
    "date": "tested", "test": "tested", "counted": "tested", "set": "seeds", "sown": "seeds", "seed": "seeds", "total": "seeds",
    "seedlings": "normal", "germinated": "normal", "sprouted": "normal", "came": "normal", "remarks": "note", "comment": "note", "notes": "note",
}

RESULT_COLUMNS = (
    "lot", "crop", "variety", "harvested", "storage", "tests", "tested", "seeds", "normal", "percent", "low", "high",
    "line", "chance", "replicates", "earlier", "verdict", "next_test", "words",
)

GOOD_CHANCE, EVEN_CHANCE, POOR_CHANCE = 0.95, 0.50, 0.05

LEND, LEND_MARKED, HOLD, DO_NOT_LEND = "lend", "lend marked", "hold", "do not lend unmarked"
REPEAT, TEST, TEST_DUE = "repeat the test", "test", "test due"

# In the order of need for action.
VERDICTS = {
    DO_NOT_LEND: "The lot falls short of the lending line (a chance of 5 % or less to reach it). Grow it out, mark it or let it go.",
    HOLD: "The lot may fall short (a chance of 5 to 50 %). Keep it back and test more seeds.",
    REPEAT: "The replicates differ by more than chance. Look for a cause and test again.",
    TEST: "No test of this lot is in the file.",
    TEST_DUE: "The last test was good enough, but its next test is overdue.",
    LEND_MARKED: "Lend it with its percentage on the packet (a chance of 50 to 95 % to reach the line). More seeds would settle it.",
    LEND: "The lot reaches the lending line (a chance of 95 % or more).",
}
FINE = (LEND, LEND_MARKED)
