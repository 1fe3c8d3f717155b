"""Advisories in the OSV format, held against locked versions: two published ones, and invented ones for what is easily got wrong.

The rules are those of the OSV schema (ossf.github.io/osv-schema, from memory): events in the order of their versions, "fixed" is free of the fault,
"last_affected" is not, "0" comes before every version.
"""

import json
import zipfile
from datetime import date
from pathlib import Path

import pytest

from build_tools.commands import packages as command
from build_tools.lock_files import Pin
from build_tools.packages.advisories import held_against

TODAY = date(2026, 11, 26)
PUBLISHED = Path(__file__).parent / "osv"


def advisory(number=1, name="foo-bar", ecosystem="PyPI", ranges=None, versions=None, modified="2026-11-20T10:00:00Z", **more):
    """An invented advisory. `ranges`: one list of (kind, version) each."""
    affected = {"package": {"ecosystem": ecosystem, "name": name}}
    if ranges is not None:
        affected["ranges"] = [{"type": "ECOSYSTEM", "events": [{kind: at} for kind, at in events]} for events in ranges]
    if versions is not None:
        affected["versions"] = versions
    return {"id": f"INVENTED-2026-{number}", "modified": modified, "summary": f"Fault {number}", "affected": [affected], **more}


@pytest.fixture
def held(tmp_path):
    """What is found in these advisories for one version."""

    def hold(entries, version, name="foo-bar"):
        folder = tmp_path / "held"
        folder.mkdir(exist_ok=True)
        for number, entry in enumerate(entries):
            (folder / f"{number}.json").write_text(json.dumps(entry), encoding="utf-8")
        return held_against(folder, {name: [version]}, TODAY)

    return hold


# Published: github.com/github/advisory-database, GHSA-h5c8-rqwp-cp95 (CVE-2024-22195), and github.com/pypa/advisory-database, PYSEC-2021-142
# (CVE-2020-14343); their facts as they stand there, without the descriptions.
@pytest.mark.parametrize("name, version, found", [
    ("jinja2", "3.1.2", ("GHSA-h5c8-rqwp-cp95", "3.1.3")), ("jinja2", "3.1.3", None), ("jinja2", "3.1.3rc1", ("GHSA-h5c8-rqwp-cp95", "3.1.3")), ("jinja2", "2.0rc1", ("GHSA-h5c8-rqwp-cp95", "3.1.3")),
    ("pyyaml", "5.3.1", ("PYSEC-2021-142", "5.4")), ("pyyaml", "5.4", None), ("pyyaml", "5.4b2", ("PYSEC-2021-142", "5.4")), ("pyyaml", "6.0.4", None), ("markupsafe", "1.0", None),
])
def test_published_advisories(name, version, found):
    read = held_against(PUBLISHED, {name: [version]}, TODAY)
    assert (read.advisories, read.newest, read.broken) == (2, date(2024, 1, 11), [])
    assert [(f.ids[0], f.fixed) for f in read.findings] == ([found] if found else [])


def test_the_published_summary_and_aliases():
    found, = held_against(PUBLISHED, {"jinja2": ["3.1.2"]}, TODAY).findings
    assert found.ids == ("GHSA-h5c8-rqwp-cp95", "CVE-2024-22195") and found.summary.startswith("Jinja vulnerable to HTML attribute injection")


FROM_1_TO_2 = [[("introduced", "1.0"), ("fixed", "2.0")]]
TWO_LINES = [[("introduced", "0"), ("fixed", "1.5.3")], [("introduced", "2.0"), ("fixed", "2.1")]]
ONE_LIST = [[("fixed", "2.1"), ("introduced", "2.0"), ("fixed", "1.5.3"), ("introduced", "0")]]  # the same, in one range and not in order
UP_TO = [[("introduced", "0"), ("last_affected", "1.4")]]


@pytest.mark.parametrize("ranges, version, fixed", [
    (FROM_1_TO_2, "0.9", None), (FROM_1_TO_2, "1.0", "2.0"), (FROM_1_TO_2, "1.0.0", "2.0"), (FROM_1_TO_2, "1.0rc1", None), (FROM_1_TO_2, "1.0.post1", "2.0"),
    (FROM_1_TO_2, "2.0rc1", "2.0"), (FROM_1_TO_2, "2.0.dev3", "2.0"), (FROM_1_TO_2, "2.0", None), (FROM_1_TO_2, "2.0.0", None), (FROM_1_TO_2, "10.0", None), (FROM_1_TO_2, "1!1.5", None),
    *((lines, version, fixed) for lines in (TWO_LINES, ONE_LIST) for version, fixed in (("0.0.1a1", "1.5.3"), ("1.5.2", "1.5.3"), ("1.5.3", None), ("1.9", None), ("2.0", "2.1"), ("2.0.9", "2.1"), ("2.1", None))),
    (UP_TO, "1.4", ""), (UP_TO, "1.4.0", ""), (UP_TO, "1.4.1", None), (UP_TO, "1.4.post1", None), (UP_TO, "1.4rc1", ""),
    ([[("introduced", "0")]], "99", ""),
    ([[("introduced", "3")]], "2.9", None), ([[("introduced", "3")]], "3.0", ""),
    ([[("introduced", "0"), ("limit", "2")]], "1.9", ""), ([[("introduced", "0"), ("limit", "2")]], "2", None), ([[("introduced", "0"), ("limit", "*")]], "7", ""),
    ([[("introduced", "1"), ("fixed", "1")]], "1", None), ([[("introduced", "1"), ("fixed", "2"), ("introduced", "2")]], "2", ""),
])
def test_ranges(held, ranges, version, fixed):
    read = held([advisory(ranges=ranges)], version)
    assert not read.broken and [(f.fixed, f.unsure) for f in read.findings] == ([] if fixed is None else [(fixed, "")])


@pytest.mark.parametrize("versions, version, hit", [(["1.0"], "1.0", True), (["1.0"], "1.0.0", True), (["1.0.0"], "1.0", True), (["1.0"], "1.0.1", False), (["1.0rc1"], "1.0", False), (["2004d", "1.0"], "1.0", True), ([], "1.0", False)])
def test_versions_that_are_named_one_by_one(held, versions, version, hit):
    read = held([advisory(versions=versions, ranges=[[("introduced", "5"), ("fixed", "6")]])], version)
    assert [f.fixed for f in read.findings] == (["6"] if hit else [])


@pytest.mark.parametrize("spelling", ["Foo_Bar", "foo.bar", "FOO-BAR", "foo__bar"])
def test_a_name_is_compared_as_pep_503_says(held, spelling):
    assert [f.package for f in held([advisory(name=spelling, ranges=FROM_1_TO_2)], "1.5").findings] == ["foo-bar"]


@pytest.mark.parametrize("ecosystem", ["npm", "Debian:12", "crates.io", "pypi-like", "PYPI", ""])
def test_another_ecosystem_is_another_package(held, ecosystem):
    read = held([advisory(ecosystem=ecosystem, ranges=FROM_1_TO_2)], "1.5")
    assert read.findings == [] and read.advisories == 0 and read.newest is None


def test_another_package_is_another_package(held):
    read = held([advisory(name="foo-bar-baz", ranges=FROM_1_TO_2), advisory(2, name="foo", ranges=FROM_1_TO_2)], "1.5")
    assert read.findings == [] and read.advisories == 2


def test_a_withdrawn_advisory_is_counted_and_not_held_against_anything(held):
    read = held([advisory(ranges=FROM_1_TO_2, withdrawn="2026-11-21T00:00:00Z")], "1.5")
    assert (read.findings, read.withdrawn, read.advisories) == ([], 1, 1)


def test_one_fault_under_several_names_is_told_once(held):
    """Two databases, each with the same alias; a third that only names the second; and a fault of its own."""
    entries = [
        advisory(1, ranges=FROM_1_TO_2, aliases=["CVE-0000-1"]), advisory(2, ranges=[[("introduced", "0"), ("fixed", "2.0.1")]], aliases=["CVE-0000-1", "X-9"]),
        advisory(3, ranges=FROM_1_TO_2, aliases=["X-9"]), advisory(4, ranges=FROM_1_TO_2),
    ]
    for order in (entries, entries[::-1], [entries[2], entries[0], entries[1], entries[3]]):
        first, second = held(order, "1.5").findings
        assert first.ids == ("INVENTED-2026-1", "INVENTED-2026-2", "INVENTED-2026-3", "CVE-0000-1", "X-9") and first.fixed == "2.0.1", "the version that satisfies all"
        assert second.ids == ("INVENTED-2026-4",)


def test_two_locked_versions_are_judged_one_by_one(tmp_path):
    (tmp_path / "a.json").write_text(json.dumps(advisory(ranges=FROM_1_TO_2)))
    assert [f.version for f in held_against(tmp_path, {"foo-bar": ["1.5", "2.5"]}, TODAY).findings] == ["1.5"]


def test_several_parts_of_one_advisory(held):
    entry = advisory(ranges=[[("introduced", "3"), ("fixed", "4")]])
    entry["affected"] += advisory(ranges=FROM_1_TO_2)["affected"] + advisory(name="foo-bar", ecosystem="npm", ranges=[[("introduced", "0")]])["affected"]
    assert [f.fixed for f in held([entry], "1.5").findings] == ["2.0"]
    assert [f.fixed for f in held([entry], "3.5").findings] == ["4"]
    assert held([entry], "2.5").findings == []


@pytest.mark.parametrize("entry, words", [
    (advisory(), "names no versions"),
    ({**advisory(), "affected": [{"package": {"ecosystem": "PyPI", "name": "foo-bar"}, "ranges": [{"type": "GIT", "events": [{"introduced": "0"}]}]}]}, "only commits"),
    (advisory(ranges=[[("introduced", "0"), ("fixed", "v-two")]]), "none of Python's"),
])
def test_what_cannot_be_told_is_not_passed_over(held, entry, words):
    found, = held([entry], "1.5").findings
    assert words in found.unsure
    assert held([entry], "1.5", "another").findings == []


@pytest.mark.parametrize("content, words", [
    ("", "empty"), ("{", "no JSON"), ("[]", "no id"), ("3", "no id"), ('{"id": "X"}', "no day"), ('{"id": "X", "modified": "2026-01-01", "affected": {}}', "no list"),
    ('{"id": "X", "modified": "2026-01-01", "affected": [3]}', "no list"), ('{"id": "X", "modified": "2026-01-01", "affected": [{"package": []}]}', "another form"),
    (json.dumps(advisory(modified="yesterday")), "no date"),
    (json.dumps(advisory()).replace('"name": "foo-bar"}', '"name": "foo-bar"}, "ranges": [{"type": "ECOSYSTEM"}]'), "another form"),
    (json.dumps(advisory()).replace('"name": "foo-bar"}', '"name": "foo-bar"}, "ranges": {"a": 1}'), "another form"),
    (json.dumps(advisory()).replace('"name": "foo-bar"}', '"name": "foo-bar"}, "ranges": [{"type": "ECOSYSTEM", "events": [{"introduced": 1}]}]'), "another form"),
    ("[" * 100_000, "no JSON"),
])
def test_a_broken_file_is_named_and_the_others_are_read(content, words, tmp_path):
    (tmp_path / "bad.json").write_text(content)
    (tmp_path / "good.json").write_text(json.dumps(advisory(ranges=FROM_1_TO_2)))
    read = held_against(tmp_path, {"foo-bar": ["1.5"]}, TODAY)
    assert len(read.broken) == 1 and "bad.json: " in read.broken[0] and words in read.broken[0]
    assert [f.ids for f in read.findings] == [("INVENTED-2026-1",)]


def test_a_folder_in_folders_and_an_archive_say_the_same(tmp_path):
    deep = tmp_path / "all" / "PyPI"
    deep.mkdir(parents=True)
    (tmp_path / "all" / "README.txt").write_text("not read")
    for number in range(3):
        (deep / f"{number}.json").write_text(json.dumps(advisory(number, ranges=FROM_1_TO_2)))
    with zipfile.ZipFile(tmp_path / "all.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        for path in sorted(p for p in (tmp_path / "all").rglob("*") if p.is_file()):
            archive.write(path, path.relative_to(tmp_path))
    folder, zipped = (held_against(tmp_path / name, {"foo-bar": ["1.5"]}, TODAY) for name in ("all", "all.zip"))
    assert folder == zipped and len(folder.findings) == folder.advisories == 3


# The command


PINS = {("foo-bar", "1.5"): (Pin("foo-bar", "1.5", "", ("0" * 64,), 1), "site"), ("other", "1"): (Pin("other", "1", "", ("0" * 64,), 3), "test")}


def told(path, capsys, oldest=30):
    status = command._advisories(path, PINS, TODAY, oldest)
    said = capsys.readouterr()
    return status, said.out, said.err


def test_a_fault_is_told_with_what_mends_it(tmp_path, capsys):
    (tmp_path / "a.json").write_text(json.dumps(advisory(ranges=FROM_1_TO_2, aliases=["CVE-0000-1"])))
    (tmp_path / "b.json").write_text(json.dumps(advisory(2, name="other", ranges=UP_TO)))
    status, out, err = told(tmp_path, capsys)
    assert (status, err) == (1, "")
    assert "foo-bar 1.5  INVENTED-2026-1, CVE-0000-1\n    Fault 1\n    Fixed in 2.0.\n" in out
    assert "other 1  INVENTED-2026-2  (tests only)\n    Fault 2\n    No version without it is named.\n" in out
    assert "2 locked versions held against 2 advisories for PyPI (0 of them withdrawn), the newest changed on 2026-11-20, 6 days ago: 2 faults found." in out


def test_all_well_is_said_only_of_fresh_advisories(tmp_path, capsys):
    (tmp_path / "a.json").write_text(json.dumps(advisory(name="unheard-of", ranges=FROM_1_TO_2)))
    status, out, err = told(tmp_path, capsys)
    assert (status, err) == (0, "") and "none of them is named" in out
    status, out, err = told(tmp_path, capsys, oldest=5)
    assert status == 2 and "too old to rely on" in err and "--oldest" in err


@pytest.mark.parametrize("entries, words", [
    ([], "no advisory for PyPI"), ([advisory(ecosystem="npm")], "no advisory for PyPI"), ([advisory(name="unheard-of", modified="2026-01-01T00:00:00Z", ranges=[])], "too old"),
    ([advisory(name="unheard-of", modified="2126-01-01T00:00:00Z", ranges=[])], "a day after today"),
])
def test_an_empty_or_stale_folder_does_not_pass(entries, words, tmp_path, capsys):
    for number, entry in enumerate(entries):
        (tmp_path / f"{number}.json").write_text(json.dumps(entry))
    status, _, err = told(tmp_path, capsys)
    assert status == 2 and words in err


def test_one_advisory_from_the_future_does_not_make_old_ones_fresh(tmp_path, capsys):
    for number, day in enumerate(("2126-01-01T00:00:00Z", "2026-01-01T00:00:00Z")):
        (tmp_path / f"{number}.json").write_text(json.dumps(advisory(number, name="unheard-of", modified=day, ranges=[])))
    status, _, err = told(tmp_path, capsys)
    assert status == 2 and "too old" in err and "a day after today" in err


def test_broken_files_are_told_and_do_not_pass(tmp_path, capsys):
    (tmp_path / "good.json").write_text(json.dumps(advisory(name="unheard-of", ranges=[])))
    for number in range(12):
        (tmp_path / f"bad{number}.json").write_text("{")
    status, _, err = told(tmp_path, capsys)
    assert status == 2 and "bad0.json: is no JSON" in err and "and 2 more files" in err and "12 files could not be read. Fetch them anew" in err


@pytest.mark.parametrize("make, words", [
    (lambda path: None, "No such file"), (lambda path: path.write_bytes(b"PK\x03\x04 cut"), "neither a folder nor a whole .zip"), (lambda path: path.write_text(""), "neither a folder nor a whole .zip"),
])
def test_a_path_that_is_nothing_of_the_kind(make, words, tmp_path, capsys):
    make(tmp_path / "all.zip")
    status, _, err = told(tmp_path / "all.zip", capsys)
    assert status == 2 and "all.zip" in err and words in err


def test_a_damaged_member_of_an_archive_is_named(tmp_path, capsys):
    path = tmp_path / "all.zip"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("PyPI/one.json", json.dumps(advisory(name="unheard-of", ranges=[])))
        archive.writestr("PyPI/two.json", json.dumps(advisory(2, name="unheard-of", ranges=[])))
    content = path.read_bytes()
    path.write_bytes(content.replace(b"INVENTED-2026-2", b"INVENTED-2026-X", 1))
    status, _, err = told(path, capsys)
    assert status == 2 and "all.zip/PyPI/two.json: is empty, damaged" in err and "one.json" not in err


def test_the_real_locks_stand_against_the_published_examples(root, capsys):
    """Both faults were mended long before the versions that are locked."""
    assert command.main(root, command_options(advisories=PUBLISHED, oldest=100_000)) == 0
    assert "held against 2 advisories for PyPI" in capsys.readouterr().out


def command_options(**given):
    from types import SimpleNamespace

    return SimpleNamespace(**{"renew": False, "advisories": None, "sbom": None, "oldest": 30, "also": [], **given})
