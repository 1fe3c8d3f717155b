"""The command `suggest`: what the published families would give for each value of a crop."""

from __future__ import annotations

import sys
from pathlib import Path

from ..check.schema_rules import SchemaSet
from ..contribute.crop_names import NameBook
from ..contribute.sound_tree import sound
from ..contribute.suggest import suggestions
from ..contribute.suggest_text import as_text
from ..model.build import QUANTITIES
from ..problem import did_you_mean
from ..read import read_tree


def arguments(parser) -> None:
    parser.add_argument("crop", nargs="+", metavar="CROP", help="a crop's name or id, or a kind of data/other-kinds.yml")
    parser.add_argument("--quantity", action="append", metavar="KEY", help="only this value, such as minimum_c; may be repeated")


def main(root: Path, options) -> int:
    """Print the suggestions; the exit status, 2 when a word is not understood. Data with problems is read as far as it is sound."""
    tree, left_out = sound(read_tree(root / "data"), SchemaSet.load(root / "schema"))
    if "quantities" not in tree.singles:
        print("data/quantities.yml can't be read. Run `check` and mend it first.", file=sys.stderr)
        return 2
    asked = options.quantity or list(QUANTITIES)
    for quantity in asked:
        if quantity not in QUANTITIES:
            print(f'There is no value "{quantity}". {did_you_mean(quantity, QUANTITIES) or "Known: " + ", ".join(QUANTITIES) + "."}', file=sys.stderr)
            return 2
    book = NameBook.of(tree)
    try:
        crops = book.meant(" ".join(options.crop))
    except ValueError as error:
        print(error, file=sys.stderr)
        return 2
    print("\n\n".join(as_text(tree, book.shown[crop], suggestions(tree, crop, asked)) for crop in crops))
    if left_out:
        print(f"\nLeft out, since they have problems that `check` names: {', '.join(sorted(left_out))}.", file=sys.stderr)
    return 0
