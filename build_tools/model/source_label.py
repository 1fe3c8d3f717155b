"""A source's short name, for charts, lists and the command line."""

from __future__ import annotations

from collections.abc import Mapping


def label_of(fields: Mapping) -> str:
    """The short name in the fields of a source.yml; without one the publisher, and the year where one is shown."""
    if "short" in fields:
        return str(fields["short"])
    year = str(fields["year"]).split(" ")[0]
    publisher = str(fields["publisher"]).split(";")[0].split(",")[0].split(" (")[0]
    return f"{publisher}, {year}" if year[:2].isdigit() else publisher
