"""What is published, held against its own schema before a site is built from it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

import jsonschema_rs

from ...model.reference import Reference
from ...problem import Problem
from .json_files import everything
from .schemas import published_schema, schema_files

RULE = "published-form"
HINT = "The published form is a promise to those who read it. If something is new, add it to the schema and to the change log in docs/api.md; otherwise mend what writes it, in build_tools/render/published/."


def unsound(reference: Reference, root: Path) -> list[Problem]:
    """What of the published JSON breaks its schema in <root>/schema: file, place inside it, schema. Makes and drops one file at a time."""
    texts = schema_files(root)
    validators, problems = _validators(reference, texts)
    if not problems:
        for path, schema, data in everything(reference, texts):
            if schema not in validators:
                return [Problem(f"schema/{schema}.schema.json", 1, 1, RULE, f"This schema of {path} is missing.", "Restore it from the last good version.")]
            problems += [_problem(path, schema, place, words) for place, words in faults(data, validators[schema])]
    return sorted(set(problems))


def _validators(reference: Reference, texts: Mapping[str, str]) -> tuple[dict, list[Problem]]:
    """The validators by name, or what keeps a schema from being published."""
    schemas, problems = {}, []
    for name, text in texts.items():
        try:
            schemas[name] = json.loads(published_schema(reference, name, text))
        except ValueError as error:
            problems.append(Problem(f"schema/{name}", 1, 1, RULE, str(error), "The $id becomes the address at which the schema is published."))
    if problems:
        return {}, problems
    try:
        return compiled(schemas), []
    except (jsonschema_rs.ValidationError, jsonschema_rs.ReferencingError, ValueError) as error:
        return {}, [Problem("schema", 1, 1, RULE, "A schema of published files cannot be used: " + str(error).split("\n")[0], "Check the references and keywords of the files schema/api-….")]


def compiled(schemas: Mapping[str, dict]) -> dict[str, jsonschema_rs.Draft202012Validator]:
    """Validators of the api-… schemas by name without the ending. `schemas`: file name → content, each with its absolute $id."""
    registry = jsonschema_rs.Registry([(content["$id"], content) for content in schemas.values()])
    return {
        name.removesuffix(".schema.json"): jsonschema_rs.Draft202012Validator(content, registry=registry)
        for name, content in schemas.items() if name.startswith("api-")
    }


def faults(data: dict, validator) -> list[tuple[str, str]]:
    """(place such as crop.values.minimum_c, what is wrong) of one file's data; also numbers that JSON does not have."""
    try:
        json.dumps(data, allow_nan=False)
    except (ValueError, TypeError) as error:
        return [("", f"it can't be written as JSON: {error}")]
    return [(".".join(str(step) for step in error.instance_path), error.message) for error in validator.iter_errors(data)]


def _problem(path: str, schema: str, place: str, words: str) -> Problem:
    shown = words if len(words) <= 300 else words[:200] + " … " + words[-90:]
    return Problem(path, 1, 1, RULE, f"{place or 'The file'} does not have the form of schema/{schema}.schema.json: {shown}.", HINT, at=place)
