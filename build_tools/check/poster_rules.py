"""Rules about the words of posters."""

from __future__ import annotations

import re

from ..problem import did_you_mean
from ..read import DataTree
from ..registry import rule

PLACEHOLDER = re.compile(r"\{([^{}]*)\}")


@rule("poster-practice")
def poster_practice(tree: DataTree):
    """Every {name} in the words of data/posters.yml is a rule of the trade in `practice` of data/quantities.yml."""
    document, known = tree.singles["posters"], tree.singles["quantities"].data["practice"]
    for poster, words in document.data.items():
        for index, step in enumerate(words["steps"]):
            for name in PLACEHOLDER.findall(step["text"]):
                if name not in known:
                    yield document.problem((poster, "steps", index, "text"), "poster-practice", f'"{{{name}}}" is no entry of practice.', did_you_mean(name, known) or "Name an entry of practice in data/quantities.yml.")
