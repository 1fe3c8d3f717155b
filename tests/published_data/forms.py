"""The form of what is published, as lists of paths, types and words: what a version promises its readers."""

from __future__ import annotations

import json
from pathlib import Path

from build_tools.render.published.columns import MEASURED, SOURCES, TABLES, crop_fields
from build_tools.render.published.schemas import schema_files

FOLDER = Path(__file__).parent / "promised"
TYPES = {str: "string", bool: "boolean", int: "integer", float: "number", type(None): "null", dict: "object", list: "array"}


def form_now(reference, root: Path) -> dict:
    """{"json": {schema: {path: {"types", "words"}}}, "csv": {path: columns}} of the schemas and columns as they are now."""
    schemas = {name: json.loads(text) for name, text in schema_files(root).items() if name.startswith("api-")}
    forms = {}
    for name, schema in schemas.items():
        if name != "api-common.schema.json":
            forms[name.removesuffix(".schema.json")] = found = {}
            _walk(schema, name, "", schemas, found)
    columns = {"crops": crop_fields(reference), "measured": MEASURED, "sources": SOURCES, "tables": TABLES}
    return {"json": forms, "csv": {f"downloads/{name}.csv": [field["name"] for field in fields] for name, fields in columns.items()}}


def _walk(part: dict, file: str, path: str, schemas: dict, found: dict) -> None:
    if "$ref" in part:
        other, _, pointer = part["$ref"].partition("#/")
        target = schemas[other or file]
        for step in pointer.split("/"):
            target = target[step]
        _walk(target, other or file, path, schemas, found)
        return
    kinds = part.get("type", [])
    entry = found.setdefault(path, {"types": set(), "words": set()})
    entry["types"] |= {kinds} if isinstance(kinds, str) else set(kinds)
    entry["types"] |= {TYPES[type(word)] for word in part.get("enum", ())}
    entry["words"] |= set(part.get("enum", ()))
    for key, inner in part.get("properties", {}).items():
        _walk(inner, file, f"{path}.{key}".lstrip("."), schemas, found)
    if isinstance(part.get("additionalProperties"), dict):
        _walk(part["additionalProperties"], file, f"{path}.*".lstrip("."), schemas, found)
    if isinstance(part.get("items"), dict):
        _walk(part["items"], file, f"{path}[]", schemas, found)


def plain(form: dict) -> dict:
    """With sorted lists for the sets, as it is written to a file."""
    return {
        "json": {name: {path: {key: sorted(values) for key, values in entry.items() if values} for path, entry in paths.items()} for name, paths in form["json"].items()},
        "csv": form["csv"],
    }


def promised() -> dict[str, dict]:
    """Version → its form, for every version there was."""
    return {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in sorted(FOLDER.glob("*.json"))}


def broken(promise: dict, now: dict) -> list[str]:
    """What of a promise no longer holds: keys gone, other types, words gone, columns gone or moved."""
    said = []
    for name, paths in promise["json"].items():
        current = now["json"].get(name, {})
        for path, entry in paths.items():
            if path not in current:
                said.append(f"{name}: {path} is gone")
                continue
            # Of 1.0, which had no schemas, only the types that occurred are known; a whole number is a number.
            known = set(current[path]["types"]) | ({"integer"} if "number" in current[path]["types"] else set())
            exact = "words" in entry or promise.get("from_schemas", True)
            if not set(entry["types"]) <= known or (exact and set(entry["types"]) != set(current[path]["types"])):
                said.append(f"{name}: {path} was {entry['types']}, is {sorted(current[path]['types'])}")
            gone = set(entry.get("words", ())) - set(current[path].get("words", ()))
            said += [f"{name}: {path} no longer says {word}" for word in sorted(gone)]
    for path, columns in promise["csv"].items():
        if now["csv"].get(path, [])[: len(columns)] != columns:
            said.append(f"{path}: columns gone or moved")
    return said
