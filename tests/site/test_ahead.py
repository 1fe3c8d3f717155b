"""Making files in a copy of the process, and keeping what was made: the same bytes, no one left behind, nothing damaged believed."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from types import SimpleNamespace

import pytest

from build_tools import ahead, kept, site_hook
from build_tools.checksums import checksums, difference, read_list
from build_tools.render.sheets import typeset
from build_tools.render.sheets.marks import text
from build_tools.render.sheets.paper import poster_sheet

from .test_build import copy_project, run

linux = pytest.mark.skipif(sys.platform != "linux", reason="processes are copied on Linux only")


@pytest.fixture(params=[pytest.param(True, marks=linux), False], ids=["copied", "threads"])
def way(request, monkeypatch):
    """Both ways of making files ahead. These jobs use no library with threads of its own."""
    monkeypatch.setattr(ahead, "_copies", lambda: request.param)
    yield request.param
    ahead.stop()


def test_every_file_is_given_once_with_its_content(way):
    files = {f"{n}": (lambda n=n: f"text {n}" * n if n % 2 else bytes([n % 256]) * 50_000) for n in range(200)}
    found = list(ahead.begin(files, files).rest())
    assert len(found) == 200 and dict(found) == {name: make() for name, make in files.items()}


def test_what_is_taken_is_not_given_again(way):
    files = {f"{n}": (lambda n=n: f"text {n}") for n in range(100)}
    begun = ahead.begin(files, ["99"])
    for n in range(0, 100, 3):
        assert f"{n}" in begun and begun.take(f"{n}") == f"text {n}" and f"{n}" not in begun
    assert dict(begun.rest()) == {f"{n}": f"text {n}" for n in range(100) if n % 3}


def test_nothing_to_make(way):
    assert list(ahead.begin({}, []).rest()) == []


@pytest.mark.parametrize("place", [0, 30, 59])
def test_an_error_is_raised_where_the_files_are_asked_for(way, place):
    files = {f"{n}": (lambda n=n: 1 // (n - place)) for n in range(60)}
    with pytest.raises(ZeroDivisionError):
        list(ahead.begin(files, files).rest())


@linux
def test_a_copy_that_is_killed_leaves_its_work_to_the_first_process(monkeypatch):
    monkeypatch.setattr(ahead, "_copies", lambda: True)
    ours = os.getpid()
    files = {f"{n}": (lambda n=n: f"{n}" if os.getpid() == ours else time.sleep(60)) for n in range(20)}
    begun = ahead.begin(files, files)
    time.sleep(0.2)  # it sleeps over its first job
    os.kill(begun.process, signal.SIGKILL)
    assert begun.take("7") == "7" and dict(begun.rest()) | {"7": "7"} == {f"{n}": f"{n}" for n in range(20)}


@linux
def test_what_is_not_asked_for_is_ended(monkeypatch):
    monkeypatch.setattr(ahead, "_copies", lambda: True)
    process = ahead.begin({"a": lambda: time.sleep(60)}, ["a"]).process
    ahead.stop()
    with pytest.raises(ProcessLookupError):
        os.kill(process, 0)
    ahead.stop()


def children(process: int) -> list[int]:
    return [int(child) for child in Path(f"/proc/{process}/task/{process}/children").read_text().split()]


def runs(process: int) -> bool:
    try:
        return Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


@linux
@pytest.mark.skipif(not Path("/proc/self/task").exists() or len(os.sched_getaffinity(0)) < 2, reason="one processor: no process is copied")
@pytest.mark.parametrize("how, status", [(signal.SIGKILL, -9), (signal.SIGINT, 130)], ids=["killed", "interrupted"])
def test_a_build_that_ends_early_leaves_no_process_behind(how, status, tmp_path, root):
    project = copy_project(root, tmp_path / "project")
    build = subprocess.Popen([sys.executable, "-m", "build_tools.commands", "build"], cwd=project, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL))
    copies = []
    while build.poll() is None and not copies:
        copies = children(build.pid)
        time.sleep(0.02)
    assert copies, "the build made no copy of itself"
    build.send_signal(how)
    assert build.wait(60) == status
    end = time.monotonic() + 60
    while any(map(runs, copies)) and time.monotonic() < end:
        time.sleep(0.1)
    assert not any(map(runs, copies)) and not (project / "build" / "site").exists()


@pytest.fixture
def folder(tmp_path):
    kept.keep_in(tmp_path / "kept")
    yield tmp_path / "kept"
    kept.keep_in(None)


@pytest.mark.parametrize("spoil", [lambda path: path.write_bytes(b""), lambda path: path.write_bytes(path.read_bytes()[:-1]), lambda path: path.write_bytes(path.read_bytes()[:40] + b"X" + path.read_bytes()[41:]), lambda path: path.unlink()], ids=["empty", "cut", "changed", "gone"])
def test_what_is_damaged_is_not_given(folder, spoil):
    kept.put("sheets", "name", b"content" * 10)
    assert kept.get("sheets", "name") == b"content" * 10
    spoil(folder / "sheets" / "name")
    assert kept.get("sheets", "name") is None


def test_parts_are_told_apart():
    assert len({kept.key(b"ab", b"c"), kept.key(b"a", b"bc"), kept.key(b"abc"), kept.key(b"abc", b"")}) == 4


def test_what_no_build_uses_goes(folder):
    for name, age in (("old", 7200.0), ("new", 10.0), ("used", 7200.0)):
        kept.put("sheets", name, b"x")
        os.utime(folder / "sheets" / name, (time.time() - age,) * 2)
    kept.get("sheets", "used")
    kept.tidy(time.time())
    assert sorted(path.name for path in (folder / "sheets").iterdir()) == ["new", "used"]


def test_nothing_is_kept_without_a_folder_or_where_it_cannot_be_written(tmp_path):
    kept.put("sheets", "name", b"x")
    assert kept.get("sheets", "name") is None
    (tmp_path / "file").write_text("")
    kept.keep_in(tmp_path / "file")
    try:
        kept.put("sheets", "name", b"x")
        assert kept.get("sheets", "name") is None
    finally:
        kept.keep_in(None)


def test_a_kept_sheet_is_of_the_very_same_marks(folder):
    sheet = poster_sheet("A4", "portrait")

    def made(words, title="Title"):
        typeset.forget()
        return typeset.pdf([[text(20, 20, 5, words)]], sheet, title=title, author="", description="")

    first = made("first")
    assert made("first") == first and len(list((folder / "sheets").iterdir())) == 1
    assert made("second") != first and made("first", "Other title") != first and len(list((folder / "sheets").iterdir())) == 3
    for path in (folder / "sheets").iterdir():
        path.write_bytes(b"damaged")
    assert made("first") == first


def test_a_build_uses_what_was_kept_and_a_proof_does_not(tmp_path, root):
    """Kept sheets that are whole and wrong, as no build makes them: `build` believes its own folder, `verify --rebuild` makes everything anew."""
    project = copy_project(root, tmp_path / "project")
    assert run(project, "build").returncode == 0
    site, sheets = project / "build" / "site", project / ".cache" / "sheets"
    good = read_list(site)
    assert len(list(sheets.iterdir())) == sum(name.endswith(".pdf") for name in good)
    for path in sheets.iterdir():
        path.write_bytes(bytes.fromhex(kept.sha256(b"wrong").hexdigest()) + b"wrong")
    proof = run(project, "verify", "--rebuild")
    assert proof.returncode == 0 and "every byte is the same" in proof.stdout, proof.stdout + proof.stderr
    assert run(project, "build").returncode == 0
    assert {name for name in difference(good, checksums(site)).changed} == {name for name in good if name.endswith(".pdf")}
    for path in sheets.iterdir():
        path.write_bytes(b"damaged")
    assert run(project, "build").returncode == 0
    assert not difference(good, checksums(site))


def test_what_waits_in_memory_is_a_few_pages(monkeypatch):
    """The second process is never further ahead than its order allows; every page and file is in it once."""
    pages = {f"p{n}.md": SimpleNamespace(body=str) for n in range(1000)}
    monkeypatch.setattr(site_hook, "_rendered", SimpleNamespace(pages=pages, files={"a.csv": str, "b.pdf": str}))
    jobs = list(site_hook._jobs())
    assert jobs[-2:] == ["b.pdf", "a.csv"] and sorted(jobs[:-2]) == sorted(site_hook.PAGE + path for path in pages)
    places = [int(name.removeprefix(site_hook.PAGE + "p").removesuffix(".md")) for name in jobs[:-2]]
    assert max(place - i for i, place in enumerate(places)) < site_hook.TOGETHER
