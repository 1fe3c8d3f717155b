"""A strict reader of YAML that keeps the place of every key and value.

Only what a data file needs is read: mappings, lists, text, numbers, true and false. Words that YAML turns into
something else (`no`, `on`, dates, 12:30), anchors, aliases and tags are refused; repeated keys are errors.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from ..problem import Problem
from .text_file import read_text

LARGEST_YAML = 100_000  # bytes; the largest real file has about 15,000
DEEPEST = 10
Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

NUMBER = re.compile(r"^-?(0|[1-9][0-9]*)(\.[0-9]+)?$")
BOOLEAN_WORD = re.compile(r"^(y|n|yes|no|on|off|true|false)$", re.I)
NULL_WORD = re.compile(r"^(|~|null)$", re.I)
DATE = re.compile(r"^\d{4}-\d{1,2}-\d{1,2}")
SEXAGESIMAL = re.compile(r"^[-+]?\d+(:[0-5]?\d)+(\.\d*)?$")
ODD_NUMBER = re.compile(r"^[-+]?(\.?\d[\d_]*\.?[\d_]*([eE][-+]?\d+)?|0[xob][\da-fA-F_]+|\.(inf|nan))$", re.I)

QUOTED = ('"', "'", "|", ">")

Path_ = tuple[Any, ...]


@dataclass
class Document:
    """A file's data and the place (line, column) of each key path; `file` is the shown name."""

    file: str
    data: Any = None
    places: dict[Path_, tuple[int, int]] = field(default_factory=dict)

    def place(self, path: Path_ = ()) -> tuple[int, int]:
        """Line and column of a key path, or of its nearest parent that has one."""
        path = tuple(path)
        while path and path not in self.places:
            path = path[:-1]
        return self.places.get(path, (1, 1))

    def problem(self, path: Path_, rule: str, message: str, hint: str = "") -> Problem:
        line, column = self.place(path)
        return Problem(self.file, line, column, rule, message, hint)


class _Refused(Exception):
    pass


def _scalar(event, problems, file):
    """The value of a scalar event; refuses words that would silently become something else."""
    text, line, column = event.value, event.start_mark.line + 1, event.start_mark.column + 1
    if event.style in QUOTED:
        return text
    if NUMBER.match(text):
        return float(text) if "." in text else int(text)
    if text in ("true", "false"):
        return text == "true"

    def refuse(rule, message, hint):
        problems.append(Problem(file, line, column, rule, message, hint))
        return text

    if BOOLEAN_WORD.match(text):
        return refuse("yaml-word", f'"{text}" without quotes is read as true or false by YAML.', f'Write "{text}" in double quotes, or true / false.')
    if NULL_WORD.match(text):
        return refuse("yaml-empty", "An empty value stands here.", "Leave the whole key out when the value is unknown.")
    if DATE.match(text):
        return refuse("yaml-date", f"{text} without quotes is read as a date by YAML.", "Put it in double quotes.")
    if SEXAGESIMAL.match(text):
        return refuse("yaml-number", f"{text} without quotes is read as a number to base 60.", "Put it in double quotes.")
    if ODD_NUMBER.match(text):
        return refuse("yaml-number", f'"{text}" is not a plain number.', "Write digits with a point for decimals, such as 10 or 10.5.")
    return text


class _Builder:
    """Turns parser events into data and places in one pass."""

    def __init__(self, file: str, events):
        self.file, self.events = file, events
        self.problems: list[Problem] = []
        self.places: dict[Path_, tuple[int, int]] = {}

    def refuse(self, event, rule, message, hint):
        mark = event.start_mark
        self.problems.append(Problem(self.file, mark.line + 1, mark.column + 1, rule, message, hint))
        raise _Refused

    def value(self, event, path: Path_):
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            self.refuse(event, "yaml-anchor", "Anchors (&) and aliases (*) are not read.", "Write the value out in full.")
        if getattr(event, "tag", None):
            self.refuse(event, "yaml-tag", f"The tag {event.tag} is not read.", "Delete it.")
        if len(path) > DEEPEST:
            self.refuse(event, "nested-too-deep", f"Nested more than {DEEPEST} levels deep.", "Check the indentation.")
        self.places.setdefault(path, (event.start_mark.line + 1, event.start_mark.column + 1))
        if isinstance(event, yaml.ScalarEvent):
            return _scalar(event, self.problems, self.file)
        if isinstance(event, yaml.SequenceStartEvent):
            items = []
            while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
                items.append(self.value(event, path + (len(items),)))
            return items
        mapping: dict[str, Any] = {}
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            if not isinstance(event, yaml.ScalarEvent):
                self.refuse(event, "yaml-key", "A key must be a plain word.", "Check the indentation and the brackets.")
            key = event.value
            line, column = event.start_mark.line + 1, event.start_mark.column + 1
            if key in mapping:
                first = self.places[path + (key,)]
                self.problems.append(Problem(self.file, line, column, "duplicate-key", f'"{key}" stands twice; first on line {first[0]}.', "Keep one of them."))
            else:
                self.places[path + (key,)] = (line, column)
            mapping[key] = self.value(next(self.events), path + (key,))
        return mapping


def _syntax_hint(text: str, line: int) -> str:
    """What is most likely wrong on or just above the line where the parser gave up."""
    near = text.split("\n")[max(0, line - 2) : line]
    if any("\t" in row for row in near):
        return "A tab stands here: indent with spaces."
    if any(row.startswith(("<<<<<<<", "=======", ">>>>>>>")) for row in text.split("\n")):
        return "Lines of an unfinished merge (<<<<<<<, =======, >>>>>>>) stand in the file: keep one side of each."
    if any("\u00a0" in row for row in near):
        return "A non-breaking space stands here: type a plain one."
    return "Check the indentation, the colons and the quotes on this line and the one above."


def parse_yaml(text: str, file: str) -> tuple[Document | None, list[Problem]]:
    """Parse one YAML document. Returns (document, problems); the document is None when nothing usable was read."""
    events = yaml.parse(text, Loader=Loader)
    builder = _Builder(file, events)
    data = None
    try:
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if data is not None:
                    builder.refuse(event, "yaml-syntax", "A second document starts here.", "Keep one document a file; delete the --- line.")
                event = next(events)
                data = builder.value(event, ())
    except _Refused:
        return None, builder.problems
    except RecursionError:
        return None, [Problem(file, 1, 1, "nested-too-deep", f"Nested more than {DEEPEST} levels deep.", "Check the indentation.")]
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        what = getattr(error, "problem", None) or str(error).split("\n")[0]
        builder.problems.append(Problem(file, line, column, "yaml-syntax", f"Not readable as YAML: {what}.", _syntax_hint(text, line)))
        return None, builder.problems
    if data is None:
        return None, builder.problems + [Problem(file, 1, 1, "yaml-empty", "The file is empty.", "Fill it in or delete it.")]
    return Document(file, data, builder.places), builder.problems


def read_yaml(path: Path, name: str) -> tuple[Document | None, list[Problem]]:
    """Read and parse a YAML file; `name` is the path shown to people."""
    text, problems = read_text(path, name, LARGEST_YAML)
    return (None, problems) if text is None else parse_yaml(text, name)
