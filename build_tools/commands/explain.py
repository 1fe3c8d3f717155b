"""The command `explain`: what a rule asks, with an example of what breaks it."""

from __future__ import annotations

import sys
from pathlib import Path

from .. import check  # noqa: F401  (importing registers the rules)
from ..problem import did_you_mean
from ..registry import RULES
from ..rule_examples import examples_of


def arguments(parser) -> None:
    parser.add_argument("rule", nargs="?", metavar="RULE", help="a rule's id, as check prints it; all are listed unless given")


def main(root: Path, options) -> int:
    """Explain a rule, or list them all; exit status 2 for a rule that is none."""
    if options.rule is None:
        width = max(map(len, RULES))
        print("\n".join(f"{rule.id:<{width}}  {rule.text}" for rule in sorted(RULES.values(), key=lambda r: r.id)))
        return 0
    if options.rule not in RULES:
        print(f'There is no rule "{options.rule}". {did_you_mean(options.rule, RULES)}'.strip(), file=sys.stderr)
        return 2
    rule = RULES[options.rule]
    print(f"{rule.id} ({rule.stage})\n{rule.text}")
    if rule.acceptable:
        print("A finding may be accepted, with its reason, in data/accepted.yml.")
    for example in examples_of(root, rule.id):
        print(f"\nFor example, in {example.file}, line {example.line}:\n  {example.found}\nwhere check says:\n  {example.message}")
    return 0
