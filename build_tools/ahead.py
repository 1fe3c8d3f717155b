"""Pages and files made ahead, in a second process, while the first one puts pages together: whoever is free makes what is next.

A process that is copied (fork) has everything the first one has: nothing is sent to it, and what it makes has the same bytes. It writes
nothing but its answers into a pipe, so that it ends with the process that began it, however that ends. Where processes can't be copied
safely, threads set sheets while pages are made.
"""

from __future__ import annotations

import mmap
import os
import pickle
import signal
import sys
import threading
import warnings
from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor

Make = Callable[[], str | bytes]
RECORD = 4  # bytes of a job's number in the queue: reading so few at once is never torn
MOST_JOBS = 8_000  # so many fit into a pipe that nobody reads yet
_begun: list[Copied] = []


def begin(jobs: Mapping[str, Make], slow: Iterable[str]) -> Copied | Threads:
    """Begin to make these by name; `slow` are those for which even threads pay. `stop` ends early what is no longer wanted.

    What fails is made once more by whoever asks, so that errors are as they always are.
    """
    return Copied(jobs) if _copies() and len(jobs) <= MOST_JOBS else Threads(jobs, slow)


def stop() -> None:
    """End what was begun and is not wanted."""
    while _begun:
        _begun.pop().end()


def _copies() -> bool:
    """Whether this process can be copied: on Linux, with a processor to spare, and before the typesetter has started threads of its own, which a copy would lack."""
    return sys.platform == "linux" and len(os.sched_getaffinity(0)) > 1 and "typst" not in sys.modules


class Threads:
    """Threads that make what is slow."""

    def __init__(self, jobs: Mapping[str, Make], slow: Iterable[str]):
        pool = ThreadPoolExecutor(2)  # typst works outside Python's lock
        self.jobs = {**jobs, **{name: pool.submit(jobs[name]).result for name in slow}}
        pool.shutdown(wait=False)

    def __contains__(self, name: str) -> bool:
        return name in self.jobs

    def take(self, name: str) -> str | bytes:
        """What was asked for by this name."""
        return self.jobs.pop(name)()

    def rest(self) -> Iterator[tuple[str, str | bytes]]:
        """(name, content) of everything not taken yet."""
        while self.jobs:
            name = next(iter(self.jobs))
            yield name, self.take(name)


class Copied:
    """A copy of this process that works through the jobs in their order, but for those that are taken before it comes to them."""

    def __init__(self, jobs: Mapping[str, Make]):
        self.names, self.makes, self.made = list(jobs), list(jobs.values()), {}
        self.numbers = {name: number for number, name in enumerate(self.names)}
        self.taken = mmap.mmap(-1, len(self.names) or 1)  # one byte a job, seen by both
        self.queue, queue_in = os.pipe()
        answers, answers_in = os.pipe()
        os.write(queue_in, b"".join(number.to_bytes(RECORD, "big") for number in range(len(self.names))))
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
                    if not self.taken[number]:
                        pickle.dump((number, self.makes[number]()), out, protocol=pickle.HIGHEST_PROTOCOL)
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

    def __contains__(self, name: str) -> bool:
        return name in self.numbers

    def take(self, name: str) -> str | bytes:
        """What was asked for by this name: made by the copy if it was quicker, else here."""
        number = self.numbers.pop(name)
        self.taken[number] = 1
        return self.made.pop(number) if number in self.made else self.makes[number]()

    def rest(self) -> Iterator[tuple[str, str | bytes]]:
        """(name, content) of everything not taken yet: what the copy has not begun is made here, in the end also what it left undone."""
        while (number := self._next()) is not None:
            if not self.taken[number]:
                yield self.names[number], self.take(self.names[number])
        self.reader.join()
        for name in list(self.numbers):
            yield name, self.take(name)
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
            self.made.clear()
