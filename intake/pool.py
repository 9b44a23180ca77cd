"""Many pictures through many workers, in order, whatever happens to a worker."""

from __future__ import annotations

import os
import signal
from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from pathlib import Path
from threading import Lock

from intake.errors import PictureError
from intake.records import PictureReading
from intake.worker import read_picture


def read_pictures(
    files: Sequence[Path], jobs: int | None = None, executor: Executor | None = None
) -> Iterator[PictureReading]:
    """What each of ``files`` gave, in their order.

    ``jobs`` worker processes (by default one a core) share the work; ``executor`` takes
    their place.
    """
    workers = min(len(files), jobs or os.cpu_count() or 1)
    if executor is not None:
        yield from executor.map(read_picture, files)
    elif workers == 1:
        yield from map(read_picture, files)
    else:
        with Workers(workers) as pool:
            yield from pool.read_all(files)


class Workers:
    """Worker processes that keep their readers loaded from one picture to the next.

    They start with the first picture.  A picture on which a worker dies is tried once
    more alone; if it kills that worker too, its answer is an error, and the others go on.
    Several threads may read at once.
    """

    def __init__(self, count: int | None = None) -> None:
        self._count = count or os.cpu_count() or 1
        self._pool: ProcessPoolExecutor | None = None
        self._starting = Lock()

    def __enter__(self) -> Workers:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def read(self, file: Path) -> PictureReading:
        """What ``file`` gave."""
        (reading,) = self.read_all([file])
        return reading

    def read_all(self, files: Sequence[Path]) -> Iterator[PictureReading]:
        """What each of ``files`` gave, in their order."""
        rest = deque(files)
        while rest:
            for reading in self._until_one_dies(tuple(rest)):
                rest.popleft()
                yield reading
            if rest:
                yield _alone(rest.popleft())

    def close(self) -> None:
        """End the workers, after the pictures that they are on."""
        if self._pool is not None:
            self._pool.shutdown(wait=True, cancel_futures=True)

    def _until_one_dies(self, files: Sequence[Path]) -> Iterator[PictureReading]:
        """Readings in order, up to the first that is not there because a worker died."""
        pool = self._living()
        futures: list[Future[PictureReading]] = []
        try:
            futures += (pool.submit(read_picture, file) for file in files)
            for future in futures:
                yield future.result()
        except BrokenProcessPool:
            self._give_up(pool)
        finally:
            for future in futures:
                future.cancel()

    def _living(self) -> ProcessPoolExecutor:
        with self._starting:
            if self._pool is None:
                self._pool = _pool(self._count)
            return self._pool

    def _give_up(self, broken: ProcessPoolExecutor) -> None:
        with self._starting:
            if self._pool is broken:
                self._pool = None
        broken.shutdown(wait=True)


def _alone(file: Path) -> PictureReading:
    with _pool(1) as pool:
        try:
            return pool.submit(read_picture, file).result()
        except BrokenProcessPool:
            error = PictureError(f"{file}: the reader broke down on it; scan or save it again")
            return PictureReading(str(file), (), error)


def _pool(workers: int) -> ProcessPoolExecutor:
    # Fresh processes: forking one that has loaded models and threads is not safe.
    return ProcessPoolExecutor(workers, get_context("spawn"), initializer=_leave_stopping_to_us)


def _leave_stopping_to_us() -> None:
    """Ctrl-C reaches every process of the terminal; the main one ends the workers."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
