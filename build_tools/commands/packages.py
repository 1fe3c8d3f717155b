"""The command `packages`."""

from __future__ import annotations

import sys
import zipfile
from datetime import date
from pathlib import Path

from ..lock_files import BadLock
from ..packages import advisories, read_list
from ..packages.listed import LIST, RENEW, Package, list_text, pinned, required_by
from ..write_file import write_whole

OLDEST = 30  # days after which the newest advisory is too old to rely on
MOST_SHOWN = 10


def counted(number: int, one: str, more: str = "") -> str:
    """ "1 advisory", "2 advisories"."""
    return f"{number:,} {one if number == 1 else more or one + 's'}"


def arguments(parser) -> None:
    parser.add_argument("--sbom", type=Path, metavar="FILE", help="write all packages as a CycloneDX 1.6 bill of materials; those for tests are in scope excluded")
    parser.add_argument("--advisories", type=Path, metavar="PATH", help="hold the locked versions against advisories in the OSV format, without a network: a folder or a .zip of JSON files, such as the export of everything for PyPI; exit status 1 when one is affected, 2 when that can't be told")
    parser.add_argument("--oldest", type=int, default=OLDEST, metavar="DAYS", help=f"how old the newest advisory may be; {OLDEST} unless given")
    parser.add_argument("--renew", action="store_true", help="write the committed list anew, after the lock files or the reasons in DEVELOPERS.md have changed")
    parser.add_argument("--also", action="append", default=[], metavar="DIR", help="with --renew: read packages for another Python from this folder too (pip install --target)")


def main(root: Path, options) -> int:
    """Print the table of packages, or do what the options ask for; the exit status."""
    try:
        if options.renew:
            return _renew(root, options.also)
        packages = read_list()
        if options.advisories:
            return _advisories(options.advisories, pinned(root), date.today(), options.oldest)
        if options.sbom:
            return _sbom(root, packages, options.sbom)
        pinned(root)
    except BadLock as error:
        print(error, file=sys.stderr)
        return 2
    print(table(packages))
    return 0


def table(packages: tuple[Package, ...]) -> str:
    """What there is, for whom, under which licence and why."""
    lines = []
    for use, title in (("site", "To build the site"), ("test", "For the tests only")):
        chosen = [p for p in packages if p.use == use]
        asked = required_by(packages if use == "test" else chosen)
        names, by_name = {p.name for p in chosen}, {p.name for p in chosen if p.reason}
        lines += [f"{title}: {len(names)} packages, {len(by_name)} asked for by name, {len(names - by_name)} required by those.", ""]
        wide, versions = max(len(p.name) for p in chosen), max(len(p.version) for p in chosen)
        for p in chosen:
            why = p.reason or "required by " + ", ".join(asked[p.name])
            lines.append(f"  {p.name:{wide}}  {p.version:{versions}}  {p.licence}{' (judged by hand)' if p.read_in == 'by hand' else ''}{f' [{p.marker}]' if p.marker else ''}\n  {'':{wide}}  {why}")
        lines.append("")
    return "\n".join(lines).rstrip()


def _sbom(root: Path, packages: tuple[Package, ...], file: Path) -> int:
    from ..model import load
    from ..printers import report
    from ..render.packages_files import sbom_text

    reference, problems = load(root)
    if reference is None:
        report(problems, stream=sys.stderr)
        return 1
    write_whole(file, [sbom_text(reference, packages, {key: pin.hashes for key, (pin, _) in pinned(root).items()})])
    print(f"{file}: {counted(len(packages), 'package')}")
    return 0


def _renew(root: Path, also: list[str]) -> int:
    from ..packages import declared
    from ..packages.renew import NotInstalled, renewed

    known = read_list() if LIST.exists() else ()
    try:
        text = list_text(renewed(root, known, also))
    except NotInstalled as error:
        print(f"Not installed here, and not in the list as it is: {error}. Versions for this Python come with python3 -m build_tools test; unpack those for another one into a folder, and name it: "
              f"pip install --only-binary :all: --no-deps --python-version 3.12 --target DIR NAME==VERSION, then {RENEW} --also DIR", file=sys.stderr)
        return 1
    except declared.Undeclared as error:
        print(error, file=sys.stderr)
        return 1
    same = LIST.exists() and LIST.read_text(encoding="utf-8") == text
    if not same:
        write_whole(LIST, [text])
    print(f"build_tools/packages/{LIST.name}: {'up to date' if same else 'written'}")
    return 0


def _advisories(path: Path, pins: dict, today: date, oldest: int) -> int:
    """Exit status 0 when every advisory was read and none names a locked version, 1 when one does, 2 when it can't be told."""
    locked: dict[str, list[str]] = {}
    for name, version in pins:
        locked.setdefault(name, []).append(version)
    try:
        read = advisories.held_against(path, locked, today)
    except zipfile.BadZipFile:
        print(f"{path} is neither a folder nor a whole .zip file. Fetch the archive of advisories anew, on a machine with a network.", file=sys.stderr)
        return 2
    except OSError as error:
        print(f"{error.filename or path}: {error.strerror or error}. Name a folder or a .zip of advisories in the OSV format.", file=sys.stderr)
        return 2
    for found in read.findings:
        use = pins[found.package, found.version][1]
        mended = f"Fixed in {found.fixed}." if found.fixed else "No version without it is named."
        print(f"{found.package} {found.version}  {', '.join(found.ids)}{'' if use == 'site' else '  (tests only)'}\n    {found.summary}\n    {f'Look for yourself: {found.unsure}.' if found.unsure else mended}")
    for words in read.broken[:MOST_SHOWN]:
        print(words, file=sys.stderr)
    if len(read.broken) > MOST_SHOWN:
        print(f"and {len(read.broken) - MOST_SHOWN} more files", file=sys.stderr)
    doubts = _doubts(read, today, oldest)
    print(f"{counted(len(pins), 'locked version')} held against {counted(read.advisories, 'advisory', 'advisories')} for {advisories.ECOSYSTEM} ({read.withdrawn} of them withdrawn){_newest(read, today)}: " + (f"{counted(len(read.findings), 'fault')} found." if read.findings else "none of them is named."))
    for words in doubts:
        print(words, file=sys.stderr)
    return 1 if read.findings else 2 if doubts else 0


def _newest(read: advisories.Read, today: date) -> str:
    return f", the newest changed on {read.newest.isoformat()}, {counted((today - read.newest).days, 'day')} ago" if read.newest else ""


def _doubts(read: advisories.Read, today: date, oldest: int) -> list[str]:
    """Why an answer without faults is not to be relied on."""
    remedy = "Fetch them anew, on a machine with a network"
    found = []
    if read.broken:
        found.append(f"{counted(len(read.broken), 'file')} could not be read. {remedy}; what was found above still holds.")
    if not read.advisories:
        found.append(f"There is no advisory for {advisories.ECOSYSTEM} there. {remedy}: JSON files in the OSV format.")
    elif read.newest is None or (today - read.newest).days > oldest:
        found.append(f"They are too old to rely on. {remedy}, or say with --oldest how old they may be.")
    if read.ahead:
        found.append(f"{counted(read.ahead, 'advisory', 'advisories')} bear a day after today. Is this machine's date right?")
    return found
