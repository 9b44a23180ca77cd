"""Many pictures through many workers, in order, whatever happens to a worker."""

from __future__ import annotations

import os
import signal
from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing import get_context
from pathlib import Path

from intake.errors import PictureError
from intake.worker import PictureReading, read_picture


def read_pictures(
    files: Sequence[Path], jobs: int | None = None, executor: Executor | None = None
) -> Iterator[PictureReading]:
    """What each of ``files`` gave, in their order.

    ``jobs`` worker processes (by default one a core) share the work; ``executor`` takes
    their place.  A picture on which a worker dies is tried once more alone; if it kills
    that worker too, its answer is an error, and the others go on.
    """
    workers = min(len(files), jobs or os.cpu_count() or 1)
    if executor is not None:
        yield from executor.map(read_picture, files)
    elif workers == 1:
        yield from map(read_picture, files)
    else:
        yield from _pooled(files, workers)


def _pooled(files: Sequence[Path], workers: int) -> Iterator[PictureReading]:
    rest = deque(files)
    while rest:
        for reading in _until_one_dies(tuple(rest), workers):
            rest.popleft()
            yield reading
        if rest:
            yield _alone(rest.popleft())


def _until_one_dies(files: Sequence[Path], workers: int) -> Iterator[PictureReading]:
    """Readings in order, up to the first that is not there because a worker died."""
    pool = _pool(workers)
    try:
        for future in [pool.submit(read_picture, file) for file in files]:
            yield future.result()
    except BrokenProcessPool:
        return
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _alone(file: Path) -> PictureReading:
    for reading in _until_one_dies([file], 1):
        return reading
    error = PictureError(f"{file}: the reader broke down on it; scan or save it again")
    return PictureReading(str(file), (), error)


def _pool(workers: int) -> ProcessPoolExecutor:
    # Fresh processes: forking one that has loaded models and threads is not safe.
    return ProcessPoolExecutor(workers, get_context("spawn"), initializer=_leave_stopping_to_us)


def _leave_stopping_to_us() -> None:
    """Ctrl-C reaches every process of the terminal; the main one ends the workers."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
