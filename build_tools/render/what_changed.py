"""The page What changed: by release, and per crop; what a release records stands in data/releases/."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup

from ..model.reference import Reference
from ..model.releases import Release, ReleasedChange
from .wording import MONTHS

ADDRESS = "what-changed/"
TITLE = "What changed"
DESCRIPTION = "What each release of the data changed, newest first, and crop by crop: old and new values, sources, and how they stand to what is printed."
COUNTED = (("value", "value"), ("wording", "text"), ("printed cell", "printed cell"), ("added", "addition"), ("removed", "removal"), ("renamed", "new name"), ("what counts", "change of what counts"), ("evidence", "change of evidence alone"))


def changes_of(reference: Reference, crop: str) -> list[tuple[Release, list[ReleasedChange]]]:
    """(release, its changes of the crop), newest first; releases without any are left out."""
    found = [(release, [change for change in release.changes if change.crop == crop]) for release in reference.releases]
    return [(release, changes) for release, changes in found if changes]


def counts(changes: Iterable[ReleasedChange]) -> str:
    """How many changes of each kind there are: "3 values, 1 text"."""
    changes = list(changes)
    numbers = [(sum(change.kind == kind for change in changes), word) for kind, word in COUNTED]
    return ", ".join(f"{n} {word if n == 1 else _several(word)}" for n, word in numbers if n)


def day_in_words(date: str) -> str:
    """An ISO day as a reader says it: 26 November 2026."""
    year, month, day = (int(part) for part in date.split("-"))
    return f"{day} {MONTHS[month - 1]} {year}"


def _several(word: str) -> str:
    first, _, rest = word.partition(" of ")
    return f"{first}s of {rest}" if rest else f"{word}s"


def anchor(release: Release) -> str:
    """The place of a release on the page: release-2026-12."""
    return f"release-{release.version.replace('.', '-')}"


def by_subject(release: Release) -> list[tuple[str, str, str, list[ReleasedChange]]]:
    """(what it is about, crop id or "", its counts, its changes), in the order of the table."""
    groups: dict[tuple[str, str], list[ReleasedChange]] = {}
    for change in release.changes:
        groups.setdefault((change.about, change.crop), []).append(change)
    return [(about, crop, counts(changes), changes) for (about, crop), changes in groups.items()]


def add(rendered, reference: Reference, environment, root) -> None:
    """Add the page and the tables of releases."""
    from . import Page

    crops = [(crop, changes_of(reference, crop.id)) for crop in sorted(reference.crops.values(), key=lambda c: c.name.casefold())]
    changed = [(crop, changes) for crop, changes in crops if changes]
    headings = (*((anchor(release), f"Release {release.version}") for release in reference.releases), *([("crops", "Crop by crop")] if changed else []))
    summary = Markup('<h1 id="top">{}</h1><p>{}</p>').format(TITLE, DESCRIPTION) + Markup("").join(Markup('<h2 id="{}">{}</h2>').format(*heading) for heading in headings)

    def body() -> str:
        return environment.get_template("what_changed.html").render(
            root="../", title=TITLE, changed=changed, releases=[(release, anchor(release), day_in_words(release.date), counts(release.changes), by_subject(release)) for release in reference.releases],
        )

    rendered.pages["what-changed.md"] = Page(TITLE, DESCRIPTION, body, str(summary), headings)
    for release in reference.releases:
        if release.changes:
            path = root / "data" / "releases" / f"{release.version}.csv"
            rendered.files[f"downloads/releases/{release.version}.csv"] = lambda path=path: path.read_bytes()
