"""What the site tells of the packages it is built with: their list as a file, and the licences of what is passed on with the site."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime, timezone

from ..lock_files import RESTORE, SITE, BadLock, read_lock
from ..model.reference import Reference
from ..packages import Package, faults, parts, read_list
from ..packages.listed import ROOT, RULE
from ..packages.sbom import bill
from ..problem import Problem

SBOM = "downloads/packages.cdx.json"


def package_files(reference: Reference) -> dict[str, Callable[[], str]]:
    """Site path → what makes the text: the list of packages, and each licence text."""
    return {SBOM: lambda: sbom_text(reference, [p for p in read_list() if p.use == "site"], _hashes()), **{part.path: part.text for part in parts()}}


def sbom_text(reference: Reference, packages: Sequence[Package], hashes: Mapping[tuple[str, str], Sequence[str]]) -> str:
    """The packages as a bill of materials. `hashes`: (name, version) → SHA-256 of the files that may be installed."""
    year, month = (int(part) for part in str(reference.library["data_version"]).split(".")[:2])
    asked = [p.name for p in packages if p.reason]
    return bill(packages, parts(), hashes, reference.library, asked, int(datetime(year, month, 1, tzinfo=timezone.utc).timestamp()))


def unsound_packages() -> list[Problem]:
    """What keeps the list from being published: a lock file that is damaged or missing, or names other versions than the list."""
    try:
        return faults(read_lock(ROOT / SITE), read_list())
    except BadLock as error:
        return [Problem(error.name, error.line, 1, RULE, error.words, RESTORE)]


def _hashes() -> dict[tuple[str, str], tuple[str, ...]]:
    """Those of the lock file; none without one, from which no site is built (`unsound_packages`), but changes can be looked at."""
    try:
        return {(pin.name, pin.version): pin.hashes for pin in read_lock(ROOT / SITE)}
    except BadLock:
        return {}
