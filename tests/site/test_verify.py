"""The list of checksums and the command `verify`; the same bytes wherever, whenever and in whatever language the site is built."""

import hashlib
import shutil
import subprocess

import pytest

from build_tools.checksums import LIST, Difference, checksums, difference, read_list
from build_tools.commands.verify import main

from .test_build import copy_project, run


class Options:
    def __init__(self, folder, rebuild=False):
        self.folder, self.rebuild = folder, rebuild


@pytest.fixture
def copy(built, tmp_path):
    return shutil.copytree(built, tmp_path / "site")


def test_the_list_names_every_file_and_itself_not(built):
    files = {p.relative_to(built).as_posix() for p in built.rglob("*") if p.is_file()}
    assert set(read_list(built)) == files - {LIST}


# GNU coreutils' sha256sum is the outside witness of the form and of the sums.
@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="sha256sum is not installed")
def test_sha256sum_agrees(built):
    done = subprocess.run(["sha256sum", "--check", "--strict", "--quiet", LIST], cwd=built, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


# FIPS 180-4 example: SHA-256 of "abc" (from memory).
def test_the_published_example(tmp_path):
    (tmp_path / "a.txt").write_bytes(b"abc")
    assert checksums(tmp_path) == {"a.txt": "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}


def test_a_built_site_is_signed_off(built, root, capsys):
    assert main(root, Options(built)) == 0
    assert "are as they were built" in capsys.readouterr().out


def test_what_was_touched_is_named(copy, root, capsys):
    (copy / "index.html").write_bytes((copy / "index.html").read_bytes() + b" ")
    (copy / "404.html").unlink()
    (copy / "extra.html").write_text("x", encoding="utf-8")
    assert main(root, Options(copy)) == 1
    said = capsys.readouterr().out
    assert all(line in said for line in ("missing: 404.html", "added: extra.html", "changed: index.html", "not as it was built"))


@pytest.mark.parametrize("spoil, words", [(lambda p: p.unlink(), "no SHA256SUMS"), (lambda p: p.write_text("nonsense\n", encoding="utf-8"), "line 1 is no checksum"), (lambda p: p.write_bytes(b"\xff\n"), "Build the site anew")])
def test_without_a_sound_list_nothing_is_signed_off(copy, root, capsys, spoil, words):
    spoil(copy / LIST)
    assert main(root, Options(copy)) == 2
    assert words in capsys.readouterr().err


def test_differences_are_told_apart():
    assert not difference({"a": "1"}, {"a": "1"})
    assert difference({"a": "1", "b": "2"}, {"b": "3", "c": "4"}) == Difference(("a",), ("c",), ("b",))


# Another folder, time zone, locale and hash seed, and a clock set by no one: the sums are the same.
@pytest.mark.parametrize("elsewhere", [{"TZ": "Pacific/Kiritimati", "LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR.UTF-8", "PYTHONHASHSEED": "4321"}, {"TZ": "America/St_Johns", "LC_ALL": "C", "LANG": "C", "PYTHONHASHSEED": "1", "PYTHONUTF8": "0"}], ids=["turkish", "plain C"])
def test_the_same_commit_gives_the_same_sums_elsewhere(elsewhere, tmp_path, root, built):
    project = copy_project(root, tmp_path / "another folder, wïth spaces")
    done = run(project, "build", **elsewhere)
    assert done.returncode == 0, done.stderr
    assert difference(read_list(built), read_list(project / "build" / "site")) == Difference()
    again = run(project, "verify", "--rebuild", **elsewhere)
    assert again.returncode == 0 and "every byte is the same" in again.stdout, again.stdout + again.stderr


def test_what_was_changed_by_hand_is_not_what_the_files_build(tmp_path, root):
    project = copy_project(root, tmp_path / "project")
    assert run(project, "build").returncode == 0
    crop = project / "data" / "crops" / "leek.yml"
    crop.write_text(crop.read_text(encoding="utf-8").replace('"Leek"', '"Leeks"'), encoding="utf-8")
    done = run(project, "verify", "--rebuild")
    assert done.returncode == 1 and "changed: " in done.stdout and "not what these files build" in done.stdout
    assert hashlib.sha256((project / "build" / "site" / "crops" / "leek" / "index.html").read_bytes()).hexdigest() == read_list(project / "build" / "site")["crops/leek/index.html"]
