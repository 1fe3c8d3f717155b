"""A report as a short document, the same for every printer: headings, paragraphs and items, in the order a reader needs them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from ..render.wording import STATUS_WORDS
from .plain import clean, key_words
from .report import (
    ADDED,
    COMES_IN,
    COUNTS,
    EVIDENCE,
    MOVES_OUT,
    PRINTED,
    REMOVED,
    RENAMED,
    STAYS_OUT,
    VALUE,
    WORDING,
    Change,
    Report,
    many,
)

MOST = 60  # changes shown of one crop, source or file; JSON has them all
FIRST = 10  # names shown of what is touched
NEVER = "A printed table is kept as printed and never corrected. Each of these is suspicious: it is right only where the copy here differed from the original, and then the source should say which copy was read."
SECTIONS = ((VALUE, "Values"), (WORDING, "Wording"), (COUNTS, "What counts"), (EVIDENCE, "Evidence for values that stay the same"))


@dataclass(frozen=True)
class Block:
    """kind: heading | paragraph | item. An item has a lead in bold and further lines; `strong` text is to stand out."""

    kind: str
    text: str
    lead: str = ""
    lines: tuple[str, ...] = ()
    strong: bool = False


def document(report: Report) -> list[Block]:
    """All blocks, each text one line without control characters; the first is the sentence that sums up."""
    blocks = [Block("paragraph", report.summary, strong=True), Block("paragraph", f"From {report.base} to {report.head}.")]
    for where, title in ((MOVES_OUT, "Outside what is printed"), (STAYS_OUT, "Still outside what is printed"), (COMES_IN, "Back inside what is printed")):
        found = [c for c in report.outside if c.outside == where]
        if found:
            blocks.append(Block("heading", title))
            blocks += [_outside(change) for change in found]
    printed = report.of_kind(PRINTED)
    if printed:
        blocks += [Block("heading", "Printed tables"), Block("paragraph", NEVER, strong=True), *_grouped(printed, _line)]
    for kind, title in SECTIONS:
        found = report.of_kind(kind)
        if found:
            blocks += [Block("heading", f"{title}: {len(found)}"), *_grouped(found, _line)]
    for kind, title in ((ADDED, "Added"), (REMOVED, "Removed"), (RENAMED, "Renamed")):
        found = report.of_kind(kind)
        if found:
            blocks.append(Block("heading", f"{title}: {len(found)}"))
            blocks += [Block("item", f"{change.shown}", _thing(change)) for change in found[:MOST]]
            blocks += [Block("item", f"and {len(found) - MOST} more")] if len(found) > MOST else []
    return [replace(b, text=clean(b.text), lead=clean(b.lead), lines=tuple(map(clean, b.lines))) for b in (*blocks, *_touched(report), *_rest(report))]


def _thing(change: Change) -> str:
    """What came, went or was renamed: "Crop", "Table of Iowa State, 1999", "Crop Beta leaf" for one whose name is not shown beside it."""
    word = key_words(change.what).capitalize()
    if change.area == "file" or change.name == change.shown:
        return word
    return f"{word} of {change.name}" if change.what == "table" else f"{word} {change.name}"


def _outside(change: Change) -> Block:
    lines = [f"Printed: {change.span}." if change.span else "Nothing printed is counted."]
    if change.outside in (MOVES_OUT, STAYS_OUT):
        lines.append(f"Reason given: {change.reason}" if change.reason else "No reason is given. Correct the value, or add “departs:” with the reason.")
    return Block("item", change.shown, f"{change.name}, {change.what}", tuple(lines), strong=True)


def _grouped(changes: Iterable[Change], line) -> list[Block]:
    groups: dict[tuple[str, str], list[Change]] = {}
    for change in changes:
        groups.setdefault((change.area, change.subject), []).append(change)
    blocks = []
    for found in groups.values():
        lines = [line(change) for change in found[:MOST]] + ([f"and {len(found) - MOST} more"] if len(found) > MOST else [])
        blocks.append(Block("item", "", found[0].name, tuple(lines)))
    return blocks


def status_words(status: str) -> str:
    """An evidence status in words. Whether a value that departs has its reason is said apart."""
    if status == "departs":
        return "outside what the sources print"
    return STATUS_WORDS.get(status, status or "no value")


def _line(change: Change) -> str:
    parts = [f"{change.what}: {change.shown}".rstrip(": ")]
    for word, sources in (("source", change.sources_added), ("source", change.sources_dropped)):
        if sources:
            parts.append(f"{word}{'s' if len(sources) > 1 else ''} {'added' if sources is change.sources_added else 'dropped'}: {', '.join(label for _, label in sources)}")
    if change.evidence_before != change.evidence_after:
        parts.append(f"evidence before: {status_words(change.evidence_before)}; now: {status_words(change.evidence_after)}")
    elif change.evidence_after:
        parts.append(f"evidence as before: {status_words(change.evidence_after)}")
    return "; ".join(parts)


def names_line(names: tuple[str, ...]) -> str:
    """The first names, then how many more."""
    return "; ".join(names[:FIRST]) + (f" and {len(names) - FIRST} more" if len(names) > FIRST else "")


def _touched(report: Report) -> list[Block]:
    touched = report.touched
    if touched.why_not:
        return [Block("heading", "Pages, charts and sheets touched"), Block("paragraph", f"Could not be worked out: {touched.why_not}.".replace("..", "."))]
    found = [(word, names) for word, names in touched.groups if names]
    if not found:
        return [] if not report.changes and not report.form_only else [Block("heading", "Pages, charts and sheets touched"), Block("paragraph", "None.")]
    blocks = [Block("heading", "Touched: " + ", ".join(many(len(names), word[:-1]) for word, names in found))]
    blocks += [Block("item", names_line(names), word.capitalize()) for word, names in found]
    return blocks + [Block("paragraph", note) for note in touched.notes]


def _rest(report: Report) -> list[Block]:
    blocks = []
    if report.unread:
        blocks.append(Block("heading", f"Could not be read: {many(len(report.unread), 'file')}"))
        blocks += [Block("item", words, f"{file}, {version}") for version, file, words in report.unread[:MOST]]
    blocks += [Block("paragraph", note) for note in report.notes]
    if report.form_only:
        names = tuple(f"data/{name}" for name in report.form_only)
        blocks.append(Block("paragraph", f"In form only (comments, order of keys, quotes, spaces, or words for contributors): {names_line(names)}."))
    return blocks
