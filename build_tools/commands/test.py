"""The command `test`."""

from __future__ import annotations

import os
from pathlib import Path


def arguments(parser) -> None:
    parser.add_argument("words", nargs="*", metavar="WORD")


def main(root: Path, options) -> int:
    """Run pytest in the project's folder; its exit status."""
    import pytest

    os.chdir(root)
    return int(pytest.main(options.words))
