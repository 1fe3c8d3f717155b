"""Recording a release: a table of what changed, and its entry at the top of data/releases.yml, whose comments stay."""

from __future__ import annotations

import datetime
import json
import re
from pathlib import Path

from ..check.release_rules import ordered
from ..read.csv_file import LARGEST_CSV
from ..read.yaml_file import LARGEST_YAML, parse_yaml
from ..render.published.csv_files import csv_text
from ..write_file import write_whole
from .plain import clean
from .report import Change, Report
from .versions import CannotCompare, Version

VERSION = re.compile(r"20[0-9]{2}\.(0[1-9]|1[0-2])(\.[0-9]{1,3})?")
LIST = re.compile(r"^releases:[ \t]*(#.*)?$", re.MULTILINE)
MOST_TEXT = 600


def row_of(change: Change) -> dict[str, str]:
    """A change as a row of the table of a release, as schema/release-changes.schema.json says."""
    return {
        "crop": change.subject if change.area == "crop" else "", "about": change.name, "what": change.what, "kind": change.kind,
        "before": change.words_before or change.before, "after": change.words_after or change.after,
        "sources_added": "; ".join(key for key, _ in change.sources_added), "sources_dropped": "; ".join(key for key, _ in change.sources_dropped),
        "evidence_before": change.evidence_before, "evidence_after": change.evidence_after, "outside": change.outside,
    }


def record(root: Path, version: str, head: Version, report: Report, today: str | None = None) -> list[str]:
    """Write both files of a release; what to say of it, a line each. Overwrites nothing. Raises CannotCompare with the reason."""
    if not VERSION.fullmatch(version):
        raise CannotCompare(f'"{clean(version, 60)}" is no version: write year and month, such as 2026.12; a second release of a month is 2026.12.1.')
    if head.problems:
        raise CannotCompare(f"The working tree does not pass the checks ({len(head.problems)} problem{'s' if len(head.problems) > 1 else ''}): run check first.")
    if not report.changes:
        raise CannotCompare("Nothing changed since then that a release could record.")
    document = head.tree.singles.get("releases")
    versions = [entry["version"] for entry in document.data["releases"]] if document else []
    table, listing = root / "data" / "releases" / f"{version}.csv", root / "data" / "releases.yml"
    if version in versions or table.exists():
        raise CannotCompare(f"The release {version} is recorded already. Nothing is overwritten: choose another version.")
    if not versions:
        raise CannotCompare("data/releases.yml lists no release yet. Write the entry of the first one there; its data is what this one is compared with.")
    if ordered(version) < ordered(versions[0]):
        raise CannotCompare(f"{version} is older than the newest release, {versions[0]}.")
    rows = csv_text(row_of(change) for change in report.changes)
    text = _listed(listing.read_text(encoding="utf-8"), version, today or datetime.date.today().isoformat(), report.summary)
    if len(rows.encode()) > LARGEST_CSV or len(text.encode()) > LARGEST_YAML:
        raise CannotCompare(f"{len(report.changes)} changes are more than one table of a release holds. Record them in two releases.")
    try:
        write_whole(table, [rows])
        write_whole(listing, [text])
    except OSError as error:
        table.unlink(missing_ok=True)
        raise CannotCompare(f"The release could not be written: {error.strerror}.") from error
    said = [f"Release {version} recorded: data/releases/{version}.csv with {len(report.changes)} changes, and its entry in data/releases.yml. Mend its text there."]
    current = str(head.tree.singles["library"].data["data_version"])
    return said + ([f'Set data_version in data/library.yml to "{version}" (now "{current}").'] if current != version else [])


def _listed(text: str, version: str, date: str, said: str) -> str:
    """data/releases.yml with the entry on top; everything else stays as it is, comments too."""
    place = LIST.search(text)
    said = said if len(said) <= MOST_TEXT else clean(said, MOST_TEXT)
    entry = f'\n  - version: "{version}"\n    date: "{date}"\n    text: {json.dumps(said, ensure_ascii=False)}'
    if place is None:
        raise CannotCompare("data/releases.yml holds no line “releases:” to put the entry below.")
    new = text[: place.end()] + entry + text[place.end() :]
    document, problems = parse_yaml(new, "data/releases.yml")
    before, _ = parse_yaml(text, "data/releases.yml")
    if problems or document is None or before is None or document.data["releases"][1:] != before.data["releases"]:
        raise CannotCompare("The entry could not be put into data/releases.yml without harming what stands there. Write it by hand.")
    return new

