"""Whole stories in a scratch repository: a newcomer mends a value, a newcomer slips ten times, a reviewer sees a value leave the published span."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from html import unescape

import pytest

from build_tools.check import check_data
from build_tools.printers import as_text

GIT = {"GIT_AUTHOR_NAME": "A", "GIT_AUTHOR_EMAIL": "a@example.org", "GIT_COMMITTER_NAME": "A", "GIT_COMMITTER_EMAIL": "a@example.org", "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"}
TOMATO = "data/crops/tomato.yml"


def git(repository, *words):
    return subprocess.run(["git", *words], cwd=repository, check=True, capture_output=True, text=True, env={**os.environ, **GIT}).stdout


def command(repository, *words):
    """Run one of the project's commands in the repository."""
    return subprocess.run([sys.executable, "-m", "build_tools.commands", *words], cwd=repository, capture_output=True, text=True, encoding="utf-8", env={**os.environ, **GIT, "PYTHONIOENCODING": "utf-8"})


@pytest.fixture(scope="module")
def original(root, tmp_path_factory):
    """A scratch repository with the whole project in its first commit."""
    repository = tmp_path_factory.mktemp("story") / "reference"
    for name in git(root, "ls-files", "-co", "--exclude-standard", "-z").split("\0"):
        if name and (root / name).is_file() and not name.startswith(("tests/science", "tests/sheets", "tests/site")):
            (repository / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(root / name, repository / name)
    git(repository, "init", "-q", "-b", "main")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "The reference")
    return repository


@pytest.fixture
def repository(original):
    """The same, as it was committed."""
    yield original
    git(original, "checkout", "-q", "main")
    git(original, "reset", "-q", "--hard", "main")
    git(original, "clean", "-qfd", "data")


def edit(repository, file, old, new):
    path = repository / file
    text = path.read_text(encoding="utf-8")
    assert text.count(old) >= 1, f"{file} no longer holds {old!r}"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_a_newcomer_mends_a_value(repository, tmp_path):
    """Tomato's best range begins at 60 °F in one print of the table and at 70 °F in another; a newcomer goes by the other."""
    git(repository, "checkout", "-q", "-b", "tomato")
    edit(repository, TOMATO, "optimum_low_c: {value: 15.5, sources: [osu-harrington-2013]}", "optimum_low_c: {value: 21, sources: [aces-anr-1061]}")
    git(repository, "commit", "-qam", "Tomato: best range from 70 °F, as Alabama prints it")

    checked = command(repository, "check", "--format", "annotations", "--strict")
    assert (checked.returncode, checked.stdout) == (0, "")
    assert command(repository, "fix", "--check").returncode == 0

    report = command(repository, "changes", "main", "tomato", "--format", "json")
    assert report.returncode == 0, report.stderr
    told = json.dumps(json.loads(report.stdout), ensure_ascii=False)
    assert "optimum_low_c" in told and "15.5" in told and "aces-anr-1061" in told and "osu-harrington-2013" in told
    words = command(repository, "changes", "main", "tomato").stdout
    assert words.startswith("1 value of 1 crop changes.") and "Best range, low end: 15.5 → 21 °C (60 → 70 °F)" in words and "Outside what is printed" not in words
    assert "crops/tomato.json" in words and "crops/leek.json" not in words

    built = command(repository, "build", "--output", str(tmp_path / "site"))
    assert built.returncode == 0, built.stderr
    page = unescape(re.sub(r"<[^>]+>", "", (tmp_path / "site/crops/tomato/index.html").read_text(encoding="utf-8")))
    assert "21–29.5 °C (70–85 °F)" in page and "15.5–29.5 °C (60–85 °F)" not in page.split("Evidence")[0].split("When to sow")[0][:2000]
    value = json.loads((tmp_path / "site/api/v1/crops/tomato.json").read_text(encoding="utf-8"))["crop"]["values"]["optimum_low_c"]
    assert value["value"] == 21 and value["sources"] == ["aces-anr-1061"]


MISTAKES = [
    ("°F where °C belongs", TOMATO, "minimum_c: {value: 10,", "minimum_c: {value: 50,", 11, "plausible", ["minimum_c is 50", "0 to 25", "50 °F is 10."]),
    ("a unit beside the number", TOMATO, "minimum_c: {value: 10,", 'minimum_c: {value: "10 °C",', 11, "wrong-type", ['found "10 °C"', "without quotes and without a unit"]),
    ("a comma for the point", TOMATO, "value: 15.5,", "value: 15,5,", 12, "yaml-number", ['"5" stands behind a comma', "have a point, such as 15.5"]),
    ("a misspelt key", TOMATO, "maximum_c:", "maxmum_c:", 15, "unknown-key", ['"maxmum_c"', 'Did you mean "maximum_c"?']),
    ("a misspelt source", TOMATO, "sources: [usu-wasatch-2009]", "sources: [usu-wasatsh-2009]", 19, "unknown-source", ['"usu-wasatsh-2009"', 'Did you mean "usu-wasatch-2009"?']),
    ("a tab", TOMATO, "  maximum_c:", "\tmaximum_c:", 15, "yaml-syntax", ["indent with spaces"]),
    ("a quote forgotten", TOMATO, 'common: "Tomato"', 'common: "Tomato', 5, "yaml-syntax", ["quotes"]),
    ("brackets forgotten", TOMATO, "sources: [isu-guide-2017, ssn-au-light]", "sources: isu-guide-2017", 18, "wrong-type", ["should be a list", "Write [isu-guide-2017]."]),
    ("a value of the newcomer's own", TOMATO, "seed_life_years: {value: 4,", "seed_life_years: {value: 9,", 16, "departs-without-reason", ["seed_life_years is 9", "outside what the sources print", "departs:"]),
    ("a table saved with semicolons", "data/sources/iowa-state-1999/seed-life.csv", ",", ";", 1, "csv-header", ["separated by semicolons", "commas"]),
    ("a misspelt crop in a table", "data/sources/iowa-state-1999/seed-life.csv", ",tomato,", ",tomatoe,", None, "unknown-crop-id", ['"tomatoe"', 'Did you mean "tomato"?']),
]


@pytest.mark.parametrize("file, old, new, line, rule, words", [m[1:] for m in MISTAKES], ids=[m[0] for m in MISTAKES])
def test_a_newcomer_slips_and_is_told_how_to_mend_it(file, old, new, line, rule, words, repository):
    if rule == "csv-header":
        path = repository / file
        path.write_text(path.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")
    else:
        edit(repository, file, old, new)
    _, problems = check_data(repository)
    told = [p for p in problems if p.rule == rule and p.file == file and (line is None or p.line == line)]
    assert told, as_text(problems)
    text = as_text(told[:1])
    assert all(word in text for word in words), text
    assert len(problems) <= 4, as_text(problems)  # one slip does not bury its cause


def test_a_reviewer_sees_a_value_leave_the_published_span(repository):
    git(repository, "checkout", "-q", "-b", "hotter")
    edit(repository, TOMATO, "maximum_c: {value: 35,", "maximum_c: {value: 45,")
    git(repository, "commit", "-qam", "Tomato comes up in hotter soil")
    stopped = command(repository, "check")
    assert stopped.returncode == 1
    assert "maximum_c is 45 °C (113 °F), outside what the sources print: 30 to 35 °C (86 to 95 °F)." in stopped.stdout and f"{TOMATO}:15:3  departs-without-reason" in stopped.stdout
    assert "see data/sources/" in stopped.stdout  # the other places, where it is printed
    report = command(repository, "changes", "main", "hotter", "--format", "markdown")
    assert report.returncode == 0, report.stderr
    first, rest = report.stdout.split("\n", 1)
    assert first == "**1 value of 1 crop changes; 1 value moves outside what is printed.**"
    assert "**35 → 45 °C (95 → 113 °F)**" in rest and "No reason is given." in rest

    edit(repository, TOMATO, "maximum_c: {value: 45,", 'maximum_c: {value: 45, departs: "An invented trial in a greenhouse saw it.",')
    command(repository, "fix")
    git(repository, "commit", "-qam", "Say why")
    assert command(repository, "check", "--strict").returncode == 0
    report = command(repository, "changes", "main", "hotter", "--format", "markdown")
    assert "1 value moves outside what is printed." in report.stdout.split("\n", 1)[0] and "An invented trial in a greenhouse saw it." in report.stdout
    assert "crops/tomato" in report.stdout  # and now the pages touched are known
