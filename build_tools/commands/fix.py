"""The command `fix`: gives data files the house's form."""

from __future__ import annotations

import sys
from pathlib import Path

from ..form import CannotFix, fix_csv, fix_yaml, shape_of_file, shapes_of
from ..read.csv_file import LARGEST_CSV
from ..read.text_file import read_bytes
from ..read.yaml_file import LARGEST_YAML
from ..write_file import write_whole
from .check import shown


def arguments(parser) -> None:
    parser.add_argument("files", nargs="*", type=Path, metavar="FILE", help="files or folders of data/; all of data/ unless given")
    parser.add_argument("--check", action="store_true", help="write nothing; exit with 1 and name the files that are not in form")


def main(root: Path, options) -> int:
    """Fix the files; exit status 1 when one can't be fixed, or isn't in form and --check is given, 2 for a FILE that is none."""
    try:
        names = [shown(root, file, ("data",)) for file in options.files] or ["data"]
    except ValueError as error:
        print(error, file=sys.stderr)
        return 2
    shapes = shapes_of(root / "schema")
    seen = changed = failed = 0
    for file in files_in_form(root, names):
        seen += 1
        raw, problems = read_bytes(root / file, file, LARGEST_CSV if file.endswith(".csv") else LARGEST_YAML)
        try:
            if raw is None:
                raise CannotFix(problems[0])
            text = raw.decode("utf-8")
            fixed = fix_csv(text) if file.endswith(".csv") else _fixed_yaml(text, file, shapes)
        except UnicodeDecodeError:
            failed += 1
            print(f"{file}: left as it is. It is not UTF-8 text; save it as UTF-8.", file=sys.stderr)
            continue
        except CannotFix as error:
            failed += 1
            print(f"{error.problem.file}:{error.problem.line}:{error.problem.column}: left as it is. {error.problem.text}", file=sys.stderr)
            continue
        if fixed != text:
            changed += 1
            print(file)
            if not options.check:
                write_whole(root / file, fixed.encode("utf-8"))
    words = "would change" if options.check else "put in form"
    print(f"{changed} of {seen} files {words}{f', {failed} left as they are' if failed else ''}.")
    return 1 if failed or (options.check and changed) else 0


def _fixed_yaml(text: str, file: str, shapes) -> str:
    name, schema = shape_of_file(file)
    return fix_yaml(text, shapes[name], schema, file) if name in shapes else text


def files_in_form(root: Path, names: list[str]) -> list[str]:
    """The data files that have a form, by name from the project's folder: YAML and printed tables; the demo is its reader's business."""
    found: set[Path] = set()
    for name in names:
        path = root / name
        found |= {path} if path.is_file() else {p for p in path.rglob("*") if p.suffix in (".yml", ".csv")}
    files = sorted(p.relative_to(root).as_posix() for p in found if p.is_file() and not p.is_symlink())
    return [file for file in files if not file.startswith("data/demo/") and file.endswith((".yml", ".csv"))]
