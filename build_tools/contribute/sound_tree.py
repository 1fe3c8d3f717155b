"""The part of a data tree that can be worked with while some of its files are being mended."""

from __future__ import annotations

from ..check.schema_rules import SchemaSet, check_schemas
from ..read import DataTree


def sound(tree: DataTree, schemas: SchemaSet) -> tuple[DataTree, set[str]]:
    """(the tree without files that can't be read or have not the shape of their kind, the names of those files)."""
    bad = {problem.file for problem in tree.problems + check_schemas(tree, schemas)}
    kept = tree.without(bad)
    kept.singles = {name: document for name, document in kept.singles.items() if document.file not in bad}
    return kept, bad
