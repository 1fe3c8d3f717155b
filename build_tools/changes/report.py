"""The types of a report: one change, what is touched, and the whole with its counts and its sentence."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

# Kinds. Values: numbers, choices, sources. Wording: texts. The others are counted on their own.
VALUE, WORDING, ADDED, REMOVED, RENAMED, PRINTED, COUNTS, EVIDENCE = "value", "wording", "added", "removed", "renamed", "printed cell", "what counts", "evidence"
KINDS = (VALUE, WORDING, ADDED, REMOVED, RENAMED, PRINTED, COUNTS, EVIDENCE)
MOVES_OUT, STAYS_OUT, COMES_IN = "moves outside", "stays outside", "comes back inside"
OUTSIDE = ("", MOVES_OUT, STAYS_OUT, COMES_IN)
AREAS = ("crop", "treatment", "source", "vocabulary", "library", "file")


@dataclass(frozen=True)
class Change:
    """One difference. `before` and `after` are plain; `shown` is before → after in words with units; the sources are (id, label).

    area and subject: what it belongs to (crop tomato); `outside` is one of OUTSIDE, with the published `span` and the `reason` given.
    evidence_before and evidence_after are statuses of check/evidence.py, empty where there is no value. For reference values there are the
    id of the quantity and both values in words as well.
    """

    area: str
    subject: str
    name: str
    what: str
    kind: str
    before: str = ""
    after: str = ""
    shown: str = ""
    sources_added: tuple[tuple[str, str], ...] = ()
    sources_dropped: tuple[tuple[str, str], ...] = ()
    evidence_before: str = ""
    evidence_after: str = ""
    outside: str = ""
    span: str = ""
    reason: str = ""
    quantity: str = ""
    words_before: str = ""
    words_after: str = ""


@dataclass(frozen=True)
class Touched:
    """Names of what reads or looks otherwise: pages by title, charts, posters, cards by crop, downloads by address; or why that is not known."""

    pages: tuple[str, ...] = ()
    charts: tuple[str, ...] = ()
    posters: tuple[str, ...] = ()
    cards: tuple[str, ...] = ()
    downloads: tuple[str, ...] = ()
    why_not: str = ""
    notes: tuple[str, ...] = ()

    @property
    def groups(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        return (("pages", self.pages), ("charts", self.charts), ("posters", self.posters), ("cards", self.cards), ("downloads", self.downloads))


@dataclass(frozen=True)
class Report:
    """A whole comparison. `unread`: (version, file, what is wrong); `form_only`: files whose values and texts are the same."""

    base: str
    head: str
    changes: tuple[Change, ...] = ()
    form_only: tuple[str, ...] = ()
    unread: tuple[tuple[str, str, str], ...] = ()
    notes: tuple[str, ...] = ()
    touched: Touched = field(default_factory=Touched)

    @property
    def crops(self) -> tuple[str, ...]:
        """Ids of the crops that any change belongs to."""
        return tuple(dict.fromkeys(c.subject for c in self.changes if c.area == "crop"))

    def of_kind(self, *kinds: str) -> list[Change]:
        return [c for c in self.changes if c.kind in kinds]

    @property
    def outside(self) -> list[Change]:
        """What moves outside the published span, then what stays there with another value, then what comes back inside."""
        return [c for where in (MOVES_OUT, STAYS_OUT, COMES_IN) for c in self.changes if c.outside == where]

    @property
    def counts(self) -> dict[str, int]:
        """How many of each kind."""
        where = {name: sum(c.outside == name for c in self.changes) for name in OUTSIDE}
        return {
            "values": len(self.of_kind(VALUE)), "texts": len(self.of_kind(WORDING)), "crops": len(self.crops),
            "added": len(self.of_kind(ADDED)), "removed": len(self.of_kind(REMOVED)), "renamed": len(self.of_kind(RENAMED)),
            "printed_cells": len(self.of_kind(PRINTED)), "what_counts": len(self.of_kind(COUNTS)), "evidence_only": len(self.of_kind(EVIDENCE)),
            "moves_outside": where[MOVES_OUT], "stays_outside": where[STAYS_OUT], "comes_back_inside": where[COMES_IN], "form_only_files": len(self.form_only),
        }

    @property
    def summary(self) -> str:
        """One sentence, or two."""
        return summary(self)


def many(count: int, one: str, several: str | None = None) -> str:
    """"1 value", "3 values"."""
    return f"{count} {one if count == 1 else several or one + 's'}"


def joined(parts: Iterable[str]) -> str:
    """"a", "a and b", "a, b and c"."""
    parts = list(parts)
    return " and ".join([", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)


def _counted(changes: Iterable[Change], where: str) -> list[str]:
    """["2 values and 1 text of 1 crop change"], or nothing; `where` stands between the counts and the verb."""
    changes = list(changes)
    numbers = [(sum(change.kind == kind for change in changes), word) for kind, word in ((VALUE, "value"), (WORDING, "text"))]
    verb = "changes" if sum(n for n, _ in numbers) == 1 else "change"
    return [f"{joined(many(n, word) for n, word in numbers if n)} {where} {verb}"] if any(n for n, _ in numbers) else []


def summary(report: Report) -> str:
    """What changes, counted; values apart from wording, and what leaves the published span last."""
    counts = report.counts
    crops = {c.subject for c in report.changes if c.area == "crop" and c.kind in (VALUE, WORDING)}
    said = _counted((c for c in report.changes if c.area == "crop"), f"of {many(len(crops), 'crop')}")
    said += _counted((c for c in report.changes if c.area != "crop"), "elsewhere" if said else "outside the crops’ files")
    for kind, one, several in ((ADDED, "is added", "are added"), (REMOVED, "is removed", "are removed"), (RENAMED, "is renamed", "are renamed")):
        things = report.of_kind(kind)
        words: dict[str, int] = {}
        for change in things:
            words[change.what] = words.get(change.what, 0) + 1
        if things:
            said.append(f"{joined(many(n, word) for word, n in words.items())} {one if len(things) == 1 else several}")
    if counts["printed_cells"]:
        said.append(f"{many(counts['printed_cells'], 'printed cell')} {'differs' if counts['printed_cells'] == 1 else 'differ'}, which a printed table never should")
    if counts["what_counts"]:
        said.append(f"what counts changes in {many(len({c.subject for c in report.of_kind(COUNTS)}), 'source')}")
    if counts["evidence_only"]:
        said.append(f"the evidence for {many(counts['evidence_only'], 'value')} changes")
    for key, one, several in (("moves_outside", "moves outside what is printed", "move outside what is printed"), ("stays_outside", "stays outside what is printed", "stay outside what is printed"), ("comes_back_inside", "comes back inside what is printed", "come back inside what is printed")):
        if counts[key]:
            said.append(f"{many(counts[key], 'value')} {one if counts[key] == 1 else several}")
    if not said:
        if report.form_only:
            return f"No value and no text changes; {many(len(report.form_only), 'file')} {'differs' if len(report.form_only) == 1 else 'differ'} in form only."
        return "What can be read does not change." if report.unread else "Nothing changes."
    if report.unread:
        said.append(f"{many(len(report.unread), 'file')} could not be read")
    text = "; ".join(said)
    return text[:1].upper() + text[1:] + "."
