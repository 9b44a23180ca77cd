"""A run's pictures through the workers of this machine, or through an executor's."""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from concurrent.futures import Executor
from functools import partial
from pathlib import Path

from intake.in_order import in_order
from intake.records import PictureReading
from intake.sending import send
from intake.workers import Workers, cores


def read_pictures(
    files: Sequence[Path],
    jobs: int | None = None,
    executor: Executor | None = None,
    passed_over: Callable[[Path], bool] = lambda file: False,
) -> Generator[PictureReading]:
    """What each of ``files`` gave, in their order.  One that is ``passed_over`` when its turn
    comes is not read, and gives neither tags nor an error.

    ``jobs`` worker processes (by default one a core) share the work.  An ``executor`` takes
    their place; ``jobs`` then is about how many pictures it reads at once.  Raises
    :class:`NoWorkers` where the executor takes no pictures any more.
    """
    count = jobs or cores()
    if executor is not None:
        yield from in_order(files, partial(send, executor), count, passed_over)
        return
    with Workers(min(len(files), count)) as workers:
        yield from workers.read_all(files, passed_over)
