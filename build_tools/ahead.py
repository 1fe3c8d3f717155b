"""Files made ahead, in a second process, while pages are being made: both take from one queue, so that neither waits while there is work.

A process that is copied (fork) has everything the first one has: nothing is sent to it, and what it makes has the same bytes. It writes
nothing but its answers into a pipe, so that it ends with the process that began it, however that ends. Where processes can't be copied
safely, threads set sheets while pages are made.
"""

from __future__ import annotations

import os
import pickle
import signal
import sys
import threading
import warnings
from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor

Make = Callable[[], str | bytes]
RECORD = 4  # bytes of a job's number in the queue: reading so few at once is never torn
MOST_JOBS = 8_000  # so many fit into a pipe that nobody reads yet
_begun: list[Copied] = []


def begin(files: Mapping[str, Make], names: Iterable[str]) -> Callable[[], Iterable[tuple[str, str | bytes]]]:
    """Begin to make the named files of `files`; the function returned gives (name, content) of all of them, as they are ready.

    What fails is made once more by whoever asks, so that errors are as they always are. `stop` ends it early.
    """
    jobs = [(name, files[name]) for name in names]
    if _copies() and len(jobs) <= MOST_JOBS:
        return Copied(jobs).results
    pool = ThreadPoolExecutor(2)  # typst works outside Python's lock
    futures = [(name, pool.submit(make)) for name, make in jobs]
    pool.shutdown(wait=False)
    return lambda: ((name, future.result()) for name, future in futures)


def stop() -> None:
    """End what was begun and not asked for."""
    while _begun:
        _begun.pop().end()


def _copies() -> bool:
    """Whether this process can be copied: on Linux, with a processor to spare, and before the typesetter has started threads of its own, which a copy would lack."""
    return sys.platform == "linux" and len(os.sched_getaffinity(0)) > 1 and "typst" not in sys.modules


class Copied:
    """A copy of this process that works through the same queue of jobs."""

    def __init__(self, jobs: list[tuple[str, Make]]):
        self.jobs, self.made = jobs, {}
        self.queue, queue_in = os.pipe()
        answers, answers_in = os.pipe()
        os.write(queue_in, b"".join(number.to_bytes(RECORD, "big") for number in range(len(jobs))))
        os.close(queue_in)
        sys.stdout.flush()
        sys.stderr.flush()
        with warnings.catch_warnings():  # numpy's idle threads are no danger to a copy that calls none of them
            warnings.simplefilter("ignore", DeprecationWarning)
            self.process = os.fork()
        if not self.process:
            self._work(answers, answers_in)
        os.close(answers_in)
        self.answers = os.fdopen(answers, "rb")
        self.reader = threading.Thread(target=self._read, daemon=True)
        self.reader.start()
        _begun.append(self)

    def _work(self, answers: int, answers_in: int) -> None:
        """In the copy: make what is next until nothing is; never returns."""
        try:
            signal.signal(signal.SIGINT, signal.SIG_IGN)  # the first process hears it, and ends this one
            os.close(answers)
            with os.fdopen(answers_in, "wb") as out:
                while (number := self._next()) is not None:
                    pickle.dump((number, self.jobs[number][1]()), out, protocol=pickle.HIGHEST_PROTOCOL)
                    out.flush()
        except BaseException:  # noqa: S110  whoever asks makes it anew, and sees what is wrong
            pass
        finally:
            os._exit(0)

    def _next(self) -> int | None:
        record = os.read(self.queue, RECORD)
        return int.from_bytes(record, "big") if record else None

    def _read(self) -> None:
        try:
            while True:
                number, content = pickle.load(self.answers)  # noqa: S301  from our own copy
                self.made[number] = content
        except (EOFError, OSError, ValueError, pickle.UnpicklingError):
            pass  # it has ended

    def results(self) -> Iterable[tuple[str, str | bytes]]:
        """(name, content) of every job: what the copy has not begun is made here, in the end also what it left undone."""
        given = set()
        while (number := self._next()) is not None:
            given.add(number)
            yield self.jobs[number][0], self.jobs[number][1]()
        self.reader.join()
        for number, (name, make) in enumerate(self.jobs):
            if number not in given:
                yield name, self.made.pop(number) if number in self.made else make()
        self.end()

    def end(self) -> None:
        """End the copy and wait for it."""
        if self in _begun:
            _begun.remove(self)
        if self.process:
            try:
                os.kill(self.process, signal.SIGKILL)
            except ProcessLookupError:
                pass
            os.waitpid(self.process, 0)
            self.process = 0
            os.close(self.queue)
            self.reader.join()
            self.answers.close()
