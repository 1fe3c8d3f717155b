"""The comparison of two versions: crops, treatments, sources and the files that stand alone, tolerant of what cannot be read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from ..check.schema_rules import check_schemas
from ..read import DataTree
from ..read.csv_file import LARGEST_CSV
from .crops import Evidence, crop_changes
from .differ import differences, renamed
from .names import Names, mapping
from .others import item_changes, single_changes
from .plain import LONGEST, arrow, clean, pair
from .report import ADDED, AREAS, REMOVED, RENAMED, VALUE, WORDING, Change, Report
from .sources import source_changes
from .versions import Version, schemas_of

SELF_TOLD = ("releases",)  # files that record changes, and are none themselves


def compare_versions(base: Version, head: Version, root: Path) -> Report:
    """The whole report. `root` is the project folder, whose schema both versions are read with. Never raises for what the data holds."""
    report = compare_data(base, head, root)
    if not report.changes:
        return report
    from .touched import touched  # what draws and sets pages takes a second to load

    return replace(report, touched=touched(base, head, root))


def compare_data(base: Version, head: Version, root: Path) -> Report:
    """The report without what is touched."""
    files = [_bytes(version.data) for version in (base, head)]
    if files[0] == files[1] and _bytes(base.guides) == _bytes(head.guides):
        return Report(base.name, head.name, unread=_unread_list(base, head))
    names = Names(base.tree, head.tree)
    unread = {file for _, file, _ in _unread_list(base, head)}
    documents = {area: tuple(_held(version.tree, area, unread) for version in (base, head)) for area in ("crop", "treatment", "source")}
    for area, (old, new) in documents.items():
        names.renames[area] = renamed({k: d.data for k, d in old.items()}, {k: d.data for k, d in new.items()})
    left_out = _untrusted(base, root) | _untrusted(head, root)
    evidence = tuple(Evidence(version.tree, left_out | {names.renames["source"].get(s, s) for s in left_out}) for version in (base, head))
    changes = sorted(_changes(base, head, documents, evidence, unread, names), key=lambda c: AREAS.index(c.area))
    notes = [f"{len(left_out)} source{'s' if len(left_out) != 1 else ''} with problems {'were' if len(left_out) != 1 else 'was'} left out of the evidence on both sides: {', '.join(map(clean, sorted(left_out)[:10]))}."] if left_out else []
    differing = sorted(name for name in files[0].keys() | files[1].keys() if files[0].get(name) != files[1].get(name))
    return Report(base.name, head.name, tuple(changes), _form_only(differing, files, changes, names, unread), _unread_list(base, head), tuple(notes))


def _bytes(data: Path) -> dict[str, bytes]:
    """Content of every ordinary file; of one that is too large to be data or may not be read, only that it is there."""
    files = [path for path in sorted(data.rglob("*")) if path.is_file() and not path.is_symlink()]
    return {path.relative_to(data).as_posix(): _content(path) for path in files}


def _content(path: Path) -> bytes:
    try:
        return path.read_bytes() if path.stat().st_size <= LARGEST_CSV else b""
    except OSError:  # told among the files that could not be read
        return b""


def _unread_list(base: Version, head: Version) -> tuple[tuple[str, str, str], ...]:
    """(version, file, what is wrong) of every file that gave nothing to compare."""
    found = {}
    for version in (base, head):
        tree = version.tree
        read = {d.file for group in (tree.crops, tree.treatments, tree.singles) for d in group.values()} | {s.document.file for s in tree.sources.values()} | {t.file for s in tree.sources.values() for t in s.tables.values()}
        for problem in [*tree.problems, *version.links]:
            if problem.file not in read and problem.rule != "missing-file":
                found.setdefault((version.name, problem.file), clean(problem.message, 200))
    return tuple((clean(version, 140), clean(file, 200), words) for (version, file), words in found.items())


def _held(tree: DataTree, area: str, unread: set[str]) -> dict:
    held = {"crop": tree.crops, "treatment": tree.treatments, "source": {k: s.document for k, s in tree.sources.items()}}[area]
    return {key: document for key, document in held.items() if document.file not in unread and isinstance(document.data, dict)}


def _untrusted(version: Version, root: Path) -> set[str]:
    """Sources any of whose files could not be read or has not the shape that their numbers are read by."""
    if not version.problems:
        return set()
    files = {p.file for p in [*version.tree.problems, *check_schemas(version.tree, schemas_of(root))]}
    return {file.split("/")[2] for file in files if file.startswith("data/sources/") and file.count("/") >= 3}


def _changes(base: Version, head: Version, documents, evidence, unread: set[str], names: Names) -> Iterator[Change]:
    for area, (old, new) in documents.items():
        renames, kind_name, named = names.renames[area], area, getattr(names, area)
        files = {f"data/{'crops' if area == 'crop' else 'treatments'}/{key}.yml": key for key in old.keys() | new.keys()} if area != "source" else {f"data/sources/{key}/source.yml": key for key in old.keys() | new.keys()}
        hidden = {files[file] for file in unread if file in files}
        for key in sorted(new.keys() - old.keys() - set(renames.values()) - hidden):
            yield Change(area, key, named(key), kind_name, ADDED, "", key, named(key))
            if area == "crop":  # what a new crop says outside the published span stands out as any other
                yield from (change for change in crop_changes(key, key, {}, new[key].data, evidence, names) if change.outside)
        for key in sorted(old.keys() - new.keys() - renames.keys() - hidden):
            yield Change(area, key, named(key), kind_name, REMOVED, key, "", named(key))
        for key, other in renames.items():
            yield Change(area, other, named(other), kind_name, RENAMED, key, other, f"{clean(key, 80)} → {clean(other, 80)}")
        for key in sorted(k for k in old if renames.get(k, k) in new):
            other = renames.get(key, key)
            if area == "crop":
                yield from crop_changes(key, other, old[key].data, new[other].data, evidence, names)
            elif area == "source":
                yield from source_changes(key, other, base.tree.sources[key], head.tree.sources[other], unread, names)
            else:
                for difference in differences(*({k: v for k, v in d.data.items() if k != "id"} for d in (old[key], new[other]))):
                    yield from item_changes("treatment", other, named(other), difference, names)
    for file in dict.fromkeys([*base.tree.singles, *head.tree.singles]):
        if file not in SELF_TOLD and f"data/{file}.yml" not in unread:
            yield from single_changes(file, *(getattr(version.tree.singles.get(file), "data", None) for version in (base, head)), names)
    yield from _guide_changes(base, head, unread)
    recorded = [{entry["version"] for entry in found if isinstance(entry, dict) and isinstance(entry.get("version"), str)} if isinstance(found, list) else set() for found in (mapping(getattr(version.tree.singles.get("releases"), "data", None)).get("releases") for version in (base, head))]
    for version in sorted(recorded[1] - recorded[0]):
        yield Change("file", "releases", "Releases", "release", ADDED, "", version, clean(version, 20))
    for file in dict.fromkeys([*base.tree.demo, *head.tree.demo]):
        texts = [version.tree.demo.get(file) for version in (base, head)]
        if texts[0] != texts[1]:
            lines = ["" if text is None else f"{len(text.splitlines())} lines" for text in texts]
            yield Change("file", f"demo/{file}", "Invented examples", clean(file, 80), VALUE, *lines, f"{lines[0] or 'nothing'} → {lines[1] or 'nothing'}")


def _guide_changes(base: Version, head: Version, unread: set[str]) -> Iterator[Change]:
    """Guides that are new, gone or worded otherwise; of their titles and questions data/guides.yml tells."""
    for name in dict.fromkeys([*base.tree.guides, *head.tree.guides]):
        old, new = (version.tree.guides.get(name) for version in (base, head))
        if f"docs/guides/{name}.md" in unread or (old and new and old.text == new.text):
            continue
        said = "The guide " + _title(head if new else base, name)
        if old is None or new is None:
            yield Change("file", f"guides/{name}", said, "guide", REMOVED if new is None else ADDED, shown=f"docs/guides/{clean(name, 80)}.md")
            continue
        texts = [clean(guide.text) for guide in (old, new)]
        parts = [clean(text, 2 * LONGEST) for text in pair(*texts)]
        shown = arrow(*(f"“{text}”" for text in parts)) if texts[0] != texts[1] else "empty lines or line ends only"
        yield Change("file", f"guides/{name}", said, "text changed", WORDING, *parts, shown)


def _title(version: Version, name: str) -> str:
    """A guide's title; its name where guides.yml gives none."""
    title = mapping(mapping(getattr(version.tree.singles.get("guides"), "data", None)).get(name)).get("title")
    return clean(title if isinstance(title, str) else name, 80)


def _form_only(differing: list[str], files, changes: list[Change], names: Names, unread: set[str]) -> tuple[str, ...]:
    """Files that differ while nothing that they say does: comments, order of keys, quotes, spaces; and what only contributors read."""
    said = {(c.area, c.subject) for c in changes}
    spoken = set()
    for name in differing:
        parts = name.split("/")
        key = parts[1].removesuffix(".yml") if len(parts) > 1 else parts[0].removesuffix(".yml")
        area = {"crops": "crop", "treatments": "treatment", "sources": "source"}.get(parts[0])
        key = names.renames.get(area, {}).get(key, key)
        if area is None and any(c.subject in (key, name) for c in changes if c.area not in ("crop", "treatment", "source")) or (area, key) in said:
            spoken.add(name)
    return tuple(name for name in differing if name not in spoken and f"data/{name}" not in unread and not name.startswith("releases") and name in files[0] and name in files[1])
