"""What JSON Schema finds, turned into problems a contributor can mend. One function each."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path

import jsonschema
import jsonschema_rs

from ..problem import Problem, did_you_mean
from ..progress import Progress
from ..read import DataTree, Document, Table
from ..read.tree import missing_file
from ..registry import SHAPE, rule

Draft = jsonschema.Draft202012Validator
MOST_OF_A_FILE = 1_000  # a file made to break many thousand times must not keep anyone waiting
IDENTIFIER = "[a-z0-9]+(-[a-z0-9]+)*"
WORDS_FOR_TYPES = {"number": "a number", "string": "text", "array": "a list", "object": "a mapping of keys", "boolean": "true or false", "integer": "a whole number"}


FORMS_IN_WORDS = {  # of cells
    r"^([0-9]+(\.[0-9]+)?)?$": "Write digits with a point for decimals, such as 12 or 2.5, or leave it empty.",
    r"^(-?[0-9]+(\.[0-9]+)?)?$": "Write digits with a point for decimals, such as 12, 2.5 or -3, or leave it empty.",
    r"^[0-9]+(\.[0-9]+)?$": "Write digits with a point for decimals, such as 12 or 2.5.",
}


@dataclass(frozen=True)
class SchemaSet:
    """The schemas of schema/, compiled; keys are the file names without `.schema.json`."""

    validators: dict[str, Draft]
    _quick: dict[str, jsonschema_rs.Draft202012Validator] = field(default_factory=dict, compare=False, repr=False)

    def holds(self, kind: str, data) -> bool:
        """Whether data keeps to a schema: said at once by a fast validator. What is wrong where it doesn't, the slow one explains."""
        if kind not in self._quick:
            self._quick[kind] = jsonschema_rs.Draft202012Validator(self.validators[kind].schema)
        return self._quick[kind].is_valid(data)

    @classmethod
    def load(cls, folder: Path) -> SchemaSet:
        """Raises FileNotFoundError when the folder holds no schema, SchemaError when one is wrong."""
        validators = {}
        for path in sorted(folder.glob("*.schema.json")):
            schema = json.loads(path.read_text(encoding="utf-8"))
            if not jsonschema_rs.meta.is_valid(schema):
                Draft.check_schema(schema)
            validators[path.name.removesuffix(".schema.json")] = Draft(schema)
        if not validators:
            raise FileNotFoundError(f"no *.schema.json in {folder}")
        return cls(validators)


def check_schemas(tree: DataTree, schemas: SchemaSet, progress: Progress | None = None) -> list[Problem]:
    """Every file of the tree against the schema of its kind."""
    needed = ("crop", "treatment", "source", *tree.singles, *(["release-changes"] if tree.releases else []))
    problems = [missing_file(f"schema/{kind}.schema.json", "This schema") for kind in needed if kind not in schemas.validators]
    if problems:
        return problems
    documents = [(d, kind) for kind, found in (("crop", tree.crops), ("treatment", tree.treatments)) for d in found.values()]
    documents += [(d, name) for name, d in tree.singles.items()] + [(s.document, "source") for s in tree.sources.values()]
    for document, kind in documents:
        if not schemas.holds(kind, document.data):
            problems += _document_problems(document, schemas.validators[kind])
        if progress:
            progress.step(len(documents))
    for source in tree.sources.values():
        problems += _source_tables(source, schemas)
    for table in tree.releases.values():
        problems += _table_problems(table, schemas, "release-changes")
    return problems


def _source_tables(source, schemas: SchemaSet) -> Iterator[Problem]:
    tables = source.document.data.get("tables", []) if isinstance(source.document.data, dict) else []
    for index, entry in enumerate(tables if isinstance(tables, list) else []):
        if not isinstance(entry, dict) or not isinstance(entry.get("kind"), str):
            continue
        kinds = {n.removeprefix("table-") for n in schemas.validators if n.startswith("table-")}
        if entry["kind"] not in kinds:
            yield source.document.problem(("tables", index, "kind"), "not-allowed", f'"{entry["kind"]}" is not a kind of table.', did_you_mean(entry["kind"], kinds))
        elif isinstance(entry.get("file"), str) and entry["file"] in source.tables:
            yield from islice(_table_problems(source.tables[entry["file"]], schemas, "table-" + entry["kind"]), MOST_OF_A_FILE)


def _document_problems(document: Document, validator: Draft) -> Iterator[Problem]:
    found = (problem for error in validator.iter_errors(document.data) for problem in BY_KEYWORD[error.validator](document, error))
    yield from islice(found, MOST_OF_A_FILE)


def _path(error) -> tuple:
    return tuple(error.absolute_path)


def _name(error) -> str:
    """What the error is about, as a contributor would call it."""
    path = _path(error)
    return f'"{path[-1]}"' if path and isinstance(path[-1], str) else "this entry" if path else "the file"


def quoted(found, most: int = 80) -> str:
    """What was found, as it would stand in a file, cut when long."""
    text = json.dumps(found, ensure_ascii=False)
    return text if len(text) <= most else text[:most] + "…"


@rule("unknown-key", SHAPE)
def unknown_key(document: Document, error) -> Iterator[Problem]:
    """Every key of a file is a key that its kind of file has; the page “Fields of the data files” lists them."""
    allowed = set(error.schema.get("properties", {}))
    for key in sorted(set(error.instance) - allowed):
        yield document.problem(_path(error) + (key,), "unknown-key", f'"{key}" is not a key of {_name(error)}.', did_you_mean(key, allowed - set(error.instance)))


@rule("missing-key", SHAPE)
def missing_key(document: Document, error) -> Iterator[Problem]:
    """Every key that a kind of file needs is there, and keys that go together come together."""
    if error.validator == "dependentRequired":
        for key, partners in error.validator_value.items():
            for partner in partners:
                if key in error.instance and partner not in error.instance:
                    yield document.problem(_path(error) + (key,), "missing-key", f'{_name(error)} has "{key}" and no "{partner}".', "Give both, or neither.")
        return
    for key in error.validator_value:
        if key not in error.instance and f"'{key}'" in error.message:
            meaning = error.schema.get("properties", {}).get(key, {}).get("description", "")
            yield document.problem(_path(error), "missing-key", f'{_name(error)} has no "{key}".', f"Add it{': ' + meaning if meaning else '.'}")


@rule("not-allowed", SHAPE)
def not_allowed(document: Document, error) -> Iterator[Problem]:
    """A value that is chosen from a list is one of the list."""
    values = error.validator_value if error.validator == "enum" else [error.validator_value]
    hint = f"Write {json.dumps(values[0])} or leave the key out." if error.validator == "const" else did_you_mean(str(error.instance), map(str, values))
    yield document.problem(_path(error), "not-allowed", f"{quoted(error.instance)} is not a value of {_name(error)}.", hint)


@rule("wrong-type", SHAPE)
def wrong_type(document: Document, error) -> Iterator[Problem]:
    """A value is of its kind: a number without quotes, text in quotes, a list in brackets or dashes, a mapping of keys."""
    wanted, found = error.validator_value, error.instance
    hint = "Put it in double quotes." if wanted == "string" and not isinstance(found, (dict, list)) else ""
    if wanted in ("number", "integer") and isinstance(found, str):
        hint = "Write the number without quotes and without a unit." if re.search(r"[0-9]", found) else "Write a number, or leave the key out when it is unknown."
    if wanted == "array" and not isinstance(found, dict):
        hint = f"Write [{found}]." if isinstance(found, str) else "Put it in square brackets."
    yield document.problem(_path(error), "wrong-type", f"{_name(error)} should be {WORDS_FOR_TYPES.get(wanted, wanted)}; found {quoted(found)}.", hint)


@rule("wrong-form", SHAPE)
def wrong_form(document: Document, error) -> Iterator[Problem]:
    """A text with a set form has it: an id of small letters and digits, a file name, a web address, a day as month-day."""
    if IDENTIFIER in error.validator_value:
        yield document.problem(_path(error), "wrong-form", f"{quoted(error.instance)} is not an id: lower-case letters and digits, words joined by hyphens.", _as_id(error.instance))
    else:
        yield document.problem(_path(error), "wrong-form", f"{quoted(error.instance)} does not have the form {error.validator_value}.", error.schema.get("description", ""))


def _as_id(found) -> str:
    """How a name would be written as an id."""
    made = re.sub(r"[^a-z0-9]+", "-", str(found).lower()).strip("-")[:40]
    return f'Write "{made}".' if made and made != found else ""


@rule("wrong-size", SHAPE)
def wrong_size(document: Document, error) -> Iterator[Problem]:
    """Texts, lists and numbers are neither empty nor longer, larger or smaller than their field allows; nothing is named twice in a list."""
    keyword, limit, found, name = error.validator, error.validator_value, error.instance, _name(error)
    if keyword == "uniqueItems":
        twice = sorted({str(item) for item in found if found.count(item) > 1})
        message, hint = f"{name} names {', '.join(twice)} twice.", "Keep one of them."
    elif keyword in ("minItems", "minProperties") and not found:
        message, hint = f"{name} is empty.", "Name at least one; `common practice` and `from memory` count too." if _path(error)[-1:] == ("sources",) else "Fill it in, or leave the key out."
    elif keyword == "minLength" and not found:
        message, hint = f"{name} is empty.", "Fill it in, or leave the key out."
    elif keyword in ("minLength", "maxLength"):
        message, hint = f"{name} has {len(found)} letters: {quoted(found, 60)}.", f"At {'least' if keyword == 'minLength' else 'most'} {limit} are read."
    elif keyword in ("maxItems", "minItems", "minProperties"):
        message, hint = f"{name} has {len(found)} entries.", f"At {'most' if keyword == 'maxItems' else 'least'} {limit} are read."
    else:
        words = {"minimum": "at least", "maximum": "at most", "exclusiveMinimum": "more than", "exclusiveMaximum": "less than"}[keyword]
        message, hint = f"{name} is {found:g}.", f"It should be {words} {limit:g}."
    yield document.problem(_path(error), "wrong-size", message, hint)


BY_KEYWORD: dict[str, Callable] = {
    "additionalProperties": unknown_key, "required": missing_key, "dependentRequired": missing_key, "enum": not_allowed, "const": not_allowed, "type": wrong_type, "pattern": wrong_form,
    **dict.fromkeys(("uniqueItems", "minItems", "minLength", "maxLength", "maxItems", "minProperties", "minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum"), wrong_size),
}


def _table_problems(table: Table, schemas: SchemaSet, kind: str) -> Iterator[Problem]:
    """A table is checked as columns of its distinct cells: few to validate, and each maps back to its rows."""
    cells = {column: {} for column in table.columns}
    for row in table.rows:
        for column in table.columns:
            cells[column].setdefault(row[column], row)
    columns = {column: list(values) for column, values in cells.items()}
    if schemas.holds(kind, columns):
        return
    validator = schemas.validators[kind]
    for error in validator.iter_errors(columns):
        find = wrong_cell if len(error.absolute_path) == 2 else {"additionalProperties": unknown_column, "required": missing_column}[error.validator]
        yield from find(table, error, cells, validator)


@rule("unknown-column", SHAPE)
def unknown_column(table: Table, error, cells, validator) -> Iterator[Problem]:
    """Every column of a table is one that its kind of table has."""
    allowed = set(error.schema.get("properties", {}))
    for column in table.columns:
        if column not in allowed:
            yield table.problem(None, column, "unknown-column", f'"{column}" is not a column of this kind of table.', did_you_mean(column, allowed - set(table.columns)))


@rule("missing-column", SHAPE)
def missing_column(table: Table, error, cells, validator) -> Iterator[Problem]:
    """Every column that a kind of table needs is there."""
    for column in error.validator_value:
        if column not in table.columns and f"'{column}'" in error.message:
            yield table.problem(None, None, "missing-column", f'The column "{column}" is missing.', f"Add it to the header, or check its spelling: {validator.schema['properties'][column].get('description', '')}".removesuffix(": "))


@rule("wrong-cell", SHAPE)
def wrong_cell(table: Table, error, cells, validator) -> Iterator[Problem]:
    """A cell of a table fits its column: a number where numbers stand, a code where codes stand."""
    column = error.absolute_path[0]
    described = validator.schema["properties"].get(column, {}).get("description", "")
    values = error.validator_value
    form = f"Allowed: {', '.join(v or '(empty)' for v in values)}." if error.validator == "enum" and len(values) <= 12 else did_you_mean(error.instance, values) if error.validator == "enum" else FORMS_IN_WORDS.get(values, f"Form: {values}")
    yield table.problem(cells[column][error.instance], column, "wrong-cell", f"{quoted(error.instance)} does not fit the column {column}.", f"{described} {form}".strip())
