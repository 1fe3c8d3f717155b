"""Making and mending the project's own .venv from the lock files, then running a command inside it."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
NEEDS_TESTS = ("test", "bench", "reading")


def python_of(venv: Path) -> Path:
    return venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)


def _stamp(lock: Path) -> str:
    """What the installed packages depend on: the lock file and the Python version."""
    return hashlib.sha256(lock.read_bytes() + sys.version.encode()).hexdigest()


def _works(venv: Path) -> bool:
    try:
        return subprocess.run([python_of(venv), "-c", "import pip"], capture_output=True, timeout=60).returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        return False


def _make(venv: Path) -> None:
    say(f"Making {venv.name}, the project's own Python environment …")
    shutil.rmtree(venv, ignore_errors=True)
    made = subprocess.run([sys.executable, "-m", "venv", venv], capture_output=True, text=True)
    if made.returncode or not python_of(venv).exists():
        shutil.rmtree(venv, ignore_errors=True)
        words = (made.stdout + made.stderr).strip()
        if "ensurepip" in words or "No module named venv" in words:
            version = f"{sys.version_info.major}.{sys.version_info.minor}"
            raise SystemExit(
                "This Python cannot make a virtual environment: its venv or ensurepip module is missing.\n"
                f"On Debian and Ubuntu: sudo apt-get install python3-venv   (or python{version}-venv)\n"
                "On Fedora: sudo dnf install python3-pip   Elsewhere: install Python from python.org.\nThen run the command again."
            )
        raise SystemExit(f"The virtual environment could not be made:\n{words}")


def _install(venv: Path, lock: Path) -> None:
    count = sum("==" in line for line in lock.read_text(encoding="utf-8").splitlines())
    say(f"Installing {count} packages from {lock.name} (about a minute the first time) …")
    command = [python_of(venv), "-m", "pip", "install", "--require-hashes", "--only-binary", ":all:", "--disable-pip-version-check", "--no-input", "--progress-bar", "off", "-r", lock]
    start, seen = time.monotonic(), 0
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace") as process:
        tail: list[str] = []
        for line in process.stdout:
            tail = (tail + [line.rstrip()])[-25:]
            if line.startswith("Collecting "):
                seen += 1
                if seen % 10 == 0:
                    say(f"  {seen} of {count} fetched or found, {time.monotonic() - start:.0f} s")
            elif line.startswith("Installing collected"):
                say("  unpacking …")
    if process.returncode:
        raise SystemExit(
            "\n".join(tail)
            + f"\nThe packages of {lock.name} could not be installed. Is the network there? If the message above speaks of hashes, the lock file is damaged: "
            "restore it from the repository. Nothing else was changed; run the command again to retry."
        )
    say(f"  done in {time.monotonic() - start:.0f} s")


def ready(with_tests: bool) -> Path:
    """The Python of a .venv that holds what the lock file says. Raises SystemExit with a remedy when it can't be had."""
    lock = ROOT / ("requirements-test.lock" if with_tests else "requirements.lock")
    stamps = {name: VENV / f".installed-{name}" for name in ("site", "test")}
    name = "test" if with_tests else "site"
    if not _works(VENV):
        _make(VENV)
    if not stamps[name].exists() or stamps[name].read_text() != _stamp(lock):
        _install(VENV, lock)
        stamps[name].write_text(_stamp(lock))
        if with_tests:  # the test lock holds everything of the site lock
            stamps["site"].write_text(_stamp(ROOT / "requirements.lock"))
    return python_of(VENV)


def run_inside(arguments: list[str]) -> int:
    """Run the command inside .venv; returns its exit status."""
    python = ready(with_tests=bool(arguments) and arguments[0] in NEEDS_TESTS)
    command = [str(python), "-m", "build_tools.commands", *arguments]
    if os.name == "nt":
        return subprocess.call(command, cwd=ROOT)
    os.chdir(ROOT)
    os.execv(command[0], command)


def of_its_own(venv: Path, lock: Path) -> Path:
    """The Python of an environment beside .venv that holds what a lock file of its own says. Raises SystemExit with a remedy."""
    stamp = venv / ".installed"
    if not _works(venv):
        _make(venv)
    if not stamp.exists() or stamp.read_text() != _stamp(lock):
        _install(venv, lock)
        stamp.write_text(_stamp(lock))
    return python_of(venv)
