"""Every problem of a file of lots: where it is, what was seen, how to mend it; and that the other rows still count.

The forms of numbers and dates follow ISO 8601 (dates, year first) and RFC 4180 (CSV); that 12/03/2026 is read both ways
is common practice, no source.
"""

from __future__ import annotations

import io
import zipfile

import pytest

from build_tools.lots.catalogue import fold
from build_tools.lots.read import meaning
from tests.lots.files import COLUMNS, HEADER, TODAY, file_of, read, row

OTHER = row(lot="B-2", normal="45")

# (cells of the row at line 2, its column, what is said of it, the remedy)
CELLS = {
    "no lot": ({"lot": ""}, "lot", "names no lot", "number or name"),
    "lot of spaces": ({"lot": " \u00a0 "}, "lot", "names no lot", "number or name"),
    "long lot": ({"lot": "x" * 61}, "lot", "61 characters", "Shorten"),
    "hidden character": ({"lot": "A\u200b1"}, "lot", "U+200B", "Type the text anew"),
    "control character": ({"variety": "A\x1b[31m"}, "variety", "U+001B", "Type the text anew"),
    "no crop": ({"crop": ""}, "crop", "names no crop", "such as Tomato"),
    "misspelt crop": ({"crop": "Tomatto"}, "crop", "“Tomatto” is no crop", "Did you mean “Tomato”?"),
    "crop of several": ({"crop": "beans"}, "crop", "“beans” is no crop", "“Asparagus bean”, “Dry bean”"),
    "crop with more words": ({"crop": '"Tomato, cherry"'}, "crop", "“Tomato, cherry”", "Did you mean “Tomato”?"),
    "crop unlike any": ({"crop": "Triffid vine"}, "crop", "is no crop", "English name or its id"),
    "storage": ({"storage": "fridge"}, "storage", "“fridge” is no way of storing", "cool-dry, cold-dry or warm"),
    "harvest in words": ({"harvested": "last autumn"}, "harvested", "not a date written year first", "2025, 2025-09 or 2025-09-20"),
    "harvest month": ({"harvested": "2025-13"}, "harvested", "no month", "2025-09"),
    "harvest in the future": ({"harvested": "2027"}, "harvested", f"in the future; today is {TODAY}", "Check the year"),
    "harvest month in the future": ({"harvested": "2026-12"}, "harvested", "in the future", "Check the year"),
    "harvest far off": ({"harvested": "1924"}, "harvested", "more than 60 years ago", "Check the year"),
    "date two ways": ({"tested": "12/03/2026"}, "tested", "can be read as 2026-03-12 or as 2026-12-03", "2026-03-12 or 2026-12-03"),
    "date day first": ({"tested": "25.03.2026"}, "tested", "not a date written year first", "Write 2026-03-25."),
    "date month first": ({"tested": "03/25/2026"}, "tested", "not a date written year first", "Write 2026-03-25."),
    "date with slashes": ({"tested": "2026/3/1"}, "tested", "hyphens and two digits", "Write 2026-03-01."),
    "date with a time": ({"tested": "2026-03-12T00:00:00"}, "tested", "time of day", "Write the day alone: 2026-03-12."),
    "day number": ({"tested": "46093"}, "tested", "day number", "2026-03-12"),
    "no such day": ({"tested": "2026-02-30"}, "tested", "no day of the calendar", "2026-03-12"),
    "no such leap day": ({"tested": "2025-02-29"}, "tested", "no day of the calendar", "2026-03-12"),
    "date in the future": ({"tested": "2026-11-26"}, "tested", "in the future", "Check the year"),
    "date far off": ({"tested": "1926-03-12"}, "tested", "more than 60 years ago", "Check the year"),
    "tested before the harvest": ({"harvested": "2026-09", "tested": "2026-03-12"}, "tested", "before the harvest of 2026-09", "Check both dates"),
    "tested before the day of harvest": ({"harvested": "2026-03-13"}, "tested", "before the harvest of 2026-03-13", "Check both dates"),
    "more seedlings than seeds": ({"normal": "51"}, "normal", "51 normal seedlings from 50 seeds cannot be", "at most the seeds set"),
    "counts over seeds": ({"normal": "36", "abnormal": "10", "dead": "5"}, "dead", "36 + 10 + 5 = 51 counted from 50 seeds", "together"),
    "not whole": ({"normal": "36.5"}, "normal", "“36.5” is not a whole number", "write 36 or 37"),
    "decimal comma": ({"normal": '"36,5"'}, "normal", "decimal comma", "write 36 or 37"),
    "whole with a decimal comma": ({"normal": '"36,0"'}, "normal", "decimal comma", "Write 36."),
    "negative": ({"dead": "-3"}, "dead", "“-3” is below zero", "0 or more"),
    "minus sign": ({"dead": "−3"}, "dead", "below zero", "0 or more"),
    "thousands comma": ({"seeds": '"1,000"'}, "seeds", "separator between its digits", "digits alone: 1000"),
    "thousands point": ({"seeds": "1.000"}, "seeds", "separator between its digits", "digits alone: 1000"),
    "thousands space": ({"seeds": "1\u202f000"}, "seeds", "separator between its digits", "digits alone: 1000"),
    "percentage": ({"normal": "72 %"}, "normal", "is a percentage", "how many were counted"),
    "words for a count": ({"normal": "most"}, "normal", "“most” is not a number", "digits alone"),
    "other digits": ({"normal": "٣٦"}, "normal", "is not a number", "digits alone"),
    "too many seeds": ({"seeds": "100001"}, "seeds", "100,001 is more than one row may hold", "100,000"),
    "absurdly many seeds": ({"seeds": "9" * 400}, "seeds", "more than one row may hold", "100,000"),
    "no seeds": ({"seeds": "0", "normal": "0"}, "seeds", "A test of 0 seeds", "how many were set"),
    "date without counts": ({"seeds": "", "normal": ""}, "seeds", "half filled in: seeds and normal are empty", "Fill in tested, seeds and normal"),
    "counts without a date": ({"tested": ""}, "tested", "half filled in: tested is empty", "not yet tested"),
    "no seedlings given": ({"normal": ""}, "normal", "half filled in: normal is empty", "Fill in"),
    "other counts alone": ({"tested": "", "seeds": "", "normal": "", "dead": "3"}, "tested", "tested, seeds and normal are empty", "not yet tested"),
}


@pytest.mark.parametrize("name", CELLS)
def test_a_bad_cell_is_reported_and_the_other_lot_still_comes_out(name, catalogue):
    cells, column, seen, remedy = CELLS[name]
    reading = read(file_of(row(**cells), OTHER), catalogue)
    (problem,) = reading.problems
    assert (problem.file, problem.line, problem.rule, problem.level) == ("lots.csv", 2, column, "error")
    assert problem.column == COLUMNS.index(column) + 1
    assert seen in problem.message and remedy in problem.hint
    assert list(reading.lots) == ["B-2"] and (reading.rows, reading.left_out) == (2, 1)


def test_all_that_is_wrong_with_a_row_is_said_at_once(catalogue):
    reading = read(file_of(row(crop="Triffid vine", storage="fridge", tested="12/03/2026", seeds="x", dead="-1")), catalogue)
    assert [p.rule for p in reading.problems] == ["crop", "storage", "tested", "seeds", "dead"]
    assert reading.left_out == 1 and not reading.lots


# (rows after the header, line, column, what is said, remedy, lots that remain)
ROWS = {
    "too few cells": (["A-1,Tomato", OTHER], 2, "row", "2 cells in this row, 13 in the header", "missing comma", ["B-2"]),
    "too many cells": ([row(note="a,b"), OTHER], 2, "row", "14 cells in this row, 13 in the header", "needs quotes", ["B-2"]),
    "open quote": ([row(note='"a'), OTHER], 2, "row", "not closed", "Close it", ["B-2"]),
    "text after a quote": ([row(lot='"A"1'), OTHER], 2, "row", "follows a closing quote", 'written ""', ["B-2"]),
    "two crops": ([row(), OTHER, row(crop="Onion", tested="2025-03-12")], 4, "crop", "is Onion here and Tomato in line 2", "a lot of its own", ["B-2"]),
    "nine replicates": ([row()] * 9 + [OTHER], 10, "tested", "9 rows of lot “A-1” for 2026-03-12; at most 8", "add up dishes", ["B-2"]),
}


@pytest.mark.parametrize("name", ROWS)
def test_rows_that_do_not_fit(name, catalogue):
    rows, line, column, seen, remedy, remaining = ROWS[name]
    reading = read(file_of(*rows), catalogue)
    (problem,) = reading.problems
    assert (problem.line, problem.rule) == (line, column)
    assert seen in problem.message and remedy in problem.hint
    assert list(reading.lots) == remaining
    assert reading.left_out == reading.rows - 1


def spreadsheet() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("content.xml", "<x/>")
    return out.getvalue()


# (bytes, line, what is said, remedy)
FILES = {
    "spreadsheet": (spreadsheet(), 1, "spreadsheet file, not a CSV", "save it as CSV"),
    "old spreadsheet": (b"\xd0\xcf\x11\xe0" + b"\0" * 600, 1, "spreadsheet file, not a CSV", "save it as CSV"),
    "UTF-16": (file_of(row()).decode().encode("utf-16"), 1, "UTF-16", "UTF-8"),
    "PDF": (b"%PDF-1.7\n", 1, "PDF file", "CSV"),
    "other encoding": (file_of(row(), row(variety="Früh")).decode().encode("cp1252"), 3, "not UTF-8", "UTF-8"),
    "other encoding, CR LF": (file_of(row(), row(variety="Früh"), end="\r\n").decode().encode("cp1252"), 3, "not UTF-8", "UTF-8"),
    "cut letter at the end": (file_of(row(note="Früh"))[:-3], 2, "not UTF-8", "UTF-8"),
    "empty": (b"", 1, "empty", "column names"),
    "only line ends": (b"\r\n\n ; ;\n", 1, "empty", "column names"),
    "no rows": (file_of(), 1, "no rows", "Add a row"),
    "lot under another name": (file_of(header=HEADER.replace("lot", "Lot number")), 1, "“lot” is missing", "Rename “Lot number” to “lot”."),
    "two missing": (file_of(header="lot,Vegetable,tested,Sown,normal"), 1, "“crop” and “seeds” are missing", "Rename “Vegetable” to “crop”. Rename “Sown” to “seeds”."),
    "misspelt heading": (file_of(header=HEADER.replace("tested", "testd")), 1, "“tested” is missing", "Rename “testd” to “tested”."),
    "missing without a likeness": (file_of(header="lot,crop,tested,seeds"), 1, "“normal” is missing", "Add a column “normal”."),
    "twice": (file_of(header=HEADER + ",lot"), 1, "“lot” is there more than once", "Keep one"),
    "open quote in the header": (file_of(header='"' + HEADER), 1, "not closed", "Close it"),
}


@pytest.mark.parametrize("name", FILES)
def test_a_file_that_cannot_be_read_says_why(name, catalogue):
    raw, line, seen, remedy = FILES[name]
    reading = read(raw, catalogue)
    (problem,) = reading.problems
    assert (problem.line, problem.rule, problem.level) == (line, "file", "error")
    assert seen in problem.message and remedy in problem.hint
    assert not reading.lots


def test_a_very_large_file_is_refused(catalogue, monkeypatch):
    monkeypatch.setattr("build_tools.lots.table.LARGEST_FILE", 100)
    (problem,) = read(file_of(row(), row()), catalogue).problems
    assert "at most 100 are read" in problem.message and "Split" in problem.hint


def test_unknown_columns_are_told_once_and_passed_over(catalogue):
    header = HEADER.replace("variety", "Cultivar") + ",Grower,"
    reading = read(file_of(row() + ",Ms Example,", OTHER + ",,", header=header), catalogue)
    (note,) = reading.problems
    assert (note.level, note.line) == ("note", 1)
    assert "“Cultivar”, “Grower” and without a name" in note.message
    assert note.hint == "If “Cultivar” is “variety”, rename it."
    assert len(reading.lots) == 2 and reading.left_out == 0 and reading.lots["A-1"].variety == ""


def test_a_lot_with_a_bad_row_is_marked(catalogue):
    good = row(lot="A-1"), row(lot="B-2")
    for bad in (row(normal="99"), "A-1,Tomato", row(note='"open'), row(lot='"A-1"', note='"x"y')):
        reading = read(file_of(*good, bad), catalogue)
        assert {name: lot.marked for name, lot in reading.lots.items()} == {"A-1": True, "B-2": False}, bad
    # Nine replicates leave the test out; an earlier test of the lot still counts, marked.
    reading = read(file_of(*[row()] * 9, row(tested="2025-03-12")), catalogue)
    assert [test.tested for test in reading.lots["A-1"].tests] == ["2025-03-12"] and reading.lots["A-1"].marked


def test_varieties_and_harvests_that_differ_are_noted_not_left_out(catalogue):
    rows = row(variety="Example Early", harvested="2024", tested="2025-01-05"), row(variety="Example Late", harvested="2023-09", tested="2026-01-05"), row(variety="example late", harvested="2023")
    reading = read(file_of(*rows), catalogue)
    assert [(p.rule, p.line, p.level) for p in reading.problems] == [("variety", 3, "note"), ("harvested", 3, "note")]
    lot = reading.lots["A-1"]
    assert (lot.variety, lot.harvested, reading.left_out) == ("example late", "2023-09", 0)


@pytest.mark.parametrize(("name", "crop"), [("Bean, snap", "bean-snap"), ("Peppers, hot", "pepper-hot"), ("squash, Summer", "squash-summer"), ("Corn, pop", None)])
def test_names_the_other_way_round(name, crop, catalogue):
    assert catalogue.find(name) == crop


@pytest.mark.parametrize("name", ["Tomato", "TOMATO", "tomato", "tomatoes", " Tomato ", "Tomatoes"])
def test_crop_names_are_found_whatever_their_case_or_number(name, catalogue):
    assert catalogue.find(name) == "tomato"


def test_every_name_of_every_crop_is_found(catalogue, reference):
    for crop in reference.crops.values():
        for name in (crop.id, crop.name, *crop.other_names):
            assert catalogue.find(name) == crop.id, name
            assert catalogue.find(fold(name)) == crop.id, name
            assert catalogue.find(name.upper().replace(" ", "-")) == crop.id, name


@pytest.mark.parametrize(("heading", "column"), [
    ("Lot number", "lot"), ("LOT", "lot"), ("Batch", "lot"), ("Species", "crop"), ("Cultivar", "variety"), ("Date of test", "tested"), ("Seeds set", "seeds"),
    ("Normal seedlings", "normal"), ("Harvest", "harvested"), ("No. germinated", "normal"), ("Grower", None), ("", None),
])
def test_headings_are_recognised(heading, column):
    assert meaning(heading) == column
