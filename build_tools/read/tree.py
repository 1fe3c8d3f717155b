"""The whole data folder, read: every document and table, and files that have no place there."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import wraps
from pathlib import Path
from weakref import WeakKeyDictionary

from ..problem import Problem
from ..progress import Progress
from ..registry import READING, rule
from .csv_file import LARGEST_CSV, Table, read_csv
from .guide_text import GuideText, read_guides
from .text_file import read_text, symlink
from .yaml_file import Document, read_yaml

SINGLE_FILES = ("library", "place", "cautions", "posters", "quantities", "other-kinds", "seed-oil")
FILES_NOT_NEEDED = ("accepted", "corrections", "figures", "glossary", "guides", "releases")
DEMO_FILES = ("lots.csv",)
ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
LONGEST_NAME = 60
KEPT_NAMES = {"index", "readme", "con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
VERSION_TABLE = re.compile(r"20[0-9]{2}\.[0-9]{2}(\.[0-9]+)?\.csv")  # data/releases/2026.12.csv


@dataclass
class SourceFolder:
    """One folder of data/sources: who said it, and the printed tables by file name."""

    document: Document
    tables: dict[str, Table] = field(default_factory=dict)
    unread: frozenset[str] = frozenset()  # names of tables that are there and could not be read


@dataclass(eq=False)  # compared by identity, so that results about a tree can be cached
class DataTree:
    """Everything read from data/. Keys are ids (file or folder names)."""

    crops: dict[str, Document] = field(default_factory=dict)
    sources: dict[str, SourceFolder] = field(default_factory=dict)
    treatments: dict[str, Document] = field(default_factory=dict)
    singles: dict[str, Document] = field(default_factory=dict)
    demo: dict[str, bytes] = field(default_factory=dict)  # invented files, as they stand
    problems: list[Problem] = field(default_factory=list)
    releases: dict[str, Table] = field(default_factory=dict)  # what changed, by version
    guides: dict[str, GuideText] = field(default_factory=dict)  # the hand-written pages of docs/guides, which stand beside data/

    def documents(self) -> Iterator[Document]:
        """Every YAML file that was read."""
        yield from (*self.crops.values(), *self.treatments.values(), *self.singles.values(), *(s.document for s in self.sources.values()))

    def without(self, files: set[str]) -> DataTree:
        """The tree without the named files (a source goes with any of its files)."""

        def kept(documents):
            return {name: d for name, d in documents.items() if d.file not in files}

        sources = {n: s for n, s in self.sources.items() if s.document.file not in files and not any(t.file in files for t in s.tables.values())}
        return DataTree(kept(self.crops), sources, kept(self.treatments), kept(self.singles), self.demo, releases=kept(self.releases), guides=kept(self.guides))


def of_tree(function: Callable) -> Callable:
    """Works out what a function says of a tree once, and forgets it together with the tree: a cache of trees would keep whole data folders in memory."""
    known: WeakKeyDictionary = WeakKeyDictionary()

    @wraps(function)
    def remembered(tree: DataTree):
        if tree not in known:
            known[tree] = function(tree)
        return known[tree]

    return remembered


@rule("unknown-file", READING)
def unknown_file(name: str) -> Problem:
    """Every file in data/ has a place there: a YAML file of a known kind, or a table beside its source.yml."""
    endings = {".yaml": "Name it .yml.", ".CSV": "Name it .csv.", ".xlsx": "Save the table as .csv.", ".xls": "Save the table as .csv.", ".ods": "Save the table as .csv."}
    return Problem(name, 1, 1, "unknown-file", f'"{Path(name).name}" has no place in data/.', endings.get(Path(name).suffix, "Move it out, or see data/README.md for where each fact lives."))


@rule("file-name", READING)
def file_name(name: str) -> Problem | None:
    """A crop's, treatment's or table's file and a source's folder are named like an id: lower-case letters and digits, words joined by hyphens, at most 60 letters, and no name that a system or the site keeps for itself (con, nul, index)."""
    stem = Path(name).name.removesuffix(".yml").removesuffix(".csv")
    if ID.fullmatch(stem) and len(stem) <= LONGEST_NAME and stem not in KEPT_NAMES:
        return None
    return Problem(name, 1, 1, "file-name", f'"{stem[:80]}" is no name for a file here.', "Name it with lower-case letters, digits and single hyphens, such as bean-runner; index and names of devices (con, nul, com1) are taken.")


@rule("missing-file", READING)
def missing_file(name: str, what: str = "This file", hint: str = "Restore it from the last good version.") -> Problem:
    """The files that stand alone in data/ are all there, and so is each schema."""
    return Problem(name, 1, 1, "missing-file", f"{what} is needed and missing.", hint)


def read_tree(data: Path, progress: Progress | None = None) -> DataTree:
    """Read a data folder (normally <project>/data), and the guides beside it. All problems of reading are collected in `problems`."""
    tree = DataTree()

    def shown(path: Path) -> str:
        return (Path("data") / path.relative_to(data)).as_posix()

    total = sum(1 for path in data.rglob("*.yml")) if progress else 0

    def yaml_into(target: dict, key: str, path: Path):
        if progress:
            progress.step(total)
        document, problems = read_yaml(path, shown(path))
        tree.problems += problems
        if document is not None:
            target[key] = document

    if not data.is_dir():
        tree.problems.append(missing_file("data", "The data folder", "Run the command in the project's top folder."))
        return tree
    for path in _inside(data, tree, shown):
        if path.suffix != ".yml" and (problem := symlink(path, shown(path))):
            tree.problems.append(problem)
        elif path.is_dir() and path.name in ("crops", "treatments"):
            for file in _inside(path, tree, shown):
                if file.suffix == ".yml" and (file.is_symlink() or not file.is_dir()):
                    if problem := file_name(shown(file)):
                        tree.problems.append(problem)
                    else:
                        yaml_into(getattr(tree, path.name), file.stem, file)
                else:
                    tree.problems.append(unknown_file(shown(file)))
        elif path.is_dir() and path.name == "sources":
            for folder in _inside(path, tree, shown):
                _read_source(tree, folder, shown)
        elif path.is_dir() and path.name == "demo":
            for file in _inside(path, tree, shown):
                if file.name in DEMO_FILES:
                    text, problems = read_text(file, shown(file), LARGEST_CSV)
                    tree.problems += problems
                    if text is not None:
                        tree.demo[file.name] = text.encode()
                else:
                    tree.problems.append(unknown_file(shown(file)))
        elif path.is_dir() and path.name == "releases" and not path.is_symlink():
            for file in sorted(path.iterdir()):
                if VERSION_TABLE.fullmatch(file.name) and not file.is_dir():
                    table, problems = read_csv(file, shown(file))
                    tree.problems += problems
                    if table is not None:
                        tree.releases[file.stem] = table
                else:
                    tree.problems.append(unknown_file(shown(file)))
        elif path.suffix == ".yml" and path.stem in (*SINGLE_FILES, *FILES_NOT_NEEDED):
            yaml_into(tree.singles, path.stem, path)
        elif path.name != "README.md":
            tree.problems.append(unknown_file(shown(path)))
    tree.guides, problems = read_guides(data.parent / "docs" / "guides")
    tree.problems += problems
    for single in SINGLE_FILES:
        if single not in tree.singles and not (data / f"{single}.yml").exists():
            tree.problems.append(missing_file(f"data/{single}.yml"))
    return tree


def _inside(folder: Path, tree: DataTree, shown) -> list[Path]:
    """What stands in a folder, by name."""
    try:
        return sorted(folder.iterdir())
    except OSError as error:
        tree.problems.append(Problem(shown(folder), 1, 1, "unreadable", f"Cannot be read: {error.strerror}.", "Check that the folder may be read."))
        return []


def _read_source(tree: DataTree, folder: Path, shown) -> None:
    if problem := symlink(folder, shown(folder)) or (file_name(shown(folder)) if folder.is_dir() else unknown_file(shown(folder))):
        tree.problems.append(problem)
        return
    document, problems = read_yaml(folder / "source.yml", shown(folder / "source.yml"))
    tree.problems += problems
    tables, unread = {}, set()
    for path in _inside(folder, tree, shown):
        if path.name == "source.yml":
            continue
        if path.suffix != ".csv" or path.is_dir():
            tree.problems.append(unknown_file(shown(path)))
            continue
        if problem := file_name(shown(path)):
            tree.problems.append(problem)
            continue
        table, problems = read_csv(path, shown(path))
        tree.problems += problems
        if table is not None:
            tables[path.name] = table
        else:
            unread.add(path.name)
    if document is not None:
        tree.sources[folder.name] = SourceFolder(document, tables, frozenset(unread))
