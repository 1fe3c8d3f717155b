"""The keys of a kind of data file, read from its JSON Schema: meaning, type, allowed values, limits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

ANY = "<name>"  # stands for a key that is an id or a name
ITEM = "[]"
TYPES = {"string": "text", "number": "a number", "integer": "a whole number", "boolean": "true or false", "array": "a list", "object": "keys of its own"}
ID = "[a-z0-9]+(-[a-z0-9]+)*"
FORMS = {  # patterns that are easier said than read
    f"^{ID}$": "an id: lower-case letters, digits, hyphens", f"^({ID}|common practice|from memory)$": "an id, `common practice` or `from memory`",
    f"^({ID}(;{ID})*)?$": "ids joined by `;`, or empty", "^(-?[0-9]+(\\.[0-9]+)?)?$": "a number, or empty", "^([0-9]+(\\.[0-9]+)?)?$": "a number of 0 or more, or empty",
    "^([0-9]+|NG|NT|-)?$": "a whole number, `NG` (no germination), `NT` or `-` (not tested), or empty", "^(yes)?$": "`yes`, or empty",
}


@dataclass(frozen=True)
class Key:
    """One key. `part` is the shared part of the schema that it belongs to, "" for the file itself; `path` is inside that.

    `uses` names the shared part that its value is, "" for none; `limits` are short texts.
    """

    part: str
    path: str
    kind: str
    description: str
    allowed: tuple[str, ...]
    limits: tuple[str, ...]
    needed: bool
    uses: str
    example: str = ""


def merged(schema: Mapping, node: Mapping) -> dict:
    """A node with its $ref and allOf put in; what stands beside them goes before."""
    whole: dict = {}
    parts = [_target(schema, node["$ref"])] if "$ref" in node else []
    for part in [*parts, *node.get("allOf", ()), {k: v for k, v in node.items() if k not in ("$ref", "allOf")}]:
        part = merged(schema, part) if {"$ref", "allOf"} & set(part) else part
        inner = {**whole.get("properties", {})}
        for key, value in part.get("properties", {}).items():
            inner[key] = {**inner.get(key, {}), **value}
        whole |= {**part, **({"properties": inner} if inner else {})}
    return whole


def _target(schema: Mapping, reference: str) -> Mapping:
    node = schema
    for name in reference.removeprefix("#/").split("/"):
        node = node[name]
    return node


def shared_part(schema: Mapping, node: Mapping) -> str:
    """The name of the part under $defs, with keys of its own, that a node is; "" for none."""
    references = [n["$ref"] for n in (node, *node.get("allOf", ())) if "$ref" in n]
    return next((r.removeprefix("#/$defs/") for r in references if "properties" in _target(schema, r)), "")


def keys_of(schema: Mapping) -> list[Key]:
    """Every key of the file and of the shared parts it uses, in the schema's order, the parts last."""
    found, waiting, done = list(_keys(schema, schema, "", "")), [], set()
    waiting += [k.uses for k in found if k.uses]
    while waiting:
        part = waiting.pop(0)
        if part in done:
            continue
        done.add(part)
        inner = list(_keys(schema, schema["$defs"][part], part, ""))
        found += inner
        waiting += [k.uses for k in inner if k.uses]
    return found


def children(schema: Mapping, node: Mapping) -> Iterator[tuple[str, Mapping, bool]]:
    """(step, node, needed) of what a node holds: its named keys, keys that are names, the items of a list."""
    whole = merged(schema, node)
    for key, value in whole.get("properties", {}).items():
        yield key, value, key in whole.get("required", ())
    for value in (whole.get("additionalProperties"), *whole.get("patternProperties", {}).values()):
        if isinstance(value, Mapping):
            yield ANY, value, False
    if isinstance(whole.get("items"), Mapping):
        yield ITEM, whole["items"], False


def joined(path: str, step: str) -> str:
    return path + step if step == ITEM or not path else f"{path}.{step}"


def _keys(schema: Mapping, node: Mapping, part: str, path: str) -> Iterator[Key]:
    for step, child, needed in children(schema, node):
        here, uses = joined(path, step), shared_part(schema, child)
        if step != ITEM:
            yield _key(schema, child, part, here, needed, uses)
        elif uses:  # a list of a shared part: the list itself says so
            yield replace(_key(schema, child, part, here, False, uses), description="Each entry of the list.")
        if not uses:
            yield from _keys(schema, child, part, here)


def _key(schema: Mapping, node: Mapping, part: str, path: str, needed: bool, uses: str) -> Key:
    whole = merged(schema, node)
    kind = TYPES.get(str(whole.get("type", "")), "")
    inner = merged(schema, whole["items"]) if isinstance(whole.get("items"), Mapping) else {}
    choice = whole.get("properties", {}).get("choice", {}) if uses else {}
    allowed = tuple(map(str, whole.get("enum") or inner.get("enum") or choice.get("enum") or ()))
    if "const" in whole:
        kind, allowed = ("true, or left out" if whole["const"] is True else "false, or left out"), ()
    if inner and not uses and "properties" not in inner:
        kind = f"a list of {TYPES.get(str(inner.get('type', 'string')), 'text').removeprefix('a ')}{'s' if inner.get('type') == 'number' else ''}"
    return Key(part, path, kind or ("one of these" if allowed else "text"), str(whole.get("description", "")), allowed, tuple(_limits(whole, inner)), needed, uses)


def _limits(whole: Mapping, inner: Mapping) -> Iterator[str]:
    for node, of in ((whole, ""), (inner, "each ")):
        if "minimum" in node or "maximum" in node or "exclusiveMinimum" in node:
            least = f"{node['minimum']:g} or more" if "minimum" in node else f"above {node['exclusiveMinimum']:g}" if "exclusiveMinimum" in node else ""
            yield of + " and ".join(filter(None, [least, f"at most {node['maximum']:g}" if "maximum" in node else ""]))
        if "minLength" in node or "maxLength" in node:
            least, most = node.get("minLength", 0), node.get("maxLength")
            yield of + (f"{least}–{most} characters" if least and most else f"at most {most} characters" if most else f"at least {least} character{'s' if least > 1 else ''}")
        if "pattern" in node:
            yield of + FORMS.get(node["pattern"], f"form `{node['pattern']}`")
    if "minItems" in whole or "maxItems" in whole:
        least, most = whole.get("minItems", 0), whole.get("maxItems")
        yield f"exactly {most} entries" if least == most else f"{least}–{most} entries" if most and least else f"at most {most} entries" if most else f"at least {least} entr{'y' if least == 1 else 'ies'}"
    if whole.get("uniqueItems"):
        yield "none twice"
