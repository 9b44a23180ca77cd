"""Where the time of a run went, stage by stage.

Each process counts for itself: the one that files, and every worker.  A run of ``n`` workers
that takes ``t`` seconds has ``(n + 1) * t`` seconds to account for, some of them spent waiting.
"""

from __future__ import annotations

import time
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

from intake.records import PictureReading
from intake.stages import OTHER, clock

START = "start"
WAIT = "wait"
STAGES = (
    START, "load", "find", "straighten", "detect", "recognise", "second reader", "barcodes",
    "symbols", "parse", "keep", "match", "file", WAIT, OTHER,
)  # fmt: skip


@dataclass
class Profile:
    """Seconds by stage of a run that began at ``began_s``, as :func:`time.time` counts:
    ``here`` those of the process that files, ``there`` those of all workers."""

    began_s: float = field(default_factory=time.time)
    ended_s: float = 0.0
    here: defaultdict[str, float] = field(default_factory=lambda: defaultdict(float))
    there: defaultdict[str, float] = field(default_factory=lambda: defaultdict(float))
    _last_s: dict[int, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        clock().taken()  # what went by before counts from the beginning
        self.here[START] += time.time() - self.began_s

    def add(self, picture: PictureReading) -> None:
        """Count what a worker spent on ``picture`` and before it."""
        spent = picture.spent
        if spent is None:
            return
        if spent.process not in self._last_s:  # it was started only when it was needed
            self.there[WAIT] += max(0.0, spent.process_start_s - self.began_s)
        _add(self.there, spent.seconds)
        self._last_s[spent.process] = spent.until_s

    def end(self) -> None:
        """The run is over: what came after each worker's last answer was waiting."""
        _add(self.here, clock().taken())
        self.ended_s = time.time()
        self.there[WAIT] += sum(self.ended_s - last_s for last_s in self._last_s.values())

    @property
    def workers(self) -> int:
        """How many workers took part."""
        return len(self._last_s)

    @property
    def wall_s(self) -> float:
        """How long the run took."""
        return self.ended_s - self.began_s

    @property
    def to_account_for_s(self) -> float:
        """The run's time, once for each process that took part."""
        return self.wall_s * (1 + self.workers)

    @property
    def accounted_for_s(self) -> float:
        """What all stages come to."""
        return sum(self.here.values()) + sum(self.there.values())


def _add(seconds: defaultdict[str, float], more: Mapping[str, float]) -> None:
    for name, count in more.items():
        seconds[name] += count
