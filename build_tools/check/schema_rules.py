"""JSON Schema errors turned into problems a contributor can mend."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import jsonschema

from ..problem import Problem, did_you_mean
from ..read import DataTree, Document, Table

Draft = jsonschema.Draft202012Validator


@dataclass(frozen=True)
class SchemaSet:
    """The schemas of schema/, compiled; keys are the file names without `.schema.json`."""

    validators: dict[str, Draft]

    @classmethod
    def load(cls, folder: Path) -> SchemaSet:
        """Raises FileNotFoundError when the folder holds no schema, SchemaError when one is wrong."""
        validators = {}
        for path in sorted(folder.glob("*.schema.json")):
            schema = json.loads(path.read_text(encoding="utf-8"))
            Draft.check_schema(schema)
            validators[path.name.removesuffix(".schema.json")] = Draft(schema)
        if not validators:
            raise FileNotFoundError(f"no *.schema.json in {folder}")
        return cls(validators)


def check_schemas(tree: DataTree, schemas: SchemaSet) -> list[Problem]:
    """Every file of the tree against the schema of its kind."""
    needed = ("crop", "treatment", "source", *tree.singles)
    problems = [Problem(f"schema/{kind}.schema.json", 1, 1, "missing-file", "This schema is needed and missing.", "Restore it from the last good version.") for kind in needed if kind not in schemas.validators]
    if problems:
        return problems
    for kind, documents in (("crop", tree.crops), ("treatment", tree.treatments)):
        for document in documents.values():
            problems += _document_problems(document, schemas.validators[kind])
    for name, document in tree.singles.items():
        problems += _document_problems(document, schemas.validators[name])
    for source in tree.sources.values():
        problems += _document_problems(source.document, schemas.validators["source"])
        problems += _source_tables(source, schemas)
    return problems


def _source_tables(source, schemas: SchemaSet) -> Iterator[Problem]:
    tables = source.document.data.get("tables", []) if isinstance(source.document.data, dict) else []
    for index, entry in enumerate(tables):
        if not isinstance(entry, dict) or not isinstance(entry.get("kind"), str):
            continue
        kinds = {n.removeprefix("table-") for n in schemas.validators if n.startswith("table-")}
        if entry["kind"] not in kinds:
            yield source.document.problem(("tables", index, "kind"), "not-allowed", f'"{entry["kind"]}" is not a kind of table.', did_you_mean(entry["kind"], kinds))
        elif entry.get("file") in source.tables:
            yield from _table_problems(source.tables[entry["file"]], schemas.validators["table-" + entry["kind"]])


def _document_problems(document: Document, validator: Draft) -> Iterator[Problem]:
    for error in validator.iter_errors(document.data):
        yield from _explained(document, error)


def _explained(document: Document, error) -> Iterator[Problem]:
    path, kind, found = tuple(error.absolute_path), error.validator, error.instance
    name = f'"{path[-1]}"' if path and isinstance(path[-1], str) else "this entry" if path else "the file"
    if kind == "additionalProperties":
        allowed = set(error.schema.get("properties", {}))
        for key in sorted(set(found) - allowed):
            yield document.problem(path + (key,), "unknown-key", f'"{key}" is not a key of {name}.', did_you_mean(key, allowed - set(found)))
    elif kind == "required":
        missing = [key for key in error.validator_value if key not in found]
        for key in missing:
            if f"'{key}'" in error.message:
                yield document.problem(path, "missing-key", f'{name} has no "{key}".', f"Add it; see {_schema_name(error)}.")
    elif kind == "enum":
        yield document.problem(path, "not-allowed", f'"{found}" is not a value of {name}.', did_you_mean(str(found), map(str, error.validator_value)))
    elif kind == "const":
        yield document.problem(path, "not-allowed", f'"{found}" is not a value of {name}.', f"Write {json.dumps(error.validator_value)} or leave the key out.")
    elif kind == "type":
        words = {"number": "a number", "string": "text", "array": "a list", "object": "a mapping of keys", "boolean": "true or false"}
        hint = "Put it in double quotes." if error.validator_value == "string" and not isinstance(found, (dict, list)) else ""
        yield document.problem(path, "wrong-type", f"{name} should be {words.get(error.validator_value, error.validator_value)}; found {json.dumps(found, ensure_ascii=False)[:60]}.", hint)
    elif kind == "pattern":
        identifier = "[a-z0-9]+(-[a-z0-9]+)*" in error.validator_value
        form = "an id: lower-case letters and digits, words joined by hyphens" if identifier else f"the form {error.validator_value}"
        yield document.problem(path, "wrong-form", f'"{str(found)[:80]}" is not {form}.' if identifier else f'"{str(found)[:80]}" does not have {form}.', error.schema.get("description", ""))
    elif kind == "dependentRequired":
        yield document.problem(path, "missing-key", f"{name}: {error.message}.", "Give both, or neither.")
    elif kind == "uniqueItems":
        twice = sorted({str(item) for item in found if found.count(item) > 1})
        yield document.problem(path, "wrong-size", f"{name} names {', '.join(twice)} twice.", "Keep one of them.")
    elif kind == "minItems":
        yield document.problem(path, "wrong-size", f"{name} is empty.", "Name at least one; `common practice` and `from memory` count too." if path and path[-1] == "sources" else "Fill it in, or leave the key out.")
    elif kind in ("minLength", "maxLength", "maxItems", "minProperties", "minimum", "maximum"):
        yield document.problem(path, "wrong-size", f"{name}: {error.message[:160]}.", f"The limit is {error.validator_value} ({kind}).")
    else:
        yield document.problem(path, "schema", f"{name}: {error.message[:200]}.")


def _schema_name(error) -> str:
    return "the schema's description" if "description" in error.schema else "the schema"


def _table_problems(table: Table, validator: Draft) -> Iterator[Problem]:
    """A table is checked as columns of its distinct cells: few to validate, and each maps back to its rows."""
    cells = {column: {} for column in table.columns}
    for row in table.rows:
        for column in table.columns:
            cells[column].setdefault(row[column], row)
    for error in validator.iter_errors({column: list(values) for column, values in cells.items()}):
        path, kind = tuple(error.absolute_path), error.validator
        if kind == "additionalProperties":
            allowed = set(error.schema.get("properties", {}))
            for column in table.columns:
                if column not in allowed:
                    yield table.problem(None, column, "unknown-column", f'"{column}" is not a column of this kind of table.', did_you_mean(column, allowed - set(table.columns)))
        elif kind == "required":
            missing = [column for column in error.validator_value if column not in table.columns and f"'{column}'" in error.message]
            yield table.problem(None, None, "missing-column", f'The column "{missing[0]}" is missing.', "Add it to the header, or check its spelling.")
        elif len(path) == 2:
            yield table.problem(cells[path[0]][error.instance], path[0], "wrong-cell", f'"{error.instance[:60]}" does not fit the column {path[0]}.', error.parent and "" or _cell_hint(error, validator))
        else:
            yield table.problem(None, None, "schema", error.message[:200])


def _cell_hint(error, validator: Draft) -> str:
    column = validator.schema["properties"].get(error.absolute_path[0], {})
    return (column.get("description", "") + f" Form: {error.validator_value}").strip()
