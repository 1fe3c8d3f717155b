"""The command `build`."""

from __future__ import annotations

from pathlib import Path


def arguments(parser) -> None:
    parser.add_argument("--output", type=Path, metavar="DIR", help="build/site unless given")
    parser.add_argument("--anew", action="store_true", help="make every sheet and template anew, use and keep nothing in .cache")


def main(root: Path, options) -> int:
    """Build the site; the exit status."""
    from ..site import build

    return build(root, options.output or root / "build" / "site", keep=not options.anew)
