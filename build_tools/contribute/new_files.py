"""A new crop, source or treatment: the id looked at, the file prefilled with what is known, and the next step."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from ..check.schema_rules import SchemaSet
from ..check.tables import KINDS_OF_EVIDENCE, evidence_kinds
from ..form import Shape
from ..model.build import CHOICES, QUANTITIES
from ..read import DataTree
from .crop_names import NameBook, key
from .skeleton import Words, skeleton
from .suggest import Suggestion, out_of_order, suggestions
from .suggest_text import yaml_line

GROUPS = {**dict.fromkeys(("minimum_c", "optimum_low_c", "optimum_high_c", "optimum_c", "maximum_c"), "temperature"),
          **dict.fromkeys(("sow_outdoors_weeks", "sow_indoors_weeks", "plant_out_weeks", "transplant_age_weeks"), "timing")}
TOGETHER = (("temperature.optimum_low_c", "temperature.optimum_high_c"),)  # given both or neither
HOW_TO = "Lines with ## explain: delete them when you are done. To use another line that is commented out, take the # and one space away. Leave out what is not known."
SOURCES = "sources: ids of folders of data/sources/, or common practice (what the trade does and nobody was found to have printed), or from memory (not seen in a copy)."


@dataclass(frozen=True)
class NewFile:
    """A file to write: its path under the project's folder, its text, and what to say afterwards, a line each."""

    path: str
    text: str
    say: tuple[str, ...]


def new_file(root: Path, tree: DataTree, schemas: SchemaSet, kind: str, name: str, shown: str = "") -> NewFile:
    """A skeleton of `kind` (crop, source or treatment) under the id `name`; `shown` is a common name. ValueError when the id can't be had."""
    shape = Shape(schemas.validators[kind].schema, schemas.validators[kind].schema)
    known = {"crop": tree.crops, "source": tree.sources, "treatment": tree.treatments}[kind]
    path = {"crop": f"data/crops/{name}.yml", "source": f"data/sources/{name}/source.yml", "treatment": f"data/treatments/{name}.yml"}[kind]
    _check_id(root, shape, kind, name, path)
    near = get_close_matches(name, known, n=3, cutoff=0.66)
    say = [f"Ids near to it that are there already: {', '.join(near)}."] if near else []
    words = Words(*(tree.singles["quantities"].data[part] for part in ("quantities", "choices")))
    words.filled["id"] = name
    if kind == "crop":
        say += _crop(tree, name, shown, words)
    elif shown:
        words.filled["title" if kind == "source" else "name"] = json.dumps(shown, ensure_ascii=False)
    if kind == "source":
        words.filled["family"] = name
    address = "../" * path.count("/") + f"schema/{kind}.schema.json"
    text = skeleton(shape, address, [HOW_TO, SOURCES], words)
    return NewFile(path, text, (*say, *_next(kind, name)))


def _check_id(root: Path, shape: Shape, kind: str, name: str, path: str) -> None:
    rules = {keyword: value for part in shape.child("id").parts for keyword, value in part.items()}
    if not re.fullmatch(rules["pattern"].strip("^$"), name) or len(name) > rules["maxLength"]:
        made = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[: rules["maxLength"]].strip("-")
        raise ValueError(f'"{name}" is not an id: lower-case letters and digits, words joined by hyphens, at most {rules["maxLength"]} letters.' + (f" Write {made}." if made else ""))
    if (root / path).exists() or (root / path).is_symlink() or kind == "source" and (root / path).parent.exists():
        raise ValueError(f"{path} is there already. Open it to change it; nothing was overwritten.")


def _crop(tree: DataTree, name: str, shown: str, words: Words) -> list[str]:
    """Fill in what is known of a crop; what to say of it."""
    book, say = NameBook.of(tree), []
    other = tree.singles.get("other-kinds")
    entry = other.data.get(name) if other else None
    common = shown or (entry["name"] if entry else "")
    named = {crop for crop in book.names.get(key(common or name), ()) if crop != name}
    owners = [crop for crop in sorted(named) if crop in tree.crops and key(tree.crops[crop].data["names"]["common"]) == key(common)]
    if owners:
        raise ValueError(f'"{common}" is the common name of {owners[0]} (data/crops/{owners[0]}.yml). Open that file, or choose a name that tells them apart: --name "…".')
    for crop in sorted(named):
        say.append(f'"{common or name}" is also a name of {book.shown[crop]} ({crop}): make sure that a file of its own is wanted.')
    words.filled["names.sources"] = "[from memory]"
    words.filled["season"] = '{choice: "", sources: [common practice]}'
    if common:
        words.filled["names.common"] = json.dumps(common, ensure_ascii=False)
    found = suggestions(tree, name, [q for q in QUANTITIES if q != "season"])
    values = _prefill(found, words)
    has = sorted(evidence_kinds(tree).get(name, ()))
    if values:
        say.append(f"Filled in from the tables, by what most families print: {', '.join(values)}. See them with: suggest {name}")
    say += out_of_order(found)
    if words.offered:
        say.append(f"To choose, since the families tie: {', '.join(path.rpartition('.')[2] for path in words.offered)}.")
    if entry:
        say.append(f"{other.file}:{other.place((name,))[0]} lists {name} as a kind without a page ({entry['why']}). Delete that line.")
    if len(has) < 2:
        say.append(f"The tables give it {' and '.join(has) or 'none'} of: {', '.join(KINDS_OF_EVIDENCE)}. A page needs two: add a table that names it with import-table.")
    return say


def _prefill(found: Sequence[Suggestion], words: Words) -> list[str]:
    """Put suggestions of families that count into `words`; the quantities filled in."""
    for suggestion in found:
        if not suggestion.options or not suggestion.counted:
            continue
        quantity = suggestion.quantity
        path = f"{GROUPS[quantity]}.{quantity}" if quantity in GROUPS else quantity
        lines = [yaml_line(quantity, option) for option in suggestion.options]
        if len(lines) == 1:
            words.filled[path] = lines[0].partition(": ")[2]
        else:
            words.offered[path] = lines
    for pair in TOGETHER:  # one end alone would be a problem: both wait when one has to be chosen
        if sum(path in words.filled for path in pair) == 1:
            path = next(p for p in pair if p in words.filled)
            words.offered[path] = [f"{path.rpartition('.')[2]}: {words.filled.pop(path)}"]
    return [path.rpartition(".")[2] for path in words.filled if path.rpartition(".")[2] in GROUPS or path in ("seed_life_years", "sowing_depth_mm", *(c for c in CHOICES if c != "season"))]


def _next(kind: str, name: str) -> list[str]:
    """The next step."""
    if kind == "crop":
        return ["Next: fill in what is empty, run `check`, and mend what it names. Then `serve` shows the page."]
    if kind == "source":
        return [f"Next: fill in what is empty. Put its table in with: import-table FILE.csv --source {name} --kind KIND; or cite {name} in the file of a crop. Then run `check`."]
    return [f"Next: fill in what is empty, name {name} under pretreatments in the file of a crop, and run `check`. Where it can hurt people, say so under cautions."]
