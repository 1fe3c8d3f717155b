"""The list of rules: one small function a rule, its docstring the rule's public text.

A rule's stage says when it runs: while a file is read, when its shape is held against the schema, when every file is sound by itself, when
all are and can be held against one another, or last of all, on what was found.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

READING, SHAPE, ONE_FILE, ACROSS, LAST = "reading", "shape", "one file", "across files", "last"
STAGES = (READING, SHAPE, ONE_FILE, ACROSS, LAST)


@dataclass(frozen=True)
class Rule:
    """A rule's id, its public text, its stage and the function that finds what breaks it.

    Rules of the stages ONE_FILE and ACROSS take a DataTree and yield Problems; what the others take, the code that reads or
    holds files against schemas knows. `acceptable`: a finding may be accepted, with a reason, in data/accepted.yml.
    """

    id: str
    text: str
    stage: str
    find: Callable
    acceptable: bool


RULES: dict[str, Rule] = {}


def rule(rule_id: str, stage: str = ACROSS, acceptable: bool = False):
    """Register the decorated function under a rule id. Raises ValueError for an id taken or a function without a docstring."""

    def register(find):
        text = " ".join((find.__doc__ or "").split())
        if rule_id in RULES or not text or stage not in STAGES:
            raise ValueError(f"rule {rule_id}: taken, without a text, or of no stage")
        RULES[rule_id] = Rule(rule_id, text, stage, find, acceptable)
        return find

    return register
