"""Links the modules that a page's script imports into one plain script.

The modules stay the source, and what tests import. A page sends one script for all of them: a phone asks once instead of thirty times, and
browsers run it from a folder (`file:`) too, where they load no modules.
"""

from __future__ import annotations

import hashlib
import posixpath
import re
from dataclasses import dataclass
from pathlib import Path

IMPORT = re.compile(r'^import \{(?P<names>[^}]*)\} from "(?P<path>\.[^"]+)";\n?', re.MULTILINE)
DECLARED = re.compile(r"^export (?=(?:async )?(?:function\*?|class|const) (\w+))", re.MULTILINE)
LISTED = re.compile(r"^export \{(?P<names>[^}]*)\};\n?", re.MULTILINE)
WORKER = re.compile(r'new Worker\(new URL\("(?P<path>\.[^"]+)", import\.meta\.url\), \{ type: "module" \}\)')
LEFT = re.compile(r"^\s*(?:import|export)\b|\bimport\s*\(|^await\b", re.MULTILINE)


class Unlinkable(ValueError):
    """A module says something that is not linked; the message names file, line and remedy."""


@dataclass(frozen=True)
class Bundle:
    """A linked script: its file name, its text, and the bundles of the workers that it starts."""

    name: str
    text: str
    workers: tuple[Bundle, ...] = ()


class Linker:
    """Links entries below a folder of modules; each file is read once."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._read: dict[str, str] = {}
        self._linked: dict[str, Bundle] = {}

    def bundle(self, entry: str) -> Bundle:
        """The bundle of a module, by its path from the folder, such as "lots/page.js".

        The name ends in a hash of the text. Raises Unlinkable for what is not linked, FileNotFoundError for a module that is not there.
        """
        if entry not in self._linked:
            order = self._in_order(entry)
            numbers = {path: number for number, path in enumerate(order)}
            workers: dict[str, Bundle] = {}
            parts = [self._module(path, numbers, workers) for path in order]
            text = '(() => {\n"use strict";\nconst $here = globalThis.document?.currentScript.src ?? globalThis.location.href;\n' + "".join(parts) + "})();\n"
            stem = entry.removesuffix(".js").removesuffix("/main").replace("/", "-")
            self._linked[entry] = Bundle(f"{stem}-{hashlib.sha256(text.encode('utf-8')).hexdigest()[:12]}.js", text, tuple(workers.values()))
        return self._linked[entry]

    def _text(self, path: str) -> str:
        if path not in self._read:
            self._read[path] = (self.folder / path).read_text(encoding="utf-8")
        return self._read[path]

    def _in_order(self, entry: str) -> list[str]:
        """The modules in the order in which a browser runs them: what is imported before what imports it."""
        order: list[str] = []
        under_way: list[str] = []

        def visit(path: str) -> None:
            if path in under_way:
                raise Unlinkable(f"{path} imports itself by way of {', '.join(under_way[under_way.index(path) + 1 :]) or 'nothing else'}. Move what both need into a module of its own.")
            if path in order:
                return
            under_way.append(path)
            for match in IMPORT.finditer(self._text(path)):
                visit(_beside(path, match["path"]))
            order.append(under_way.pop())

        visit(entry)
        return order

    def _module(self, path: str, numbers: dict[str, int], workers: dict[str, Bundle]) -> str:
        exported: dict[str, str] = {}  # name outside, name inside

        def imported(match: re.Match) -> str:
            names = ", ".join(f"{outside}: {inside}" if outside != inside else outside for outside, inside in _names(match["names"]))
            return f"const {{ {names} }} = $m{numbers[_beside(path, match['path'])]};" + "\n" * match[0].count("\n")

        def declared(match: re.Match) -> str:
            exported[match[1]] = match[1]
            return ""

        def listed(match: re.Match) -> str:
            exported.update((outside, inside) for inside, outside in _names(match["names"]))
            return "\n" * match[0].count("\n")

        def worker(match: re.Match) -> str:
            bundle = self.bundle(_beside(path, match["path"]))
            workers[bundle.name] = bundle
            return f'new Worker(new URL("{bundle.name}", $here))'

        text = IMPORT.sub(imported, self._text(path))
        text = LISTED.sub(listed, DECLARED.sub(declared, WORKER.sub(worker, text)))
        left = LEFT.search(text)
        if left:
            line = text.count("\n", 0, left.end()) + 1
            raise Unlinkable(
                f"{self.folder.name}/{path}:{line}: “{text.splitlines()[line - 1].strip()[:60]}” is not linked into a page's script. "
                "Write imports as `import { a, b } from \"./file.js\";` at the start of a line, exports as `export function`, `export const`, `export class` or `export { a };`."
            )
        text = text.replace("import.meta.url", f'new URL("{path}", $here).href')
        returned = ", ".join(f"{outside}: {inside}" if outside != inside else outside for outside, inside in exported.items())
        return f"const $m{numbers[path]} = (function () {{ // {path}\n{text}return {{ {returned} }};\n}})();\n"


def _names(listed: str) -> list[tuple[str, str]]:
    """[("a", "b"), …] of “a as b, …”; without “as” both are the same."""
    found = []
    for part in filter(None, (part.strip() for part in listed.split(","))):
        first, _, second = part.partition(" as ")
        found.append((first.strip(), (second or first).strip()))
    return found


def _beside(path: str, address: str) -> str:
    return posixpath.normpath(posixpath.join(posixpath.dirname(path), address))


TAG = re.compile(r'<script\b(?P<before>[^>]*)\bsrc="(?P<up>[^"]*)assets/js/(?P<path>[^"]+)"(?P<after>[^>]*)></script>')


def linked(html: str, linker: Linker) -> tuple[str, dict[str, str]]:
    """The page with plain scripts in the place of its modules; those scripts, by path from the site's top."""
    files: dict[str, str] = {}

    def tag(match: re.Match) -> str:
        if 'type="module"' not in match["before"] + match["after"]:
            return match[0]
        bundle = linker.bundle(match["path"])
        files.update((f"assets/js/{one.name}", one.text) for one in (bundle, *bundle.workers))
        return f'<script defer src="{match["up"]}assets/js/{bundle.name}"></script>'

    return TAG.sub(tag, html), files
