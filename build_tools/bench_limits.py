"""Measuring what bounds the site: the search's index, in all and for each crop, and the way to another site generator. Printed, never asserted."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

from .commands.pages import ENVIRONMENT
from .index_size import index_size
from .other_generator import zensical
from .other_generator.folder import SITE
from .set_up import python_of


def row(*cells) -> None:
    print("| " + " | ".join(str(cell) for cell in cells) + " |", flush=True)


def index_table(sites: Mapping[str, Path]) -> None:
    """The index of each built site."""
    row("search index", "kB", "kB, gzipped", "crops", "bytes a crop", "largest crop, bytes")
    row(*["---"] * 6)
    for name, site in sites.items():
        size = index_size(site)
        row(name, f"{size.total / 1e3:.0f}", f"{size.gzipped / 1e3:.0f}", f"{size.crops:,}", f"{size.average_crop:.0f}", size.largest_crop)


def elsewhere_table(root: Path, projects: Mapping[str, Path], scratch: Path, measured: Callable[..., tuple[float, float]]) -> None:
    """The plain folder of each project, and its build by another generator where that is installed; `measured(folder, *command)` gives seconds and MB."""
    python = python_of(root / ENVIRONMENT)
    version = zensical.installed(python)
    if not version:
        print(f"No other site generator is in {ENVIRONMENT}: python3 -m build_tools pages --try brings it. The folder for it is measured all the same.\n")
    row("for another site generator", "folder written, s", "peak MB", f"built by Zensical {version}, s".replace(" ,", ","), "peak MB")
    row(*["---"] * 5)
    for name, project in projects.items():
        folder = scratch / name / "pages"
        written = measured(project, sys.executable, "-m", "build_tools.commands", "pages", str(folder))
        built = ("–", "–")
        if version:
            (folder / zensical.SETTINGS).write_text(zensical.settings(json.loads((folder / SITE).read_text(encoding="utf-8"))), encoding="utf-8")
            built = tuple(f"{value:.{digits}f}" for value, digits in zip(measured(folder, str(python), "-m", "zensical", "build", "--clean"), (1, 0), strict=True))
        row(name, f"{written[0]:.1f}", f"{written[1]:.0f}", *built)
