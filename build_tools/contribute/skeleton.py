"""A new data file made from its schema: keys that are needed stand empty, others are commented out, each with what it means.

Lines that begin with ## explain; taking "# " away from any other comment gives a key that can be used.
"""

from __future__ import annotations

import json
import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from ..form import Shape

WIDEST = 140
# Keys that are explained once in the text above the file rather than at each place.
SAID_ABOVE = ("sources",)


@dataclass
class Words:
    """What stands beside the schema: quantities and choices of data/quantities.yml, and what is known of the new file.

    filled: key path joined by "." → text of the value as YAML; offered: the same → lines to choose from, commented out.
    """

    quantities: Mapping[str, Mapping] = field(default_factory=dict)
    choices: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    filled: dict[str, str] = field(default_factory=dict)
    offered: dict[str, list[str]] = field(default_factory=dict)


def skeleton(shape: Shape, address: str, title: Sequence[str], words: Words) -> str:
    """The text of a new file. `address`: of the schema, for editors; `title`: lines at the top."""
    lines = [f"# yaml-language-server: $schema={address}"]
    for line in title:
        lines += _comment(line, "")
    return "\n".join([*lines, *_mapping(shape, "", words, "")]) + "\n"


def _of(shape: Shape, keyword: str):
    """What the nearest part of a schema says under a keyword: the place's own words before those it refers to."""
    return next((part[keyword] for part in reversed(shape.parts) if keyword in part), None)


def _required(shape: Shape) -> set[str]:
    return {key for part in shape.parts for key in part.get("required", ())}


def _comment(text: str, indent: str) -> list[str]:
    return textwrap.wrap(text, WIDEST, initial_indent=f"{indent}## ", subsequent_indent=f"{indent}## ", break_long_words=False, break_on_hyphens=False)


def _mapping(shape: Shape, path: str, words: Words, indent: str) -> list[str]:
    """The lines of every key of a mapping, in the schema's order."""
    lines: list[str] = []
    needed = _required(shape)
    for key in shape.order:
        here, child = f"{path}.{key}".lstrip("."), shape.child(key)
        lines += _explained(child, key, indent, words)
        used = key in needed or here in words.filled or any(name.startswith(here + ".") for name in words.filled)
        if here in words.offered:
            lines += [f"{indent}## The families tie: choose one, and name the other under disagreements."] + [f"{indent}# {line}" for line in words.offered[here]]
        elif used:
            lines += _entry(child, key, here, words, indent)
        else:
            lines += [f"{indent}# {line}" for line in _entry(child, key, here, words, "")]
    return lines


def _entry(shape: Shape, key: str, path: str, words: Words, indent: str) -> list[str]:
    """A key and its value: filled in, or empty."""
    if path in words.filled:
        return [f"{indent}{key}: {words.filled[path]}"]
    if _of(shape, "type") == "object" and not _on_one_line(shape):
        return [f"{indent}{key}:", *_mapping(shape, path, words, indent + "  ")]
    items = shape.child(None)
    if _of(shape, "type") == "array" and key not in SAID_ABOVE and items is not None:
        if _of(items, "type") == "object" and not _on_one_line(items):
            first, *rest = _needed_only(items, indent + "    ")
            return [f"{indent}{key}:", f"{indent}  - {first.strip()}", *rest]
        return [f"{indent}{key}: [{_empty(items)}]"] if _of(items, "maxLength") != 900 else [f"{indent}{key}:", f"{indent}  - {_empty(items)}"]
    return [f"{indent}{key}: {_empty(shape)}"]


def _needed_only(shape: Shape, indent: str) -> list[str]:
    """An entry of a list: its needed keys, and the others named in a comment."""
    needed = _required(shape)
    lines: list[str] = []
    for key in shape.order:
        child = shape.child(key)
        if key in needed:
            values = _of(child, "enum")
            lines.append(f"{indent}{key}: {_empty(child) if _of(child, 'type') != 'array' or key in SAID_ABOVE else '[]'}" + (f"  # one of: {', '.join(map(str, values))}" if values else ""))
    return lines


def _on_one_line(shape: Shape) -> bool:
    """Whether a mapping is written in braces: a judged value with its sources."""
    return "sources" in shape.order and bool({"value", "low", "choice", "percent"} & set(shape.order)) and len(_required(shape)) <= 3


def _empty(shape: Shape) -> str:
    """An empty value of the kind that belongs there: it reads as YAML, and the check names it."""
    if _on_one_line(shape):
        return "{" + ", ".join(f"{key}: {_empty(shape.child(key))}" for key in shape.order if key in _required(shape)) + "}"
    constant = _of(shape, "const")
    if constant is not None:
        return json.dumps(constant)
    kind = _of(shape, "type")
    if kind == "array":
        return "[]"
    if kind == "object":
        return "{" + ", ".join(f"{key}: {_empty(shape.child(key))}" for key in shape.order if key in _required(shape)) + "}"
    return "0" if kind in ("number", "integer") else '""'


def _explained(shape: Shape, key: str, indent: str, words: Words) -> list[str]:
    """What a key means, its unit and limits, the values it may have."""
    lines = []
    quantity = words.quantities.get(key, {})
    meaning = quantity.get("definition") or _of(shape, "description") or ""
    limits = f"In {quantity['unit']}, {quantity['lowest']:g} to {quantity['highest']:g}." if quantity else ""
    if text := f"{meaning} {limits}".strip():
        lines += _comment(text, indent)
    choice = shape.child("choice")
    values = _of(choice, "enum") if choice else _of(shape, "enum")
    said = words.choices.get(key, {})
    if values and not said:
        lines += _comment(f"One of: {', '.join(map(str, values))}.", indent)
    for value in values or () if said else ():
        lines += _comment(f"  {value}: {said[value]}" if value in said else f"  {value}", indent)
    return lines
