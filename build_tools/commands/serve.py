"""The command `serve`."""

from __future__ import annotations

from pathlib import Path


def arguments(parser) -> None:
    parser.add_argument("--port", type=int, default=8000)


def main(root: Path, options) -> int:
    """Serve until it is stopped; the exit status."""
    from ..site import serve

    return serve(root, options.port)
