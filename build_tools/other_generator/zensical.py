"""The plain folder as a project of Zensical, a site generator that runs no hooks, and its build: a proof that another generator can take over."""

from __future__ import annotations

import json
import os
import subprocess
import time
from dataclasses import dataclass
from pathlib import Path

from .folder import PAGES, SITE

SETTINGS, BUILT = "zensical.toml", "site"
LONGEST = 1_800  # seconds that a build may take


@dataclass(frozen=True)
class Build:
    """What became of a build: seconds, the folder of the site, and what was said, with whether it went well."""

    seconds: float
    site: Path
    said: str
    well: bool


def installed(python: Path) -> str:
    """The version of the generator that a Python has; empty without it."""
    try:
        run = subprocess.run([python, "-c", "from importlib.metadata import version; print(version('zensical'))"], capture_output=True, text=True, timeout=60)
    except (OSError, subprocess.TimeoutExpired):
        return ""
    return run.stdout.strip() if run.returncode == 0 else ""


def settings(site: dict) -> str:
    """The generator's settings in TOML, from what the pages have in common. No Markdown extension: the pages are HTML."""
    said = json.dumps

    def entry(part: dict) -> str:
        inside = f"[{', '.join(entry(one) for one in part['pages'])}]" if "pages" in part else said(part["page"])
        return f"{{{said(part['title'], ensure_ascii=False)} = {inside}}}"

    scripts = ", ".join(f'{{path = {said(one["path"])}, type = {said(one["type"])}}}' if one["type"] else said(one["path"]) for one in site["scripts"])
    return "\n".join([
        "[project]", f"site_name = {said(site['name'], ensure_ascii=False)}", f"site_url = {said(site['address'])}", f'docs_dir = "{PAGES}"', f'site_dir = "{BUILT}"',
        f"extra_css = {said(site['styles'])}", f"extra_javascript = [{scripts}]", "nav = [", *(f"  {entry(part)}," for part in site["navigation"]), "]",
        "[project.theme]", f"language = {said(site['language'])}", "font = false", 'features = ["navigation.tabs", "navigation.prune", "search.highlight"]',
        *([f"logo = {said(site['logo'])}"] if site["logo"] else []), "[project.markdown_extensions]", "",
    ])


def build(folder: Path, python: Path) -> Build:
    """Build the plain folder with the generator that `python` has, from nothing."""
    (folder / SETTINGS).write_text(settings(json.loads((folder / SITE).read_text(encoding="utf-8"))), encoding="utf-8")
    start = time.monotonic()
    environment = {key: value for key, value in os.environ.items() if not key.startswith(("PYTHONPATH", "PYTHONHOME"))}
    run = subprocess.run([python, "-m", "zensical", "build", "--clean"], cwd=folder, capture_output=True, text=True, timeout=LONGEST, env=environment)
    return Build(time.monotonic() - start, folder / BUILT, (run.stdout + run.stderr).strip(), run.returncode == 0 and (folder / BUILT / "index.html").is_file())
