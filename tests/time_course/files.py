"""Test files for the tests: bytes, what is wrong with them, and where."""

from __future__ import annotations

from pathlib import Path

from tests.science.open_data import grouped, rows_of

HEAD = "test,seeds,day,new\n"
GOOD = HEAD + "Good,20,3,4\nGood,20,5,6\n"

# (what, bytes of the file, [(line, column, rule, part of the message, part of the hint)], names of the tests that still come out)
BAD_FILES = [
    ("empty", b"", [(1, 1, "file", "The file is empty.", "test, seeds, day, new")], []),
    ("only separators", b"\n,,,\n;;\n", [(1, 1, "file", "The file is empty.", "")], []),
    ("no rows", HEAD.encode(), [(1, 1, "file", "column names and no rows", "Add a row for each count.")], []),
    ("spreadsheet", b"PK\x03\x04 and so on", [(1, 1, "file", "This is a spreadsheet file, not a CSV file.", "save it as CSV, UTF-8")], []),
    ("old spreadsheet", b"\xd0\xcf\x11\xe0\xa1\xb1", [(1, 1, "file", "This is a spreadsheet file", "save it as CSV")], []),
    ("UTF-16", GOOD.encode("utf-16"), [(1, 1, "file", "UTF-16", "UTF-8")], []),
    ("not UTF-8", (HEAD + "Küche,20,3,4\n").encode("latin-1"), [(2, 1, "file", "not UTF-8", "Save the file as CSV, UTF-8")], []),
    ("missing column", b"test,seeds,day\nA,20,3\n", [(1, 1, "file", "The column “new” is missing.", "Add a column “new”.")], []),
    ("nearest name", b"test,seeds,dai,new\nA,20,3,1\n", [(1, 1, "file", "The column “day” is missing.", "Rename “dai” to “day”.")], []),
    ("other word", b"Lot,Seeds sown,Days,Seedlings\nA,20,3,1\n", [(1, 1, "file", "The columns “test”, “seeds”, “day” and “new” are missing.", "Rename “lot” to “test”. Rename “seeds sown” to “seeds”. Rename “days” to “day”. Rename “seedlings” to “new”.")], []),
    ("running totals", b"test,seeds,day,running total\nA,20,3,1\n", [(1, 1, "file", "The column “new” is missing.", "each total less the one before")], []),
    ("column twice", b"test,seeds,day,new,day\nA,20,3,1,3\n", [(1, 1, "file", "The column “day” is there more than once.", "")], []),
    ("days fall", (HEAD + "A,20,5,1\nA,20,4,1\n" + GOOD[len(HEAD):]).encode(), [(3, 3, "day", "Day 4 comes after day 5 (line 2).", "order of the days")], ["Good"]),
    ("day twice", (HEAD + "A,20,5,1\nA,20,5,1\n" + GOOD[len(HEAD):]).encode(), [(3, 3, "day", "Day 5 is there twice (line 2).", "two tests need two names")], ["Good"]),
    ("too many", (HEAD + "A,20,5,15\nA,20,6,6\n" + GOOD[len(HEAD):]).encode(), [(3, 4, "new", "21 seedlings by day 6 from 20 seeds cannot be.", "not running totals")], ["Good"]),
    ("seeds differ", (HEAD + "A,20,5,1\nA,25,6,1\n" + GOOD[len(HEAD):]).encode(), [(3, 2, "seeds", "25 seeds here, 20 in line 2.", "another test needs another name")], ["Good"]),
    ("no seeds", (HEAD + "A,0,5,0\n" + GOOD[len(HEAD):]).encode(), [(2, 2, "seeds", "A test of 0 seeds.", "Write how many were set.")], ["Good"]),
    ("day 0", (HEAD + "A,20,0,3\n" + GOOD[len(HEAD):]).encode(), [(2, 4, "new", "3 seedlings on day 0 cannot be", "the next day is day 1")], ["Good"]),
    ("day 0 alone", (HEAD + "A,20,0,0\n" + GOOD[len(HEAD):]).encode(), [(2, 3, "day", "Day 0 is the only count", "later days")], ["Good"]),
    ("a date", (HEAD + "A,20,2026-03-12,1\n" + GOOD[len(HEAD):]).encode(), [(2, 3, "day", "“2026-03-12” is a date.", "days since the seed was set")], ["Good"]),
    ("a date as a number", (HEAD + "A,20,46093,1\n" + GOOD[len(HEAD):]).encode(), [(2, 3, "day", "Day 46093 is more than 1000 days", "not a date")], ["Good"]),
    ("day in words", (HEAD + "A,20,five,1\n" + GOOD[len(HEAD):]).encode(), [(2, 3, "day", "“five” is not a number of days.", "Write digits")], ["Good"]),
    ("day below zero", (HEAD + "A,20,-1,1\n" + GOOD[len(HEAD):]).encode(), [(2, 3, "day", "“-1” is below zero.", "0 or more")], ["Good"]),
    ("minutes", (HEAD + "A,20,0.001,1\n" + GOOD[len(HEAD):]).encode(), [(2, 3, "day", "Day 0.001 is minutes", "12 hours are 0.5")], ["Good"]),
    ("decimal comma quoted", (HEAD + 'A,20,"2,5",1\n' + GOOD[len(HEAD):]).encode(), [(2, 3, "day", "“2,5” has a decimal comma, and commas separate the columns", "Write 2.5, or save the file with semicolons.")], ["Good"]),
    ("decimal comma bare", (HEAD + "A,20,2,5,1\n" + GOOD[len(HEAD):]).encode(), [(2, 1, "row", "5 cells in this row, 4 in the header.", "A decimal comma makes two cells")], ["Good"]),
    ("short row", (HEAD + "A,20,2\n" + GOOD[len(HEAD):]).encode(), [(2, 1, "row", "3 cells in this row, 4 in the header.", "missing comma")], ["Good"]),
    ("half a seedling", (HEAD + "A,20,2,1.5\n" + GOOD[len(HEAD):]).encode(), [(2, 4, "new", "“1.5” is not a whole number.", "1 or 2")], ["Good"]),
    ("percentage", (HEAD + "A,20,2,5 %\n" + GOOD[len(HEAD):]).encode(), [(2, 4, "new", "“5 %” is a percentage.", "how many")], ["Good"]),
    ("grouped digits", (HEAD + 'A,"1,000",2,5\n' + GOOD[len(HEAD):]).encode(), [(2, 2, "seeds", "“1,000” has a separator", "1000")], ["Good"]),
    ("nothing in seeds, day and new", (HEAD + "A,,,\n" + GOOD[len(HEAD):]).encode(), [(2, 2, "seeds", "Nothing stands here.", "in every row"), (2, 3, "day", "Nothing stands here.", "day of this count"), (2, 4, "new", "Nothing stands here.", "0 if none")], ["Good"]),
    ("one without a name", (HEAD + ",20,2,1\n" + GOOD[len(HEAD):]).encode(), [(2, 1, "test", "This row names no test, and others do.", "in every row of the test")], ["Good"]),
    ("long name", (HEAD + "A" * 61 + ",20,2,1\n" + GOOD[len(HEAD):]).encode(), [(2, 1, "test", "has 61 characters", "Shorten it.")], ["Good"]),
    ("hidden character", (HEAD + "A\u200bB,20,2,1\n" + GOOD[len(HEAD):]).encode(), [(2, 1, "test", "A character that does not show (U+200B)", "Type the text anew")], ["Good"]),
    ("open quote", (HEAD + '"A,20,2,1\n' + GOOD[len(HEAD):]).encode(), [(2, 1, "row", "A quote in this row is not closed", "Close it")], ["Good"]),
    ("one wrong row of three", (HEAD + "A,20,2,1\nA,20,x,1\nA,20,4,1\n" + GOOD[len(HEAD):]).encode(), [(3, 3, "day", "“x” is not a number", "")], ["Good"]),
    ("two wrong tests", (HEAD + "A,20,2,21\nB,x,2,1\n" + GOOD[len(HEAD):]).encode(), [(2, 4, "new", "21 seedlings by day 2 from 20 seeds", ""), (3, 2, "seeds", "“x” is not a number.", "")], ["Good"]),
]

# (what, bytes, [(name, seeds, days, new)])
GOOD_FILES = [
    ("commas", GOOD.encode(), [("Good", 20, [3, 5], [4, 6])]),
    ("byte-order mark, semicolons, decimal commas", ("\ufeff" + "test;seeds;day;new\r\nKüche;20;2,5;4\r\nKüche;20;5;6\r\n").encode(), [("Küche", 20, [2.5, 5], [4, 6])]),
    ("tabs, columns in another order, capitals", b"Day\tNew\tTest\tSeeds\n3\t4\tA\t20\n5.25\t6\tA\t20\n", [("A", 20, [3, 5.25], [4, 6])]),
    ("rows of two tests mixed, old line ends", b"test,seeds,day,new\rA,20,3,1\rB,30,4,2\rA,20,5,1\r", [("A", 20, [3, 5], [1, 1]), ("B", 30, [4], [2])]),
    ("no name at all", b"test,seeds,day,new\n,20,3,1\n,20,4,0\n", [("", 20, [3, 4], [1, 0])]),
    ("day 0 with nothing", b"test,seeds,day,new\nA,20,0,0\nA,20,3,1\n", [("A", 20, [3], [1])]),
    ("quotes and a guarded formula", b'test,seeds,day,new\n"Bed 3, ""east""",20,3,1\n\'=A1,20,3,1\n', [('Bed 3, "east"', 20, [3], [1]), ("=A1", 20, [3], [1])]),
    ("spaces, empty lines and cells of space", "test,seeds,day,new\n\n Bed\u00a03 , 20 ,3, 1\n,, ,\n".encode(), [("Bed 3", 20, [3], [1])]),
]


def csv_of(name: str, seeds: int, counts: list[tuple]) -> str:
    """Rows of a test file for (day, new) pairs, as they are written in the data."""
    return "".join(f"{name},{seeds},{day},{new}\n" for day, new in counts)


def open_data_file(folder: Path) -> Path:
    """Chickweed and Lobelia as a test file.

    Chickweed's data are intervals (start, end]; our rows are counts, so the end of each interval is
    the day of a count, and the start is the day of the row before, or the setting of the seed for the
    first (0 to 12 days). The row without an end, seeds that never came up, is not a count: its 160
    seeds are the 200 set less the 40 that came up.
    """
    chickweed = [row for row in rows_of("chickweed.csv") if row["end"] != "inf"]
    text = HEAD + csv_of("Chickweed", 200, [(row["end"], row["count"]) for row in chickweed])
    for (celsius,), rows in grouped(rows_of("lobelia.csv"), "celsius").items():
        text += csv_of(f"Lobelia {celsius}", 100, [(row["day"], row["new_seedlings"]) for row in rows])
    file = folder / "open-data.csv"
    file.write_text(text, encoding="utf-8")
    return file
