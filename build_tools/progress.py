"""Progress of a long step, said on the standard error stream only when the step is long."""

from __future__ import annotations

import sys
import time

EVERY = 5.0  # seconds


class Progress:
    """Counts steps; says how many are done every few seconds. Short work stays silent."""

    def __init__(self):
        self.start("steps")

    def start(self, what: str) -> None:
        """Begin counting anew."""
        self.what, self.done, self.said = what, 0, time.monotonic()

    def step(self, total: int) -> None:
        """One more of `total` is done."""
        self.done += 1
        if time.monotonic() - self.said >= EVERY:
            self.said = time.monotonic()
            print(f"  {self.done:,} of {total:,} {self.what} …", file=sys.stderr, flush=True)
