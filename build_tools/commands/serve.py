"""The command `serve`."""

from __future__ import annotations

from argparse import ArgumentTypeError
from pathlib import Path


def port(text: str) -> int:
    """A port's number. Raises ArgumentTypeError for anything else."""
    if not text.isdecimal() or not 0 < int(text) < 65536:
        raise ArgumentTypeError(f"{text!r} is no port; ports are numbers from 1 to 65535")
    return int(text)


def arguments(parser) -> None:
    parser.add_argument("--port", type=port, default=8000, help="8000 unless given")


def main(root: Path, options) -> int:
    """Serve until it is stopped; the exit status."""
    from ..site import serve

    return serve(root, options.port)
