"""The command `bench`."""

from __future__ import annotations

from pathlib import Path


def arguments(parser) -> None:
    parser.add_argument("--quick", action="store_true", help="leave out the 3,000-crop builds")


def main(root: Path, options) -> int:
    """Measure and print; the exit status."""
    from ..bench import bench

    return bench(root, quick=options.quick)
