"""From the bytes of a file to rows of cells with their lines: encoding, separator, quotes.

Reads UTF-8 with or without a byte-order mark, any line ends, and commas, semicolons or tabs as the
header has them. Quoting is that of RFC 4180; a quote left open spoils its own line only.
Twin: docs/assets/js/lots/table.js.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .words import quoted

LARGEST_FILE = 50_000_000  # bytes
MOST_LINES_IN_CELL = 20
SEPARATORS = {",": "comma", ";": "semicolon", "\t": "tab"}
SAVE_AS = "Open it where it was made and save it as CSV, UTF-8."


class Stop(Exception):
    """The file as a whole cannot be read: the line, what was seen and the remedy."""

    def __init__(self, line: int, message: str, hint: str):
        super().__init__(message)
        self.line, self.message, self.hint = line, message, hint


def decode(raw: bytes) -> str:
    """The text of a file, its line ends made "\\n" and its byte-order mark dropped. Raises Stop."""
    check_start(raw[:8])
    if len(raw) > LARGEST_FILE:
        raise Stop(1, f"The file has {len(raw):,} bytes; at most {LARGEST_FILE:,} are read.", "Split it into several files.")
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as error:
        head = raw[: error.start].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
        raise Stop(head.count(b"\n") + 1, "This line is not UTF-8 text.", "Save the file as CSV, UTF-8; your spreadsheet asks for the encoding, or has it as a kind of file of its own.") from None
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def check_start(start: bytes) -> None:
    """Raise Stop when the first bytes are those of another kind of file."""
    if start.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        raise Stop(1, "This is a spreadsheet file, not a CSV file.", SAVE_AS)
    if start.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise Stop(1, "This file is UTF-16 text (often called “Unicode text”), not UTF-8.", SAVE_AS)
    if start.startswith(b"%PDF"):
        raise Stop(1, "This is a PDF file, not a CSV file.", SAVE_AS)


def separator_of(header: str) -> str:
    """The separator of the header line: the one of comma, semicolon and tab that it has most of, outside quotes."""
    outside = "".join(header.split('"')[::2])
    return max(SEPARATORS, key=outside.count)


def records(lines: Sequence[str], separator: str, start: int = 0) -> Iterator[tuple[int, list[str] | None, str]]:
    """(line from 1, cells, "") for each row, or (line, None, what is wrong). Empty lines are passed over."""
    index, end = start, len(lines)
    while index < end:
        line = lines[index]
        if '"' not in line:
            if line:
                yield index + 1, line.split(separator), ""
            index += 1
            continue
        cells, used = quoted_record(lines, index, separator)
        if cells is None:
            yield index + 1, None, used
            index += 1
        else:
            yield index + 1, cells, ""
            index += used


def quoted_record(lines: Sequence[str], index: int, separator: str):
    """(cells, lines used) of a row with quotes in it; (None, what is wrong) when they do not fit."""
    cells, used = [], 1
    line, at = lines[index], 0
    while True:
        if line[at : at + 1] != '"':
            end = line.find(separator, at)
            if end < 0:
                cells.append(line[at:])
                return cells, used
            cells.append(line[at:end])
            at = end + 1
            continue
        at, parts = at + 1, []
        while True:
            end = line.find('"', at)
            if end < 0:
                parts += [line[at:], "\n"]
                if used > MOST_LINES_IN_CELL or index + used >= len(lines):
                    return None, "open"
                line, at, used = lines[index + used], 0, used + 1
                continue
            parts.append(line[at:end])
            at = end + 1
            if line[at : at + 1] != '"':
                break
            parts.append('"')
            at += 1
        cells.append("".join(parts))
        if at == len(line):
            return cells, used
        if line[at] != separator:
            return None, "after"
        at += 1


def quote_words(wrong: str, line: str) -> tuple[str, str]:
    """Message and hint for a row whose quotes do not fit; `wrong` as `quoted_record` gives it."""
    if wrong == "open":
        return f"A quote in this row is not closed: {quoted(line)}.", 'Close it, or delete it. A " inside a quoted cell is written "".'
    return f"Text follows a closing quote in this row: {quoted(line)}.", 'A " inside a quoted cell is written "".'
