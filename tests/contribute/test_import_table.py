"""A table walked in: our own tables come out as they are committed, typical mistakes get clear words, nothing is written by halves."""

import csv
import io
import json

import pytest

from build_tools.check.tables import tables_of
from build_tools.contribute.ranges import pairs
from build_tools.contribute.source_list import with_table

# Cells that people read from words no rule should guess at: (table, row, column).
READ_BY_PEOPLE = {
    ("pliny-nh19", "beet", "days_min"), ("pliny-nh19", "beet", "days_max"), ("pliny-nh19", "cunila; wild marjoram", "days_min"), ("pliny-nh19", "parsley", "days_min"),
    ("pliny-nh19", "parsley", "days_max"), ("ufifas-sp103", "Okra", "depth_mm_min"),
}
# Names that our tables themselves read in two ways, or that a crop's other name explains: (table, row).
READ_OTHERWISE = {("beecher-1859", "Garlic"), ("madison-tech-christoffel", "verbena"), ("madison-tech-christoffel", "sweet alyssum"), ("pliny-nh19", "scallions")}
KINDS = ("temperature-bands", "seed-life", "days-usual", "sowing-depth")
SOURCE = """id: newcomer-{n}
title: "A table that comes in again"
publisher: "Invented Extension"
year: "not shown"
copy_read: "the page"
verified: "compared cell by cell"
evidence: advice
family: newcomer-{n}
# a comment that stays
"""


def stripped(table, kind, columns):
    """The table as CSV text without what the command works out: crop ids, lowest and highest."""
    derived = {end.format(unit) for unit in "fc" for target in pairs(columns, unit) if target.printed in table.columns for end in (target.low, target.high)}
    kept = [c for c in table.columns if c not in derived and (c != "crop_id" or "crop_as_printed" not in table.columns)]
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(kept)
    writer.writerows([row[c] for c in kept] for row in table.rows)
    return out.getvalue()


@pytest.mark.parametrize("kind", KINDS)
def test_our_tables_stripped_come_back_as_committed(kind, project, tree):
    """Each published table of the kind goes through the command into a new source; cell by cell it is the committed table again."""
    columns = list(json.loads((project.folder / "schema" / f"table-{kind}.schema.json").read_text(encoding="utf-8"))["properties"])
    again = cells = 0
    largest = sorted(tables_of(tree, kind), key=lambda t: -len(t[2].rows))[:3]
    for number, (source, entry, table) in enumerate(largest):
        folder = project.folder / "data" / "sources" / f"newcomer-{number}"
        folder.mkdir()
        (folder / "source.yml").write_text("# yaml-language-server: $schema=../../../schema/source.schema.json\n" + SOURCE.format(n=number), encoding="utf-8")
        file = project.file("theirs.csv", stripped(table, kind, columns))
        status = project.run("import-table", file, "--source", f"newcomer-{number}", "--kind", kind, "--even-so")
        assert status == 0, project.out
        written = list(csv.DictReader(io.StringIO((folder / f"{kind}.csv").read_text(encoding="utf-8"))))
        assert list(written[0]) == table.columns, source
        assert len(written) == len(table.rows)
        for new, old in zip(written, table.rows):
            for column in table.columns:
                if (source, old["crop_as_printed"], column) in READ_BY_PEOPLE or (column == "crop_id" and (source, old["crop_as_printed"]) in READ_OTHERWISE):
                    again += 1
                    continue
                cells += 1
                assert new[column] == old[column], (source, old["crop_as_printed"], column)
        text = (folder / "source.yml").read_text(encoding="utf-8")
        assert "# a comment that stays\n" in text and text.endswith(f'tables:\n  - file: {kind}.csv\n    kind: {kind}\n    caption: "{json.loads((project.folder / "schema" / f"table-{kind}.schema.json").read_text(encoding="utf-8"))["title"]}"\n')
        assert "see" in project.out or "Next:" in project.out
    assert cells > 60 and again <= 6


LIFE = ["--source", "table-one", "--kind", "seed-life"]
BANDS = ["--source", "table-one", "--kind", "temperature-bands"]

# A typical mistake, the options, whether the table is written, and the words that must be said.
MISTAKES = [
    ("semicolons, Windows letters", "Vegetable;Years;Remarks\r\nBéta leaf;2–3;\r\nAlpha bean;1;keeps badly\r\n".encode("cp1252"), LIFE, 0, ["separated by semicolons", "read as Windows-1252", "Line 2 has the first such letter", "Written: data/sources/table-one/seed-life.csv, 2 rows"]),
    ("tabs and a byte-order mark", "\ufeffCrop\tYears\nBeta leaf\t2\n".encode(), LIFE, 0, ["separated by tabs", "1 rows"]),
    ("cells that became dates", b"Crop,Years\nBeta leaf,2\nGamma root,5-Mar\n", LIFE, 1, ["theirs.csv:3:2  spreadsheet-date", '"5-Mar" is a date (column "Years")', "type the range as printed", "Nothing was written"]),
    ("a header of one's own", b"Crop,Years,Colour\nBeta leaf,2,green\n", LIFE, 1, ["theirs.csv:1:3  unmatched-column", '--map "Colour=', '--map "Colour=" to leave the column out']),
    ("a header without its unit", b"Crop,Minimum,Maximum\nBeta leaf,35,95\n", BANDS, 1, ["Nearest: min_f, min_c", '--map "Minimum=min_f"']),
    ("Fahrenheit under a Celsius header", b"Crop,Min (C),Max (C)\nBeta leaf,35,95\nAlpha bean,35,95\nBeet,40,85\n", BANDS, 1, ["theirs.csv:2:2  cell-limits", "35 is not plausible for min_c", "wrong-unit", '--map "Min (C)=min_f"', "--even-so"]),
    ("a misspelt crop", b"Crop,Years\nBeta leaf,2\nAlfa bean,4\n", LIFE, 0, ['line 3: "Alfa bean" is not known and goes in without an id; nearest: alpha', '--crops "Alfa bean=alpha"', "Written"]),
    ("empty rows", b"Crop,Years\nBeta leaf,2\n,\n\nAlpha bean,1\n", LIFE, 0, ["Empty and not taken in: line 3, 4", "2 rows"]),
    ("a merged heading above", b"Vegetable seed,,\nCrop,Years,Notes\nBeta leaf,2,\n", LIFE, 1, ["theirs.csv:1:1  merged-header", '"Vegetable seed"', "--header-line 2"]),
    ("a thousands separator", b'Crop,Seeds per gram,Seeds per ounce min\nBeta leaf,400,"11,340"\n', ["--source", "table-one", "--kind", "seeds-per-gram", "--map", "Seeds per gram=seeds_per_gram_as_printed", "--map", "Seeds per ounce min=seeds_per_ounce_min"], 1, ["thousands-separator", '"11,340"', "Type 11340"]),
    ("a decimal comma", b"Crop;Depth mm min;Depth mm max\nBeta leaf;12,5;25\n", ["--source", "table-one", "--kind", "sowing-depth", "--table", "depth-2.csv"], 1, ["decimal-comma", "Type 12.5"]),
    ("a row of totals", b"Crop,Years\nBeta leaf,2\nAverage,2\n", LIFE, 1, ["theirs.csv:3:1  totals-row", "--leave-out 3"]),
    ("a footnote at the end", b"Crop,Years\nBeta leaf,2\n* kept cool and dry,\n", LIFE, 1, ["lone-cell", "--leave-out 3"]),
    ("commas without quotes", b"Crop,Years\nBean, alpha,3\n", LIFE, 1, ["theirs.csv:2:1  csv-shape", "3 cells in this row, 2 columns", '"Bean, snap"']),
    ("a figure that is no number", b"Crop,Min (F)\nBeta leaf,warm\n", BANDS, 1, ["theirs.csv:2:2  wrong-cell", '"warm"', "Nothing was written"]),
    ("a spreadsheet file", b"PK\x03\x04rest", LIFE, 1, ["This is a spreadsheet file", "Open it and save the one table as CSV"]),
    ("a column missing", b"Crop,Notes\nBeta leaf,\n", LIFE, 1, ['needs the column "years_as_printed"', "--map"]),
    ("low above high", b"Crop,Years,Years min,Years max\nBeta leaf,3,3,2\n", LIFE, 1, ["theirs.csv:2:", "pair-order", "--even-so"]),
    ("hidden letters", "Crop,Years\nBe\u200bta leaf,2\n".encode(), LIFE, 1, ["hidden-character", "theirs.csv:2:"]),
    ("the same row twice", b"Crop,Years\nBeta leaf,2\nBeta leaf,2\n", LIFE, 1, ["theirs.csv:3:", "same-row-twice"]),
]


@pytest.mark.parametrize("content, words, status, said", [m[1:] for m in MISTAKES], ids=[m[0] for m in MISTAKES])
def test_a_typical_mistake_gets_clear_words(content, words, status, said, small):
    before = {p: p.read_bytes() for p in (small.folder / "data").rglob("*") if p.is_file()}
    assert small.run("import-table", small.file("theirs.csv", content), *words) == status, small.out
    for word in said:
        assert word in small.out, small.out
    after = {p: p.read_bytes() for p in (small.folder / "data").rglob("*") if p.is_file()}
    assert (after == before) == (status == 1)


def test_what_was_said_mends_the_mistake(small):
    """Each remedy that the messages name is typed as they name it, and then the table goes in."""
    file = small.file("theirs.csv", "Vegetable seed,,,\nCrop,Minimum,Maximum,Colour\nAlfa bean,60,95,\nBeta leaf,35,95,green\nAverage,50,95,\n")
    words = ["import-table", file, *BANDS]
    assert small.run(*words) == 1 and "--header-line 2" in small.out
    words += ["--header-line", "2"]
    assert small.run(*words) == 1 and "--leave-out 5" in small.out and '--map "Minimum=min_f"' in small.out
    words += ["--leave-out", "5", "--unit", "F", "--map", "Colour="]
    assert small.run(*words, "--dry-run") == 0 and '--crops "Alfa bean=alpha"' in small.out and "Nothing was written, as asked" in small.out
    assert not (small.folder / "data/sources/table-one/temperature-bands.csv").exists()
    assert small.run(*words, "--crops", "Alfa bean=alpha") == 0
    assert small.text("sources/table-one/temperature-bands.csv") == "crop_as_printed,crop_id,min_f,max_f\nAlfa bean,alpha,60,95\nBeta leaf,beta,35,95\n"
    assert small.run(*words) == 1 and "is listed in its source.yml already" in small.out and "--replace" in small.out
    assert small.run(*words, "--crops", "Alfa bean=alpha", "--replace") == 0
    assert small.text("sources/table-one/source.yml").count("temperature-bands.csv") == 1


def test_what_check_would_say_elsewhere_is_shown_before_writing(project, tree):
    """A new witness that takes in a value which departed makes its reason needless: the newcomer hears of it."""
    crop, value = next((c, v["value"]) for c, d in tree.crops.items() for k, v in d.data.get("temperature", {}).items() if "departs" in v and k == "optimum_c")
    row = f"Crop,Optimum (C)\n{tree.crops[crop].data['names']['common']},{value:g}\n"
    assert project.run("import-table", project.file("t.csv", row), "--source", "venango-guide", "--kind", "temperature-bands", "--dry-run") == 0, project.out
    assert "With this table `check` will also say, of other files:" in project.out and f"data/crops/{crop}.yml" in project.out and "departs-not-needed" in project.out


def test_wrong_words_of_the_command_are_named(small):
    file = small.file("theirs.csv", "Crop,Years\nBeta leaf,2\n")
    assert small.run("import-table", file, "--source", "table-onne", "--kind", "seed-live") == 1
    assert 'Did you mean "table-one"?' in small.out and 'Did you mean "seed-life"?' in small.out
    assert small.run("import-table", file, *LIFE, "--map", "Yers=years_as_printed", "--crops", "Beta leaf=betta") == 1
    assert 'Did you mean "Years"?' in small.out and "Nearest: beta" in small.out
    assert small.run("import-table", file, *LIFE, "--table", "../evil.csv") == 1 and "no name for a table" in small.out
    assert small.run("import-table", str(small.folder / "none.csv"), *LIFE) == 1 and "Cannot be read" in small.out
    with pytest.raises(SystemExit):
        small.run("import-table", file, *LIFE, "--map", "Years")
    assert 'should be "Theirs=ours"' in small.err


def test_a_source_still_being_filled_in_takes_its_table(small):
    """The skeleton of a new source has problems of its own; the table is checked all the same, and the rest is said to wait."""
    folder = small.folder / "data" / "sources" / "fresh-list"
    folder.mkdir()
    (folder / "source.yml").write_text('id: fresh-list\ntitle: "A list"\n', encoding="utf-8")
    file = small.file("theirs.csv", "Crop,Years\nBeta leaf,200\n")
    words = ["import-table", file, "--source", "fresh-list", "--kind", "seed-life"]
    assert small.run(*words) == 1 and "cell-limits" in small.out and "data/sources/fresh-list/source.yml" in small.out
    small.file("theirs.csv", "Crop,Years\nBeta leaf,2\n")
    assert small.run(*words) == 0 and "Not yet compared with other files" in small.out


@pytest.mark.parametrize("text, what", [
    ('id: a\ntables: []\n', "inline"), ('id: a\ntables:\n- file: b.csv\n  kind: light\n  caption: "c"\n', "not indented"), ("id: [a\n", "broken"),
])
def test_a_list_in_another_form_is_left_alone_and_the_lines_are_given(text, what):
    with pytest.raises(ValueError, match="(?s)yourself.*- file: seed-life.csv"):
        with_table(text, "seed-life.csv", "seed-life", "Years")


def test_keys_after_the_tables_and_comments_stay_where_they_are():
    text = 'id: a\ntables:  # read in 2026\n  - file: b.csv\n    kind: light\n    caption: "c"\n\n# why\nnotes: "n"\n'
    assert with_table(text, "d.csv", "seed-life", 'Years "kept"') == text.replace('caption: "c"\n', 'caption: "c"\n  - file: d.csv\n    kind: seed-life\n    caption: "Years \\"kept\\""\n')


def test_other_files_that_are_broken_do_not_stop_a_table(small):
    """A crop file without a names key, a source that is a list, a file that is no YAML: the table is checked for itself all the same."""
    small.change("crops/alpha.yml", "names:", "nams:")
    for name, text in (("broken-list", "- a\n"), ("broken-yaml", "id: [\n")):
        folder = small.folder / "data" / "sources" / name
        folder.mkdir()
        (folder / "source.yml").write_text(text, encoding="utf-8")
    file = small.file("theirs.csv", "Crop,Years\nBeta leaf,2\n")
    assert small.run("import-table", file, *LIFE) == 0, small.out
    assert "Not yet compared with other files" in small.out and "data/crops/alpha.yml" in small.out
    assert small.run("suggest", "beta", "--quantity", "seed_life_years") == 0 and "Left out, since they have problems" in small.err
    assert small.run("new", "crop", "delta") == 0
    small.change("quantities.yml", "quantities:", "quantity:")
    for words in (["import-table", file, *LIFE, "--replace"], ["suggest", "beta"], ["new", "crop", "epsilon"]):
        assert small.run(*words) in (1, 2) and "quantities.yml" in small.err + small.out
