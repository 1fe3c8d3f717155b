"""The forms of the repository's host, written from the schemas, the quantities and the library's record.

`issue_forms` returns path → text; the command `renew` writes them. A field's id is also the name by which an address fills it in. The host
fills in fields of text only: an address that names a list to choose from may bring up an empty form, so that the fields which the page
Correct a value fills in are all text.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

import yaml

from ..model import Reference

FOLDER = ".github/ISSUE_TEMPLATE"
FIRST_LINE = "# Written by `python3 -m build_tools renew` from schema/ and data/. Change those, not this file.\n"
SOMETHING_ELSE = "Something else"
NOT_KNOWN = "I do not know"
# What a contributor can know of a source; the other keys of source.yml are for whoever takes the table in.
SOURCE_FIELDS = ("title", "authors", "publisher", "year", "address", "where", "copy_read")
# Keys of a crop file that the form for a new crop asks for in fields of their own, or that come from comparing sources.
ASKED_APART = ("id", "names", "kind", "season", "disagreements", "notes")
FIELD_NAMES = {
    "title": "Title of the publication", "authors": "Authors", "publisher": "Publisher", "year": "Year", "address": "Address on the web",
    "where": "Where in it", "copy_read": "The copy you have",
}


def crop_keys(schema: Mapping, quantities: Mapping) -> dict[str, str]:
    """Key of a crop file → its name for readers, in the schema's order; groups of quantities give their members.

    Raises ValueError for a key that is no quantity and has no title in the schema.
    """
    names = {}
    for key, shape in schema["properties"].items():
        members = shape.get("properties", {})
        for inner, its in members.items() if members and all(m in quantities for m in members) else ((key, shape),):
            name = quantities[inner]["name"] if inner in quantities else its.get("title")
            if not name:
                raise ValueError(f'schema/crop.schema.json: "{inner}" is not in data/quantities.yml and has no title. Give it one.')
            names[inner] = str(name)
    return names


def correctable(reference: Reference, root: Path) -> dict[str, str]:
    """What a correction can be about → its name for readers: every key of a crop file, every other quantity, then a treatment and a source."""
    names = crop_keys(_schema(root, "crop"), reference.quantities)
    others = {key: str(entry["name"]) for key, entry in reference.quantities.items() if key not in names}
    return names | others | {kind: str(_schema(root, kind)["title"]).split(":")[0] for kind in ("treatment", "source")}


def table_kinds(root: Path) -> dict[str, str]:
    """Kind of printed table → its title, from schema/table-*.schema.json, sorted by title."""
    kinds = (path.name[len("table-"):-len(".schema.json")] for path in (root / "schema").glob("table-*.schema.json"))
    titles = {kind: str(_schema(root, f"table-{kind}")["title"]) for kind in kinds}
    return dict(sorted(titles.items(), key=lambda item: item[1].lower()))


def issue_forms(reference: Reference, root: Path) -> dict[str, str]:
    """Path from the project's top folder → text of the form; `root` is the project folder, for the schemas."""
    forms = {
        "correct-a-value": _correct_a_value(reference, list(correctable(reference, root).values())),
        "add-a-table": _add_a_table(reference, _schema(root, "source"), list(table_kinds(root).values())),
        "add-a-crop": _add_a_crop(reference, _schema(root, "crop")),
        "config": _config(reference),
    }
    return {f"{FOLDER}/{name}.yml": FIRST_LINE + _dump(form) for name, form in forms.items()}


def _correct_a_value(reference: Reference, quantities: list[str]) -> dict:
    return {
        "name": "Correct a value",
        "description": "A number or a word on a crop's page is wrong, or a better source prints another.",
        "title": "Correct: ",
        "body": [
            _words("One form for one value. No programming is needed. If you came by *correct this* on a page, most of it is filled in.\n\n"
                   "If the mistake could hurt someone (a poison, peroxide, bleach, hot water), say so in the first words."),
            _input("crop", "Crop", "Its name, or the last part of its page's address. Empty when it is about no single crop.", required=False),
            _input("quantity", "Which value", f"One of these, or your own words: {'; '.join(quantities)}.", required=True),
            _input("shown", "What the page says now", "The value as shown, with its unit.", required=False),
            _input("should_be", "What it should be", "With its unit, as it is printed: 60 °F or 15.5 °C. We turn it into the unit of the data.", required=True),
            _textarea("source", "Where that is printed", "Author, title, year, and page or address. A photo or a file can be dropped here. If it is your own trial: how many seeds, how warm, how long, "
                      "how many came up. If you know no source, say so.", required=True),
            _input("file", "File and line", "Filled in by *correct this*. Leave it as it is, or empty.", required=False),
            _notice(reference),
        ],
    }


def _add_a_table(reference: Reference, source: Mapping, kinds: list[str]) -> dict:
    fields = [_input(key, FIELD_NAMES[key], _asked(source["properties"][key]), required=key in source["required"]) for key in SOURCE_FIELDS]
    return {
        "name": "Add a printed table",
        "description": "A published table of temperatures, days, seed life, depth or the like that is not among the sources yet.",
        "title": "Table: ",
        "body": [
            _words("A photo or a spreadsheet of the table is welcome; you need not type it in. It is kept as printed, mistakes too, and shown with its source.\n\n"
                   f"See the [list of sources]({reference.library['site_url']}sources/) first: it may be there already."),
            _dropdown("kind", "What the table shows", "Choose the nearest.", [*kinds, NOT_KNOWN, SOMETHING_ELSE], required=True),
            *fields,
            _textarea("table", "The table", "Drop a photo (the whole table, with its heading and footnotes, sharp enough to read each figure) or a spreadsheet (.csv or .xlsx) here, or type the rows. "
                      "Only the table: not a whole book, nobody's handwriting or address.", required=True),
            _textarea("remarks", "What one should know to read it", "Signs and abbreviations, units, what was counted, anything that looks like a misprint.", required=False),
            _notice(reference),
        ],
    }


def _add_a_crop(reference: Reference, crop: Mapping) -> dict:
    names, kind = crop["properties"]["names"]["properties"], crop["properties"]["kind"]
    choices = [f"{choice}: {words}" for choice, words in reference.choices["season"].items()]
    wanted = [f"{name}{_unit(reference, key)}:" for key, name in crop_keys(crop, reference.quantities).items() if key not in ASKED_APART]
    return {
        "name": "Add a crop",
        "description": "A vegetable, herb or flower that has no page yet.",
        "title": "Crop: ",
        "body": [
            _words("Leave empty what you do not know: an unknown value is better left out than guessed.\n\n"
                   f"See the [list of crops]({reference.library['site_url']}crops/) first, by its other names too."),
            _input("common", "Common name", _asked(names["common"]), required=True),
            _input("other", "Other names", _asked(names["other"]), required=False),
            _input("botanical", "Botanical name", _asked(names["botanical"]), required=False),
            _dropdown("kind", kind["title"], _asked(kind), kind["enum"], required=True),
            _dropdown("season", crop["properties"]["season"]["title"], "When the soil is warm enough.", [*choices, NOT_KNOWN], required=True),
            _textarea("values", "What is printed about it", "With units, as printed. Beside each value the source that prints it.", required=False, value="\n".join(wanted)),
            _textarea("source", "The sources", "Author, title, year, and page or address of each. Photos and files can be dropped here.", required=True),
            _notice(reference),
        ],
    }


def _config(reference: Reference) -> dict:
    library = reference.library
    return {
        "blank_issues_enabled": True,
        "contact_links": [{"name": str(library["name"]), "url": str(library["site_url"]), "about": "Read the reference. Beside each value stands a link to correct it, with or without an account."}],
    }


def _notice(reference: Reference) -> dict:
    library = reference.library
    return _words(
        "**Before you send it.** What you write here is public, with the name of your account, and stays so. Leave out addresses, telephone numbers and other people's names. "
        f"If you would rather not be seen here, write to {library['contact_email']}.\n\n"
        f"By sending it you let the library publish what you wrote under the licences of this project: data and texts {library['data_licence']}, code MIT. "
        "Single printed facts belong to no one; send no pages or pictures that are someone else's to give, beyond the table itself."
    )


def _unit(reference: Reference, key: str) -> str:
    return f" ({reference.quantities[key]['unit']})" if key in reference.quantities else ""


def _schema(root: Path, name: str) -> dict:
    return json.loads((root / "schema" / f"{name}.schema.json").read_text(encoding="utf-8"))


def _asked(shape: Mapping) -> str:
    """A key's description up to its first semicolon: what comes after it speaks of the file, not of the fact."""
    return str(shape["description"]).split(";")[0].rstrip(".") + "."


def _words(text: str) -> dict:
    return {"type": "markdown", "attributes": {"value": text}}


def _input(name: str, label: str, description: str, required: bool) -> dict:
    return {"type": "input", "id": name, "attributes": {"label": label, "description": description}, "validations": {"required": required}}


def _textarea(name: str, label: str, description: str, required: bool, value: str = "") -> dict:
    attributes = {"label": label, "description": description} | ({"value": value} if value else {})
    return {"type": "textarea", "id": name, "attributes": attributes, "validations": {"required": required}}


def _dropdown(name: str, label: str, description: str, options: list[str], required: bool) -> dict:
    return {"type": "dropdown", "id": name, "attributes": {"label": label, "description": description, "options": options}, "validations": {"required": required}}


class _Dumper(yaml.SafeDumper):
    """Texts of several lines as blocks, lists set in, no aliases."""

    def ignore_aliases(self, data) -> bool:
        return True

    def increase_indent(self, flow=False, indentless=False):
        return super().increase_indent(flow, False)


_Dumper.add_representer(str, lambda dumper, text: dumper.represent_scalar("tag:yaml.org,2002:str", text, style="|" if "\n" in text else None))


def _dump(form: Mapping) -> str:
    return yaml.dump(form, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=100_000)
