"""The whole data folder, read: every document and table, and files that have no place there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from ..problem import Problem
from ..progress import Progress
from ..registry import READING, rule
from .csv_file import LARGEST_CSV, Table, read_csv
from .text_file import read_bytes
from .yaml_file import Document, read_yaml

SINGLE_FILES = ("library", "place", "cautions", "posters", "quantities", "other-kinds", "seed-oil")
FILES_NOT_NEEDED = ("accepted", "corrections")
DEMO_FILES = ("lots.csv",)


@dataclass
class SourceFolder:
    """One folder of data/sources: who said it, and the printed tables by file name."""

    document: Document
    tables: dict[str, Table] = field(default_factory=dict)


@dataclass(eq=False)  # compared by identity, so that results about a tree can be cached
class DataTree:
    """Everything read from data/. Keys are ids (file or folder names)."""

    crops: dict[str, Document] = field(default_factory=dict)
    sources: dict[str, SourceFolder] = field(default_factory=dict)
    treatments: dict[str, Document] = field(default_factory=dict)
    singles: dict[str, Document] = field(default_factory=dict)
    demo: dict[str, bytes] = field(default_factory=dict)  # invented files, as they stand
    problems: list[Problem] = field(default_factory=list)

    def documents(self) -> Iterator[Document]:
        """Every YAML file that was read."""
        yield from (*self.crops.values(), *self.treatments.values(), *self.singles.values(), *(s.document for s in self.sources.values()))

    def without(self, files: set[str]) -> DataTree:
        """The tree without the named files (a source goes with any of its files)."""

        def kept(documents):
            return {name: d for name, d in documents.items() if d.file not in files}

        sources = {n: s for n, s in self.sources.items() if s.document.file not in files and not any(t.file in files for t in s.tables.values())}
        return DataTree(kept(self.crops), sources, kept(self.treatments), kept(self.singles), self.demo)


@rule("unknown-file", READING)
def unknown_file(name: str) -> Problem:
    """Every file in data/ has a place there: a YAML file of a known kind, or a table beside its source.yml."""
    endings = {".yaml": "Name it .yml.", ".CSV": "Name it .csv.", ".xlsx": "Save the table as .csv.", ".xls": "Save the table as .csv.", ".ods": "Save the table as .csv."}
    return Problem(name, 1, 1, "unknown-file", f'"{Path(name).name}" has no place in data/.', endings.get(Path(name).suffix, "Move it out, or see data/README.md for where each fact lives."))


@rule("missing-file", READING)
def missing_file(name: str, what: str = "This file", hint: str = "Restore it from the last good version.") -> Problem:
    """The files that stand alone in data/ are all there, and so is each schema."""
    return Problem(name, 1, 1, "missing-file", f"{what} is needed and missing.", hint)


def read_tree(data: Path, progress: Progress | None = None) -> DataTree:
    """Read a data folder (normally <project>/data). All problems of reading are collected in `problems`."""
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
    for path in sorted(data.iterdir()):
        if path.is_dir() and not path.is_symlink() and path.name in ("crops", "treatments"):
            for file in sorted(path.iterdir()):
                if file.suffix == ".yml" and not file.is_dir():
                    yaml_into(getattr(tree, path.name), file.stem, file)
                else:
                    tree.problems.append(unknown_file(shown(file)))
        elif path.is_dir() and path.name == "sources" and not path.is_symlink():
            for folder in sorted(path.iterdir()):
                _read_source(tree, folder, shown)
        elif path.is_dir() and path.name == "demo" and not path.is_symlink():
            for file in sorted(path.iterdir()):
                if file.name in DEMO_FILES:
                    raw, problems = read_bytes(file, shown(file), LARGEST_CSV)
                    tree.problems += problems
                    if raw is not None:
                        tree.demo[file.name] = raw
                else:
                    tree.problems.append(unknown_file(shown(file)))
        elif path.suffix == ".yml" and path.stem in (*SINGLE_FILES, *FILES_NOT_NEEDED):
            yaml_into(tree.singles, path.stem, path)
        elif path.name != "README.md":
            tree.problems.append(unknown_file(shown(path)))
    for single in SINGLE_FILES:
        if single not in tree.singles and not (data / f"{single}.yml").exists():
            tree.problems.append(missing_file(f"data/{single}.yml"))
    return tree


def _read_source(tree: DataTree, folder: Path, shown) -> None:
    if not folder.is_dir() or folder.is_symlink():
        tree.problems.append(unknown_file(shown(folder)))
        return
    document, problems = read_yaml(folder / "source.yml", shown(folder / "source.yml"))
    tree.problems += problems
    tables = {}
    for path in sorted(folder.iterdir()):
        if path.name == "source.yml":
            continue
        if path.suffix != ".csv" or path.is_dir():
            tree.problems.append(unknown_file(shown(path)))
            continue
        table, problems = read_csv(path, shown(path))
        tree.problems += problems
        if table is not None:
            tables[path.name] = table
    if document is not None:
        tree.sources[folder.name] = SourceFolder(document, tables)
