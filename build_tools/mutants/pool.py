"""Work in copies of this process, a few at a time, with bounds on time and memory. Needs a system that can fork."""

from __future__ import annotations

import gc
import json
import os
import resource
import selectors
import signal
import sys
from collections.abc import Callable
from typing import Any

WALL_SECONDS = 900  # for one piece of work, however busy the machine
MEMORY = 2 << 30  # bytes beyond what is in use
STOPPED = "stopped"  # by a limit of time


class Broken(RuntimeError):
    """The work itself could not be done: a fault of the harness, or tests that fail without any change."""


class Pool:
    """`start` begins a piece of work, `finish` waits for all; `done(key, result)` is called as each ends.

    A result is what the work returned, as JSON; STOPPED when a limit of time ended it, None when it died of something else.
    """

    def __init__(self, jobs: int, done: Callable[[Any, Any], None], bounded: bool = True, quiet: bool = True):
        self.jobs, self.done, self.bounded, self.quiet = jobs, done, bounded, quiet
        self.running: dict[int, tuple[int, Any, bytearray]] = {}  # the pipe's end -> process, key, what came
        self.selector = selectors.DefaultSelector()
        gc.freeze()  # so that copies share what is loaded

    def start(self, key: Any, work: Callable[[], Any]) -> None:
        while len(self.running) >= self.jobs:
            self._wait()
        theirs, mine = os.pipe()
        sys.stdout.flush()
        sys.stderr.flush()
        process = os.fork()
        if process == 0:
            os.close(theirs)
            self._work(work, mine)
        os.close(mine)
        self.running[theirs] = (process, key, bytearray())
        self.selector.register(theirs, selectors.EVENT_READ)

    def finish(self) -> None:
        while self.running:
            self._wait()

    def _work(self, work: Callable[[], Any], pipe: int) -> None:
        status = 1
        try:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            if self.quiet:
                os.dup2(nowhere, 2)
            if self.bounded:
                signal.signal(signal.SIGALRM, signal.SIG_DFL)
                signal.alarm(WALL_SECONDS)
                with open("/proc/self/statm") if os.path.exists("/proc/self/statm") else open(os.devnull) as file:
                    used = int((file.read().split() or ["0"])[0]) * resource.getpagesize()
                resource.setrlimit(resource.RLIMIT_AS, (used + MEMORY, resource.RLIM_INFINITY))
            result = json.dumps(work()).encode()
            while result:
                result = result[os.write(pipe, result):]
            status = 0
        except BaseException:
            if not self.quiet:
                sys.excepthook(*sys.exc_info())
        finally:
            os._exit(status)

    def _wait(self) -> None:
        for event, _ in self.selector.select():
            process, key, came = self.running[event.fd]
            if more := os.read(event.fd, 1 << 16):
                came += more
                continue
            self.selector.unregister(event.fd)
            os.close(event.fd)
            del self.running[event.fd]
            status = os.waitstatus_to_exitcode(os.waitpid(process, 0)[1])
            if status > 0:
                raise Broken(f"the work on {key} could not be done")
            stopped = status in (-signal.SIGPROF, -signal.SIGALRM)
            self.done(key, json.loads(came) if status == 0 else STOPPED if stopped else None)


def stop_after(seconds: float) -> None:
    """End this process when it has used so many more seconds of the processor."""
    signal.setitimer(signal.ITIMER_PROF, seconds)


def in_a_copy(work: Callable[[], Any], quiet: bool = True) -> Any:
    """The result of a piece of work done in one copy of this process, without bounds."""
    results = []
    pool = Pool(1, lambda _, result: results.append(result), bounded=False, quiet=quiet)
    pool.start("the tests", work)
    pool.finish()
    return results[0]
