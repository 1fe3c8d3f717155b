"""Checking: every problem of the data, each with its place and a hint."""

from __future__ import annotations

from pathlib import Path

from ..problem import Problem
from ..read import DataTree, read_tree
from ..registry import ACROSS, ONE_FILE, RULES
from . import (  # noqa: F401  (importing registers the rules)
    cell_rules,
    cross_rules,
    demo_rules,
    evidence_rules,
    meaning_rules,
    people_rules,
    poster_rules,
    table_rules,
    treatment_rules,
)
from .schema_rules import SchemaSet, check_schemas


def check_tree(tree: DataTree, schemas: SchemaSet) -> list[Problem]:
    """All problems of a data tree: of reading, of shape, of meaning."""
    problems = tree.problems + check_schemas(tree, schemas)
    if misplaced := list(RULES["unknown-table"].find(tree.without({p.file for p in problems}))):
        return sorted(set(problems + misplaced))  # a lost table would make a hundred other things look wrong
    sound = tree.without({p.file for p in problems})
    problems += [p for rule in RULES.values() if rule.stage == ONE_FILE for p in rule.find(sound)]
    if not problems:  # knock-on findings would only bury the cause
        problems += [p for rule in RULES.values() if rule.stage == ACROSS for p in rule.find(tree)]
    return sorted(set(problems))


def check_data(root: Path) -> tuple[DataTree, list[Problem]]:
    """Read and check <root>/data against <root>/schema."""
    tree = read_tree(root / "data")
    return tree, check_tree(tree, SchemaSet.load(root / "schema"))
