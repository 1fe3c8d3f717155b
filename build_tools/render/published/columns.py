"""The columns of the tables that hold everything of a kind, as a data package describes them."""

from __future__ import annotations

from ...model.build import CHOICES, QUANTITIES
from ...model.reference import Reference
from ..wording import STATUS_WORDS

NUMBER_OR_SPAN = r"-?[0-9]+(\.[0-9]+)?( to -?[0-9]+(\.[0-9]+)?)?"
ONE_NUMBER = ("minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c", "seed_life_years")
REQUIRED = {"required": True}


def field(name: str, kind: str, description: str, **constraints) -> dict:
    """One column: name, type, description and constraints."""
    return {"name": name, "type": kind, "description": description, **({"constraints": constraints} if constraints else {})}


def crop_fields(reference: Reference) -> list[dict]:
    """Columns of crops.csv; what the quantities mean comes from the data."""
    fields = [
        field("id", "string", "The crop's id: the address of its page.", required=True, unique=True),
        field("common_name", "string", "Common English name.", **REQUIRED),
        field("other_names", "string", "Other English names, joined by semicolons."),
        field("botanical_name", "string", "Botanical name.", **REQUIRED),
        field("family", "string", "Botanical family.", **REQUIRED),
        field("kind", "string", "What it is grown for.", enum=["vegetable", "herb", "flower"], **REQUIRED),
    ]
    for quantity in QUANTITIES:
        fields.append(_value_field(reference, quantity))
        fields.append(field(f"{quantity}_status", "string", f"How {quantity} stands to what is printed; none: no published value was found.", enum=list(STATUS_WORDS), **REQUIRED))
        fields.append(field(f"{quantity}_sources", "string", f"Source ids of {quantity}, or common practice or from memory, joined by semicolons."))
    return fields + [
        field("official_minimum_percent", "number", "Least germination for seed on sale, percent: the federal one where there is one, else the first published.", minimum=0, maximum=100),
        field("first_count_days", "integer", "Day of the first count of the official test.", minimum=1),
        field("final_count_days", "integer", "Day of the last count of the official test.", minimum=1),
        field("file", "string", "The crop's data file in the repository.", **REQUIRED),
    ]


def _value_field(reference: Reference, quantity: str) -> dict:
    if quantity in CHOICES:
        words = reference.choices[quantity]
        return field(quantity, "string", " ".join(f"{word}: {meaning}" for word, meaning in words.items()), enum=list(words))
    about = reference.quantities[quantity]
    description = f"{about['name']}, {about['unit']}. {about['definition']}"
    if quantity in ONE_NUMBER:
        return field(quantity, "number", description, minimum=about["lowest"], maximum=about["highest"])
    return field(quantity, "string", f"{description} One number, or two joined by to.", pattern=NUMBER_OR_SPAN)


MEASURED = [
    field("crop", "string", "The crop's id.", **REQUIRED),
    field("what", "string", "days: days to emergence. percent_normal_seedlings: percentage of normal seedlings.", enum=["days", "percent_normal_seedlings"], **REQUIRED),
    field("source", "string", "The source's id.", **REQUIRED),
    field("celsius", "number", "Soil temperature, °C.", **REQUIRED),
    field("state", "string", "What the printed cell says: a number, no germination, not tested, or a number in doubt that is not used.", enum=["measured", "no germination", "not tested", "doubtful"], **REQUIRED),
    field("value", "number", "Days or percent; empty unless measured.", minimum=0),
    field("as_printed", "string", "The cell as printed. NG: no germination; NT or -: not tested."),
    field("in_doubt", "string", "Why the cell is doubted."),
    field("file", "string", "The printed table in the repository.", **REQUIRED),
    field("line", "integer", "The row's line in that file, from 1.", minimum=1, **REQUIRED),
]

SOURCES = [
    field("id", "string", "The source's id.", required=True, unique=True),
    field("authors", "string", "As shown on the copy that was read."),
    field("title", "string", "Title.", **REQUIRED),
    field("publisher", "string", "Publisher.", **REQUIRED),
    field("year", "string", "Year, as text.", **REQUIRED),
    field("address", "string", "Where the copy was read."),
    field("where", "string", "Table, page, figure or section."),
    field("copy_read", "string", "Which copy was read.", **REQUIRED),
    field("verified", "string", "How the figures were checked.", **REQUIRED),
    field("evidence", "string", "What kind of evidence it is.", **REQUIRED),
    field("family", "string", "Sources that copy one another share a family; a family counts once.", **REQUIRED),
    field("independence", "string", "Why this family."),
    field("historical", "boolean", "Shown, never counted in a published span.", enum=["True"]),
    field("doubtful", "string", "Why the whole source is in doubt."),
    field("notes", "string", "Remarks."),
]

TABLES = [
    field("source", "string", "The source's id.", **REQUIRED),
    field("file", "string", "The table's file.", **REQUIRED),
    field("kind", "string", "Kind of table; names its schema.", **REQUIRED),
    field("caption", "string", "What the table is.", **REQUIRED),
    field("columns", "string", "Names of its columns, joined by semicolons.", **REQUIRED),
    field("row_count", "integer", "How many rows it has.", minimum=1, **REQUIRED),
    field("doubt_count", "integer", "How many of its cells are in doubt.", minimum=0, **REQUIRED),
    field("csv", "string", "The table as CSV, from the site's top.", **REQUIRED),
    field("repository_file", "string", "The table in the repository.", **REQUIRED),
]
