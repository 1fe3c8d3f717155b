"""The command `test`."""

from __future__ import annotations

import os
from pathlib import Path


def arguments(parser) -> None:
    parser.add_argument("words", nargs="*", metavar="WORD")
    parser.add_argument("--coverage", action="store_true", help="say how much of the stages science and check the tests run; below 95 %% of lines or branches is a failure")


def main(root: Path, options) -> int:
    """Run pytest in the project's folder; its exit status."""
    if options.coverage:
        from ..covered import STAGES, TESTS, measure

        named = any(not word.startswith("-") for word in options.words)
        return measure(root, {name: root / "build_tools" / name for name in STAGES}, [*([] if named else [*TESTS, "-m", "not browser"]), *options.words])
    import pytest

    os.chdir(root)
    return int(pytest.main(options.words))
