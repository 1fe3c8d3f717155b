"""A calendar file of all-day events (iCalendar, RFC 5545). Twin of the browser's: docs/assets/js/icalendar.js.

Lines end in CRLF and are folded at 75 octets without cutting a character; the end of an event is the day after its last
(section 3.6.1: DTEND is not included). A file read in again replaces events of the same UID.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from urllib.parse import quote

PRODUCT = "-//Germination reference//Sowing calendar//EN"
MOST_OCTETS = 75
UNWRITABLE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")  # control characters that a text may not hold


def escaped(text: str) -> str:
    """A text value: backslash, semicolon, comma and line ends escaped (3.3.11); other control characters become spaces."""
    plain = UNWRITABLE.sub(" ", text.replace("\r\n", "\n").replace("\r", "\n"))
    return plain.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")


def folded(line: str) -> str:
    """A content line in pieces of at most 75 octets, each further one after CRLF and a space (3.1)."""
    pieces, piece, octets = [], "", 0
    for letter in line:
        size = len(letter.encode("utf-8"))
        if octets + size > MOST_OCTETS:
            pieces.append(piece)
            piece, octets = "", 1  # the space counts
        piece += letter
        octets += size
    return "\r\n ".join([*pieces, piece])


def uid(parts: Iterable[str]) -> str:
    """A stable name for an event from the texts that make it what it is, in order."""
    return "/".join(quote(part, safe="") for part in parts) + "@germination-reference"


def calendar_text(events: Iterable[Mapping], stamp: str) -> str:
    """The file. An event: uid, first and last (ISO days, both included), summary, description, categories (list).

    `stamp` is when it was made, in UTC: "20261101T000000Z".
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODUCT}", "CALSCALE:GREGORIAN"]
    for event in events:
        after = date.fromisoformat(event["last"]) + timedelta(days=1)
        lines += [
            "BEGIN:VEVENT",
            f"UID:{escaped(event['uid'])}",
            f"DTSTAMP:{stamp}",
            f"DTSTART;VALUE=DATE:{event['first'].replace('-', '')}",
            f"DTEND;VALUE=DATE:{after.isoformat().replace('-', '')}",
            f"SUMMARY:{escaped(event['summary'])}",
            f"DESCRIPTION:{escaped(event['description'])}",
            f"CATEGORIES:{','.join(escaped(word) for word in event['categories'])}",
            "TRANSP:TRANSPARENT",  # a window of weeks does not make its owner busy
            "END:VEVENT",
        ]
    return "".join(f"{folded(line)}\r\n" for line in [*lines, "END:VCALENDAR"])
