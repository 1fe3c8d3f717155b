"""Reading a contributed text file with care: size, encoding, hidden characters."""

from __future__ import annotations

import re
from pathlib import Path

from ..problem import Problem

# Bidirectional controls, zero-width characters, soft hyphen and byte-order mark make text say what it does not show.
HIDDEN = re.compile("[\u00ad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]")
CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff]")


def read_text(path: Path, name: str, largest: int) -> tuple[str | None, list[Problem]]:
    """The file's text, or None and the problems that stopped the reading.

    `name` is the path shown to people; `largest` is in bytes.
    """
    if path.is_symlink():
        return None, [Problem(name, 1, 1, "symlink", "A link to another file is not read.", "Put the file itself here.")]
    try:
        raw = path.read_bytes()
    except OSError as error:
        hint = "Every source folder needs a source.yml; check its name." if path.name == "source.yml" else "Check that the file exists and may be read."
        return None, [Problem(name, 1, 1, "unreadable", f"Cannot be read: {error.strerror}.", hint)]
    if len(raw) > largest:
        return None, [Problem(name, 1, 1, "file-too-large", f"The file has {len(raw):,} bytes; at most {largest:,} are read.", "Split it, or check that the right file was saved.")]
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        return None, [Problem(name, line, 1, "not-utf8", f"Byte {error.start} is not UTF-8 text.", "Save the file as UTF-8.")]
    if text.startswith("\ufeff"):
        return None, [Problem(name, 1, 1, "hidden-character", "The file begins with a byte-order mark.", "Save it as UTF-8 without a byte-order mark (spreadsheets: plain “CSV”, not “CSV UTF-8”).")]
    problems = []
    for number, row in enumerate(text.split("\n"), start=1):
        for pattern, word in ((HIDDEN, "hidden"), (CONTROL, "control")):
            found = pattern.search(row.rstrip("\r"))
            if found:
                problems.append(Problem(name, number, found.start() + 1, "hidden-character", f"A {word} character (U+{ord(found[0]):04X}) stands here.", "Delete it; type the text anew rather than pasting it."))
    return (None, problems) if problems else (text.replace("\r\n", "\n"), [])
