"""How much of a stage its tests run: lines, and branches (ways out of every choice), file by file."""

from __future__ import annotations

import json
import os
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

import coverage
import pytest

STAGES = ("science", "check")
TESTS = ("tests/science", "tests/rules", "tests/published", "tests/model", "tests/form")  # that hold these stages to something
LEAST_PERCENT = 95


class Calm:
    """For pytest: made-up cases are the same each time, nothing is remembered, nothing depends on the clock."""

    def pytest_configure(self, config):
        from hypothesis import HealthCheck, Phase, settings

        settings.register_profile("calm", derandomize=True, database=None, deadline=None, phases=(Phase.explicit, Phase.generate), suppress_health_check=list(HealthCheck))
        settings.load_profile("calm")


def measure(root: Path, stages: Mapping[str, Path], words: Sequence[str]) -> int:
    """Run pytest with these words and print the shares; exit status 1 when a test fails or a stage is below LEAST_PERCENT in either.

    `stages` are folders by name. None of their modules may be loaded yet.
    """
    os.chdir(root)
    watch = coverage.Coverage(branch=True, data_file=None, config_file=False, source=[str(folder) for folder in stages.values()])
    watch.start()
    status = int(pytest.main(list(words), plugins=[Calm()]))  # lines that are watched take long, and deadlines would fail
    watch.stop()
    with tempfile.TemporaryDirectory() as folder:
        report = Path(folder, "report.json")
        watch.json_report(outfile=str(report))
        files = {Path(root, name).resolve(): found for name, found in json.loads(report.read_text(encoding="utf-8"))["files"].items()}
    low = []
    print(f"{'':<34}{'lines':>9}{'branches':>10}  not run")
    for name, folder in stages.items():
        its = {path: found for path, found in files.items() if path.is_relative_to(folder.resolve())}
        for path, found in sorted(its.items()):
            print(_row(f"{name}/{path.relative_to(folder.resolve()).as_posix()}", [found["summary"]], _missing(found)))
        summaries = [found["summary"] for found in its.values()]
        print(_row(f"{name}, all", summaries, ""))
        low += [f"{name}: fewer than {LEAST_PERCENT} % of the {what} are run" for what, percent in zip(("lines", "branches"), _shares(summaries)) if percent < LEAST_PERCENT]
    print("\n".join(low), end="\n" if low else "")
    return status or (1 if low else 0)


def _shares(summaries: Sequence[Mapping]) -> tuple[float, float]:
    """Percent of lines and of branches."""
    shares = []
    for run, of in (("covered_lines", "num_statements"), ("covered_branches", "num_branches")):
        total = sum(summary[of] for summary in summaries)
        shares.append(100.0 * sum(summary[run] for summary in summaries) / total if total else 100.0)
    return shares[0], shares[1]


def _row(name: str, summaries: Sequence[Mapping], missing: str) -> str:
    lines, branches = _shares(summaries)
    return f"{name:<34}{int(lines * 10) / 10:>7.1f} %{int(branches * 10) / 10:>8.1f} %  {missing}".rstrip()


def _missing(found: Mapping) -> str:
    """Lines, and for lines that are run the ways on that are not: `67→exit`."""
    lines = [str(line) for line in found["missing_lines"]]
    ways = [f"{start}→{end if end > 0 else 'exit'}" for start, end in found["missing_branches"] if start not in found["missing_lines"] and end not in found["missing_lines"]]
    return ", ".join([*lines, *ways])
