"""What a JSON Schema says about the form of a file: the order of its keys, and which texts are free."""

from __future__ import annotations

import json
from functools import cached_property
from pathlib import Path, PurePosixPath


class Shape:
    """One place in a schema. References are followed, parts joined by allOf taken together."""

    def __init__(self, schema: dict, whole: dict):
        self.whole = whole
        self.parts = tuple(self._flat(schema))
        self._children: dict[str | None, Shape | None] = {}

    def _flat(self, schema):
        if "$ref" in schema:
            target = self.whole
            for step in schema["$ref"].removeprefix("#/").split("/"):
                target = target[step]
            yield from self._flat(target)
        yield schema
        for part in schema.get("allOf", ()):
            yield from self._flat(part)

    @cached_property
    def order(self) -> dict[str, int]:
        """Place of each named key; keys that are ids of things have none."""
        names = dict.fromkeys(key for part in self.parts for key in part.get("properties", ()))
        return {key: place for place, key in enumerate(names)}

    @cached_property
    def free_text(self) -> bool:
        """Whether a text of any words may stand here: such a text is always quoted."""
        return any(part.get("type") == "string" for part in self.parts) and not any(key in part for part in self.parts for key in ("enum", "const", "pattern"))

    def child(self, key: str | None) -> Shape | None:
        """The shape of a key's value, or of a list's items (None); None when the schema says nothing."""
        if key not in self._children:
            self._children[key] = self._child(key)
        return self._children[key]

    def _child(self, key):
        if key is None:
            found = [part["items"] for part in self.parts if isinstance(part.get("items"), dict)]
        else:
            found = [part["properties"][key] for part in self.parts if key in part.get("properties", ())]
            found = found or [part["additionalProperties"] for part in self.parts if isinstance(part.get("additionalProperties"), dict)]
        return Shape({"allOf": found} if len(found) != 1 else found[0], self.whole) if found else None


def shapes_of(folder: Path) -> dict[str, Shape]:
    """The shape of each kind of YAML file, by the name of its schema in schema/."""
    shapes = {}
    for path in sorted(folder.glob("*.schema.json")):
        name = path.name.removesuffix(".schema.json")
        if not name.startswith(("table-", "api-", "report-")):
            schema = json.loads(path.read_text(encoding="utf-8"))
            shapes[name] = Shape(schema, schema)
    return shapes


def shape_of_file(file: str) -> tuple[str, str]:
    """(name of the schema, its address relative to the file) of a YAML file named from the project's folder, such as data/crops/leek.yml."""
    path = PurePosixPath(file)
    folders = {"crops": "crop", "treatments": "treatment", "sources": "source"}
    name = folders.get(path.parts[1], path.stem) if len(path.parts) > 2 else path.stem
    return name, "../" * (len(path.parts) - 1) + f"schema/{name}.schema.json"
