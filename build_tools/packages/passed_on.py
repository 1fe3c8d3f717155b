"""What of the packages is passed on with the site: whoever publishes it is bound by the licences of these parts."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from importlib.metadata import distribution
from pathlib import Path

from .listed import FOLDER, judged

WHERE = "licences/"
LAST_NOTICES = 4000  # letters at the end of a script in which it names what it holds


@dataclass(frozen=True)
class Part:
    """A part that the site passes on.

    package, its name and version: `package`, `package_version`; the part's own version and package URL where known, else "".
    files: patterns of the site's files that are it or hold it. text: makes its licence text. carried: whether its package carries that.
    whole: whether it is the package itself.
    """

    id: str
    name: str
    package: str
    package_version: str
    version: str
    licence: str
    what: str
    purl: str
    files: tuple[str, ...]
    text: Callable[[], str]
    carried: bool
    whole: bool

    @property
    def path(self) -> str:
        """Where its licence text is on the site."""
        return f"{WHERE}{self.id}.txt"


@lru_cache(maxsize=1)
def parts() -> tuple[Part, ...]:
    """All parts, in the order of judged.yml. Raises FileNotFoundError when a package lacks what is passed on."""
    return tuple(_part(key, entry) for key, entry in judged()["passed_on"].items())


def _part(key: str, entry: dict) -> Part:
    package = distribution(entry["package"])
    version = _version(entry, package)
    purl = entry.get("purl", "")
    return Part(
        key, entry["name"], entry["package"], package.version, version, entry["licence"], entry["what"],
        f"{purl}@{version}" if purl and version else purl, tuple(entry["files"]), lambda: _text(entry), "kept" not in entry["text"], bool(entry.get("whole")),
    )


def _folder(package) -> Path:
    """The folder in which the package's own folders are."""
    return Path(package.locate_file(""))


def _version(entry: dict, package) -> str:
    """The part's own version, where it is known."""
    if "version_in" not in entry:
        return package.version if entry.get("whole") and entry.get("numbered", True) else ""
    files = sorted(_folder(package).glob(entry["version_in"]["file"]))
    found = re.search(entry["version_in"]["pattern"], files[0].read_text(encoding="utf-8")) if files else None
    if not found:
        raise FileNotFoundError(f"{entry['name']} was not found in the package {entry['package']} {package.version} ({entry['version_in']['file']}). See build_tools/packages/judged.yml.")
    return found[1]


def _metadata(name: str, file_name: str) -> str:
    """A file of the metadata of a package."""
    package = distribution(name)
    file = next((f for f in package.files or () if f.name == file_name and ".dist-info" in f.as_posix()), None)
    if file is None:
        raise FileNotFoundError(f"The package {name} {package.version} carries no {file_name}. See build_tools/packages/judged.yml.")
    return Path(file.locate()).read_text(encoding="utf-8")


def _text(entry: dict) -> str:
    """A licence text as its package carries it, or as kept here; with what it refers to, and the notices that a script ends with."""
    package, text = distribution(entry["package"]), entry["text"]
    if "kept" in text:
        words = (FOLDER / "texts" / text["kept"]).read_text(encoding="utf-8")
    elif "package" in text:
        words = (_folder(package) / text["package"]).read_text(encoding="utf-8")
    else:
        words = _metadata(entry["package"], text["metadata"])
    if "then" in entry:
        words = f"{words.rstrip()}\n\n{_metadata(entry['then']['package'], entry['then']['metadata'])}"
    if "notices_in" in entry:
        script = (_folder(package) / entry["notices_in"]).read_text(encoding="utf-8")
        notices = re.search(r"/\*! (Bundled license information:\n.*?)\*/", script[-LAST_NOTICES:], re.DOTALL)
        if not notices:
            raise FileNotFoundError(f"{entry['notices_in']} no longer ends with the notices of what it holds. See build_tools/packages/judged.yml.")
        words = f"{words.rstrip()}\n\n{entry['name']} holds other packages. It says of them:\n\n{notices[1].rstrip()}\n"
    return "\n".join(line.rstrip() for line in words.splitlines()).strip("\n") + "\n"
