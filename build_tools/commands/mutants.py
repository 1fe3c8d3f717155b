"""The command `mutants`: how many small changes to the science its tests notice."""

from __future__ import annotations

import hashlib
import os
import sys
from pathlib import Path

from ..problem import did_you_mean
from ..progress import Progress

PYTHON, TWINS = "build_tools/science", "docs/assets/js/science"
EQUAL = "tests/science/equal_mutants.yml"
ALSO = ("tests/model", "tests/published")  # those of their tests that import the science
ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")  # a process with threads is not safely copied


def arguments(parser) -> None:
    parser.add_argument("modules", nargs="*", metavar="MODULE", help="modules by name, such as emergence; all when none is named")
    parser.add_argument("--python", action="store_true", help="only the Python modules")
    parser.add_argument("--twins", action="store_true", help="only the browser twins")
    parser.add_argument("--sample", type=int, metavar="N", help="so many of each half, always the same ones; none may survive")
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1, metavar="N", help="processes at once; as many as there are cores when not given")


def main(root: Path, options) -> int:
    """Print the share of mutants killed and the survivors; exit status 1 below 90 % or when the list of equal ones is wrong, 2 for a module that is none."""
    if not hasattr(os, "fork"):
        print("Mutants run in copies of a process, which this system cannot make. On Windows: use WSL.", file=sys.stderr)
        return 2
    for name in ONE_THREAD:
        os.environ[name] = "1"
    from ..mutants.equal import listed, mistakes
    from ..mutants.pool import Broken
    from ..mutants.report import LEAST_PERCENT, share, survivors, table
    from ..mutants.spots import mutants_of

    halves = [folder for folder, chosen in ((PYTHON, options.python), (TWINS, options.twins)) if chosen or options.python == options.twins]
    paths = {folder: _paths(root / folder) for folder in halves}
    known = sorted({name for its in paths.values() for name in its})
    if unknown := [name for name in options.modules if name not in known]:
        print(f"There is no module {unknown[0]}. {did_you_mean(unknown[0], known)}".strip(), file=sys.stderr)
        return 2
    equal = listed(root / EQUAL)
    wrong: list[str] = []
    for folder in halves:
        everything = [mutant for name, path in paths[folder].items() if name in options.modules or not options.modules for mutant in mutants_of(path)]
        chosen = _sample(everything, options.sample, equal) if options.sample else everything
        if not chosen:
            continue
        progress = Progress()
        progress.start(f"mutants of {folder}")
        try:
            outcomes = _outcomes(root, folder, chosen, options.jobs, lambda: progress.step(len(chosen)))
        except Broken as error:
            print(error, file=sys.stderr)
            return 1
        print(table(folder, outcomes, equal), flush=True)
        left = survivors(folder, outcomes, equal, chosen)
        print("\n".join([*left, ""]), flush=True)
        wrong += mistakes(equal, everything, outcomes)
        if share(outcomes, equal) < LEAST_PERCENT:
            wrong.append(f"{folder}: fewer than {LEAST_PERCENT} % of the mutants are told by a test")
        if options.sample and left:
            wrong.append(f"{folder}: {len(left)} of the sample survived. Write a test that tells each, or list it in {EQUAL} if it computes the same")
    print("\n".join(wrong), end="\n" if wrong else "")
    return 1 if wrong else 0


def _paths(folder: Path) -> dict[str, Path]:
    return {path.stem: path for path in sorted(folder.iterdir()) if path.suffix in (".py", ".js") and path.stem != "__init__"}


def _sample(mutants, size: int, equal):
    """The same ones for the same changes, wherever other lines move to; in the order of the text."""
    told = [mutant for mutant in mutants if mutant.key not in equal]
    chosen = set(sorted(told, key=lambda mutant: hashlib.sha256("|".join(mutant.key).encode()).digest())[:size])
    return [mutant for mutant in told if mutant in chosen]


def _outcomes(root: Path, folder: str, mutants, jobs: int, step):
    if folder == TWINS:
        from tests.science.twin_cases import twin_cases

        from ..mutants.twins_half import Twins

        return Twins(root / Path(TWINS).parent, twin_cases(), jobs).outcomes(mutants, step)
    from ..mutants.python_half import Half

    modules = {path.name: (".".join(path.relative_to(root).with_suffix("").parts), path) for path in _paths(root / PYTHON).values()}
    also = [path for place in ALSO for path in sorted((root / place).glob("test_*.py")) if "build_tools.science" in path.read_text(encoding="utf-8")]
    return Half(root, modules, ["tests/science", *(path.relative_to(root).as_posix() for path in also)], jobs).outcomes(mutants, step)
