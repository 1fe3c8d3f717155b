"""The command `check`."""

from __future__ import annotations

import sys
import time
from pathlib import Path

from ..check import check_data
from ..printers import PRINTERS, report
from ..problem import Problem, did_you_mean

CHECKED = ("data", "docs/guides")


def arguments(parser) -> None:
    parser.add_argument("files", nargs="*", type=Path, metavar="FILE", help="show only what concerns these files or folders of data/ or docs/guides/; everything is checked all the same, since files depend on one another")
    parser.add_argument("--format", choices=PRINTERS, default="text", help="text for people, annotations for pull requests, json for programs")
    parser.add_argument("--strict", action="store_true", help="exit with 1 for warnings too")


def main(root: Path, options) -> int:
    """Check the data; print the problems; exit status 1 when there are any that stop a build, 2 for a FILE that is none."""
    start = time.monotonic()
    try:
        wanted = [shown(root, file) for file in options.files]
    except ValueError as error:
        print(error, file=sys.stderr)
        return 2
    tree, problems = check_data(root)
    chosen = [p for p in problems if not wanted or concerns(p, wanted)]
    status = report(chosen, options.format, root, strict=options.strict)
    if options.format == "text":
        others = len(problems) - len(chosen)
        more = f" {others} more in other files." if others else ""
        print(f"{len(tree.crops)} crops, {len(tree.sources)} sources, {sum(len(s.tables) for s in tree.sources.values())} printed tables checked in {time.monotonic() - start:.1f} s.{more}")
    return status


def shown(root: Path, file: Path, of: tuple[str, ...] = CHECKED) -> str:
    """The file's or folder's name from the project's folder. Raises ValueError, with the nearest name, when it is none of these folders."""
    folders = [root / name for name in of]
    for base in (Path.cwd(), root):
        path = (base / file).resolve()
        if path.exists() and any(path.is_relative_to(folder.resolve()) for folder in folders):
            return path.relative_to(root.resolve()).as_posix()
    known = [p.relative_to(root).as_posix() for folder in folders for p in folder.rglob("*")]
    same = [name for name in known if Path(name).stem == file.stem]
    hint = f'Did you mean "{same[0]}"?' if same else did_you_mean(file.as_posix(), known)
    raise ValueError(f"{file}: there is no such file in {' or '.join(f'{name}/' for name in of)}. {hint}".strip())


def concerns(problem: Problem, wanted: list[str]) -> bool:
    """Whether a problem, or another place that it names, lies in one of the files or folders."""
    files = {problem.file, *(place.file for place in problem.see)}
    return any(file == name or file.startswith(name + "/") for file in files for name in wanted)
