"""The list of rules of meaning: one small function a rule, its docstring the rule's public text."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from ..problem import Problem
from ..read import DataTree


@dataclass(frozen=True)
class Rule:
    """A rule's id, its public text and the function that finds what breaks it.

    A rule across files waits until every file has a sound shape; a rule inside one file runs on the sound ones.
    """

    id: str
    text: str
    find: Callable[[DataTree], Iterator[Problem]]
    across: bool


RULES: dict[str, Rule] = {}


def rule(rule_id: str, across: bool = True):
    """Register a generator of problems under a rule id."""

    def register(find):
        RULES[rule_id] = Rule(rule_id, " ".join((find.__doc__ or "").split()), find, across)
        return find

    return register
