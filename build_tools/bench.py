"""Measuring: build time and peak memory against plain MkDocs Material, the wait after an edit, check time, page weights. Printed, never asserted."""

from __future__ import annotations

import gzip
import json
import os
import platform
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from .bench_edits import crop_edits, plain_edits
from .bench_limits import elsewhere_table, index_table
from .bench_readers import readers
from .bench_trees import plain_project, synthetic_project

PAGES_BESIDE_CROPS = 50  # about as many as the real site has
READ = ("", "crops/lettuce/", "crops/leek/", "guides/testing/", "calculator/", "calculators/soil/", "calculators/sowing-times/", "calculators/storage/", "compare/warmth/", "compare/days/", "sources/", "print/poster/", "print/labels/")  # pages of which a reader's waiting is measured
SHELL = "import resource, subprocess, sys, time; t = time.perf_counter(); c = subprocess.call(sys.argv[1:], stdout=subprocess.DEVNULL); print(time.perf_counter() - t, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss, c)"


def measured(folder: Path, *command: str) -> tuple[float, float]:
    """Seconds and peak megabytes of a command run in a folder, compiled modules kept as Python does by itself. Raises RuntimeError when it fails."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    run = subprocess.run([sys.executable, "-c", SHELL, *command], cwd=folder, capture_output=True, text=True, env=environment)
    seconds, peak, status = run.stdout.split()
    if status != "0":
        raise RuntimeError(f"{' '.join(command)} failed:\n{run.stderr[-2000:]}")
    scale = 1e6 if platform.system() == "Darwin" else 1e3  # bytes there, kilobytes elsewhere
    return float(seconds), float(peak) / scale


def best_of(times: int, folder: Path, *command: str) -> tuple[float, float]:
    """The quickest of several runs, and the largest peak."""
    runs = [measured(folder, *command) for _ in range(times)]
    return min(r[0] for r in runs), max(r[1] for r in runs)


def row(*cells) -> None:
    print("| " + " | ".join(str(c) for c in cells) + " |", flush=True)


def bench(root: Path, quick: bool) -> int:
    """Measure and print the tables. Returns the exit status."""
    ours = (sys.executable, "-m", "build_tools.commands")
    with tempfile.TemporaryDirectory() as scratch:
        print(f"Python {platform.python_version()}, {platform.system()}. Seconds are wall time; peak memory is of the largest process.\n")
        row("build", "pages", "seconds", "peak MB", "plain Material s", "plain MB", "ratio of time")
        row(*["---"] * 7)
        _build(root, Path(scratch), "real site, all anew", root, ours, 3, "--anew")
        _build(root, Path(scratch), "real site", root, ours, 3)
        counts = (600,) if quick else (600, 3000)
        seconds = {}
        for count in counts:
            project = synthetic_project(root, Path(scratch) / f"crops-{count}", count)
            seconds[count] = _build(root, Path(scratch), f"{count:,} synthetic crops", project, ours, 1, "--anew")
        if 3000 in seconds:
            print(f"\n3,000 crops took {seconds[3000] / seconds[600]:.2f} × the time of 600 (5 × would be linear).")
        print()
        _waits(root, Path(scratch), Path(scratch) / "crops-600")
        print()
        row("check", "seconds", "peak MB")
        row(*["---"] * 3)
        row("real data", *(f"{v:.1f}" for v in best_of(3, root, *ours, "check")))
        for count in counts:
            row(f"{count:,} synthetic crops", *(f"{v:.1f}" for v in measured(Path(scratch) / f"crops-{count}", *ours, "check")))
        print()
        page_weights(Path(scratch) / "real site" / "site")
        plain = plain_project(Path(scratch) / "plain", 20)
        measured(plain, sys.executable, "-m", "mkdocs", "build", "-q")
        readers(Path(scratch) / "real site" / "site", plain / "site", f"{next((plain / 'site').glob('page-*')).name}/", READ, row)
        print()
        projects = {"real site": root, **{f"{count:,} synthetic crops": Path(scratch) / f"crops-{count}" for count in counts}}
        index_table({name: Path(scratch) / name / "site" for name in projects})
        print()
        elsewhere_table(root, {name: project for name, project in projects.items() if name != f"{3000:,} synthetic crops"}, Path(scratch), measured)
    return 0


def _waits(root: Path, scratch: Path, large: Path) -> None:
    """How long it takes from an edit to the page that shows it, while served; the real site's crops are copied, not edited."""
    row("one edit while served", "pages", "median s", "longest s", "plain Material, median s", "ratio")
    row(*["---"] * 6)
    crops = len(list((root / "data" / "crops").glob("*.yml")))
    for name, project in (("a crop of the real site", synthetic_project(root, scratch / "edited", crops)), ("a crop of 600", large)):
        pages = len(list((project / "data" / "crops").glob("*.yml"))) + PAGES_BESIDE_CROPS
        found, plain = crop_edits(project), plain_edits(plain_project(scratch / f"plain-edited-{pages}", pages))
        row(name, pages, f"{statistics.median(found):.2f}", f"{max(found):.2f}", f"{statistics.median(plain):.2f}", f"{statistics.median(found) / statistics.median(plain):.2f}")


def _build(root: Path, scratch: Path, name: str, project: Path, ours, times: int, *options: str) -> float:
    """Build a project and plain Material with as many pages; print the row; return our seconds."""
    output = scratch / name / "site"
    seconds, peak = best_of(times, project, *ours, "build", "--output", str(output), *options)
    pages = sum(1 for _ in output.rglob("index.html"))
    plain = plain_project(scratch / f"plain-{pages}", pages)
    plain_seconds, plain_peak = best_of(times, plain, sys.executable, "-m", "mkdocs", "build", "-q")
    row(name, f"{pages:,}", f"{seconds:.1f}", f"{peak:.0f}", f"{plain_seconds:.1f}", f"{plain_peak:.0f}", f"{seconds / plain_seconds:.2f}")
    shutil.rmtree(plain)
    return seconds


def page_weights(site: Path) -> None:
    """HTML and everything a first visit transfers, gzipped, of some crop pages: heaviest, median, lightest."""
    pages = sorted((len(gzip.compress(p.read_bytes(), 6)), p) for p in (site / "crops").glob("*/index.html"))
    row("page", "HTML kB, gzipped", "all files of a first visit kB, gzipped")
    row(*["---"] * 3)
    for word, (size, path) in (("heaviest", pages[-1]), ("median", pages[len(pages) // 2]), ("lightest", pages[0])):
        row(f"{word}: {path.parent.name}", f"{size / 1000:.1f}", f"{(size + sum(len(gzip.compress(f.read_bytes(), 6)) for f in first_visit(path))) / 1000:.1f}")


def first_visit(page: Path) -> set[Path]:
    """The files a page asks for by itself: styles, scripts, pictures and the search's worker. The search's index comes when the search is opened."""
    html = page.read_text(encoding="utf-8")
    wanted = re.findall(r'<(?:script|img)\b[^>]*\bsrc="([^":?#]+)"', html)
    wanted += [address for link in re.findall(r"<link\b[^>]*>", html) if re.search(r'rel="(?:stylesheet|icon|manifest)"', link) for address in re.findall(r'href="([^":?#]+)"', link)]
    config = re.search(r'<script id="__config" type="application/json">(.*?)</script>', html)
    wanted += [json.loads(config[1])["search"]] if config else []
    return {path for path in ((page.parent / address).resolve() for address in wanted) if path.is_file()}
