"""Findings that are accepted, each with a reason, in data/accepted.yml; and the rules that keep that list honest."""

from __future__ import annotations

from collections.abc import Iterator

from ..problem import Problem, did_you_mean
from ..read import DataTree
from ..registry import LAST, RULES, rule


def _entries(tree: DataTree) -> list[dict]:
    document = tree.singles.get("accepted")
    found = document.data.get("findings") if document and isinstance(document.data, dict) else None
    return [entry for entry in found if isinstance(entry, dict)] if isinstance(found, list) else []


def not_accepted(tree: DataTree, problems: list[Problem]) -> tuple[list[Problem], set[int]]:
    """The problems that no entry accepts, and the places of the entries that were needed.

    An entry accepts one finding: the rule, the file, the place by keys, and the finding's own words, so that it ends when the number changes.
    """
    accepted = {(e.get("rule"), e.get("file"), str(e.get("at", "")), e.get("finding")): index for index, e in enumerate(_entries(tree))}
    left, needed = [], set()
    for problem in problems:
        index = accepted.get((problem.rule, problem.file, problem.at, problem.message))
        if index is None or not RULES[problem.rule].acceptable:
            left.append(problem)
        else:
            needed.add(index)
    return left, needed


@rule("acceptance-not-needed", LAST)
def acceptance_not_needed(tree: DataTree, needed: set[int]) -> Iterator[Problem]:
    """An accepted finding is still found: an acceptance whose finding is gone, or reads otherwise now, goes too."""
    for index, entry in enumerate(_entries(tree)):
        if index not in needed and _known(entry):
            yield tree.singles["accepted"].problem(("findings", index), "acceptance-not-needed", f'{entry["rule"]} no longer says this of {entry["file"]}.', "Delete the entry, or copy the finding as check prints it now.")


@rule("not-acceptable")
def not_acceptable(tree: DataTree) -> Iterator[Problem]:
    """Only findings of rules that leave room for judgement are accepted; what can be mended is mended."""
    acceptable = sorted(r.id for r in RULES.values() if r.acceptable)
    for index, entry in enumerate(_entries(tree)):
        if not _known(entry):
            yield tree.singles["accepted"].problem(("findings", index, "rule"), "not-acceptable", f'Findings of "{entry["rule"]}" are not accepted.', did_you_mean(entry["rule"], acceptable) or f"These are: {', '.join(acceptable)}.")


def _known(entry: dict) -> bool:
    return entry["rule"] in RULES and RULES[entry["rule"]].acceptable
