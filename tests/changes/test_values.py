"""Every kind of change is told in readers' words, in both directions, values and wording counted apart."""

import pytest

from .conftest import one

ALPHA, BETA = "crops/alpha.yml", "crops/beta.yml"


def test_a_temperature_in_both_units_with_sources_and_evidence(change):
    report = change((ALPHA, "optimum_low_c: {value: 15.5, sources: [table-one]}", 'optimum_low_c: {value: 18, sources: [table-two], departs: "Measured so in our own beds."}'))
    found = one(report, kind="value")
    assert (found.name, found.what) == ("Alpha bean", "Best range, low end")
    assert found.shown == "15.5 → 18 °C (60 → 64 °F)"
    assert found.sources_added == (("table-two", "Invented College, 2005"),) and found.sources_dropped == (("table-one", "Invented Extension, 1999"),)
    assert (found.evidence_before, found.evidence_after) == ("single family", "departs")
    assert (found.before, found.after, found.words_before) == ("15.5", "18", "15.5 °C (60 °F)")
    assert (found.outside, found.span, found.reason) == ("moves outside", "15.6 °C (60 °F)", "Measured so in our own beds.")
    assert one(report, kind="wording").what == "Best range, low end, reason for departing"
    assert report.summary == "1 value and 1 text of 1 crop change; 1 value moves outside what is printed."


def test_the_same_change_back_comes_back_inside(change):
    report = change((ALPHA, "optimum_low_c: {value: 15.5, sources: [table-one]}", 'optimum_low_c: {value: 18, sources: [table-two], departs: "Measured so in our own beds."}'), back=True)
    found = one(report, kind="value")
    assert found.shown == "18 → 15.5 °C (64 → 60 °F)" and found.outside == "comes back inside" and found.reason == ""
    assert report.summary.endswith("1 value comes back inside what is printed.")


def test_a_value_outside_without_a_reason_is_told_though_the_check_refuses_it(change):
    report = change((ALPHA, "minimum_c: {value: 10,", "minimum_c: {value: 4,"))
    found = one(report, kind="value")
    assert found.outside == "moves outside" and found.reason == "" and found.span == "10 °C (50 °F)"


def test_a_value_that_stays_outside(change):
    found = one(change((BETA, "maximum_c: {value: 28,", "maximum_c: {value: 27,")), kind="value")
    assert found.outside == "stays outside" and found.reason.startswith("Measured: none came up")


@pytest.mark.parametrize(("file", "old", "new", "what", "shown"), [
    (ALPHA, "seed_life_years: {value: 3,", "seed_life_years: {value: 2,", "Seed life", "about 3 years → about 2 years"),
    (ALPHA, "{low: 13, high: 25,", "{low: 13, high: 20,", "Sowing depth", "13–25 mm (½–1 in) → 13–20 mm (½–¾ in)"),
    (ALPHA, "season: {choice: warm,", "season: {choice: cool,", "Season", "warm → cool"),
    (BETA, "seed_life_years: {value: 4, sources: [table-two]}", "light: {choice: dark, sources: [table-two]}", "Light", "no value → comes up best in the dark: cover it"),
])  # fmt: skip
def test_other_quantities_in_their_own_words(change, file, old, new, what, shown):
    assert one(change((file, old, new)), what=what).shown == shown


def test_weeks_are_told_from_the_frost(change, project):
    project.edit(BETA, "seed_life_years:", "timing:\n  sow_indoors_weeks: {low: -8, high: -6, sources: [table-two]}\nseed_life_years:")
    found = one(change((BETA, "low: -8", "low: -7")), kind="value")
    assert found.shown == "6–8 weeks before the average last frost → 6–7 weeks before the average last frost"


def test_a_value_removed_and_added(change):
    line = "seed_life_years: {value: 3, sources: [table-two]}\n"
    gone = one(change((ALPHA, line, "")), kind="value")
    assert gone.shown == "about 3 years → no value" and gone.evidence_after == "" and gone.sources_dropped[0][0] == "table-two"


def test_sources_alone_are_a_value_and_their_order_is_told(change):
    found = one(change((ALPHA, "sources: [table-one, table-two]", "sources: [table-two, table-one]")), kind="value")
    assert found.shown == "10 °C (50 °F), unchanged; its sources stand in another order" and not found.sources_added


@pytest.mark.parametrize(("old", "new", "what"), [
    ("came up two days sooner", "came up three days sooner", "Treatments, Soaking, text"),
    ('"first bean"', '"early bean"', "Names, other names, number 1"),
    ('common: "Alpha bean"', 'common: "Alpha pea"', "Names, common name"),
])  # fmt: skip
def test_wording(change, old, new, what):
    report = change((ALPHA, old, new))
    assert one(report, kind="wording").what == what and report.counts["values"] == 0
    assert report.summary == "1 text of 1 crop changes."


def test_a_long_text_is_told_by_what_changed(change):
    words = " ".join(f"word{n}" for n in range(80))
    report = change((ALPHA, "Soaked seed came up two days sooner in one trial.", f"{words}."), (ALPHA, "word40 ", "word40 not "), back=False)
    assert report.counts["texts"] == 1
    report = change((ALPHA, "word60 ", "word60 never "))
    found = one(report, kind="wording")
    assert found.shown == "“… word57 word58 word59 word60 word61 word62 word63 word64 …” → “… word57 word58 word59 word60 never word61 word62 word63 word64 …”"
    assert "word0 " in found.before  # the whole stays in the data of the report


@pytest.mark.parametrize(("file", "old", "new", "kind", "name", "what", "shown"), [
    ("quantities.yml", "lowest: 28, highest: 80", "lowest: 27, highest: 80", "value", "Quantities and choices", "Table columns, min f, lowest", "28 → 27"),
    ("place.yml", 'last_frost: "05-08"', 'last_frost: "05-09"', "value", "The place", "Last frost", "05-08 → 05-09"),
    ("library.yml", "lending_line_percent: 70", "lending_line_percent: 60", "value", "The library", "Lending line percent", "70 → 60"),
    ("seed-oil.yml", "percent: 30.5", "percent: 31", "value", "Oil in seed", "Beta leaf, percent", "30.5 → 31"),
    ("seed-oil.yml", "percent: 30.5, sources: [from memory]", "percent: 30.5, sources: [table-two]", "value", "Oil in seed", "Beta leaf, sources", ""),
    ("other-kinds.yml", '"Gamma root"', '"Gamma tuber"', "wording", "Kinds without a page", "Gamma, name", "“Gamma root” → “Gamma tuber”"),
    ("cautions.yml", "Take a jar out of the cold some hours", "Take a jar out of the cold one day", "wording", "Cautions", "Storage, number 2, text", None),
    ("figures.yml", "alpha-10c: {value: 30,", "alpha-10c: {value: 31,", "value", "Figures that guides quote", "Table one, alpha 10c, value", "30 → 31"),
    ("glossary.yml", "The skin of a seed.", "A seed’s skin.", "wording", "Words of the trade", "Seed coat, definition", "“The skin of a seed.” → “A seed’s skin.”"),
    ("guides.yml", "Should I soak it, and for how long?", "Should I soak it?", "wording", "Titles of guides", "Soaking, question", "“Should I soak it, and for how long?” → “Should I soak it?”"),
    ("docs/guides/index.md", "Read the date, measure the warmth, sow, and look every day.", "Read the date.", "wording", "The guide From packet to seedling", "text changed", None),
    ("posters.yml", 'title: "Is it still good?"', 'title: "Is it good still?"', "wording", "Words of posters", None, None),
    ("treatments/soak.yml", 'name: "Soaking"', 'name: "A soak"', "wording", "A soak", "Name", "“Soaking” → “A soak”"),
    ("treatments/soak.yml", "grade: trial", "grade: advice", "value", "Soaking", "Evidence, number 1, grade", "trial → advice"),
    ("sources/table-two/source.yml", 'title: "Seed life and depth"', 'title: "Seed life"', "wording", "Invented College, 2005", "Title", "“Seed life and depth” → “Seed life”"),
    ("sources/table-one/source.yml", "action: leave-out", "action: use-as-printed", "value", "Invented Extension, 1999", "Table days.csv, doubts, Beta, f95, action", "leave-out → use-as-printed"),
    ("sources/table-two/source.yml", "family: table-two", "family: table", "what counts", "Invented College, 2005", "What counts: family", "table-two → table"),
    ("sources/table-two/source.yml", "family: table-two", "family: table-two\nhistorical: true", "what counts", "Invented College, 2005", "What counts: historical", "not historical → historical"),
])  # fmt: skip
def test_everything_else_by_its_path_in_words(change, file, old, new, kind, name, what, shown):
    report = change((file, old, new))
    found = next(c for c in report.changes if c.kind == kind)
    assert found.name == name and (what is None or found.what == what) and (shown is None or found.shown == shown)


def test_rules_of_the_trade_name_their_unit(change):
    found = one(change(("quantities.yml", 'name: "Giving up"\n    unit: times\n    value: 2', 'name: "Giving up"\n    unit: times\n    value: 3')), kind="value")
    assert found.shown == "2 → 3 times"


def test_times_of_a_treatment(change, project):
    project.edit("treatments/soak.yml", "cautions: []", 'cautions: []\ntimes:\n  - id: usual\n    name: "Usual"\n    steps:\n      - {label: "in water", text: "Into water.", lasts: {low: 8, high: 12, unit: hours}, at_c: {low: 20, high: 25}, sources: [table-two]}\n      - {label: "sow", text: "Sow.", sources: [table-two]}')
    report = change(("treatments/soak.yml", "high: 12", "high: 10"), ("treatments/soak.yml", "at_c: {low: 20", "at_c: {low: 18"))
    assert {(c.what, c.shown) for c in report.changes} == {("Times, Usual, steps, in water, lasts, high", "12 → 10"), ("Times, Usual, steps, in water, temperature, low", "20 °C (68 °F) → 18 °C (64 °F)")}


def test_what_counts_changes_the_evidence_for_values_that_stay(change):
    report = change(("sources/table-two/source.yml", "family: table-two", "family: table-two\nhistorical: true"))
    assert {(c.name, c.what) for c in report.of_kind("evidence")} >= {("Alpha bean", "Seed life"), ("Beta leaf", "Seed life")}
    assert report.summary.startswith("What counts changes in 1 source; the evidence for 4 values changes") and report.counts["values"] == 0


def test_a_printed_cell_is_told_as_suspicious_with_its_place(change):
    report = change(("sources/table-two/life.csv", "Alpha,alpha,3,3,3", "Alpha,alpha,4,4,4"))
    cells = report.of_kind("printed cell")
    assert cells[0].what == "Years (life.csv), row 1 “Alpha”, column years_as_printed" and cells[0].shown == "“3” → “4”" and len(cells) == 3
    moved = one(report, kind="evidence")
    assert (moved.name, moved.what, moved.outside, moved.span) == ("Alpha bean", "Seed life", "moves outside", "about 4 years")
    assert "3 printed cells differ, which a printed table never should" in report.summary


def test_rows_come_and_go(change):
    report = change(("sources/table-one/bands.csv", "Gamma,gamma,40,,,,90,\n", ""))
    found = one(report, kind="printed cell")
    assert found.what == "Minimum, optimum and maximum (bands.csv), row 3 “Gamma”" and found.shown.startswith("row removed: Gamma, gamma, 40")


def test_our_own_columns_are_no_printed_cells(change):
    report = change(("sources/table-one/bands.csv", "Gamma,gamma,40,,,,90,", "Gamma,,40,,,,90,a remark"))
    assert {(c.kind, c.what.rpartition(", ")[2]) for c in report.changes} == {("value", "taken for the crop"), ("wording", "remark on the row")}


def test_tables_added_removed_and_renamed(change):
    entry = "  - file: depth.csv\n    kind: sowing-depth\n    caption: \"Depth\"\n"
    gone = change(("sources/table-two/source.yml", entry, ""), ("sources/table-two/depth.csv", "crop_as_printed", None))
    assert one(gone, kind="removed").shown == "Depth (depth.csv), 1 rows"


def test_a_crop_added_and_removed(change, project):
    text = (project.data / BETA).read_text(encoding="utf-8").replace("id: beta", "id: zeta").replace("Beta leaf", "Zeta root").replace("cool", "warm").replace("herb", "flower").replace("1.5", "9").replace("28", "33").replace("value: 4", "value: 9").replace("Beta inventa", "Zeta zeta")
    report = change(("crops/zeta.yml", None, text))
    assert one(report, kind="added").name == "Zeta root" and report.summary == "1 crop is added."
    assert one(change(("crops/zeta.yml", "id", None)), kind="removed").what == "crop"


def test_a_new_crop_outside_the_published_span_stands_out(change, project):
    text = (project.data / BETA).read_text(encoding="utf-8").replace("id: beta", "id: gamma").replace("Beta leaf", "Gamma root").replace("cool", "warm").replace("1.5", "4.5").replace("sources: [table-two]", "sources: [common practice]").replace("Measured: none came up", "Nothing came up")
    report = change(("crops/gamma.yml", None, text), ("other-kinds.yml", "gamma: {", "delta: {"))
    found = one(report, outside="moves outside")
    assert (found.name, found.what, found.shown) == ("Gamma root", "Maximum soil temperature", "no value → 28 °C (82 °F)") and found.span == "32.2 °C (90 °F)"


def test_a_crop_renamed_keeps_its_changes(change, project):
    text = (project.data / BETA).read_text(encoding="utf-8").replace("id: beta", "id: beta-leaf").replace("value: 1.5", "value: 2")
    report = change(("crops/beta-leaf.yml", None, text), (BETA, "id", None), ("sources/table-one/bands.csv", "Beta,beta,", "Beta,beta-leaf,"), ("sources/table-one/days.csv", "Beta,beta,", "Beta,beta-leaf,"), ("sources/table-two/life.csv", "Beta,beta,", "Beta,beta-leaf,"), ("seed-oil.yml", "beta:", "beta-leaf:"))
    assert one(report, kind="renamed").shown == "beta → beta-leaf"
    assert one(report, area="crop", kind="value").shown == "1.5 → 2 °C (35 → 36 °F)"
    assert not report.of_kind("printed cell")


def test_a_source_renamed_is_no_change_of_what_cites_it(change, project):
    files = {f"sources/one/{path.name}": path.read_text(encoding="utf-8").replace("id: table-one", "id: one") for path in (project.data / "sources" / "table-one").iterdir()}
    edits = [(name, None, text) for name, text in files.items()] + [(f"sources/table-one/{name.rpartition('/')[2]}", "x", None) for name in files]
    for crop in (ALPHA, BETA):
        text = (project.data / crop).read_text(encoding="utf-8").replace("table-one", "one")
        edits.append((crop, None, text))
    report = change(*edits)
    assert one(report, kind="renamed").shown == "table-one → one" and report.changes == (one(report, kind="renamed"),)


def test_form_only(change):
    report = change((ALPHA, "kind: vegetable", "# a comment\nkind: vegetable"), (BETA, "{value: 4, sources: [table-two]}", "{sources: [table-two],   value: 4.0}"))
    assert report.changes == () and report.form_only == ("crops/alpha.yml", "crops/beta.yml")
    assert report.summary == "No value and no text changes; 2 files differ in form only."


def test_form_of_a_table_only(change):
    report = change(("sources/table-two/life.csv", "Alpha,alpha,3,3,3", 'Alpha,"alpha",3,3,3'))
    assert report.changes == () and report.form_only == ("sources/table-two/life.csv",)


def test_nothing_changes(change):
    report = change()
    assert report.summary == "Nothing changes." and report.changes == () and report.form_only == ()


def test_a_new_release_is_told(change):
    report = change(("releases.yml", "releases:", 'releases:\n  - version: "2026.12"\n    date: "2026-12-01"\n    text: "A release to see."'))
    assert one(report, kind="added").shown == "2026.12" and report.summary == "1 release is added."


def test_values_and_texts_elsewhere_are_counted_apart_from_crops(change):
    report = change((ALPHA, "optimum_c: {value: 24,", "optimum_c: {value: 23.5,"), ("place.yml", 'last_frost: "05-08"', 'last_frost: "05-09"'))
    assert report.summary.startswith("1 value of 1 crop changes; 1 value elsewhere changes")
