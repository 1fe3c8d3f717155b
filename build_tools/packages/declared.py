"""What an installed package declares of itself: its licence, and what it requires."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from importlib.metadata import Distribution

from packaging.licenses import InvalidLicenseExpression, canonicalize_license_expression
from packaging.requirements import Requirement

from ..lock_files import normal

# Spellings that leave no doubt. "BSD License" alone does: its text is read.
SPELLINGS = {
    "MIT License": "MIT", "Apache 2.0": "Apache-2.0", "ISC License": "ISC", "2-clause BSD": "BSD-2-Clause", "SIL OFL 1.1": "OFL-1.1",
    "License :: OSI Approved :: MIT License": "MIT",
    "License :: OSI Approved :: Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "License :: OSI Approved :: ISC License (ISCL)": "ISC",
    "License :: OSI Approved :: GNU General Public License v3 or later (GPLv3+)": "GPL-3.0-or-later",
}
# The words by which a licence's text is known, all of them; the first that fits.
TEXTS = (
    ("Apache-2.0", ("apache license", "version 2.0, january 2004")),
    ("Apache-2.0", ("licensed under the apache license, version 2.0",)),
    ("BSD-3-Clause", ("redistribution and use in source and binary forms", "redistributions in binary form must", "endorse or promote products")),
    ("BSD-2-Clause", ("redistribution and use in source and binary forms", "redistributions in binary form must")),
    ("MIT", ("permission is hereby granted, free of charge", "the above copyright notice and this permission notice")),
)
SYSTEMS = [
    {"sys_platform": system, "platform_system": name, "os_name": os, "python_version": version, "python_full_version": f"{version}.9", "platform_python_implementation": kind, "implementation_name": kind.lower()}
    for system, name, os in (("linux", "Linux", "posix"), ("darwin", "Darwin", "posix"), ("win32", "Windows", "nt"))
    for version in ("3.11", "3.12", "3.13", "3.14") for kind in ("CPython", "PyPy")
]


class Undeclared(ValueError):
    """A package whose licence cannot be read from it."""


def licence(package: Distribution) -> tuple[str, str]:
    """(SPDX expression, where it was read) of an installed package. Raises Undeclared when it says nothing that leaves no doubt."""
    metadata = package.metadata
    if stated := metadata.get("License-Expression"):
        return _spdx(stated) or _undeclared(package), "License-Expression"
    field = str(metadata.get("License") or "").strip()
    if found := SPELLINGS.get(field) or _spdx(field):
        return found, "License"
    classifiers = [c for c in metadata.get_all("Classifier") or [] if c.startswith("License ::")]
    if len(classifiers) == 1 and classifiers[0] in SPELLINGS:
        return SPELLINGS[classifiers[0]], "Classifier"
    for where, text in (("License", field), *texts(package)):
        if found := recognised(text):
            return found, where
    return _undeclared(package), ""


def _undeclared(package: Distribution):
    raise Undeclared(f"{package.metadata['Name']} {package.version} declares no licence that leaves no doubt. Read what it says, and write the SPDX expression with the reason into build_tools/packages/judged.yml, under licences.")


def _spdx(text: str) -> str:
    try:
        return str(canonicalize_license_expression(text)) if text else ""
    except InvalidLicenseExpression:
        return ""


def recognised(text: str) -> str:
    """The licence whose text this is, or begins with; empty when it is none that is known here."""
    words = re.sub(r"\s+", " ", text).lower()
    return next((name for name, parts in TEXTS if all(part in words for part in parts)), "")


def texts(package: Distribution) -> Iterator[tuple[str, str]]:
    """(file name, text) of the licence files at the top of a package's metadata."""
    for file in package.files or ():
        if re.search(r"\.dist-info/(licenses/)?(LICEN[CS]E|COPYING)[^/]*$", file.as_posix(), re.IGNORECASE):
            yield file.name, file.locate().read_text(encoding="utf-8", errors="replace")


def requires(package: Distribution, extras: Iterable[str] = ()) -> set[tuple[str, tuple[str, ...]]]:
    """(name, its extras) of what a package, asked for with `extras`, requires on any system that the lock files are for."""
    found = set()
    for text in package.requires or ():
        wanted = Requirement(text)
        if wanted.marker is None or any(wanted.marker.evaluate({**system, "extra": extra}) for system in SYSTEMS for extra in ("", *extras)):
            found.add((normal(wanted.name), tuple(sorted(wanted.extras))))
    return found
