"""The page Fields of the data files: every kind of file, every key, from the schemas, with examples from the real data."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from markupsafe import Markup, escape

from ..model.reference import Reference
from ..read import read_yaml
from .schema_keys import ANY, ITEM, Key, children, joined, keys_of, merged, shared_part

NOT_DATA = ("api-", "report-")  # schemas of what the site publishes and of reports; no one writes such files
FOLDERS = {"crop": "data/crops/*.yml", "treatment": "data/treatments/*.yml", "source": "data/sources/*/source.yml", "release-changes": "data/releases/*.csv"}
TABLES = "data/sources/*/*.csv"
FIRST = ("crop", "source", "treatment")
LONGEST_EXAMPLE = 90
CODE = re.compile(r"`([^`]+)`")


@dataclass(frozen=True)
class Kind:
    """A kind of file: its schema's id, title and description, where such files are, and its keys by part ("" first)."""

    id: str
    title: str
    description: str
    files: str
    table: bool
    parts: tuple[tuple[str, tuple[Key, ...]], ...]


def schemas(root: Path) -> dict[str, dict]:
    """The schemas of data files by kind: crops, sources and treatments first, tables last."""
    found = {p.name.removesuffix(".schema.json"): json.loads(p.read_text(encoding="utf-8")) for p in sorted((root / "schema").glob("*.schema.json"))}
    data = [kind for kind in found if not kind.startswith(NOT_DATA)]
    return {kind: found[kind] for kind in sorted(data, key=lambda k: (FIRST.index(k) if k in FIRST else len(FIRST), k.startswith("table-"), k))}


def kinds(reference: Reference, root: Path) -> list[Kind]:
    """Every kind of data file with its keys and an example of each."""
    result = []
    for kind, schema in schemas(root).items():
        files = TABLES if kind.startswith("table-") else FOLDERS.get(kind, f"data/{kind}.yml")
        table, keys = files.endswith(".csv"), keys_of(schema)
        examples = _table_examples(reference, kind.removeprefix("table-")) if table else _Examples(schema).read(sorted(root.glob(files)), {(k.part, k.path) for k in keys})
        keys = [replace(k, example=examples.get((k.part, k.path), "")) for k in keys]
        parts = dict.fromkeys(k.part for k in keys)
        result.append(Kind(kind, schema["title"], schema.get("description", ""), files, table, tuple((p, tuple(k for k in keys if k.part == p)) for p in parts)))
    return result


def shown(value: object) -> str:
    """A value as it would be written on one line of a data file, cut to a readable length."""
    text = _flow(value)
    return text if len(text) <= LONGEST_EXAMPLE else text[: LONGEST_EXAMPLE - 1].rstrip() + "…"


def _flow(value: object) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key}: {_flow(v)}" for key, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    if isinstance(value, str):
        return value if re.fullmatch(r"[a-z][a-z -]*", value) else f'"{value}"'
    return json.dumps(value)


class _Examples:
    """Examples of the keys of one schema, collected from files; what a node of the schema holds is worked out once."""

    def __init__(self, schema: Mapping):
        self.schema, self.found, self.known = schema, {}, {}

    def read(self, files: list[Path], wanted: set[tuple[str, str]]) -> dict[tuple[str, str], str]:
        """(part, path) → example, from the first files that have one."""
        for path in files:
            document, _ = read_yaml(path, path.name)
            if document is not None:
                self._collect(self.schema, document.data, "", "")
            if wanted <= set(self.found):
                break
        return self.found

    def _steps(self, node: Mapping) -> list[tuple[str, Mapping, str, frozenset]]:
        if id(node) not in self.known:
            named = frozenset(merged(self.schema, node).get("properties", ()))
            self.known[id(node)] = (node, [(step, child, shared_part(self.schema, child), named) for step, child, _ in children(self.schema, node)])
        return self.known[id(node)][1]

    def _collect(self, node: Mapping, data: object, part: str, path: str) -> None:
        for step, child, uses, named in self._steps(node):
            here = joined(path, step)
            for value in _held(step, data, named):
                if (part, here) not in self.found:
                    self.found[part, here] = shown(value)
                self._collect(child, value, *((uses, "") if uses else (part, here)))


def _held(step: str, data: object, named: frozenset) -> Iterator[object]:
    """The values in `data` that stand at a step of the schema; `named` are the keys that have a name of their own."""
    if step == ITEM:
        yield from data if isinstance(data, list) else ()
    elif isinstance(data, Mapping):
        if step == ANY:
            yield from (value for key, value in data.items() if key not in named)
        elif step in data:
            yield data[step]


def _table_examples(reference: Reference, kind: str) -> dict[tuple[str, str], str]:
    found: dict[tuple[str, str], str] = {}
    for source in reference.sources.values():
        for table in source.tables:
            for row in table.rows if table.kind == kind else ():
                for column, cell in row.items():
                    if cell and ("", column) not in found:
                        found["", column] = shown(cell).strip('"')
    return found


def with_code(text: str) -> Markup:
    """Text in which what stands in backticks is set as code."""
    return Markup(CODE.sub(r"<code>\1</code>", str(escape(text))))


def add(rendered, reference: Reference, environment, root: Path) -> None:
    """Add the page."""
    from . import Page

    title, description = "Fields of the data files", "Every kind of data file and table, every key and column: what it means, what it may hold, an example."
    known = schemas(root)
    headings = tuple((kind, schema["title"]) for kind, schema in known.items())
    summary = Markup('<h1 id="top">{}</h1><p>{}</p>').format(title, description) + Markup("").join(Markup('<h2 id="{}">{}</h2>').format(*h) for h in headings)

    def body() -> str:
        return environment.get_template("correct/fields.html").render(root="../", kinds=kinds(reference, root), with_code=with_code)

    rendered.pages["fields.md"] = Page(title, description, body, str(summary), headings)
