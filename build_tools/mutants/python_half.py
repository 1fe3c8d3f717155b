"""Mutants of Python modules, each held against the tests that run its line, in a process of its own.

One run without any change tells which test runs which line, and how long it takes. Then everything is loaded once, and each mutant
gets a copy of that process in which the code of one function is exchanged. What runs when a module is loaded (constants, defaults)
cannot be exchanged in that way: such mutants load everything anew. Quick tests come first, and the first failure ends it.
Time is that of the processor, so that a busy machine changes nothing; a test that takes far longer than without the change is stopped.
"""

from __future__ import annotations

import functools
import importlib
import os
import sys
import time
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import coverage
import pytest

from ..covered import Calm
from .exchange import Changed, exchange
from .pool import STOPPED, Broken, Pool, in_a_copy, stop_after
from .spots import Mutant

KILLED, SURVIVED, TIMED_OUT = "killed", "survived", "timed out"
TIMES_LONGER, SECONDS_MORE = 5, 2  # a test may take so much longer than without the change
ARGUMENTS = ("-q", "-m", "not browser", "--capture=no", "-p", "no:cacheprovider", "-p", "no:faulthandler", "-W", "ignore::pytest.PytestAssertRewriteWarning", "--tb=native", "--assert=plain")


def outcome_of(result) -> str:
    """Of what a copy of the process returned: 0 when all tests passed, True or a number when one failed, STOPPED; else it died."""
    return TIMED_OUT if result == STOPPED else SURVIVED if result == 0 else KILLED


class Half:
    """Modules under study {file name: (import name, path)}, the paths of their tests, the folder to run in."""

    def __init__(self, root: Path, modules: Mapping[str, tuple[str, Path]], tests: Sequence[str], jobs: int):
        self.root, self.modules, self.tests, self.jobs = root, modules, list(tests), jobs
        self.seconds: dict[str, float] = {}  # of each test
        self.runs: dict[str, dict[int, list[str]]] = {}  # file name -> line -> tests
        self.loading: dict[str, set[int]] = {}  # file name -> lines that run while tests are loaded

    def outcomes(self, mutants: Sequence[Mutant], step: Callable[[], None]) -> dict[Mutant, str]:
        """What became of each mutant. Raises Broken when the tests fail without any change."""
        os.chdir(self.root)
        _load_libraries()
        self._observe()
        found: dict[Mutant, str] = {}
        anew = {m for m in mutants if not m.inside or self.loading[m.file] & set(range(m.first, m.last + 1))}
        exchanged = [m for m in mutants if m not in anew and self.tests_of(m)]
        found |= dict.fromkeys((m for m in mutants if m not in anew and not self.tests_of(m)), SURVIVED)
        plugin = _Exchange(self, exchanged, step)
        if exchanged:
            status, outcomes = in_a_copy(lambda: [self.run(self.tests, plugin), plugin.outcomes], quiet=False)
            if status or len(outcomes) != len(exchanged):
                raise Broken("the tests could not be loaded a second time; were they changed meanwhile?")
            found |= zip(exchanged, outcomes)

        def done(mutant, result):
            found[mutant] = outcome_of(result)
            step()

        pool = Pool(self.jobs, done)
        for mutant in mutants:
            if mutant in anew:
                pool.start(mutant, lambda mutant=mutant: self._fails_anew(mutant))
        pool.finish()
        return found

    def tests_of(self, mutant: Mutant) -> list[str]:
        """Tests that run the statement a mutant changes, quick ones first; for what runs on loading, all that run its module."""
        lines = self.runs[mutant.file]
        wanted = range(mutant.first, mutant.last + 1) if mutant.inside else lines
        return sorted({test for line in wanted for test in lines.get(line, ())}, key=lambda test: (self.seconds[test], test))

    def limit(self, test: str) -> float:
        return TIMES_LONGER * self.seconds.get(test, 1.0) + SECONDS_MORE

    def run(self, tests: Sequence[str], plugin) -> int:
        """The exit status of pytest."""
        return int(pytest.main([*ARGUMENTS, f"--rootdir={self.root}", *tests], plugins=[plugin, Calm()]))

    def _observe(self) -> None:
        """Run all tests without a change, in as many groups as there are jobs."""
        files = [file for test in self.tests for file in (sorted(self.root.glob(f"{test}/**/test_*.py")) or [self.root / test])]
        failed: list[str] = []
        self.runs, self.loading = {name: {} for name in self.modules}, {name: set() for name in self.modules}

        def done(some, result):
            if not isinstance(result, list):
                raise Broken("the tests ended without a word")
            status, failing, seconds, lines = result
            failed.extend(failing or (["those that could not be loaded"] if status else []))
            self.seconds |= seconds
            for name, found in lines.items():
                self.loading[name] |= set(found["loading"])
                for line, tests in found["tests"].items():
                    self.runs[name].setdefault(int(line), []).extend(tests)

        def watched(some):
            plugin = _Observe(self)
            return [self.run([str(file.relative_to(self.root)) for file in some], plugin), plugin.failed, plugin.all_seconds(), plugin.lines()]

        pool = Pool(self.jobs, done, bounded=False, quiet=False)
        for group in range(self.jobs):
            if some := files[group::self.jobs]:
                pool.start(group, lambda some=some: watched(some))
        pool.finish()
        if failed or not self.seconds:
            raise Broken(f"without any change, these tests fail: {', '.join(failed) or 'there are none'}")

    def _fails_anew(self, mutant: Mutant) -> bool:
        """True when a test fails on the mutant, or it cannot even be loaded."""
        name, path = self.modules[mutant.file]
        sys.meta_path.insert(0, Changed(name, path, mutant.applied(path.read_bytes())))
        files: dict[str, list[str]] = {}
        for test in self.tests_of(mutant):
            files.setdefault(test.split("::")[0], []).append(test)
        for file in sorted(files, key=lambda f: sum(self.seconds[test] for test in files[f])):
            stop_after(30)  # to load it
            if self.run([file], _Chosen(self, files[file])):
                return True
        return False


class _Observe:
    """Keeps which test runs which line, and how long it takes."""

    def __init__(self, half: Half):
        self.half, self.failed, self.seconds, self.fixtures = half, [], {}, {}
        self.shared: dict[str, float] = {}  # seconds of the fixtures that several tests share: any of them may be the first
        self.coverage = coverage.Coverage(data_file=None, config_file=False, include=[str(path) for _, path in half.modules.values()])
        self.context = "loading"

    def pytest_configure(self, config):
        self.coverage.start()
        self._switch("loading")

    def pytest_collection_finish(self, session):
        self.caches = _caches(self.half.root)

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item):
        for cache in self.caches:  # or the first test would hide from the others what it runs
            cache.cache_clear()
        self.fixtures[item.nodeid] = list(item.fixturenames)
        self._switch(f"test {item.nodeid}")
        start = time.process_time()
        try:
            return (yield)
        finally:
            self.seconds[item.nodeid] = time.process_time() - start
            self._switch("loading")

    @pytest.hookimpl(wrapper=True)
    def pytest_fixture_setup(self, fixturedef):
        """What a shared fixture runs counts for every test that uses it."""
        before, start = self.context, time.process_time()
        if fixturedef.scope != "function":
            self._switch(f"fixture {fixturedef.argname}")
        try:
            return (yield)
        finally:
            if fixturedef.scope != "function":
                self.shared[fixturedef.argname] = self.shared.get(fixturedef.argname, 0.0) + time.process_time() - start
            self._switch(before)

    def pytest_runtest_logreport(self, report):
        self.failed += [report.nodeid] if report.failed else []

    def pytest_collectreport(self, report):
        self.failed += [report.nodeid] if report.failed else []

    def all_seconds(self) -> dict[str, float]:
        return {test: seconds + sum(self.shared.get(name, 0.0) for name in self.fixtures[test]) for test, seconds in self.seconds.items()}

    def lines(self) -> dict:
        """{file name: {"tests": {line: tests}, "loading": lines}}."""
        self.coverage.stop()
        data = self.coverage.get_data()
        users: dict[str, list[str]] = {}
        for test, names in self.fixtures.items():
            for name in names:
                users.setdefault(name, []).append(test)
        found = {}
        for name, (_, path) in self.half.modules.items():
            tests: dict[int, set[str]] = {}
            loading = []
            for line, contexts in data.contexts_by_lineno(str(path)).items():
                for context in contexts:
                    what, _, which = context.partition(" ")
                    if what == "loading":
                        loading.append(line)
                    else:
                        tests.setdefault(line, set()).update([which] if what == "test" else users.get(which, ()))
            found[name] = {"tests": {line: sorted(them) for line, them in tests.items()}, "loading": loading}
        return found

    def _switch(self, context: str) -> None:
        self.context = context
        self.coverage.switch_context(context)


class _Exchange:
    """Instead of running the tests, runs them on each mutant in a copy of the process."""

    def __init__(self, half: Half, mutants: Sequence[Mutant], step: Callable[[], None]):
        self.half, self.mutants, self.step = half, mutants, step
        self.outcomes: list[str] = []

    def pytest_runtestloop(self, session):
        items = {item.nodeid: item for item in session.items}
        caches = _caches(self.half.root)
        useful: dict[str, Counter] = {name: Counter() for name in self.half.modules}  # tests that failed before
        results: dict[int, str] = {}

        def done(which, result):
            results[which] = outcome_of(result)
            if isinstance(result, str) and result != STOPPED:
                useful[self.mutants[which].file][result] += 1
            self.step()

        pool = Pool(self.half.jobs, done)
        for which, mutant in enumerate(self.mutants):
            order = sorted(self.half.tests_of(mutant), key=lambda test: -useful[mutant.file][test])
            pool.start(which, lambda mutant=mutant, order=order: self._first_failure(session, mutant, [items[test] for test in order], caches))
        pool.finish()
        self.outcomes = [results[which] for which in range(len(self.mutants))]
        return True

    def _first_failure(self, session, mutant: Mutant, items, caches) -> str | int:
        """The test that fails, or 0."""
        for cache in caches:
            cache.cache_clear()
        exchange(*self.half.modules[mutant.file], mutant)
        for item, following in zip(items, [*items[1:], None]):
            stop_after(self.half.limit(item.nodeid))
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            if session.testsfailed:
                return item.nodeid
        return 0


class _Chosen:
    """Only these tests, each with a limit of time, until one fails. Tests that are new because of the change are run too."""

    def __init__(self, half: Half, tests: Sequence[str]):
        self.half, self.tests = half, set(tests)

    def pytest_collection_modifyitems(self, items):
        items[:] = sorted((item for item in items if item.nodeid in self.tests or item.nodeid not in self.half.seconds), key=lambda item: self.half.seconds.get(item.nodeid, 0.0))

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item):
        stop_after(self.half.limit(item.nodeid))
        found = yield
        if item.session.testsfailed:
            item.session.shouldfail = "one is enough"
        return found


def _caches(root: Path) -> list:
    """Every function with a memory, in modules of this project."""
    folder = str(root)
    ours = [module for module in list(sys.modules.values()) if str(getattr(module, "__file__", None) or "").startswith(folder)]
    return [value for module in ours for value in vars(module).values() if isinstance(value, functools._lru_cache_wrapper)]


def _load_libraries() -> None:
    """What tests load and no mutant changes, so that copies of this process have it."""
    for name in ("hypothesis", "numpy", "scipy.special", "scipy.stats", "scipy.optimize", "scipy.interpolate", "statsmodels.stats.proportion"):
        importlib.import_module(name)
