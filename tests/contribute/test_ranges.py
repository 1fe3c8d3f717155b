"""Printed ranges are read when they can be read in one way only; headers and names of crops when surely meant."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from build_tools.check.schema_rules import SchemaSet
from build_tools.check.tables import tables_of
from build_tools.contribute.crop_names import NameBook, key, singular
from build_tools.contribute.foreign_table import read_foreign
from build_tools.contribute.headers import match_headers, unit_of
from build_tools.contribute.import_table import import_table
from build_tools.contribute.ranges import is_date, pairs, read_range

READ = [
    ("7-10", "days", "7", "10", ""), ("7–10", "days", "7", "10", ""), ("3 to 5", "years", "3", "5", ""), ("10+", "days", "10", "", ""), ("5 or more", "years", "5", "", ""),
    ("2 to 3 weeks", "days", "14", "21", ""), ("two weeks", "days", "14", "14", ""), ("about 21", "days", "21", "21", ""), ("4 or 13", "years", "4", "13", ""),
    ("1-1 1/2", "inch", "25", "38", ""), ("½-1", "inch", "13", "25", ""), ("1½", "inch", "38", "38", ""), ('1/4"', "inch", "6", "6", ""), ("surface", "inch", "0", "0", ""),
    ("18-21 C", "temperature", "18", "21", "c"), ("65°–75°F", "temperature", "65", "75", "f"), ("2,520", "plain", "2520", "2520", ""), ("1.5-2", "years", "1.5", "2", ""),
]
UNREAD = [
    ("up to 5", "years"), ("15-9", "days"), ("1-1/2", "inch"), ("1/2-", "inch"), ("1/0", "inch"), ("6 in summer, 10 in winter", "days"), ("3-5 months", "years"), ("*", "temperature"),
    ("20-30 C alternating best", "temperature"), ("65 F-20 C", "temperature"), ("10-Jul", "days"), ("", "days"), ("-5", "days"), ("7-10-12", "days"), ("5 inches", "days"), ("=7-10", "days"),
]


@pytest.mark.parametrize("cell, holds, low, high, unit", READ, ids=[c[0] for c in READ])
def test_one_reading(cell, holds, low, high, unit):
    assert read_range(cell, holds) == (low, high, unit)


@pytest.mark.parametrize("cell, holds", UNREAD, ids=[c[0] or "empty" for c in UNREAD])
def test_left_to_the_person(cell, holds):
    assert read_range(cell, holds) is None


@given(st.integers(0, 400), st.integers(0, 400), st.sampled_from(["-", "–", " to ", " - "]))
def test_a_plain_range_gives_its_own_ends_or_nothing(low, high, dash):
    read = read_range(f"{low}{dash}{high}", "days")
    assert read == ((str(low), str(high), "") if low <= high else None)


@given(st.text(max_size=30), st.sampled_from(["days", "years", "inch", "plain", "temperature"]))
def test_no_text_stops_the_reading(text, holds):
    read = read_range(text, holds)
    assert read is None or float(read[0]) >= 0
    is_date(text), key(text)


@pytest.mark.parametrize("cell", ["10-Jul", "Jul-10", "12-Oct-26", "2026-07-10", "2026-07-10 00:00:00", "7/10/2026", "3 May"])
def test_dates_of_spreadsheets_are_known(cell):
    assert is_date(cell)


@pytest.mark.parametrize("cell", ["7-10", "3/4", "1 1/2", "2 to 3 weeks", "May be 10", "60-85", ""])
def test_ranges_are_no_dates(cell):
    assert not is_date(cell)


def test_every_printed_range_of_our_tables_is_read_as_we_read_it_or_not_at_all(tree, root):
    """Every cell of the committed tables: filled in as people did it, cell by cell; the few left open are counted."""
    read = unread = 0
    for source, entry, table in tables_of(tree):
        unit = next((c[-1] for c in table.columns if c in ("min_f", "opt_low_f", "min_c", "opt_low_c")), "")
        for target in pairs(table.columns, unit):
            for row in table.rows:
                found = read_range(row[target.printed], target.holds) if row[target.printed] else None
                if found is None:
                    unread += bool(row[target.printed] and not is_date(row[target.printed]))
                    continue
                read += 1
                low, high = (row[column.format(found[2] or "c")] for column in (target.low, target.high))
                assert (low, high) == found[:2] or (float(low), float(high or 0)) == (float(found[0]), float(found[1] or 0)), (source, entry["kind"], row[target.printed], low, high)
    assert read > 600 and unread < 12, (read, unread)


@pytest.mark.parametrize("one, other", [("Beans, snap", "snap bean"), ("Tomatoes", "tomato"), ("Radishes", "radish"), ("Brussels Sprouts", "brussels-sprouts"), ("PEAS", "pea"), ("Chinese cabbage", "Cabbage, Chinese")])
def test_names_are_compared_without_plural_order_and_case(one, other):
    assert key(one) == key(other)


@pytest.mark.parametrize("word", ["asparagus", "cress", "swiss", "iris", "peas"[:-1]])
def test_words_that_are_no_plurals_stay(word):
    assert singular(word) == word


def test_a_name_means_what_most_of_our_tables_make_of_it(book):
    bean = book.find("Beans", "seed-life")
    assert bean.ids == "bean-snap;bean-dry" and "rows of our tables" in bean.how
    assert book.find("aubergines", "seed-life").ids == "eggplant"
    assert book.find("Corn salads").ids == "corn-salad"
    assert book.find("no such thing") is None
    assert book.nearest("Egplant")[0] == "eggplant" and len(book.nearest("pepper")) == 3


def test_without_its_own_tables_a_source_is_still_read_nearly_as_we_read_it(tree):
    """Each table matched by the names and the other sources alone: the share of rows with the ids we gave, and those with others."""
    same = blank = other = 0
    for source in tree.sources:
        book = None
        for _, entry, table in (t for t in tables_of(tree) if t[0] == source and {"crop_as_printed", "crop_id"} <= set(t[2].columns) and t[1]["kind"] in ("temperature-bands", "seed-life", "sowing-depth", "days-usual", "hardiness", "sow-timing")):
            book = book or NameBook.of(tree, without=source)
            for row in table.rows:
                match = book.find(row["crop_as_printed"], entry["kind"])
                same += (match.ids if match else "") == row["crop_id"]
                blank += match is None and row["crop_id"] != ""
                other += match is not None and match.ids != row["crop_id"]
    total = same + blank + other
    assert total > 600 and same / total > 0.9 and other / total < 0.02, (same, blank, other)


COLUMNS = ["crop_as_printed", "crop_id", "min_f", "opt_low_f", "opt_high_f", "opt_f", "max_f", "min_c", "opt_low_c", "opt_high_c", "opt_c", "max_c", "opt_range_as_printed", "sow_f", "days_as_printed", "note"]


@pytest.mark.parametrize("header, column", [
    ("Vegetable", "crop_as_printed"), ("CROP", "crop_as_printed"), ("Min. temp. (°F)", "min_f"), ("Minimum temperature, °C", "min_c"), ("Optimum °F", "opt_f"), ("Max (F)", "max_f"),
    ("Optimum range (F)", "opt_range_as_printed"), ("Days to germination", "days_as_printed"), ("Notes", "note"), ("opt_f", "opt_f"), ("days_as_printd", "days_as_printed"),
])
def test_headers_surely_meant(header, column):
    read, open_ = match_headers([header], COLUMNS, {})
    assert read[header].column == column and not open_


@pytest.mark.parametrize("header", ["Minimum", "Temperature", "Colour", "min", "", "Max temp"])
def test_headers_not_surely_meant_are_left_open_with_the_nearest(header):
    read, open_ = match_headers([header], COLUMNS, {})
    assert not read and set(open_) == {header}
    if header == "Minimum":
        assert open_[header] == ["min_f", "min_c"]


def test_temperatures_over_columns_are_known_in_either_unit():
    grid = ["crop_as_printed", "f32", "f41", "f50", "f104"]
    assert [r.column for r in match_headers(["32°F", "41 F", "50"], grid, {}, "f")[0].values()] == ["f32", "f41", "f50"]
    assert [r.column for r in match_headers(["0 °C", "5 °C", "40C"], grid, {})[0].values()] == ["f32", "f41", "f104"]
    assert match_headers(["50", "42 F", "7 °C"], grid, {})[0] == {}


def test_a_unit_said_once_serves_headers_that_do_not_say_it():
    read, open_ = match_headers(["Minimum", "Maximum"], COLUMNS, {}, "f")
    assert [r.column for r in read.values()] == ["min_f", "max_f"] and not open_
    assert unit_of("Min (°F)") == "f" and unit_of("Min") == "" and unit_of("°F or °C") == ""


ROOT = Path(__file__).resolve().parents[2]
SCHEMAS = SchemaSet.load(ROOT / "schema")
BOOK = NameBook(shown={"leek": "Leek", "bean-snap": "Snap bean"}, names={"leek": {"leek"}, "bean snap": {"bean-snap"}})
CELL = st.one_of(st.sampled_from(["Leek", "Beans, snap", "7-10", "10-Jul", "=1+1", "1,200", "", "Total", "\u200b", '"', "min_f", "Years", "é", "\x00", ";", "up to 5", "60 F"]), st.text(max_size=8))


@settings(max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.lists(CELL, min_size=1, max_size=5), max_size=6), st.sampled_from([",", ";", "\t"]), st.sampled_from(["utf-8", "utf-16", "cp1252", "latin-1"]), st.sampled_from(["seed-life", "temperature-bands", "sowing-depth"]))
def test_no_table_stops_the_command_with_a_traceback(tmp_path, rows, separator, encoding, kind):
    """Whatever the cells are, there is a table or a problem with a place; a cell that went in is the one that stood there."""
    file = tmp_path / "theirs.csv"
    file.write_bytes("\n".join(separator.join(row) for row in rows).encode(encoding, errors="replace"))
    table, problems = read_foreign(file)
    assert table is not None or problems
    if table is None or problems:
        assert all(p.line >= 1 and p.message for p in problems)
        return
    done = import_table(table, kind, SCHEMAS.validators[f"table-{kind}"].schema, BOOK)
    theirs = {cell for _, cells in table.rows for cell in cells}
    for row in done.rows:
        assert all(cell in theirs for column, cell in row.items() if column.endswith("_as_printed") or column == "note")
    done.text()
