"""Measuring how long an editor waits: from the change of one file to the page that shows it, while the site is served."""

from __future__ import annotations

import re
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable
from pathlib import Path

PATIENCE = 300.0  # seconds
EPOCH = re.compile(r"livereload\((\d+), \d+\)")


def crop_edits(project: Path, times: int = 5) -> list[float]:
    """Seconds of each of some edits of a crop of the project, which is served by its own command."""
    crop = min((project / "data" / "crops").glob("*.yml"))
    text = crop.read_text(encoding="utf-8")
    return _edits(project, (sys.executable, "-m", "build_tools.commands", "serve", "--port"), f"crops/{crop.stem}/", crop, times, lambda mark: re.sub(r'(  common: ")([^"]*)"', rf'\g<1>\g<2> {mark}"', text, count=1))


def plain_edits(project: Path, times: int = 5) -> list[float]:
    """The same for a page of a project of plain MkDocs Material."""
    page = max((project / "docs").glob("page-*.md"))
    text = page.read_text(encoding="utf-8")
    return _edits(project, (sys.executable, "-m", "mkdocs", "serve", "-q", "-a"), f"{page.stem}/", page, times, lambda mark: f"{text}\n{mark}\n")


def _edits(project: Path, command: tuple[str, ...], address: str, file: Path, times: int, edited: Callable[[str], str]) -> list[float]:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    where = f"127.0.0.1:{port}" if command[-1] == "-a" else f"{port}"
    server = subprocess.Popen([*command, where], cwd=project, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

    def shown(path: str) -> str:
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/{path}", timeout=PATIENCE) as answer:
            return answer.read().decode("utf-8")

    try:
        page, found = _first(server, lambda: shown(address)), []
        for number in range(times):
            time.sleep(1.0)
            mark, epoch, begin = f"edit {number}", EPOCH.search(page)[1], time.perf_counter()
            file.write_text(edited(mark), encoding="utf-8")
            while mark not in page:  # the page waits, as in a browser, to be told that there is a newer one
                shown(f"livereload/{epoch}/1")
                page = shown(address)
                epoch = EPOCH.search(page)[1]
                if time.perf_counter() - begin > PATIENCE:
                    raise RuntimeError(f"an edit of {file.name} did not show in {PATIENCE:.0f} s")
            found.append(time.perf_counter() - begin)
        return found
    finally:
        server.terminate()
        server.wait()


def _first(server: subprocess.Popen, shown: Callable[[], str]) -> str:
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end and server.poll() is None:
        try:
            return shown()
        except OSError:
            time.sleep(0.2)
    raise RuntimeError("the server did not answer")
