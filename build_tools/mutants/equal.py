"""The list of changes that change nothing, so that no test can tell: each with its reason.

A YAML list of {file, function, line, changes: [old → new], reason}. An entry whose place is gone, or whose change a test does tell,
is an error, and so is a list that grows beyond a few percent: it is no way to the goal.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

import yaml

from .python_half import SURVIVED
from .spots import Mutant

MOST_PERCENT = 3
KEYS = {"file", "function", "line", "changes", "reason"}


def listed(path: Path) -> dict[tuple, str]:
    """{key of a mutant: reason}. ValueError for an entry of another form, without a reason, or given twice."""
    found: dict[tuple, str] = {}
    for entry in yaml.safe_load(path.read_text(encoding="utf-8")) or []:
        if set(entry) != KEYS or len(str(entry["reason"]).split()) < 3 or not entry["changes"]:
            raise ValueError(f"{path.name}: an entry has {', '.join(sorted(KEYS))}, and a reason in words: {entry}")
        for change in entry["changes"]:
            key = (entry["file"], entry["function"], entry["line"], change)
            if key in found:
                raise ValueError(f"{path.name}: given twice: {key}")
            found[key] = entry["reason"]
    return found


def mistakes(equal: Mapping[tuple, str], mutants: Sequence[Mutant], outcomes: Mapping[Mutant, str]) -> list[str]:
    """What is wrong with the entries for the files of these mutants; `outcomes` may lack some."""
    by_key = {mutant.key: mutant for mutant in mutants}
    files = {mutant.file for mutant in mutants}
    found = []
    for key in equal:
        if key[0] in files:
            where = " | ".join(key)
            if key not in by_key:
                found.append(f"listed as equal, but there is no such change any more: {where}")
            elif outcomes.get(by_key[key], SURVIVED) != SURVIVED:
                found.append(f"listed as equal, but a test tells it: {where}")
    count = sum(mutant.key in equal for mutant in mutants)
    if len(mutants) > 1000 and count * 100 > MOST_PERCENT * len(mutants):
        found.append(f"{count} of {len(mutants)} mutants are listed as equal, more than {MOST_PERCENT} %")
    return found
