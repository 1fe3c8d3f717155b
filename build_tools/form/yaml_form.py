"""The form of a YAML data file: keys in the schema's order, plain numbers, quotes by one rule, no stray spaces.

The text is edited where it differs from the form and nowhere else, so that comments and line breaks stay.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

import yaml

from ..problem import Problem
from ..read.yaml_file import Document, Loader, parse_yaml
from ..read.yaml_rules import NUMBER, SCALAR_RULES
from .shapes import Shape

PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9_./-]*( [A-Za-z0-9_.-]+)*")
PLAIN_KEY = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.-]*")
SCHEMA_LINE = re.compile(r"# *yaml-language-server:.*")
BLOCK = ("|", ">")


class CannotFix(ValueError):
    """The file can't be put in form until a problem is mended; `problem` says which."""

    def __init__(self, problem: Problem):
        super().__init__(problem.text)
        self.problem = problem


def fix_yaml(text: str, shape: Shape, schema: str, file: str, read: Document | None = None) -> str:
    """The same data in the house's form, comments kept. `schema` is the schema's address for editors, `file` the shown name.

    `read` is the text's document where it has been read without a problem, which saves the reading.

    Raises CannotFix when the text can't be read, or when a value or a comment would be lost.
    """
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    before, problems = (read, []) if read else parse_yaml(text, file)
    if before is None or problems:
        raise CannotFix(problems[0])
    fixed = _with_schema_line(_in_form(text, shape), schema)
    if fixed == text:
        return text
    after, problems = parse_yaml(fixed, file)
    if after is None or problems or after.data != before.data or _comments(fixed) != _comments(text):
        raise CannotFix(Problem(file, 1, 1, "form", "The file could not be put in form without losing something.", "Simplify it: one entry a line, comments on lines of their own."))
    return fixed


def _in_form(text: str, shape: Shape) -> str:
    """The text with scalars, order and spaces in form; parsed again only where something was changed."""
    root = _composed(text)
    if (edited := _edited(text, root, shape)) != text:
        text, root = edited, _composed(edited)
    while found := next(_out_of_order(root, shape), None):
        text = "\n".join(_reordered(text.split("\n"), *found))
        root = _composed(text)
    return _spaced(text, root)


def _composed(text: str):
    return yaml.compose(text, Loader=Loader)


def _comments(text: str) -> list[str]:
    """The comments of a text but the schema line, in any order."""
    starts = (line.find("#") for line in text.split("\n"))
    return sorted(line[start:].rstrip() for line, start in zip(text.split("\n"), starts) if start >= 0 and not SCHEMA_LINE.fullmatch(line.strip()) and line[:start].strip() == "")


# Scalars and one-line collections


def _edited(text: str, root, shape: Shape) -> str:
    """The text with every scalar, every one-line collection and the colon between a key and its value in form."""
    lines = text.split("\n")
    offsets = [0]
    for line in lines:
        offsets.append(offsets[-1] + len(line) + 1)
    edits = []
    for node, here, key in _leaves(root, shape):
        start, end = (offsets[mark.line] + mark.column for mark in (node.start_mark, node.end_mark))
        new = _key(node, text[start:end]) if key else _token(node, here, text[start:end])
        if new != text[start:end]:
            edits.append((start, end, new))
    for key, value in _pairs(root):
        start, end = (offsets[mark.line] + mark.column for mark in (key.end_mark, value.start_mark))
        if text[start:end] != ": " and key.end_mark.line == value.start_mark.line:
            edits.append((start, end, ": "))
    for start, end, new in sorted(edits, reverse=True):
        text = text[:start] + new + text[end:]
    return text


def _leaves(node, shape: Shape | None) -> Iterator[tuple]:
    """(node, shape, whether it is a key) of everything that is written anew: scalars outside one-line collections, and those collections."""
    if isinstance(node, yaml.ScalarNode) or node.flow_style and node.start_mark.line == node.end_mark.line:
        yield node, shape, False
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from _leaves(item, shape.child(None) if shape else None)
    else:
        for key, value in node.value:
            yield key, None, True
            yield from _leaves(value, shape.child(key.value) if shape else None)


def _pairs(node) -> Iterator[tuple]:
    """(key, value) of the block mappings."""
    if isinstance(node, yaml.ScalarNode) or node.flow_style:
        return
    for item in node.value:
        if isinstance(item, tuple):
            yield item
            yield from _pairs(item[1])
        else:
            yield from _pairs(item)


def _token(node, shape: Shape | None, source: str) -> str:
    if isinstance(node, yaml.ScalarNode):
        return _scalar(node, shape, source)
    if isinstance(node, yaml.SequenceNode):
        return "[" + ", ".join(_token(item, shape.child(None) if shape else None, "") for item in node.value) + "]"
    entries = sorted(node.value, key=_places(node, shape).__getitem__) if shape else node.value
    return "{" + ", ".join(f"{_key(key, '')}: {_token(value, shape.child(key.value) if shape else None, '')}" for key, value in entries) + "}"


def _key(node, source: str) -> str:
    return node.value if not node.style or PLAIN_KEY.fullmatch(node.value) and _stays_text(node.value) else source or _quoted(node.value)


@lru_cache(maxsize=10_000)
def _stays_text(text: str) -> bool:
    """Whether a text without quotes would be read as that text and as nothing else."""
    return text not in ("true", "false") and not NUMBER.fullmatch(text) and not any(refused(text) for refused in SCALAR_RULES.values())


def _scalar(node, shape: Shape | None, source: str) -> str:
    """The token of a scalar. A value that is a number or a truth stays one; a text stays a text."""
    text = node.value
    if not node.style:
        if NUMBER.fullmatch(text):
            return _number(text)
        if text in ("true", "false"):
            return text
    if node.style in BLOCK or node.start_mark.line != node.end_mark.line:
        return source  # broken over lines by its writer; only _spaced touches it
    if not (shape and shape.free_text) and PLAIN.fullmatch(text) and _stays_text(text):
        return text
    if "\\" in source and node.style == '"' and re.search(r'\\[^"\\]', source):
        return source  # written with escapes on purpose
    return _quoted(text)


def _number(text: str) -> str:
    """Without zeros after the point that say nothing, and without a sign before nothing."""
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\t", "\\t")
    return f'"{escaped}"'


# Order of keys


def _places(node, shape: Shape | None) -> dict:
    """For each entry its place in the schema's order; an unknown key stays behind the one before it."""
    places, last = {}, -1
    for entry in node.value:
        last = shape.order.get(entry[0].value, last) if shape else last
        places[entry] = last
    return places


def _out_of_order(node, shape: Shape | None) -> Iterator[tuple]:
    """(mapping, places of its entries) of every block mapping whose keys stand in another order."""
    if shape is None or isinstance(node, yaml.ScalarNode) or node.flow_style:
        return
    if isinstance(node, yaml.SequenceNode):
        for item in node.value:
            yield from _out_of_order(item, shape.child(None))
        return
    places = _places(node, shape)
    if list(places.values()) != sorted(places.values()):
        yield node, places
    for key, value in node.value:
        yield from _out_of_order(value, shape.child(key.value))


def _last_line(node) -> int:
    """The last line on which something of the node stands."""
    if isinstance(node, yaml.ScalarNode) or node.flow_style or not node.value:
        mark = node.end_mark
        return mark.line - 1 if isinstance(node, yaml.ScalarNode) and node.style in BLOCK and mark.column == 0 else mark.line
    last = node.value[-1]
    return _last_line(last[1] if isinstance(node, yaml.MappingNode) else last)


def _reordered(lines: list[str], node, places: dict) -> list[str]:
    """The lines with the keys of one block mapping in the schema's order, each with the comments above it."""
    first = node.value[0][0].start_mark
    prefix, indent = lines[first.line][: first.column], " " * first.column
    chunks, start = {}, first.line
    for entry in node.value:
        end, key_line = _last_line(entry[1]) + 1, entry[0].start_mark.line
        chunks[entry] = (lines[start:key_line], lines[key_line][first.column :], lines[key_line + 1 : end])
        start = end
    out = []
    for number, entry in enumerate(sorted(node.value, key=places.__getitem__)):
        above, key, below = chunks[entry]
        out += [*above, (indent if number else prefix) + key, *below]
    return lines[: first.line] + out + lines[start:]


# Lines


def _spaced(text: str, root) -> str:
    """No spaces at the ends of lines, no two empty lines together, one line end at the end; texts broken over lines are left alone."""
    inside = {line for node in _scalars(root) for line in range(node.start_mark.line, node.end_mark.line + (node.style in BLOCK))}
    out: list[str] = []
    for number, line in enumerate(text.split("\n")):
        line = line if number in inside else line.rstrip(" \t")
        if line or number in inside or out and out[-1]:
            out.append(line)
    return "\n".join(out).rstrip("\n") + "\n"


def _scalars(node) -> Iterator:
    if isinstance(node, yaml.ScalarNode):
        yield node
        return
    for item in node.value:
        for part in item if isinstance(item, tuple) else (item,):
            yield from _scalars(part)


def _with_schema_line(text: str, schema: str) -> str:
    """The line that tells editors the schema is the first."""
    lines = text.split("\n")
    head = next((n for n, line in enumerate(lines) if line and not line.startswith("#")), len(lines))
    rest = [line for line in lines[:head] if not SCHEMA_LINE.fullmatch(line)] + lines[head:]
    return "\n".join([f"# yaml-language-server: $schema={schema}", *rest])
