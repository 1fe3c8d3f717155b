"""The page of all checks: every rule by its stage, with an example that breaks it and what check says of it; and the findings that are accepted."""

from __future__ import annotations

from pathlib import Path

from .. import check  # noqa: F401  (importing registers the rules)
from ..model.reference import Reference
from ..registry import ACROSS, LAST, ONE_FILE, READING, RULES, SHAPE
from ..rule_examples import examples_of

DESCRIPTION = "Every rule that the data is held to, with an example that breaks it and what the check says of it."
GROUPS = (
    ("reading", "While a file is read", "A file that breaks one of these is not read further.", (READING,)),
    ("shape", "Shape and form", "Each file is held against the schema of its kind.", (SHAPE,)),
    ("meaning", "Meaning, file by file", "What a file says of itself hangs together.", (ONE_FILE,)),
    ("across", "Between files", "These wait until every file is sound by itself, so that one slip is not reported a hundred times.", (ACROSS, LAST)),
)


def add(rendered, reference: Reference, environment, root: Path) -> None:
    """Add the page."""
    from . import Page

    groups = [(anchor, title, words, [(r, examples_of(root, r.id)[:1]) for r in sorted(RULES.values(), key=lambda r: r.id) if r.stage in stages]) for anchor, title, words, stages in GROUPS]
    headings = [(anchor, title) for anchor, title, _, _ in groups] + [("accepted", "Accepted findings")]
    summary = f'<h1 id="top">All checks</h1><p>{DESCRIPTION}</p>'

    def body():
        return environment.get_template("checks.html").render(root="../", groups=groups, count=len(RULES), accepted=reference.accepted)

    rendered.pages["checks.md"] = Page("All checks", DESCRIPTION, body, summary, tuple(headings))
