"""Setting up on a bare machine: what is said when something is missing, and mending what is broken."""

import subprocess
from types import SimpleNamespace

import pytest

from build_tools import set_up


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
