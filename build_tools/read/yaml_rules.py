"""Rules of reading YAML: what it would silently turn into something else, and what a data file does not need. One function each."""

from __future__ import annotations

import re

import yaml

from ..registry import READING, rule

DEEPEST = 10
LONGEST_NUMBER = 15  # letters; more digits than any value has, and no more than a float keeps
LONGEST_ODD = 60  # letters: a longer text is no slip for a number, and the patterns below would take minutes over it

NUMBER = re.compile(r"-?(0|[1-9][0-9]*)(\.[0-9]+)?")
BOOLEAN_WORD = re.compile(r"y|n|yes|no|on|off|true|false", re.I)
NULL_WORD = re.compile(r"|~|null", re.I)
DATE = re.compile(r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}.*", re.S)
SEXAGESIMAL = re.compile(r"[-+]?[0-9]+(:[0-5]?[0-9])+(\.[0-9]*)?")
ODD_NUMBER = re.compile(r"[-+]?(\.?[0-9][0-9_]*\.?[0-9_]*([eE][-+]?[0-9]+)?|0[xob][0-9a-fA-F_]+|\.(inf|nan))", re.I)

Found = tuple[str, str] | None  # message and hint


@rule("yaml-word", READING)
def yaml_word(text: str) -> Found:
    """Words that YAML turns into true or false (yes, no, on, off, y, n) stand in quotes."""
    return (f'"{text}" without quotes is read as true or false by YAML.', f'Write "{text}" in double quotes, or true / false.') if BOOLEAN_WORD.fullmatch(text) else None


@rule("yaml-empty", READING)
def yaml_empty(text: str) -> Found:
    """No key has an empty value, and no file is empty: what is unknown is left out."""
    return ("An empty value stands here.", "Leave the whole key out when the value is unknown.") if NULL_WORD.fullmatch(text) else None


@rule("yaml-date", READING)
def yaml_date(text: str) -> Found:
    """A date stands in quotes, since YAML would turn it into something else."""
    return (f"{text} without quotes is read as a date by YAML.", "Put it in double quotes.") if DATE.fullmatch(text) else None


@rule("yaml-number", READING)
def yaml_number(text: str) -> Found:
    """A number is plain digits with a point for decimals: no exponent, sign +, underscore, other base, infinity, or more digits than anyone measures."""
    if len(text) > LONGEST_ODD and not NUMBER.fullmatch(text):
        return None
    if len(text) <= LONGEST_ODD and SEXAGESIMAL.fullmatch(text):
        return f"{text} without quotes is read as a number to base 60.", "Put it in double quotes."
    if len(text) > LONGEST_NUMBER if NUMBER.fullmatch(text) else ODD_NUMBER.fullmatch(text):
        return f'"{text[:40]}{"…" * (len(text) > 40)}" is not a plain number.', "Write digits with a point for decimals, such as 10 or 10.5."
    return None


def decimal_comma(key, event) -> Found:
    """The same rule where a comma was typed for the point: {value: 15,5} has a key 5 without a value."""
    if key.value.isdigit() and isinstance(event, yaml.ScalarEvent) and not event.value and not event.style:
        return f'"{key.value}" stands behind a comma.', f"Decimals have a point, such as 15.{key.value[:2]}."
    return None


SCALAR_RULES = {"yaml-word": yaml_word, "yaml-empty": yaml_empty, "yaml-date": yaml_date, "yaml-number": yaml_number}


@rule("yaml-comment", READING)
def yaml_comment(text: str, rest: str) -> Found:
    """A comment has a line of its own or follows a value in quotes, a number or a bracket: after a bare text, " #" would silently cut it off."""
    return ("A # after a bare text begins a comment: what follows is not read.", "Put the whole text in double quotes, or move the comment to a line of its own.") if rest.startswith(" #") and not NUMBER.fullmatch(text) else None


@rule("yaml-anchor", READING)
def yaml_anchor(event) -> Found:
    """Anchors and aliases are not read: a few lines of them can stand for gigabytes, and no reader sees what they mean."""
    return ("Anchors (&) and aliases (*) are not read.", "Write the value out in full.") if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None) else None


@rule("yaml-tag", READING)
def yaml_tag(event) -> Found:
    """Tags (words that begin with an exclamation mark) are not read."""
    tag = getattr(event, "tag", None)
    return (f"The tag {str(tag)[:60]} is not read.", "Delete it.") if tag else None


@rule("nested-too-deep", READING)
def nested_too_deep(depth: int) -> Found:
    """Nothing is nested deeper than ten levels; no data file needs half of that."""
    return (f"Nested more than {DEEPEST} levels deep.", "Check the indentation.") if depth > DEEPEST else None


@rule("yaml-key", READING)
def yaml_key(event) -> Found:
    """A key is a plain word, without brackets, anchor or tag."""
    return None if isinstance(event, yaml.ScalarEvent) and not yaml_anchor(event) and not yaml_tag(event) else ("A key must be a plain word.", "Check the indentation and the brackets.")


@rule("duplicate-key", READING)
def duplicate_key(key: str, mapping: dict, line: int) -> Found:
    """No key stands twice in one place: YAML would silently keep the last."""
    return (f'"{key}" stands twice; first on line {line}.', "Keep one of them.") if key in mapping else None


@rule("yaml-syntax", READING)
def yaml_syntax(text: str, line: int, what: str) -> Found:
    """A file is one YAML document that can be parsed: indentation, colons, quotes and brackets are in order."""
    near = text.split("\n")[max(0, line - 2) : line]
    if any("\t" in row for row in near):
        hint = "A tab stands here: indent with spaces."
    elif any(row.startswith(("<<<<<<<", "=======", ">>>>>>>")) for row in text.split("\n")):
        hint = "Lines of an unfinished merge (<<<<<<<, =======, >>>>>>>) stand in the file: keep one side of each."
    elif any("\u00a0" in row for row in near):
        hint = "A non-breaking space stands here: type a plain one."
    else:
        hint = "Check the indentation, the colons and the quotes on this line and the one above."
    return f"Not readable as YAML: {what}.", hint
