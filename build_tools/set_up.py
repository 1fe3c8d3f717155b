"""Making and mending the project's own .venv from the lock files, then running a command inside it."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from .lock_files import SITE, TEST, BadLock, whole

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
NEEDS_TESTS = ("test", "bench", "reading", "mutants")
UNFINISHED = ".unfinished"  # in .venv while packages are put there: what is found with it is not relied on


def python_of(venv: Path) -> Path:
    return venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)


def _stamp(lock: Path) -> str:
    """What the installed packages depend on: the lock file and the Python version."""
    return hashlib.sha256(lock.read_bytes() + sys.version.encode()).hexdigest()


def _works(venv: Path) -> bool:
    """Whether Python runs there, in an environment of its own, and has pip."""
    if (venv / UNFINISHED).exists():
        return False
    try:
        return subprocess.run([python_of(venv), "-c", "import sys, pip; sys.exit(sys.prefix == sys.base_prefix)"], capture_output=True, timeout=60).returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        return False


def _make(venv: Path) -> None:
    say(f"Making {venv.name}, the project's own Python environment …")
    if venv.is_symlink() or venv.exists() and not venv.is_dir():
        raise SystemExit(f"{venv} is not a folder; the project's own Python environment belongs there. Move it away and run the command again.")
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
        raise SystemExit(f"The virtual environment could not be made in {venv.parent}:\n{words}\nMay this folder be written, and is there room on the disk? Then run the command again.")


def _install(venv: Path, lock: Path) -> None:
    count = sum("==" in line for line in lock.read_text(encoding="utf-8").splitlines())
    say(f"Installing {count} packages from {lock.name} (about a minute the first time) …")
    command = [python_of(venv), "-m", "pip", "install", "--require-hashes", "--only-binary", ":all:", "--disable-pip-version-check", "--no-input", "--progress-bar", "off", "-r", lock]
    start, seen, unpacking = time.monotonic(), 0, False
    (venv / UNFINISHED).touch()
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace") as process:
        tail: list[str] = []
        for line in process.stdout:
            tail = (tail + [line.rstrip()])[-25:]
            if line.startswith("Collecting "):
                seen += 1
                if seen % 10 == 0:
                    say(f"  {seen} of {count} fetched or found, {time.monotonic() - start:.0f} s")
            elif line.startswith("Installing collected"):
                unpacking = True
                say("  unpacking …")
    if process.returncode == 0 or process.returncode > 0 and not unpacking:  # pip gave up before it changed anything
        (venv / UNFINISHED).unlink()
    if process.returncode:
        raise SystemExit(
            "\n".join(tail)
            + f"\nThe packages of {lock.name} could not be installed. Is the network there, and room on the disk? If the message above speaks of hashes, the lock file is damaged: "
            "restore it from the repository. Nothing else was changed; run the command again to retry."
        )
    say(f"  done in {time.monotonic() - start:.0f} s")


@contextmanager
def _alone(venv: Path) -> Iterator[None]:
    """One command at a time sets up; others wait for it. Where the system has no such lock, none is held."""
    if fcntl is None:
        yield
        return
    name = hashlib.sha256(str(venv).encode("utf-8", "surrogateescape")).hexdigest()[:16]
    with Path(tempfile.gettempdir(), f"germination-venv-{os.getuid()}-{name}.lock").open("w") as file:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            say(f"Another command is setting up {venv.name}; waiting for it …")
            fcntl.flock(file, fcntl.LOCK_EX)
        yield


def ready(with_tests: bool) -> Path:
    """The Python of a .venv that holds what the lock file says. Raises SystemExit with a remedy when it can't be had."""
    try:
        with _alone(VENV):
            _bring_up(with_tests)
    except BadLock as error:
        raise SystemExit(f"{error}\nNothing was installed.") from None
    except OSError as error:
        raise SystemExit(f"Setting up {VENV.name} failed: {error.strerror or error}{f' ({error.filename})' if error.filename else ''}. May this folder be written, and is there room on the disk? Then run the command again.") from None
    return python_of(VENV)


def _bring_up(with_tests: bool) -> None:
    name, lock = ("test", ROOT / TEST) if with_tests else ("site", ROOT / SITE)
    stamp, works = VENV / f".installed-{name}", _works(VENV)
    if works and lock.exists() and stamp.exists() and stamp.read_text() == _stamp(lock):
        return
    whole(ROOT, lock.name)
    if not works:
        _make(VENV)
    _install(VENV, lock)
    stamp.write_text(_stamp(lock))
    if with_tests:  # the test lock holds everything of the site lock
        (VENV / ".installed-site").write_text(_stamp(ROOT / SITE))


def distrust(venv: Path = VENV) -> None:
    """Something in .venv was found broken: the next command makes it anew."""
    with suppress(OSError):
        (venv / UNFINISHED).touch()


def run_inside(arguments: list[str]) -> int:
    """Run the command inside .venv; returns its exit status."""
    python = ready(with_tests=bool(arguments) and (arguments[0] in NEEDS_TESTS or arguments[0] == "packages" and "--renew" in arguments))
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
