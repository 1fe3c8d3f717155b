"""A table's way from a file to a source folder: what would be written, and every problem that `check` would then have."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from ..check import check_tree
from ..check.schema_rules import SchemaSet
from ..problem import Problem, did_you_mean
from ..read import DataTree, Table
from ..read.csv_file import parse_csv
from ..read.text_file import hidden_character
from ..read.tree import SourceFolder
from ..read.yaml_file import Document, parse_yaml
from .crop_names import NameBook
from .foreign_table import ForeignTable, read_foreign
from .import_table import Import, import_table
from .source_list import with_table

FILE_NAME = re.compile(r"[a-z0-9-]+\.csv")
# Problems that a copy may really have: with a `doubts` entry they stand, so the table can be written all the same on request.
MEANING = {"cell-limits", "pair-order", "printed-and-read", "band-order", "days-fall", "same-row-twice", "wrong-unit"}
STAND_IN = {"title": "to be filled in", "publisher": "to be filled in", "year": "not shown", "copy_read": "to be filled in", "verified": "to be filled in", "evidence": "advice"}


@dataclass(frozen=True)
class Wish:
    """What the person asked for: the words of the command, taken apart."""

    file: Path
    source: str
    kind: str
    caption: str = ""
    maps: Mapping[str, str] = field(default_factory=dict)
    crops: Mapping[str, str] = field(default_factory=dict)
    unit: str = ""
    header_line: int | None = None
    leave_out: tuple[int, ...] = ()
    table_name: str = ""
    replace: bool = False


@dataclass
class Walk:
    """The outcome: where the table goes and what would be written there; problems of the table itself; what `check` would say elsewhere."""

    wish: Wish
    caption: str = ""
    name: str = ""
    table: ForeignTable | None = None
    done: Import | None = None
    table_text: str = ""
    source_text: str = ""
    problems: list[Problem] = field(default_factory=list)
    elsewhere: list[Problem] = field(default_factory=list)
    unfinished: list[str] = field(default_factory=list)

    @property
    def stopped(self) -> bool:
        """Whether the table can't be written: it could not be read, or would not pass the schema of its kind."""
        return not self.table_text or any(p.rule not in MEANING for p in self.problems)


def walk_in(root: Path, tree: DataTree, schemas: SchemaSet, wish: Wish, book: NameBook) -> Walk:
    """Everything up to the writing. `root` is the project's folder; `tree` may have files that are being mended, `book` knows the names of the sound ones."""
    walk = Walk(wish)
    walk.problems += _words(tree, schemas, wish)
    if walk.problems:
        return walk
    schema = schemas.validators[f"table-{wish.kind}"].schema
    walk.caption, walk.name = wish.caption or schema["title"], wish.table_name or f"{wish.kind}.csv"
    walk.table, walk.problems = read_foreign(wish.file, wish.header_line, wish.leave_out)
    if walk.table is None:
        return walk
    walk.done = import_table(walk.table, wish.kind, schema, book, wish.maps, wish.crops, wish.unit)
    walk.problems += walk.done.problems
    try:
        _list_it(root, tree, walk)
    except (ValueError, OSError) as error:
        walk.problems.append(Problem(f"data/sources/{wish.source}/source.yml", 1, 1, "source-list", str(error)))
        return walk
    walk.table_text = walk.done.text()
    if not walk.problems:  # the rest would only follow from these
        _check(tree, schemas, walk)
    return walk


def _words(tree: DataTree, schemas: SchemaSet, wish: Wish) -> list[Problem]:
    """Problems of the command's own words: source, kind, name of the table."""
    kinds = sorted(name.removeprefix("table-") for name in schemas.validators if name.startswith("table-"))
    found = []
    if wish.source not in tree.sources:
        found.append(Problem(wish.file.name, 1, 1, "unknown-source", f'There is no source "{wish.source}" in data/sources/ that can be read.', f"{did_you_mean(wish.source, tree.sources)} For a new one: new source {wish.source}".strip()))
    if wish.kind not in kinds:
        near = did_you_mean(wish.kind, kinds)
        found.append(Problem(wish.file.name, 1, 1, "not-allowed", f'"{wish.kind}" is not a kind of table.', f"{near} Kinds: {', '.join(kinds)}.".strip()))
    if wish.table_name and not FILE_NAME.fullmatch(wish.table_name):
        found.append(Problem(wish.file.name, 1, 1, "wrong-form", f'"{wish.table_name}" is no name for a table.', "Use lower-case letters, digits and hyphens, and .csv at the end."))
    if found or wish.source not in tree.sources:
        return found
    name = wish.table_name or f"{wish.kind}.csv"
    held, listed = name in tree.sources[wish.source].tables, name in _listed(tree, wish.source)
    if (held or listed) and not wish.replace:
        where = "is listed in its source.yml already" if listed else "is there already"
        found.append(Problem(f"data/sources/{wish.source}/{name}", 1, 1, "table-taken", f"This table {where}.", f"To put this one in its place add --replace; to keep both, name this one: --table {wish.kind}-2.csv"))
    return found


def _listed(tree: DataTree, source: str) -> dict[str, dict]:
    data = tree.sources[source].document.data
    entries = data.get("tables") if isinstance(data, dict) else None
    return {entry["file"]: entry for entry in entries or () if isinstance(entry, dict) and "file" in entry}


def _list_it(root: Path, tree: DataTree, walk: Walk) -> None:
    """The new text of source.yml; the old one when the table is listed there. ValueError when it is listed as another kind."""
    wish = walk.wish
    text = (root / "data" / "sources" / wish.source / "source.yml").read_text(encoding="utf-8")
    entry = _listed(tree, wish.source).get(walk.name)
    if entry is None:
        walk.source_text = with_table(text, walk.name, wish.kind, walk.caption)
    elif entry.get("kind") != wish.kind:
        raise ValueError(f'{walk.name} is listed as a table of kind {entry.get("kind")}, not {wish.kind}. Name this one otherwise: --table {wish.kind}-2.csv')
    else:
        walk.source_text = text


def _check(tree: DataTree, schemas: SchemaSet, walk: Walk) -> None:
    """What `check` would say with the table in its place: of the table (by the lines of the person's file), and of other files."""
    folder, wish = f"data/sources/{walk.wish.source}", walk.wish
    shown = f"{folder}/{walk.name}"
    table, problems = parse_csv(walk.table_text, shown)
    problems = [*problems, *hidden_character(walk.table_text, shown)]
    if table is None or problems:
        walk.problems += _at_home(walk, table, problems)
        return
    document, _ = parse_yaml(walk.source_text, f"{folder}/source.yml")
    after = check_tree(_with(tree, wish.source, document, walk.name, table), schemas)
    before = check_tree(tree, schemas) if any(p.file != shown for p in after) else []
    if not any(p.level == "error" for p in before):
        walk.elsewhere = [p for p in after if p not in before and p.file != shown]
    else:  # files that are being mended, such as the new source itself, must not hide what is wrong with the table
        walk.unfinished = sorted({p.file for p in before if p.level == "error"})
        stand_in = replace(document, data={**STAND_IN, "id": wish.source, "family": wish.source, "tables": [{"file": walk.name, "kind": wish.kind, "caption": walk.caption}]})
        rest = tree.without({*walk.unfinished, f"{folder}/source.yml"})
        after = check_tree(_with(rest, wish.source, stand_in, walk.name, table), schemas)
    walk.problems += _at_home(walk, table, [p for p in after if p.file == shown and not (p.rule == "unknown-crop-id" and walk.unfinished)])
    walk.problems += _wrong_units(tree, walk)


def _with(tree: DataTree, source: str, document: Document, name: str, table: Table) -> DataTree:
    tables = {**(tree.sources[source].tables if source in tree.sources else {}), name: table}
    return replace(tree, sources={**tree.sources, source: SourceFolder(document, tables)}, problems=[p for p in tree.problems if p.file != document.file])


def _at_home(walk: Walk, table: Table | None, problems: Iterable[Problem]) -> list[Problem]:
    """Problems of our table, put at the lines and headers of the person's file."""
    lines = {row.line: index for index, row in enumerate(table.rows)} if table else {}
    header_of = {reading.column: header for header, reading in walk.done.readings.items()}
    found = []
    for problem in problems:
        index = lines.get(problem.line)
        line = walk.table.header_line if index is None else walk.done.lines[index]
        column = next((column for column in walk.done.columns if table and table.problem(table.rows[index], column, "", "").column == problem.column), None) if index is not None else None
        header = header_of.get(column or "", column)
        said = f' (column "{header}")' if header and header != column else ""
        place = walk.table.headers.index(header) + 1 if header in walk.table.headers else 1
        found.append(replace(problem, file=walk.wish.file.name, line=line, column=place, message=problem.message.rstrip(".") + said + ".", see=()))
    return found


def _wrong_units(tree: DataTree, walk: Walk) -> list[Problem]:
    """A column of temperatures whose every figure is plausible in the other unit, and some not in its own."""
    limits = tree.singles["quantities"].data["table_columns"]
    header_of = {reading.column: header for header, reading in walk.done.readings.items()}
    odd = {p.column for p in walk.problems if p.rule == "cell-limits"}
    found = []
    for column in walk.done.columns:
        other = column[:-1] + {"c": "f", "f": "c"}.get(column[-1], "")
        header = header_of.get(column)
        if header is None or not column.endswith(("_c", "_f")) or other not in limits or walk.table.headers.index(header) + 1 not in odd:
            continue
        figures = [float(row[column]) for row in walk.done.rows if re.fullmatch(r"-?\d+(\.\d+)?", row.get(column, ""))]
        if figures and all(limits[other]["lowest"] <= figure <= limits[other]["highest"] for figure in figures):
            unit = "°F" if other.endswith("f") else "°C"
            found.append(walk.table.problem(walk.table.header_line, walk.table.headers.index(header), "wrong-unit", f'Every figure under "{header}" would be plausible in {unit}, and not all are in {"°C" if unit == "°F" else "°F"}',
                                            f'If they are {unit}, add --map "{header}={other}".'))
    return found
