"""Worker processes that are hired for a picture and kept for the next."""

from __future__ import annotations

import os
from collections.abc import Callable, Generator, Sequence
from concurrent.futures import CancelledError, ThreadPoolExecutor
from contextlib import suppress
from pathlib import Path
from threading import Lock

from intake.errors import PictureError
from intake.guarded import GuardedWorker, WorkerDied
from intake.in_order import in_order
from intake.records import PictureReading


def cores() -> int:
    """How many workers this machine has work for."""
    return os.cpu_count() or 1


class Workers:
    """Worker processes that keep their readers loaded from one picture to the next.

    They start as they are needed, at most ``count`` for :meth:`read_all`.  A picture on which
    a worker dies is tried once more by a new one; if it kills that too, its answer is an error,
    and the others go on.  Several threads may read at once.
    """

    def __init__(self, count: int | None = None) -> None:
        self._count = count or cores()
        self._lock = Lock()
        self._idle: list[GuardedWorker] = []
        self._busy: set[GuardedWorker] = set()
        self._closed = False

    def __enter__(self) -> Workers:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def read(self, file: Path) -> PictureReading:
        """What ``file`` gave."""
        with suppress(WorkerDied):
            return self._read(file)
        try:
            return self._read(file)
        except WorkerDied:
            error = PictureError(f"{file}: the reader broke down on it; scan or save it again")
            return PictureReading(str(file), (), error)

    def read_all(
        self, files: Sequence[Path], passed_over: Callable[[Path], bool] = lambda file: False
    ) -> Generator[PictureReading]:
        """What each of ``files`` gave, in their order, see :func:`read_pictures`."""
        threads = ThreadPoolExecutor(self._count)
        try:
            yield from in_order(
                files, lambda file: threads.submit(self.read, file), self._count, passed_over
            )
        finally:
            threads.shutdown(wait=False, cancel_futures=True)

    def close(self) -> None:
        """End the workers, also those that are on a picture."""
        with self._lock:
            self._closed = True
            idle, busy = self._idle, tuple(self._busy)
            self._idle = []
        for worker in idle:
            worker.close()
        for worker in busy:
            worker.end()

    def _read(self, file: Path) -> PictureReading:
        worker = self._hired()
        try:
            return worker.read(file)
        finally:
            self._release(worker)

    def _hired(self) -> GuardedWorker:
        with self._lock:
            if self._closed:
                raise CancelledError
            worker = self._idle.pop() if self._idle else GuardedWorker()
            self._busy.add(worker)
            return worker

    def _release(self, worker: GuardedWorker) -> None:
        with self._lock:
            self._busy.discard(worker)
            if worker.is_alive and not worker.is_swollen and not self._closed:
                self._idle.append(worker)
                return
        worker.close()
