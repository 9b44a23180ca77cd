"""Where the time of a process goes: every moment belongs to the stage that was entered last.

Each thread has a clock of its own, which runs from its first stage on.
"""

from __future__ import annotations

import os
import time
from collections import defaultdict
from collections.abc import Callable, Generator, Iterable, Iterator
from contextlib import contextmanager
from threading import local
from typing import TypeVar

import psutil

from intake.records import Spent

OTHER = "other"
"""The stage of the time that lies in none."""

Item = TypeVar("Item")


class StageClock:
    """Seconds by stage.  A stage within another stops the clock of the outer one, so the sum
    over all stages is what went by.  ``now`` tells the time in seconds."""

    def __init__(self, now: Callable[[], float] = time.perf_counter) -> None:
        self._now = now
        self._booked_s = now()
        self._entered: list[str] = []
        self._seconds: defaultdict[str, float] = defaultdict(float)

    @contextmanager
    def stage(self, name: str) -> Generator[None]:
        """What goes by within it belongs to ``name``."""
        self._book()
        self._entered.append(name)
        try:
            yield
        finally:
            self._book()
            self._entered.pop()

    def add(self, name: str, seconds: float) -> None:
        """``name`` took ``seconds`` more, before this clock ran."""
        self._seconds[name] += seconds

    def taken(self) -> dict[str, float]:
        """Seconds by stage since the last call, or since the clock runs."""
        self._book()
        seconds, self._seconds = dict(self._seconds), defaultdict(float)
        return seconds

    def _book(self) -> None:
        now = self._now()
        self._seconds[self._entered[-1] if self._entered else OTHER] += now - self._booked_s
        self._booked_s = now


class _Clocks(local):
    def __init__(self) -> None:
        self.clock = StageClock()


_clocks = _Clocks()


def clock() -> StageClock:
    """The clock of this thread."""
    return _clocks.clock


@contextmanager
def stage(name: str) -> Generator[None]:
    """What this thread does within it belongs to the stage ``name``."""
    with clock().stage(name):
        yield


def each_in_stage(name: str, items: Iterable[Item]) -> Iterator[Item]:
    """``items``; that the next one is made or waited for belongs to ``name``, what is done with
    it does not."""
    rest = iter(items)
    while True:
        with stage(name):
            try:
                item = next(rest)
            except StopIteration:
                return
        yield item


def process_start_s() -> float:
    """When this process was started, in seconds as :func:`time.time` counts them."""
    started_s = float(psutil.Process().create_time())
    if hasattr(time, "CLOCK_BOOTTIME"):  # Linux tells the moment of its start in whole seconds
        up_s = time.clock_gettime(time.CLOCK_BOOTTIME)
        started_s += time.time() - up_s - psutil.boot_time()
    return started_s


def spent() -> Spent:
    """What this thread spent since it was last asked."""
    return Spent(os.getpid(), process_start_s(), time.time(), clock().taken())
