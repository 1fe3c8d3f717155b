"""The project's own data with a harmful text in every field that takes any text: found by walking the schemas, so a new field is covered by itself."""

from __future__ import annotations

import contextlib
import csv
import io
import json
import shutil
from dataclasses import replace
from itertools import count
from pathlib import Path


from build_tools.read import read_tree
from build_tools.read.guide_text import BRACES
from build_tools.registry import RULES

from .payloads import PAYLOADS, payload

LONGEST_CELL = 160
INVENTED = " (invented)"
# Cells that the code looks up or computes with: another text is refused by a rule or is a row without meaning.
LOOKED_UP = {
    "facts": {"topic", "value", "fact", "days"}, "official-methods": {"substrata", "temperature_c_as_printed", "specific_requirement_codes", "fresh_or_dormant_codes"},
    "method-codes": {"code"}, "viability-equations": {"name", "value", "unit"}, "season-extension": {"measure", "cover"}, "daily-temperatures": None, "days-usual": {"what"},
    "light": {"light"}, "thermodormancy": {"temperature_c"}, "measured-life": {"measure"}, "germination-temperature": {"what"},
}


@contextlib.contextmanager
def names_of_any_letters():
    """The rules that keep markup out of the names of crops and out of guides, and those that look up the words of figures, do not run: pages must be safe without them."""
    known = {name: rule for name, rule in RULES.items() if name == "name-characters" or name.startswith(("guide-", "figure-", "glossary-"))}
    RULES.update({name: replace(rule, find=lambda tree: iter(())) for name, rule in known.items()})
    try:
        yield
    finally:
        RULES.update(known)


class Spoiler:
    """Gives each place a text of its own; remembers all it gave, by place."""

    def __init__(self):
        self.numbers = count()
        self.given: dict[str, str] = {}

    def text(self, place: str, schema: dict) -> str:
        """A harmful text that the schema allows here, with a number that makes it unique where there is room."""
        longest, number = schema.get("maxLength", 900), next(self.numbers)
        mark = f" {number}" if longest >= 30 else ""
        # Words in braces of a poster or a guide are names of values: another rule refuses others.
        text = payload(number, min(longest, 200) - len(mark), "{}" if place.startswith(("posters", "docs/guides")) else "") + mark
        text = text.ljust(schema.get("minLength", 0), ".")
        self.given[place] = text
        return text

    def value(self, value, schema: dict, root: dict, place: str):
        """The value with every free text in it exchanged."""
        schema = resolved(schema, root)
        if isinstance(value, dict):
            kinds = schema.get("properties", {})
            return {key: v if key == "sources" else self.value(v, kinds.get(key, schema.get("additionalProperties", {})), root, f"{place}.{key}") for key, v in value.items()}
        if isinstance(value, list):
            return [self.value(v, schema.get("items", {}), root, f"{place}.{i}") for i, v in enumerate(value)]
        if isinstance(value, str) and schema.get("type") == "string" and not {"pattern", "enum", "const"} & set(schema):
            end = INVENTED if value.endswith(INVENTED) else ""  # a rule wants it at the end of such names
            return self.text(place, schema | {"maxLength": schema.get("maxLength", 900) - len(end)}) + end
        return value


def resolved(schema, root: dict) -> dict:
    """The schema with $ref and allOf followed; keys beside them win."""
    if not isinstance(schema, dict):
        return {}
    found = {key: value for key, value in schema.items() if key not in ("$ref", "allOf")}
    parts = list(schema.get("allOf", ()))
    if "$ref" in schema:
        target = root
        for step in schema["$ref"].removeprefix("#/").split("/"):
            target = target[step]
        parts.append(target)
    for part in parts:
        part = resolved(part, root)
        if "properties" in part and "properties" in found:
            part = part | {"properties": {key: part["properties"].get(key, {}) | found["properties"].get(key, {}) for key in part["properties"] | found["properties"]}}
            found.pop("properties")
        found = part | found
    return found


def spoiled_project(root: Path, target: Path) -> Spoiler:
    """Copy the project to `target` and spoil its data; returns what was put where."""
    for name in ("build_tools", "docs", "schema", "data"):
        shutil.copytree(root / name, target / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(root / "mkdocs.yml", target)
    spoiler, tree = Spoiler(), read_tree(root / "data")
    assert not tree.problems
    schemas = {path.name.removesuffix(".schema.json"): json.loads(path.read_text(encoding="utf-8")) for path in (root / "schema").glob("*.schema.json")}

    def write(document, kind):
        data = spoiler.value(document.data, schemas[kind], schemas[kind], document.file.removeprefix("data/").removesuffix(".yml"))
        (target / document.file).write_text(json.dumps(data, ensure_ascii=False, indent=1), encoding="utf-8")

    for kind, documents in (("crop", tree.crops), ("treatment", tree.treatments)):
        for document in documents.values():
            write(document, kind)
    for name, document in tree.singles.items():
        write(document, name)
    for guide in tree.guides.values():
        _spoil_guide(guide, target, spoiler)
    for source in tree.sources.values():
        _spoil_source(source, target, spoiler, schemas)
    _spoil_lots(tree, target, spoiler)
    return spoiler


def _spoil_guide(guide, target: Path, spoiler: Spoiler) -> None:
    """A guide with a harmful text after each of its paragraphs and list items, a paragraph of its own for each kind, in headings, links and tables too."""
    place, lines = guide.file.removesuffix(".md"), []
    for number, line in enumerate(guide.text.split("\n"), start=1):
        harmless = not line.strip() or line.startswith(("|", "#")) or "{drawing:" in line or "{cautions:" in line or "{table:" in line
        lines.append(line if harmless else f"{line} {spoiler.text(f'{place}:{number}', {'maxLength': 200})}")
    for number, text in enumerate(text for text in PAYLOADS if not BRACES.search(text)):
        lines += ["", f"## {text}", "", text, "", f"[{text}]({text})", "", f"| {text} |", "| :-- |", f"| {text} |", "", f"1. {text}"]
        spoiler.given[f"{place}:payload {number}"] = text
    (target / guide.file).write_text("\n".join(lines) + "\n", encoding="utf-8")


def _spoil_lots(tree, target: Path, spoiler: Spoiler) -> None:
    """The invented file of lots: crops by their ids, harmful texts in the cells that take any text."""
    path = target / "data" / "demo" / "lots.csv"
    ids = {name.casefold(): crop for crop, document in tree.crops.items() for name in (document.data["names"]["common"], *document.data["names"].get("other", ()))}
    rows = list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8"))))
    of_lot: dict[tuple[str, str], str] = {}  # rows of one lot agree
    for number, row in enumerate(rows):
        for column in ("variety", "lot"):
            if row[column]:
                key = (row["lot"], column)
                of_lot.setdefault(key, "Lot " + spoiler.text(f"demo/lots.csv:{number + 2}:{column}", {"maxLength": 50}))
                row[column] = of_lot[key]
        row["crop"] = ids.get(row["crop"].casefold(), row["crop"])
        if row["note"]:
            row["note"] = f"Invented {spoiler.text(f'demo/lots.csv:{number + 2}:note', {'maxLength': 60})}"
    _write_rows(path, list(rows[0]), rows)


def _spoil_source(source, target: Path, spoiler: Spoiler, schemas: dict) -> None:
    """source.yml and its tables; doubts go on quoting the cells they doubt."""
    original, schema = source.document.data, schemas["source"]
    changed = spoiler.value(original, schema, schema, source.document.file.removeprefix("data/").removesuffix(".yml"))
    for entry, spoiled in zip(original.get("tables", ()), changed.get("tables", ()), strict=True):
        table = source.tables[entry["file"]]
        free = _free_columns(entry["kind"], table, schemas)
        rows = [dict(row.cells) for row in table.rows]
        for row, printed in zip(rows, table.rows, strict=True):
            for column in free:
                if row[column]:
                    row[column] = f"{printed[column]} {spoiler.text(f'{table.file}:{printed.line}:{column}', {'maxLength': LONGEST_CELL})}"
        for doubt, old in zip(spoiled.get("doubts", ()), entry.get("doubts", ()), strict=True):
            index = next(i for i, row in enumerate(table.rows) if row[table.columns[0]] == old["row"] and row[old["column"]] == old["printed"])
            doubt |= {"row": rows[index][table.columns[0]], "column": old["column"], "printed": rows[index][old["column"]]}
        _write_rows(target / table.file, table.columns, rows)
    (target / source.document.file).write_text(json.dumps(changed, ensure_ascii=False, indent=1), encoding="utf-8")


def _write_rows(path: Path, columns: list[str], rows: list[dict]) -> None:
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    path.write_text(out.getvalue(), encoding="utf-8")


def _free_columns(kind: str, table, schemas: dict) -> list[str]:
    """Columns of a table whose cells may hold any text."""
    kept = LOOKED_UP.get(kind, set())
    if kept is None:
        return []
    properties = schemas[f"table-{kind}"].get("properties", {})
    return [c for c in table.columns if c not in kept and "pattern" not in json.dumps(properties.get(c, {})) and "$ref" not in json.dumps(properties.get(c, {}))]
