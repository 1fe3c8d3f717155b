"""The command `import-table`: a table walked into a source folder."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..check.schema_rules import SchemaSet
from ..contribute.crop_names import NameBook
from ..contribute.sound_tree import sound
from ..contribute.walk_in import Walk, Wish, walk_in
from ..contribute.walk_text import problems_text, summary
from ..read import read_tree
from ..write_file import write_whole


def _pair(text: str) -> tuple[str, str]:
    """ "Theirs=ours" taken apart at the last equals sign."""
    theirs, equals, ours = text.rpartition("=")
    if not equals or not theirs.strip():
        raise argparse.ArgumentTypeError(f'"{text}" should be "Theirs=ours", with an equals sign')
    return theirs.strip(), ours.strip()


def _lines(text: str) -> list[int]:
    """Line numbers with commas."""
    if not all(part.strip().isdigit() for part in text.split(",")):
        raise argparse.ArgumentTypeError(f'"{text}" should be line numbers with commas, such as 5,33')
    return [int(part) for part in text.split(",")]


def arguments(parser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE.csv", help="the table, with commas, semicolons or tabs, a row a crop")
    parser.add_argument("--source", required=True, metavar="ID", help="the folder of data/sources/ that it goes into")
    parser.add_argument("--kind", required=True, metavar="KIND", help="what the table holds, such as seed-life: the schemas schema/table-KIND.schema.json")
    parser.add_argument("--caption", default="", metavar="TEXT", help="what the table shows; the title of its kind unless given")
    parser.add_argument("--map", action="append", type=_pair, default=[], metavar='"HEADER=COLUMN"', help="a header of the table and our column for it; nothing after the = leaves it out; may be repeated")
    parser.add_argument("--crops", action="append", type=_pair, default=[], metavar='"NAME=ID"', help="a name of the table and our crop id, several with ;, none for a kind without an id; may be repeated")
    parser.add_argument("--unit", choices=("C", "F"), help="unit of temperatures whose header does not say it")
    parser.add_argument("--header-line", type=int, metavar="N", help="the line with the names of the columns, when a title stands above it")
    parser.add_argument("--leave-out", action="append", type=_lines, default=[], metavar="LINES", help="lines that are no rows of the table, such as totals: 5,33")
    parser.add_argument("--table", default="", metavar="NAME.csv", help="another name for the table than KIND.csv")
    parser.add_argument("--replace", action="store_true", help="put the table in the place of the one of that name")
    parser.add_argument("--even-so", action="store_true", help="write figures that are not plausible, to list a doubt about them in source.yml")
    parser.add_argument("--dry-run", action="store_true", help="say everything, write nothing")


def main(root: Path, options) -> int:
    """Walk the table in; the exit status: 0 written (or would be), 1 not written."""
    tree, schemas = read_tree(root / "data"), SchemaSet.load(root / "schema")
    whole = sound(tree, schemas)[0]
    if "quantities" not in whole.singles:
        print("data/quantities.yml can't be read. Run `check` and mend it first.", file=sys.stderr)
        return 1
    wish = Wish(options.file, options.source, options.kind, options.caption, dict(options.map), dict(options.crops), (options.unit or "").lower(), options.header_line,
                tuple(line for lines in options.leave_out for line in lines), options.table, options.replace)
    book = NameBook.of(whole, without=wish.source if wish.replace else "")
    walk = walk_in(root, tree, schemas, wish, book)
    for part in (summary(walk, book), problems_text(walk)):
        if part:
            print(part)
    if walk.stopped or walk.problems and not options.even_so:
        print("Nothing was written." + ("" if walk.stopped else " If the copy really prints this, add --even-so and list a doubt about it in source.yml."))
        return 1
    return _write(root, walk, options.dry_run)


def _write(root: Path, walk: Walk, dry_run: bool) -> int:
    folder = root / "data" / "sources" / walk.wish.source
    shown = f"data/sources/{walk.wish.source}"
    if dry_run:
        print(f"Nothing was written, as asked. Without --dry-run: {shown}/{walk.name}, listed in {shown}/source.yml.")
        return 0
    try:
        write_whole(folder / walk.name, [walk.table_text])
        write_whole(folder / "source.yml", [walk.source_text])
    except OSError as error:
        print(f"Cannot write to {shown}: {error.strerror}.", file=sys.stderr)
        return 1
    print(f"Written: {shown}/{walk.name}, {len(walk.done.rows)} rows, listed in {shown}/source.yml.\nNext: compare it with the copy cell by cell, say so under `verified` in source.yml, and run `check`.")
    return 0
