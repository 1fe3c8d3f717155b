"""Checking: every problem of the data, each with its place and a hint."""

from __future__ import annotations

from itertools import islice
from pathlib import Path

from ..problem import Problem, bounded
from ..progress import Progress
from ..read import DataTree, read_tree
from ..registry import ACROSS, ONE_FILE, RULES
from . import (  # noqa: F401  (importing registers the rules)
    cell_rules,
    cross_rules,
    demo_rules,
    evidence_rules,
    figure_rules,
    guide_rules,
    meaning_rules,
    people_rules,
    poster_rules,
    release_rules,
    table_rules,
    treatment_rules,
)
from .acceptance import acceptance_not_needed, not_accepted
from .form_rules import form_problems
from .schema_rules import SchemaSet, check_schemas

MOST_OF_A_RULE = 2_000  # findings looked for: a file made to break many thousand times must not keep anyone waiting


def check_tree(tree: DataTree, schemas: SchemaSet, progress: Progress | None = None) -> list[Problem]:
    """All problems of a data tree: of reading, of shape, of meaning, of form. Findings accepted in data/accepted.yml are left out."""
    progress = progress or Progress()
    progress.start("files held against their schemas")
    unread = {(p.file, p.line) for p in tree.problems}
    problems = tree.problems + [p for p in check_schemas(tree, schemas, progress) if (p.file, p.line) not in unread]
    progress.start("files put in form")
    form = list(form_problems(tree, schemas, progress))
    if misplaced := list(RULES["unknown-table"].find(tree.without({p.file for p in problems}))):
        return bounded([*problems, *misplaced, *form])  # a lost table would make a hundred other things look wrong
    sound = tree.without({p.file for p in problems})
    problems += _found(ONE_FILE, sound, progress)
    problems, needed = not_accepted(tree, problems)
    if not problems:  # knock-on findings would only bury the cause
        problems, also_needed = not_accepted(tree, _found(ACROSS, tree, progress))
        problems += acceptance_not_needed(tree, needed | also_needed)
    return bounded([*problems, *form])


def _found(stage: str, tree: DataTree, progress: Progress) -> list[Problem]:
    rules = [rule for rule in RULES.values() if rule.stage == stage]
    progress.start(f"rules for {stage}")
    found: list[Problem] = []
    for rule in rules:
        found += islice(rule.find(tree), MOST_OF_A_RULE)
        progress.step(len(rules))
    return found


def check_data(root: Path) -> tuple[DataTree, list[Problem]]:
    """Read and check <root>/data against <root>/schema; says on the error stream how far it is when that takes long."""
    progress = Progress()
    progress.start("files read")
    tree = read_tree(root / "data", progress)
    return tree, check_tree(tree, SchemaSet.load(root / "schema"), progress)

