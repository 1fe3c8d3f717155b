"""Rules about the corrections that people proposed."""

from __future__ import annotations

from ..problem import did_you_mean
from ..read import DataTree
from ..registry import rule
from .meaning_rules import values_of

# Keys of a crop file that are no single value; what else may be corrected is a value of some crop.
PARTS = ("names", "kind", "pretreatments", "cautions", "disagreements", "notes")


def _entries(tree: DataTree):
    document = tree.singles.get("corrections")
    for index, entry in enumerate(document.data["corrections"] if document else ()):
        yield document, ("corrections", index), entry


@rule("correction-invented")
def correction_invented(tree: DataTree):
    """Invented corrections stand in data/corrections.yml only while data/library.yml says that the library is invented, and a name in an invented one says so too."""
    invented = tree.singles["library"].data["invented"]
    for document, path, entry in _entries(tree):
        if entry.get("invented") and not invented:
            yield document.problem((*path, "invented"), "correction-invented", "This correction is invented, and the library is not.", "Delete the entry, or put a real one in its place without `invented`.")
        elif entry.get("invented") and "(invented)" not in entry.get("by", "(invented)"):
            yield document.problem((*path, "by"), "correction-invented", f'"{entry["by"]}" is an invented name that does not say so.', f'Write "{entry["by"]} (invented)".')


@rule("correction-subject")
def correction_subject(tree: DataTree):
    """Every correction in data/corrections.yml is about a crop that exists and a key that crop files have, or about a file of the data; not about both."""
    keys = {*PARTS, *tree.singles["quantities"].data["quantities"], *(key for crop in tree.crops.values() for _, key, _ in values_of(crop.data))}
    files = {d.file for d in (*tree.crops.values(), *tree.treatments.values(), *tree.singles.values(), *(s.document for s in tree.sources.values()))}
    files |= {table.file for source in tree.sources.values() for table in source.tables.values()}
    for document, path, entry in _entries(tree):
        if ("crop" in entry) == ("file" in entry):
            yield document.problem(path, "correction-subject", "This correction is about both a crop and a file." if "crop" in entry else "This correction does not say what it is about.", "Give it a crop and a quantity, or a file.")
        for key, known, words in (("crop", tree.crops, "no crop"), ("quantity", keys, "no key of a crop file"), ("file", files, "no file of the data")):
            if key in entry and entry[key] not in known:
                yield document.problem((*path, key), "correction-subject", f'"{entry[key]}" is {words}.', did_you_mean(entry[key], known))
