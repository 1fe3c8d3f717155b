"""The command `renew`."""

from __future__ import annotations

import sys
from pathlib import Path

from ..model import Reference, load
from ..printers import report
from ..write_file import write_whole


def arguments(parser) -> None:
    parser.add_argument("--check", action="store_true", help="write nothing; exit status 1 when a file is stale")


def generated(reference: Reference, root: Path) -> dict[str, str]:
    """Path from the project's top folder → text, for every committed file that is written from the data and the schemas."""
    from ..render.forge_forms import issue_forms
    from ..render.published.citation import citation_cff

    return issue_forms(reference, root) | {"CITATION.cff": citation_cff(reference)}


def main(root: Path, options) -> int:
    """Rewrite the generated files that are stale and name them; with --check only name them."""
    reference, problems = load(root)
    if reference is None:
        report(problems, stream=sys.stderr)
        print("Nothing was renewed: mend the data first.", file=sys.stderr)
        return 1
    files = generated(reference, root)
    stale = [name for name, text in files.items() if not _holds(root / name, text)]
    if not options.check:
        for name in stale:
            write_whole(root / name, [files[name]])
    for name in stale:
        print(f"{name}: {'stale' if options.check else 'written'}")
    if not stale:
        print(f"All {len(files)} generated files are up to date.")
    elif options.check:
        print("Run: python3 -m build_tools renew")
    return 1 if stale and options.check else 0


def _holds(path: Path, text: str) -> bool:
    """Whether the file is there with exactly this text, compared as bytes so that line ends count."""
    try:
        return path.read_bytes() == text.encode()
    except OSError:
        return False
