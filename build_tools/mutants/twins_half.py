"""Mutants of browser modules, held against cases, in a small JavaScript engine.

A case is a call and what it must give. A change in one module is held against the cases of that module, then of the modules that
use it. Imports and exports are turned into function calls, so that one changed module can be exchanged among the others.
"""

from __future__ import annotations

import json
import posixpath
import time
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

import quickjs

from .pool import Broken, Pool, in_a_copy
from .python_half import KILLED, SURVIVED, TIMED_OUT
from .spots import Mutant, tree_of_text

TIMES_LONGER, SECONDS_MORE = 5, 1
EVERY_ROW, ROWS_OF_USERS = 10**9, 250  # of a module that only uses the changed one, fewer rows will do
MEMORY = 256 << 20  # bytes
AT_ONCE = 60  # mutants that share an engine
APART, ENGINE = (Path(__file__).with_name(name).read_text(encoding="utf-8") for name in ("apart.js", "engine.js"))


def factory(path: str, source: bytes) -> tuple[str, list[str]]:
    """A module as a function (exported, use) of JavaScript, and the modules it imports, as paths like its own.

    Raises Broken for a form of import or export that is not known here.
    """
    edits: list[tuple[int, int, str]] = []
    names: list[str] = []
    used: list[str] = []
    for node in tree_of_text(path, source).children:
        if node.type == "import_statement":
            clause, where = node.named_child(0).named_child(0), node.child_by_field_name("source").text.decode()[1:-1]
            if clause is None or clause.type != "named_imports":
                raise Broken(f"{path}: only imports of names are known here: {node.text.decode()}")
            used.append(posixpath.normpath(posixpath.join(posixpath.dirname(path), where)))
            edits.append((node.start_byte, node.end_byte, f"const {clause.text.decode().replace(' as ', ': ')} = use({json.dumps(used[-1])});"))
        elif node.type == "export_statement":
            declared = node.child_by_field_name("declaration")
            if declared is not None:
                edits.append((node.start_byte, declared.start_byte, ""))
                names += [one.child_by_field_name("name").text.decode() for one in (declared, *declared.named_children) if one.type in ("function_declaration", "variable_declarator")]
            elif node.child_by_field_name("source") is None and node.named_child(0).type == "export_clause":
                edits.append((node.start_byte, node.end_byte, ""))
                names += node.named_child(0).text.decode().strip("{} ").replace(",", " ").split()
            else:
                raise Broken(f"{path}: this export is not known here: {node.text.decode()}")
    for start, end, new in reversed(edits):
        source = source[:start] + new.encode() + source[end:]
    return f'(exported, use) => {{ "use strict";\n{source.decode()}\nObject.assign(exported, {{ {", ".join(names)} }}); }}', used


class Twins:
    """The modules under a folder that `cases` names ({path: {"rows", "refused", "constants", "tables"}}), and those they import."""

    def __init__(self, folder: Path, cases: Mapping[str, dict[str, Any]], jobs: int):
        self.folder, self.jobs = folder, jobs
        self.cases = {path: some | {"rows": _in_turn(some["rows"])} for path, some in cases.items()}
        self.used: dict[str, list[str]] = {}
        self.sources: dict[str, bytes] = {}
        self.factories: dict[str, str] = {}  # those that are used come first
        for path in sorted(cases):
            self._add(path)

    def outcomes(self, mutants: Sequence[Mutant], step: Callable[[], None]) -> dict[Mutant, str]:
        """What became of each mutant. Raises Broken when a case fails without any change."""
        found: dict[Mutant, str] = {}
        self.seconds, failing = in_a_copy(lambda: _Engine(self.factories, self.cases).all_pass(), quiet=False)
        if failing:
            raise Broken(f"without any change, this fails: {failing}")

        def done(some, result):
            if not isinstance(result, list):
                raise Broken(f"the engine ended among the mutants of {some[0].file}")
            for mutant, outcome in zip(some, result):
                found[mutant] = outcome
                step()

        pool = Pool(self.jobs, done, quiet=False)
        for at in range(0, len(mutants), AT_ONCE):
            some = tuple(mutants[at:at + AT_ONCE])
            pool.start(some, lambda some=some: self._try(some))
        pool.finish()
        return found

    def path_of(self, mutant: Mutant) -> str:
        return next(path for path in self.factories if posixpath.basename(path) == mutant.file)

    def _add(self, path: str) -> None:
        if path not in self.used:
            self.sources[path] = (self.folder / path).read_bytes()
            text, self.used[path] = factory(path, self.sources[path])
            for other in self.used[path]:
                self._add(other)
            self.factories[path] = text

    def _users(self, path: str) -> list[str]:
        """The module and all that need it, in the order in which they can be made."""
        found = [path]
        for other in self.factories:
            if set(self.used[other]) & set(found):
                found.append(other)
        return found

    def _try(self, mutants: Sequence[Mutant]) -> list[str]:
        engine, outcomes = None, []
        for mutant in mutants:
            engine = engine or _Engine(self.factories, self.cases)
            path = self.path_of(mutant)
            outcomes.append(engine.outcome(self._users(path), factory(path, mutant.applied(self.sources[path]))[0], self.seconds))
            if outcomes[-1] == TIMED_OUT:
                engine = None
        return outcomes


class _Engine:
    """JavaScript with all modules as they are, and their cases."""

    def __init__(self, factories: Mapping[str, str], cases: Mapping[str, dict]):
        self.context = quickjs.Context()
        self.context.set_memory_limit(MEMORY)
        self.context.eval(APART + ENGINE)
        self.cases = list(cases)
        for path, text in factories.items():
            self.context.eval(f"start({json.dumps(path)}, {text})")
        for path, some in cases.items():
            self.context.eval("keep")(path, json.dumps(some))

    def all_pass(self) -> tuple[dict[str, float], str]:
        """Seconds that the cases of each module take, and the first case that fails, or nothing."""
        seconds = {}
        for path in self.cases:
            start = time.process_time()
            if failing := self.context.eval("check")(path, EVERY_ROW):
                return {}, f"{path} {failing}"
            seconds[path] = time.process_time() - start
        return seconds, ""

    def outcome(self, names: Sequence[str], changed: str, seconds: Mapping[str, float]) -> str:
        """What the cases say when the first of the modules is changed; the others are those that need it."""
        try:
            self.context.set_time_limit(SECONDS_MORE)
            self.context.eval(f"link({json.dumps(names)}, {changed})")
            for name in sorted((name for name in names if name in seconds), key=lambda name: (name != names[0], seconds[name])):
                self.context.set_time_limit(TIMES_LONGER * seconds[name] + SECONDS_MORE)
                if self.context.eval("check")(name, EVERY_ROW if name == names[0] else ROWS_OF_USERS):
                    return KILLED
        except quickjs.JSException as error:
            return TIMED_OUT if "interrupted" in str(error) else KILLED
        return SURVIVED


def _in_turn(rows: Sequence[list]) -> list[list]:
    """The rows with functions taking turns, so that each is soon called."""
    seen: Counter = Counter()
    places = []
    for row in rows:
        seen[row[0]] += 1
        places.append(seen[row[0]])
    return [row for _, row in sorted(zip(places, rows), key=lambda pair: pair[0])]
