"""A strict reader of YAML that keeps the place of every key and value.

Only what a data file needs is read: mappings, lists, text, numbers, true and false. What is refused, and why, says `yaml_rules.py`.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

import yaml

from ..problem import Place, Problem
from .text_file import hidden_in, line_break, not_composed, read_text
from .yaml_rules import (
    DEEPEST,
    NUMBER,
    SCALAR_RULES,
    decimal_comma,
    duplicate_key,
    nested_too_deep,
    yaml_anchor,
    yaml_comment,
    yaml_key,
    yaml_syntax,
    yaml_tag,
)

LARGEST_YAML = 100_000  # bytes; the largest real file has about 15,000
Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

QUOTED = ('"', "'", "|", ">")

Path_ = tuple[Any, ...]


@lru_cache(maxsize=30_000)
def _one(value: tuple) -> tuple:
    """The same tuple for equal ones: thousands of files of one kind share their key paths and most of their places."""
    return value


@dataclass
class Document:
    """A file's data and the place (line, column) of each key path; `file` is the shown name."""

    file: str
    data: Any = None
    places: dict[Path_, tuple[int, int]] = field(default_factory=dict)
    text: str = field(default="", repr=False)

    def place(self, path: Path_ = ()) -> tuple[int, int]:
        """Line and column of a key path, or of its nearest parent that has one."""
        path = tuple(path)
        while path and path not in self.places:
            path = path[:-1]
        return self.places.get(path, (1, 1))

    def see(self, path: Path_ = (), words: str = "") -> Place:
        """The place of a key path, for a problem of another file."""
        return Place(self.file, *self.place(path), words)

    def problem(self, path: Path_, rule: str, message: str, hint: str = "", see: tuple[Place, ...] = ()) -> Problem:
        """A problem at a key path."""
        line, column = self.place(path)
        return Problem(self.file, line, column, rule, message, hint, see=see, at=".".join(map(str, path)))


class _Refused(Exception):
    pass


class _Builder:
    """Turns parser events into data and places in one pass."""

    def __init__(self, file: str, text: str, events):
        self.file, self.lines, self.events = file, text.split("\n"), events
        self.problems: list[Problem] = []
        self.places: dict[Path_, tuple[int, int]] = {}

    def add(self, event, rule: str, found) -> None:
        self.problems.append(Problem(self.file, *self.place(event), rule, *found))

    def place(self, event) -> tuple[int, int]:
        """Line and column of an event; what is missing at the end of a file stands on its last line."""
        mark = event.start_mark
        return (mark.line + 1, mark.column + 1) if mark.line < len(self.lines) else (len(self.lines), len(self.lines[-1]) + 1)

    def refuse(self, event, rule: str, found) -> None:
        """What makes the rest of the file unreadable."""
        if found:
            self.add(event, rule, found)
            raise _Refused

    def one_line(self, event) -> None:
        """What escapes have brought into a text that the text of the file did not show."""
        if found := hidden_in(event.value):
            self.add(event, "hidden-character", found[1:])
        if found := line_break(event.value):
            self.add(event, "line-break", found)
        elif event.style == '"' and (found := not_composed(event.value)):
            self.add(event, "not-composed", found)

    def scalar(self, event):
        """The value of a scalar event; refuses words that would silently become something else."""
        text = event.value
        self.one_line(event)
        if event.style in QUOTED:
            return text
        end = event.end_mark
        if end.line < len(self.lines) and (rest := self.lines[end.line][end.column :]) and (found := yaml_comment(text, rest)):
            self.add(event, "yaml-comment", found)
        if text in ("true", "false"):
            return text == "true"
        for rule, refused in SCALAR_RULES.items():
            if found := refused(text):
                self.add(event, rule, found)
                return text
        if NUMBER.fullmatch(text):
            return float(text) if "." in text else int(text)
        return sys.intern(text)  # a word: an id, a choice, a source, the same in thousands of files

    def value(self, event, path: Path_):
        self.refuse(event, "yaml-anchor", yaml_anchor(event))
        self.refuse(event, "yaml-tag", yaml_tag(event))
        self.refuse(event, "nested-too-deep", nested_too_deep(len(path)))
        self.places.setdefault(path, _one(self.place(event)))
        if isinstance(event, yaml.ScalarEvent):
            return self.scalar(event)
        if isinstance(event, yaml.SequenceStartEvent):
            items = []
            while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
                items.append(self.value(event, _one(path + (len(items),))))
            return items
        mapping: dict[str, Any] = {}
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            self.refuse(event, "yaml-key", yaml_key(event))
            self.one_line(event)
            key = sys.intern(event.value)
            inside = _one(path + (key,))
            if found := duplicate_key(key, mapping, self.places.get(inside, (1, 1))[0]):
                self.add(event, "duplicate-key", found)
            else:
                self.places[inside] = _one(self.place(event))
            mapping[key] = self.entry(event, next(self.events), inside)
        return mapping

    def entry(self, key, event, path: Path_):
        """The value of a key; a comma typed for a decimal point makes a key of the digits after it."""
        if found := decimal_comma(key, event):
            self.add(key, "yaml-number", found)
            return None
        return self.value(event, path)

    def document(self):
        """The data of the one document; None when there is none."""
        data, seen = None, False
        for event in self.events:
            if isinstance(event, yaml.DocumentStartEvent):
                if seen:
                    self.refuse(event, "yaml-syntax", ("A second document starts here.", "Keep one document a file; delete the --- line."))
                data, seen = self.value(next(self.events), ()), True
        return data


def parse_yaml(text: str, file: str) -> tuple[Document | None, list[Problem]]:
    """Parse one YAML document. Returns (document, problems); the document is None when nothing usable was read."""
    builder = _Builder(file, text, yaml.parse(text, Loader=Loader))
    try:
        data = builder.document()
    except _Refused:
        return None, builder.problems
    except RecursionError:
        return None, [Problem(file, 1, 1, "nested-too-deep", f"Nested more than {DEEPEST} levels deep.", "Check the indentation.")]
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line, column = (min(mark.line + 1, len(builder.lines)), mark.column + 1) if mark else (1, 1)
        what = getattr(error, "problem", None) or str(error).split("\n")[0]
        return None, builder.problems + [Problem(file, line, column, "yaml-syntax", *yaml_syntax(text, line, what))]
    if data is None:
        return None, builder.problems + [Problem(file, 1, 1, "yaml-empty", "The file is empty.", "Fill it in or delete it.")]
    return Document(file, data, builder.places, text), builder.problems


def read_yaml(path: Path, name: str) -> tuple[Document | None, list[Problem]]:
    """Read and parse a YAML file; `name` is the path shown to people."""
    text, problems = read_text(path, name, LARGEST_YAML)
    return (None, problems) if text is None else parse_yaml(text, name)
