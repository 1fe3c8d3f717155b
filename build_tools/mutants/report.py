"""What is printed of a half: a row for each module, then every survivor with its place."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping, Sequence

from .python_half import KILLED, SURVIVED, TIMED_OUT
from .spots import Mutant

LEAST_PERCENT = 90


def share(outcomes: Mapping[Mutant, str], equal: Mapping[tuple, str]) -> float:
    """Percent of the mutants not listed as equal that a test or a limit of time caught; 100 when there are none."""
    told = [outcome for mutant, outcome in outcomes.items() if mutant.key not in equal]
    return 100.0 * sum(outcome != SURVIVED for outcome in told) / len(told) if told else 100.0


def table(title: str, outcomes: Mapping[Mutant, str], equal: Mapping[tuple, str]) -> str:
    """Mutants, killed, timed out, survived, listed as equal, share: by module and altogether. Shares are cut, never rounded up."""
    lines = [f"{title:<26}{'mutants':>8}{'killed':>8}{'timed out':>11}{'survived':>10}{'equal':>7}{'share':>9}"]
    files = sorted({mutant.file for mutant in outcomes})
    for name in [*files, "all"] if len(files) > 1 else files:
        its = {mutant: outcome for mutant, outcome in outcomes.items() if name in (mutant.file, "all")}
        count = Counter("equal" if mutant.key in equal and outcome == SURVIVED else outcome for mutant, outcome in its.items())
        percent = math.floor(share(its, equal) * 10) / 10
        lines.append(f"{name:<26}{len(its):>8,}{count[KILLED]:>8,}{count[TIMED_OUT]:>11,}{count[SURVIVED]:>10,}{count['equal']:>7,}{percent:>7.1f} %")
    return "\n".join(lines)


def survivors(folder: str, outcomes: Mapping[Mutant, str], equal: Mapping[tuple, str], order: Sequence[Mutant]) -> list[str]:
    """A line for each that no test tells and that is not listed: file, line, function, what was changed into what."""
    return [f"{folder}/{m.file}:{m.line}  {m.function or 'when loaded'}: {m.change}\n    {m.text}" for m in order if outcomes.get(m) == SURVIVED and m.key not in equal]
