"""The command: what it prints, what it writes, how it ends, and what it leaves alone."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from build_tools.commands.lots import run
from build_tools.problem import Problem
from tests.lots.files import TODAY, file_of, many_lots, row, written


@pytest.fixture(autouse=True)
def loaded(reference, monkeypatch):
    """The data is loaded once for all tests here; the command line itself loads it anew."""
    monkeypatch.setattr("build_tools.commands.lots.load", lambda root: (reference, []))


@pytest.fixture
def command(root, capsys):
    """Function (file, **options) -> (exit status, printed, error stream)."""

    def call(file, **options):
        status = run(root, file, **{"today": TODAY, **options})
        out, err = capsys.readouterr()
        return status, out, err

    return call


def test_a_good_file(tmp_path, command, catalogue):
    raw = file_of(row(tested=TODAY), row(lot="B-2", normal="20"))
    file = tmp_path / "my lots.csv"
    file.write_bytes(raw)
    status, out, err = command(file)
    assert (status, err) == (0, "")
    lines = out.split("\n")
    assert lines[1].startswith("B-2") and lines[2].startswith("A-1"), "those that need action first"
    assert "2 lots read; 1 needs a look. Do not lend unmarked: 1; lend marked: 1. Lending line 70 %." in out
    results = tmp_path / "my lots-results.csv"
    assert results.read_text(encoding="utf-8") == written(raw, file.name, catalogue, 70)[0]
    assert "<!doctype html>" in (tmp_path / "my lots-sheet.html").read_text(encoding="utf-8")
    assert file.read_bytes() == raw
    assert sorted(path.name for path in tmp_path.iterdir()) == ["my lots-results.csv", "my lots-sheet.html", "my lots.csv"], "no temporary file stays"
    if os.name == "posix":
        assert results.stat().st_mode & 0o044 == file.stat().st_mode & 0o044, "readable like any other new file"


def test_some_rows_left_out(tmp_path, command):
    file = tmp_path / "lots.csv"
    file.write_bytes(file_of(row(), row(lot="B-2", normal="99")))
    status, out, err = command(file)
    assert status == 1 and "1 row was left out" in out
    assert err == "lots.csv:3 normal: 99 normal seedlings from 50 seeds cannot be. Check both numbers: seedlings are at most the seeds set.\n"
    assert "99 normal seedlings" in (tmp_path / "lots-sheet.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("raw", [b"", b"PK\x03\x04", file_of(row(normal="99"))])
def test_nothing_to_read_writes_nothing(raw, tmp_path, command):
    file = tmp_path / "lots.csv"
    file.write_bytes(raw)
    status, out, err = command(file)
    assert (status, out) == (2, "") and "lots.csv:" in err and "nothing was written" in err
    assert list(tmp_path.iterdir()) == [file]


def test_a_missing_file_and_wrong_options(tmp_path, command):
    status, _, err = command(tmp_path / "none.csv")
    assert status == 2 and "cannot be read" in err and "Check the name" in err
    for options, said in (({"line": "seventy"}, "Write 0 to 100"), ({"line": "101"}, "Write 0 to 100"), ({"today": "25.11.2026"}, "2026-03-12"), ({"today": "2026-02-30"}, "2026-03-12")):
        status, _, err = command(tmp_path / "none.csv", **options)
        assert status == 2 and said in err


def test_line_and_folder(tmp_path, command):
    file = tmp_path / "lots.csv"
    file.write_bytes(file_of(row(tested=TODAY)))
    status, out, _ = command(file, line="72.5", out=tmp_path / "new" / "folder")
    assert status == 0 and "Lending line 72.5 %" in out
    assert ",72.5,46," in (tmp_path / "new" / "folder" / "lots-results.csv").read_text(encoding="utf-8")


def test_a_folder_that_cannot_be_written_is_named_with_a_remedy(tmp_path, command):
    file = tmp_path / "lots.csv"
    file.write_bytes(file_of(row()))
    (tmp_path / "taken").write_text("a file, not a folder")
    status, _, err = command(file, out=tmp_path / "taken")
    assert status == 2 and "cannot be written" in err and "--out" in err


def test_a_failure_leaves_the_last_results(tmp_path, command, monkeypatch):
    file = tmp_path / "lots.csv"
    file.write_bytes(file_of(row()))
    assert command(file)[0] == 0
    before = (tmp_path / "lots-results.csv").read_bytes()
    file.write_bytes(file_of(row(normal="20")))

    def broken(results):
        yield "half a line"
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("build_tools.commands.lots.csv_lines", broken)
    status, _, err = command(file)
    assert status == 2 and "No space left" in err
    assert (tmp_path / "lots-results.csv").read_bytes() == before
    assert len(list(tmp_path.iterdir())) == 3


def test_the_file_that_was_read_is_never_written_over(tmp_path, command):
    file = tmp_path / "x.csv"
    file.write_bytes(file_of(row()))
    os.link(file, tmp_path / "x-results.csv")
    status, _, err = command(file)
    assert status == 2 and "is the file that was read" in err
    assert file.read_bytes() == file_of(row())


def test_the_demo_is_marked_invented_and_kept_out_of_the_data(root, tmp_path, command):
    demo = root / "data" / "demo" / "lots.csv"
    before = sorted(demo.parent.iterdir())
    assert command(demo, out=tmp_path)[0] == 0
    assert "Invented example" in (tmp_path / "lots-sheet.html").read_text(encoding="utf-8")
    assert sorted(demo.parent.iterdir()) == before


def test_data_with_problems_is_said(tmp_path, command, monkeypatch):
    monkeypatch.setattr("build_tools.commands.lots.load", lambda root: (None, [Problem("data/library.yml", 3, 1, "rule", "Wrong.", "Mend it.")]))
    file = tmp_path / "lots.csv"
    file.write_bytes(file_of(row()))
    status, out, err = command(file)
    assert (status, out) == (2, "") and "data/library.yml:3:1" in err and "mend them first" in err


def test_results_of_a_file_in_the_data_folder_go_into_build(tmp_path):
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "lots.csv").write_bytes(file_of(row()))
    assert run(tmp_path, tmp_path / "data" / "lots.csv", today=TODAY) == 0
    assert sorted(path.name for path in (tmp_path / "build" / "lots").iterdir()) == ["lots-results.csv", "lots-sheet.html"]
    assert len(list((tmp_path / "data").iterdir())) == 1


def test_a_long_list_is_cut_on_the_terminal_and_says_where_the_rest_is(tmp_path, command):
    file = tmp_path / "many.csv"
    file.write_bytes(many_lots(90))
    status, out, err = command(file)
    assert (status, err) == (0, "") and "The first 60 lots" in out and "All 90 are in:" in out
    assert out.count("\nL0000") == 60 and str(tmp_path / "many-results.csv") in out


class Terminal:
    """An error stream that is a terminal."""

    def __init__(self):
        self.text = ""

    def isatty(self):
        return True

    def write(self, text):
        self.text += text

    def flush(self):
        pass


def test_a_terminal_gets_progress_and_the_first_of_many_problems(tmp_path, root, monkeypatch):
    now = iter(range(0, 10**9, 7))
    monkeypatch.setattr("build_tools.progress.time.monotonic", lambda: next(now))
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    file = tmp_path / "many.csv"
    file.write_bytes(many_lots(6000) + b"\n".join([row(normal="99").encode()] * 250))
    assert run(root, file, today=TODAY) == 1
    assert " lines read …" in terminal.text and " lots judged …" in terminal.text
    assert terminal.text.count("many.csv:") == 200 and "And 50 more." in terminal.text


def test_from_the_command_line(root, tmp_path):
    file = tmp_path / "lots.csv"
    file.write_bytes(file_of(row(tested=TODAY), row(lot="B-2", normal="99")))
    done = subprocess.run([sys.executable, "-m", "build_tools.commands", "lots", str(file), "--today", TODAY, "--line", "60"], cwd=root, capture_output=True, text=True, encoding="utf-8", env={**os.environ, "PYTHONIOENCODING": "utf-8"})
    assert done.returncode == 1 and "Lending line 60 %" in done.stdout and "B-2" not in done.stdout
    assert done.stderr.startswith("lots.csv:3 normal:")


def test_long_files_take_time_in_proportion(catalogue):
    """Ten times the lots, hardly more than ten times the work: counted in calls, not in seconds."""
    import cProfile
    import pstats

    from tests.lots.files import judged

    calls = []
    for count in (200, 2000):
        raw, profile = many_lots(count), cProfile.Profile()
        profile.enable()
        judged(raw, catalogue)
        profile.disable()
        calls.append(pstats.Stats(profile).total_calls)
    assert calls[1] < 11 * calls[0]
