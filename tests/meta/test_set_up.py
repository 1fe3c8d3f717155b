"""Setting up on a bare machine: what is said when something is missing, and mending what is broken."""

import base64
import hashlib
import os
import shutil
import signal
import subprocess
import sys
import threading
from types import SimpleNamespace

import pytest

from build_tools import environment, set_up
from tests.site.test_build import copy_project


def test_missing_ensurepip_names_the_package_to_install(tmp_path, monkeypatch):
    said = "The virtual environment was not created successfully because ensurepip is not\navailable."
    monkeypatch.setattr(set_up.subprocess, "run", lambda *a, **k: SimpleNamespace(returncode=1, stdout=said, stderr=""))
    with pytest.raises(SystemExit) as stopped:
        set_up._make(tmp_path / ".venv")
    assert "apt-get install python3-venv" in str(stopped.value) and "run the command again" in str(stopped.value)
    assert not (tmp_path / ".venv").exists()


@pytest.fixture
def empty_venv(tmp_path):
    """A real environment with pip and nothing else."""
    set_up._make(tmp_path / ".venv")
    return tmp_path / ".venv"


def test_a_damaged_lock_file_is_named_and_nothing_is_installed(tmp_path, empty_venv):
    lock = tmp_path / "requirements.lock"
    lock.write_text("click==8.1.7 \\\n    --hash=sha256:" + "0" * 64 + "\n")
    with pytest.raises(SystemExit) as stopped:
        set_up._install(empty_venv, lock)
    assert "requirements.lock" in str(stopped.value) and "restore it" in str(stopped.value)
    assert subprocess.run([set_up.python_of(empty_venv), "-c", "import click"], capture_output=True).returncode != 0


def test_a_corrupt_environment_is_noticed(tmp_path, empty_venv):
    assert set_up._works(empty_venv)
    set_up.python_of(empty_venv).unlink()
    set_up.python_of(empty_venv).write_text("not a program")
    assert not set_up._works(empty_venv)


def test_an_old_python_is_told_what_is_needed(root):
    source = (root / "build_tools" / "__main__.py").read_text(encoding="utf-8")
    check = source.split("from .set_up")[0].replace("sys.version_info", "(3, 9, 2)")
    with pytest.raises(SystemExit) as stopped:
        exec(compile(check, "main", "exec"), {})
    assert "Python 3.11 or newer is needed" in str(stopped.value)


# Lock files and environments that are broken: told, and mended by the next command


@pytest.fixture
def project(root, tmp_path, monkeypatch):
    """A project whose environment would be made in a folder of its own; nothing may be installed."""
    for name in ("pyproject.toml", "requirements.lock", "requirements-test.lock"):
        shutil.copy(root / name, tmp_path)
    monkeypatch.setattr(set_up, "ROOT", tmp_path)
    monkeypatch.setattr(set_up, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(set_up, "_install", lambda *words: pytest.fail("something was installed"))
    return tmp_path


@pytest.mark.parametrize("spoil, words", [
    (lambda lock: lock.unlink(), "requirements.lock:1: The lock file is missing"), (lambda lock: lock.write_text(""), "requirements.lock:1: The lock file is empty"),
    (lambda lock: lock.write_bytes(lock.read_bytes()[:60]), "requirements.lock:2: This line is damaged"),
    (lambda lock: lock.write_text("\n".join(lock.read_text().split("\n")[:6]) + "\n"), "it is cut short"),
    (lambda lock: lock.write_bytes(b"\0" * 100), "requirements.lock:1: This line is damaged"), (lambda lock: lock.write_bytes(b"\xff\xfe"), "is no text"),
])
def test_a_broken_lock_file_is_told_before_anything_is_made(spoil, words, project):
    spoil(project / "requirements.lock")
    with pytest.raises(SystemExit) as stopped:
        set_up.ready(with_tests=False)
    assert words in str(stopped.value) and "Restore it from the repository" in str(stopped.value) and "Nothing was installed" in str(stopped.value)
    assert not (project / ".venv").exists()


def test_a_file_in_the_place_of_the_environment(project):
    (project / ".venv").write_text("mine")
    with pytest.raises(SystemExit) as stopped:
        set_up.ready(with_tests=False)
    assert "is not a folder" in str(stopped.value) and "Move it away" in str(stopped.value)
    assert (project / ".venv").read_text() == "mine"


def test_a_folder_that_cannot_be_made(project, monkeypatch):
    (project / "file").write_text("")
    monkeypatch.setattr(set_up, "VENV", project / "file" / ".venv")
    with pytest.raises(SystemExit) as stopped:
        set_up.ready(with_tests=False)
    assert "could not be made" in str(stopped.value) and "May this folder be written" in str(stopped.value)


def test_an_environment_that_lost_its_settings_is_noticed(empty_venv):
    """Without pyvenv.cfg its Python runs, but as that of the system, whose packages are others."""
    (empty_venv / "pyvenv.cfg").unlink()
    assert not set_up._works(empty_venv)


def pip_that(venv, script):
    """An environment whose Python is this shell script."""
    python = set_up.python_of(venv)
    python.parent.mkdir(parents=True)
    python.write_text(f"#!/bin/sh\n{script}\n")
    python.chmod(0o755)


@pytest.mark.skipif(os.name == "nt", reason="a shell script stands for pip")
@pytest.mark.parametrize("script, relied_on", [
    ("echo Collecting a; echo no network; exit 1", True),  # pip gave up before it touched anything
    ("echo Collecting a; echo Installing collected packages: a; exit 1", False), ("echo Installing collected packages: a; kill -9 $$", False), ("kill -9 $$", False),
])
def test_an_installation_that_did_not_end_is_not_relied_on(script, relied_on, tmp_path, root):
    pip_that(tmp_path / ".venv", script)
    with pytest.raises(SystemExit, match="could not be installed"):
        set_up._install(tmp_path / ".venv", root / "requirements.lock")
    assert (tmp_path / ".venv" / set_up.UNFINISHED).exists() != relied_on


def test_what_was_left_unfinished_is_made_anew(empty_venv, project, monkeypatch):
    """The command itself killed while packages were unpacked: the next one begins with an empty environment."""
    assert empty_venv == project / ".venv"
    (project / ".venv" / set_up.UNFINISHED).touch()
    (project / ".venv" / ".installed-site").write_text(set_up._stamp(project / "requirements.lock"))
    (project / ".venv" / "half a package").touch()
    seen = []
    monkeypatch.setattr(set_up, "_install", lambda venv, lock: seen.append((lock.name, sorted(p.name for p in venv.iterdir() if p.is_file()))))
    set_up.ready(with_tests=False)
    assert seen == [("requirements.lock", seen[0][1])] and not {"half a package", set_up.UNFINISHED} & set(seen[0][1])
    assert set_up._works(project / ".venv")
    set_up.ready(with_tests=False)
    assert len(seen) == 1, "once is enough"


@pytest.mark.skipif(set_up.fcntl is None, reason="no such lock on this system")
def test_two_set_ups_wait_for_each_other(tmp_path, capsys):
    inside, order = threading.Event(), []

    def first():
        with set_up._alone(tmp_path / ".venv"):
            inside.set()
            threading.Event().wait(0.5)
            order.append("first")

    other = threading.Thread(target=first)
    other.start()
    assert inside.wait(10)
    with set_up._alone(tmp_path / ".venv"):
        order.append("second")
    other.join()
    assert order == ["first", "second"] and "Another command is setting up .venv" in capsys.readouterr().err


@pytest.mark.skipif(os.name == "nt", reason="signals of POSIX")
def test_set_up_interrupted(root, tmp_path):
    """Ctrl-C while packages are fetched: one line, and the usual exit status."""
    project = copy_project(root, tmp_path / "project")
    shutil.copy(root / "pyproject.toml", project)
    pip_that(project / ".venv", 'case "$*" in *install*) echo Collecting a; exec sleep 60;; esac')
    process = subprocess.Popen([sys.executable, "-m", "build_tools", "check"], cwd=project, stderr=subprocess.PIPE, text=True, start_new_session=True, preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler))
    assert "Installing" in process.stderr.readline()
    os.killpg(process.pid, signal.SIGINT)
    _, said = process.communicate(timeout=60)
    assert process.returncode == 130 and "Stopped. Run the command again" in said and "Traceback" not in said, said


@pytest.fixture
def a_package(tmp_path, monkeypatch):
    """An installed package with its list of files, as an installer leaves it."""
    folder = tmp_path / "site-packages"
    (folder / "invented").mkdir(parents=True)
    (folder / "invented" / "__init__.py").write_text("value = 1\n")
    (folder / "invented-1.0.dist-info").mkdir()
    (folder / "invented-1.0.dist-info" / "METADATA").write_text("Metadata-Version: 2.1\nName: Invented\nVersion: 1.0\n")
    digest = base64.urlsafe_b64encode(hashlib.sha256(b"value = 1\n").digest()).rstrip(b"=").decode()
    (folder / "invented-1.0.dist-info" / "RECORD").write_text(f"invented/__init__.py,sha256={digest},10\ninvented-1.0.dist-info/RECORD,,\n")
    (tmp_path / "a.lock").write_text("invented==1.0 \\\n    --hash=sha256:" + "0" * 64 + "\n")
    monkeypatch.setattr(sys, "path", [str(folder)])
    return folder


def test_a_whole_package_is_found_whole(a_package, tmp_path):
    assert environment.damaged(tmp_path / "a.lock") == {}


@pytest.mark.parametrize("spoil, words", [
    (lambda folder: shutil.rmtree(folder / "invented"), "invented/__init__.py is missing"),
    (lambda folder: (folder / "invented" / "__init__.py").write_text("value = 2\n"), "invented/__init__.py is not as it was installed"),
    (lambda folder: (folder / "invented" / "__init__.py").write_text(""), "invented/__init__.py is not as it was installed"),
    (lambda folder: shutil.rmtree(folder / "invented-1.0.dist-info"), "is missing"),
])
def test_a_package_that_lost_something_is_named(spoil, words, a_package, tmp_path):
    spoil(a_package)
    assert environment.damaged(tmp_path / "a.lock") == {"invented": words}


def test_a_command_in_an_environment_without_its_packages(root, tmp_path):
    """A real one: everything was taken away after it was set up. The command says so, and the next one would make it anew."""
    project = copy_project(root, tmp_path / "project")
    shutil.copy(root / "pyproject.toml", project)
    set_up._make(project / ".venv")
    (project / ".venv" / ".installed-site").write_text(set_up._stamp(project / "requirements.lock"))
    assert set_up._works(project / ".venv")
    done = subprocess.run([sys.executable, "-m", "build_tools", "check"], cwd=project, capture_output=True, text=True, timeout=120)
    assert done.returncode == 1 and "Traceback" not in done.stderr, done.stderr
    assert "Installed packages are damaged (ModuleNotFoundError" in done.stderr and "attrs: is missing" in done.stderr and "Run the command again: .venv is made anew." in done.stderr
    assert not set_up._works(project / ".venv")


def test_a_fault_of_the_project_is_not_blamed_on_packages(root, monkeypatch):
    from build_tools.commands import __main__ as commands

    monkeypatch.setattr(commands, "_run", lambda words: 1 // 0)
    with pytest.raises(ZeroDivisionError):
        commands.main(["check"])


@pytest.mark.parametrize("error, status, words", [
    (PermissionError(13, "Permission denied", "a/b"), 1, "a/b: Permission denied. Give yourself leave"), (OSError(28, "No space left on device"), 1, "Writing failed: No space left on device. Make room"), (KeyboardInterrupt(), 130, "Stopped."),
])
def test_failures_from_outside_are_told(error, status, words, monkeypatch, capsys):
    from build_tools.commands import __main__ as commands

    def fail(_):
        raise error

    monkeypatch.setattr(commands, "_run", fail)
    assert commands.main(["check"]) == status and words in capsys.readouterr().err


@pytest.mark.skipif(os.name == "nt", reason="pipes of POSIX")
def test_output_that_nobody_reads_to_its_end(root):
    done = subprocess.run(["sh", "-c", f'"{sys.executable}" -m build_tools.commands packages | head -n 1'], cwd=root, capture_output=True, text=True, timeout=60)
    assert done.stdout.startswith("To build the site:") and done.stderr == ""


@pytest.mark.parametrize("port", ["0", "65536", "-1", "eighty"])
def test_a_port_that_is_none(port, capsys):
    from build_tools.commands.__main__ import main

    with pytest.raises(SystemExit):
        main(["serve", f"--port={port}"])
    assert "ports are numbers from 1 to 65535" in capsys.readouterr().err
