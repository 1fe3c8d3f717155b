"""The calendar file: RFC 5545's own examples, its line rules, and the package icalendar reading it back."""

from __future__ import annotations

import re
from datetime import date, timedelta

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from build_tools.icalendar import calendar_text, escaped, folded, uid
from tests.science.test_properties import steady

STAMP = "20261101T000000Z"
AWKWARD = "Ärger; “Brüssel, früh”\\n \U0001f345 日本の種, back\\slash\nsecond line" * 3
TEXT = st.text(st.characters(blacklist_categories=("Cs",)), max_size=200)
EVENT = {"uid": "a@b", "first": "2027-05-08", "last": "2027-05-14", "summary": "Tomato: sow", "description": AWKWARD, "categories": ["Sowing, and more", "x"]}


def lines_of(text):
    """Physical lines; every one must end in CRLF."""
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", "") and "\r" not in text.replace("\r\n", "")
    return text[:-2].split("\r\n")


def events_of(text):
    """What the package icalendar reads; its own complaints are failures."""
    calendar = icalendar.Calendar.from_ical(text)
    assert calendar["VERSION"] == "2.0" and calendar["PRODID"].startswith("-//Germination reference//")
    assert calendar.errors == []
    found = calendar.walk("VEVENT")
    assert all(event.errors == [] for event in found)
    return found


def test_event_of_rfc_5545():
    # RFC 5545 section 3.6.1: 28 June to 8 July 2007 inclusive has DTEND 20070709
    text = calendar_text([{"uid": "20070423T123432Z-541111@example.com", "first": "2007-06-28", "last": "2007-07-08", "summary": "Festival International de Jazz de Montreal", "description": "", "categories": []}], "20070423T123432Z")
    wanted = ["UID:20070423T123432Z-541111@example.com", "DTSTAMP:20070423T123432Z", "DTSTART;VALUE=DATE:20070628", "DTEND;VALUE=DATE:20070709", "SUMMARY:Festival International de Jazz de Montreal", "TRANSP:TRANSPARENT"]
    lines = lines_of(text)
    assert [line for line in lines if line in wanted] == wanted
    assert lines[0] == "BEGIN:VCALENDAR" and lines[-1] == "END:VCALENDAR"


def test_text_of_rfc_5545():
    # RFC 5545 section 3.3.11
    assert escaped("Project XYZ Final Review\nConference Room - 3B\nCome Prepared.") == "Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared."
    assert escaped("a,b;c\\d:e\r\nf\rg") == "a\\,b\\;c\\\\d:e\\nf\\ng"
    assert escaped("bell\x07 and tab\t") == "bell  and tab\t"


@pytest.mark.parametrize("line", ["a" * 75, "a" * 76, "ä" * 200, "\U0001f345" * 60, "a" + "日" * 100, ""])
def test_lines_are_folded_at_75_octets(line):
    pieces = folded(line).split("\r\n")
    assert all(len(piece.encode()) <= 75 for piece in pieces)
    assert all(piece.startswith(" ") for piece in pieces[1:])
    assert pieces[0] + "".join(piece[1:] for piece in pieces[1:]) == line
    assert len(pieces) == 1 or all(len(piece.encode()) > 71 for piece in pieces[:-1])  # no shorter than a character asks for
    assert (len(pieces) == 1) == (len(line.encode()) <= 75)


def test_awkward_texts_come_back():
    [event] = events_of(calendar_text([EVENT], STAMP))
    assert event["DESCRIPTION"] == AWKWARD
    assert event["CATEGORIES"].cats == ["Sowing, and more", "x"]
    assert (event.DTSTART, event.DTEND) == (date(2027, 5, 8), date(2027, 5, 15))


@steady
@given(TEXT, TEXT, st.dates(date(1900, 1, 1), date(2199, 1, 1)), st.integers(0, 400))
def test_whatever_is_typed_comes_back(summary, description, first, days):
    last = first + timedelta(days=days)
    text = calendar_text([{**EVENT, "summary": summary, "description": description, "first": first.isoformat(), "last": last.isoformat()}], STAMP)
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    [event] = events_of(text)
    tidy = re.sub(r"[\x00-\x08\x0b-\x1f\x7f]", " ", description.replace("\r\n", "\n").replace("\r", "\n"))
    assert str(event["DESCRIPTION"]) == tidy
    assert event.DTSTART == first and event.DTEND == last + timedelta(days=1)


def test_names_are_stable_and_their_own():
    assert uid(["2027", "Wrenfield", "tomato", "", "sow-indoors"]) == "2027/Wrenfield/tomato//sow-indoors@germination-reference"
    assert uid(["a/b", "c"]) != uid(["a", "b/c"]) and uid(["Früh, 1"]) == "Fr%C3%BCh%2C%201@germination-reference"
