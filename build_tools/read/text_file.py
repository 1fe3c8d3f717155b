"""Reading a contributed text file with care: kind of file, size, encoding, hidden characters. Its rules, one function each."""

from __future__ import annotations

import os
import re
import stat
import unicodedata
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

from ..problem import Problem
from ..registry import READING, rule

# Bidirectional controls, zero-width and blank letters, variation selectors and byte-order mark make text say what it does not show.
HIDDEN = re.compile(
    "[\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200f\u2028-\u202e\u2060-\u206f\u2800\u3164\ufe00-\ufe0f\ufeff\uffa0\ufff0-\ufffb"
    "\U0001d173-\U0001d17a\U000e0000-\U000e0fff]"
)
# Controls, halves of letters, and what is no letter or everyone's own.
CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\uf8ff\ufdd0-\ufdef\ufffe\uffff\U000f0000-\U0010ffff]")
MOST_WRONG = 200  # lines that are told of
MARK = "\ufeff"


@rule("symlink", READING)
def symlink(path: Path, name: str) -> Problem | None:
    """A link to another file or folder is not read: it could lead anywhere."""
    return Problem(name, 1, 1, "symlink", "A link to another file is not read.", "Put the file itself here.") if path.is_symlink() else None


@rule("unreadable", READING)
def unreadable(path: Path, name: str) -> Problem | None:
    """Every file is an ordinary file that may be read, and every source folder has a source.yml."""
    try:
        if stat.S_ISREG(path.stat().st_mode) and os.access(path, os.R_OK):
            return None
        reason = "not an ordinary file" if not stat.S_ISREG(path.stat().st_mode) else "permission denied"
    except OSError as error:
        reason = error.strerror
    hint = "Every source folder needs a source.yml; check its name." if path.name == "source.yml" else "Check that the file exists and may be read."
    return Problem(name, 1, 1, "unreadable", f"Cannot be read: {reason}.", hint)


@rule("file-too-large", READING)
def file_too_large(path: Path, name: str, largest: int) -> Problem | None:
    """A file has no more bytes than its kind ever needs: 100,000 for YAML, 400,000 for a table."""
    size = path.stat().st_size
    return Problem(name, 1, 1, "file-too-large", f"The file has {size:,} bytes; at most {largest:,} are read.", "Split it, or check that the right file was saved.") if size > largest else None


@rule("not-utf8", READING)
def not_utf8(raw: bytes, name: str) -> Problem | None:
    """A file is UTF-8 text, the one encoding that every program reads alike."""
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        column = len(raw[raw.rfind(b"\n", 0, error.start) + 1 : error.start].decode("utf-8", "replace")) + 1
        return Problem(name, line, column, "not-utf8", f"Byte 0x{raw[error.start]:02X} is not UTF-8 text.", "Save the file as UTF-8.")
    return None


@rule("hidden-character", READING)
def hidden_character(text: str, name: str) -> Iterator[Problem]:
    """No control, zero-width or direction-changing character stands in a file: text must say what it shows."""
    if text.startswith(MARK):
        yield Problem(name, 1, 1, "hidden-character", "The file begins with a byte-order mark.", "Save it as UTF-8 without a byte-order mark (spreadsheets: plain “CSV”, not “CSV UTF-8”).")
        return
    for number, row in enumerate(text.split("\n"), start=1):
        if found := hidden_in(row.removesuffix("\r")):
            yield Problem(name, number, found[0] + 1, "hidden-character", *found[1:])


def hidden_in(text: str) -> tuple[int, str, str] | None:
    """(index, message, hint) of the first hidden or control character but tab and line feed."""
    for pattern, word in ((HIDDEN, "hidden"), (CONTROL, "control")):
        if found := pattern.search(text):
            return found.start(), f"A {word} character (U+{ord(found[0]):04X}) stands here.", "Delete it; type the text anew rather than pasting it."
    return None


@rule("not-composed", READING)
def not_composed(text: str) -> tuple[str, str] | None:
    """Accented letters are single characters (Unicode form NFC): taken apart, two names look the same and are not."""
    if unicodedata.is_normalized("NFC", text):
        return None
    return "A letter and its accent stand here as two characters.", "Type the accented letter anew; a computer takes the two forms for different names."


@rule("line-break", READING)
def line_break(text: str) -> tuple[str, str] | None:
    """A value, a key or a cell is one line: it holds no line end and no tab."""
    return ("A line end or a tab stands inside the text.", "Write it as one line with plain spaces.") if "\n" in text or "\t" in text else None


def read_bytes(path: Path, name: str, largest: int) -> tuple[bytes | None, list[Problem]]:
    """The file's bytes, or None and the problem that stopped the reading; no more than `largest` bytes are ever held."""
    problem = symlink(path, name) or unreadable(path, name) or file_too_large(path, name, largest)
    if problem:
        return None, [problem]
    try:
        with path.open("rb") as file:
            raw = file.read(largest + 1)
    except OSError as error:
        return None, [Problem(name, 1, 1, "unreadable", f"Cannot be read: {error.strerror}.", "Check that the file exists and may be read.")]
    if len(raw) > largest:  # it grew, or it has no true size
        return None, [Problem(name, 1, 1, "file-too-large", f"The file has more than {largest:,} bytes.", "Split it, or check that the right file was saved.")]
    return raw, []


def read_text(path: Path, name: str, largest: int) -> tuple[str | None, list[Problem]]:
    """The file's text with plain line ends, or None and the problems that stopped the reading.

    `name` is the path shown to people; `largest` is in bytes.
    """
    raw, problems = read_bytes(path, name, largest)
    if raw is None:
        return None, problems
    if problem := not_utf8(raw, name):
        return None, [problem]
    text = raw.decode("utf-8")
    problems = list(islice(hidden_character(text, name), MOST_WRONG))
    if not unicodedata.is_normalized("NFC", text):
        rows = (Problem(name, number, 1, "not-composed", *found) for number, row in enumerate(text.split("\n"), start=1) if (found := not_composed(row)))
        problems += islice(rows, MOST_WRONG)
    return (None, problems) if problems else (text.replace("\r\n", "\n"), [])
