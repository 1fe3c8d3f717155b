"""Published advisories in the open OSV format, read from a folder or a .zip without a network, and held against locked versions."""

from __future__ import annotations

import json
import zipfile
import zlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from packaging.version import InvalidVersion, Version

from ..lock_files import normal

ECOSYSTEM = "PyPI"
LARGEST = 20_000_000  # bytes of one advisory


@dataclass(frozen=True)
class Finding:
    """A locked version that an advisory names. `ids`: all names of the advisory, those of databases first. `fixed`: the lowest later version
    without the fault, "" when none is named. `unsure`: why it can't be told from versions whether this one is meant; "" when it is.
    """

    package: str
    version: str
    ids: tuple[str, ...]
    summary: str
    fixed: str
    unsure: str = ""


@dataclass
class Read:
    """What a folder or archive held: how many advisories of PyPI, how many of them withdrawn, the day the newest was changed, broken files."""

    advisories: int = 0
    withdrawn: int = 0
    newest: date | None = None
    ahead: int = 0  # changed after today, so that they say nothing about how old the rest is
    broken: list[str] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


class Broken(ValueError):
    """What is wrong with one advisory."""


def held_against(path: Path, locked: Mapping[str, Sequence[str]], today: date) -> Read:
    """Read every advisory of `path` and hold it against the locked versions. `locked`: name as PEP 503 writes it → versions.

    Raises OSError and zipfile.BadZipFile when the folder or archive itself can't be read.
    """
    read, found = Read(), []
    for name, content in _files(path):
        try:
            entry = _parsed(content)
            if not any(_ours(affected) for affected in entry["affected"]):
                continue
            changed = _day(entry)
            read.advisories += 1
            if changed > today:
                read.ahead += 1
            else:
                read.newest = max(read.newest or changed, changed)
            if entry.get("withdrawn"):
                read.withdrawn += 1
                continue
            found += [(entry, finding) for finding in _findings(entry, locked)]
        except Broken as error:
            read.broken.append(f"{name}: {error}")
    read.findings = _merged(found)
    return read


def _files(path: Path) -> Iterator[tuple[str, bytes]]:
    """(name, content) of every .json file, by name; of one too large, an empty content."""
    if path.is_dir():
        for file in sorted(path.rglob("*.json")):
            if file.is_file():
                yield str(file), file.read_bytes() if file.stat().st_size <= LARGEST else b""
        return
    with zipfile.ZipFile(path) as archive:
        for info in sorted(archive.infolist(), key=lambda info: info.filename):
            if info.filename.endswith(".json"):
                try:
                    content = archive.read(info) if info.file_size <= LARGEST else b""
                except (zipfile.BadZipFile, EOFError, zlib.error, RuntimeError, NotImplementedError):  # damaged, encrypted, or packed in a way not known
                    content = b""
                yield f"{path}/{info.filename}", content


def _parsed(content: bytes) -> dict:
    """The advisory in a file, with the keys that are used in their form. Raises Broken."""
    if not content:
        raise Broken("is empty, damaged or too large")
    try:
        entry = json.loads(content)
    except (ValueError, RecursionError) as error:
        raise Broken(f"is no JSON ({error})") from None
    if not isinstance(entry, dict) or not isinstance(entry.get("id"), str) or not isinstance(entry.get("modified"), str):
        raise Broken("is no advisory in the OSV format: it has no id, or no day on which it was changed")
    affected = entry.setdefault("affected", [])
    if not isinstance(affected, list) or not all(isinstance(part, dict) for part in affected):
        raise Broken('is no advisory in the OSV format: "affected" is no list of objects')
    for part in affected:
        package = part.get("package", {})
        if not isinstance(package, dict) or any(not isinstance(package.get(key, ""), str) for key in ("ecosystem", "name")):
            raise Broken('is no advisory in the OSV format: "package" has another form')
    return entry


def _day(entry: Mapping) -> date:
    try:
        return date.fromisoformat(entry["modified"][:10])
    except ValueError:
        raise Broken(f'"modified" is no date: {entry["modified"][:30]}') from None


def _ours(affected: Mapping) -> bool:
    return affected.get("package", {}).get("ecosystem", "").split(":")[0] == ECOSYSTEM


def _findings(entry: Mapping, locked: Mapping[str, Sequence[str]]) -> Iterator[Finding]:
    """The locked versions that one advisory names."""
    for affected in filter(_ours, entry["affected"]):
        name = normal(affected["package"].get("name", ""))
        for version in locked.get(name, ()):
            try:
                hit, fixed, unsure = _judged(affected, Version(version))
            except (TypeError, AttributeError, KeyError):
                raise Broken(f'"ranges" or "versions" of {name} have another form than the OSV format gives them') from None
            except InvalidVersion as error:
                hit, fixed, unsure = True, "", f"its ranges hold a version that is none of Python's: {error}"
            if hit:
                ids = tuple(dict.fromkeys([entry["id"], *(a for a in entry.get("aliases") or () if isinstance(a, str))]))
                summary = str(entry.get("summary") or entry.get("details") or "without a summary").strip().split("\n")[0]
                yield Finding(name, version, ids, summary if len(summary) <= 160 else summary[:159] + "…", fixed, unsure)


def _judged(affected: Mapping, version: Version) -> tuple[bool, str, str]:
    """Whether this version is affected; the version that mends it, or ""; why that can't be told, or ""."""
    ranges = affected.get("ranges") or []
    by_version = [r["events"] for r in ranges if r["type"] in ("ECOSYSTEM", "SEMVER")]
    named = affected.get("versions") or []
    fixes = [_fix(events, version) for events in by_version if _in(events, version)]
    if fixes:
        known = [fix for fix in fixes if fix is not None]
        return True, str(max(known)) if len(known) == len(fixes) else "", ""
    if any(_same(text, version) for text in named):
        later = [fix for fix in (_fix(events, version) for events in by_version) if fix is not None]
        return True, str(min(later)) if later else "", ""
    if not by_version and not named:
        return True, "", "it names no versions" + (", only commits" if ranges else "")
    return False, "", ""


def _in(events: Sequence[Mapping], version: Version) -> bool:
    """Whether a range holds the version: the events in the order of their versions switch it on and off (OSV schema, evaluation)."""
    inside, limits = False, [_version(e["limit"]) for e in events if "limit" in e and e["limit"] != "*"]
    order = [(_version(event[kind]), kind) for event in events for kind in ("introduced", "fixed", "last_affected") if kind in event]
    for at, kind in sorted(order, key=lambda pair: pair[0]):
        if kind == "introduced" and version >= at:
            inside = True
        elif kind == "fixed" and version >= at or kind == "last_affected" and version > at:
            inside = False
    return inside and (not limits or any(version < limit for limit in limits))


def _fix(events: Sequence[Mapping], version: Version) -> Version | None:
    """The lowest version of "fixed" above this one."""
    return min((at for event in events if "fixed" in event and (at := _version(event["fixed"])) > version), default=None)


def _version(text: str) -> Version:
    """A version of an event; "0" is before all others, pre-releases of 0 too."""
    if not isinstance(text, str):
        raise TypeError
    return Version("0.dev0") if text == "0" else Version(text)


def _same(text: str, version: Version) -> bool:
    try:
        return Version(text) == version
    except InvalidVersion:  # from before PEP 440; none of those is locked
        return text == str(version)


def _merged(found: Iterable[tuple[Mapping, Finding]]) -> list[Finding]:
    """One finding for one fault: several databases describe the same under names of their own, and say so in their aliases."""
    groups: list[list[tuple[str, Finding]]] = []
    for entry, finding in found:
        same = [g for g in groups if (g[0][1].package, g[0][1].version) == (finding.package, finding.version) and any(set(finding.ids) & set(f.ids) for _, f in g)]
        groups = [g for g in groups if g not in same] + [[pair for g in same for pair in g] + [(entry["id"], finding)]]
    merged = []
    for group in groups:
        own = sorted({own for own, _ in group})
        sure = [f for _, f in group if not f.unsure] or [f for _, f in group]
        fixes = [Version(f.fixed) for f in sure if f.fixed]
        summary = min((f.summary for f in sure), key=lambda text: (text == "without a summary", len(text)))
        others = sorted({i for _, f in group for i in f.ids} - set(own))
        merged.append(Finding(sure[0].package, sure[0].version, (*own, *others), summary, str(max(fixes)) if fixes else "", sure[0].unsure))
    return sorted(merged, key=lambda f: (f.package, f.version, f.ids))
