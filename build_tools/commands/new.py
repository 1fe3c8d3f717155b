"""The command `new`: a data file to fill in."""

from __future__ import annotations

import sys
from pathlib import Path

from ..check.schema_rules import SchemaSet
from ..contribute.new_files import new_file
from ..contribute.sound_tree import sound
from ..read import read_tree
from ..write_file import write_whole


def arguments(parser) -> None:
    parser.add_argument("kind", choices=("crop", "source", "treatment"), help="what is added")
    parser.add_argument("id", metavar="ID", help="its id, which is the file's name and the page's address: small letters and digits, words joined by hyphens")
    parser.add_argument("--name", default="", metavar="NAME", help="the common name of a crop, the title of a source, the name of a treatment")


def main(root: Path, options) -> int:
    """Write the skeleton; the exit status, 2 when the id can't be had, 1 when something else is in the way. An existing file is never touched."""
    schemas = SchemaSet.load(root / "schema")
    tree, _ = sound(read_tree(root / "data"), schemas)
    if "quantities" not in tree.singles:
        print("data/quantities.yml can't be read. Run `check` and mend it first.", file=sys.stderr)
        return 1
    try:
        made = new_file(root, tree, schemas, options.kind, options.id, options.name)
    except ValueError as error:
        print(error, file=sys.stderr)
        return 2
    try:
        write_whole(root / made.path, [made.text])
    except OSError as error:
        print(f"Cannot write {made.path}: {error.strerror}.", file=sys.stderr)
        return 1
    print("\n".join([f"Written: {made.path}.", *made.say]))
    return 0
