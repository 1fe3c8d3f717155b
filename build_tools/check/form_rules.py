"""The rule that every data file is in the house's form."""

from __future__ import annotations

import json
from collections.abc import Iterator
from hashlib import sha256

from ..form import CannotFix, Shape, fix_csv, fix_yaml, shape_of_file
from ..problem import Problem
from ..progress import Progress
from ..read import DataTree
from ..registry import SHAPE, rule
from .schema_rules import SchemaSet

_proven: set[bytes] = set()  # checksums of texts found in form, so that a server that reads again and again works each out once
HINT = "The command fix puts the file in form and changes no value."


def form_problems(tree: DataTree, schemas: SchemaSet, progress: Progress) -> Iterator[Problem]:
    """Every file of a tree that is not in form; files with problems of reading wait."""
    shapes = {name: Shape(v.schema, v.schema) for name, v in schemas.validators.items()}
    known = {name: json.dumps(v.schema).encode() for name, v in schemas.validators.items()}
    waiting = {problem.file for problem in tree.problems}
    documents = [d for d in tree.documents() if d.file not in waiting]
    for document in documents:
        name, address = shape_of_file(document.file)
        progress.step(len(documents))
        if name in shapes and (proof := sha256(b"\0".join((known[name], address.encode(), document.text.encode()))).digest()) not in _proven:
            try:
                found = list(form(document.text, fix_yaml(document.text, shapes[name], address, document.file, document), document.file))
            except CannotFix:
                continue  # broken over lines in its own way: read well, and left as it is
            yield from found
            if not found:
                _proven.add(proof)
    for source in tree.sources.values():
        for table in source.tables.values():
            if table.file not in waiting:
                text = "\n".join(table.lines)
                yield from form(text, fix_csv(text), table.file)


@rule("form", SHAPE)
def form(text: str, fixed: str, file: str) -> Iterator[Problem]:
    """A file has the form that `fix` gives it: keys in the schema's order, plain numbers, free text in double quotes, no stray spaces. A warning: the site is built all the same."""
    if fixed == text:
        return
    found, wanted = text.split("\n"), fixed.split("\n")
    line = next(n for n, (a, b) in enumerate(zip([*found, None], [*wanted, None])) if a != b)
    now, then = (lines[line] if line < len(lines) else "" for lines in (found, wanted))
    column = next((n for n, (a, b) in enumerate(zip(now, then)) if a != b), min(len(now), len(then)))
    if now.rstrip() == then.rstrip():
        what = "A space, an empty line or a line end is too many or missing."
    else:
        what = f"In form, this line would read “{then[:160].strip()}{'…' * (len(then) > 160)}”." if then.strip() else "In form, this line would not stand here."
    yield Problem(file, min(line + 1, len(found)), column + 1, "form", what, HINT, level="warning")
