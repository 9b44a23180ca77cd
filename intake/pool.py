"""Many pictures through many workers, in order, whatever happens to a worker."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable, Generator, Iterable, Sequence
from concurrent.futures import CancelledError, Executor, Future, ThreadPoolExecutor
from contextlib import suppress
from functools import partial
from pathlib import Path
from threading import Lock

from intake.errors import BalltagError, NoWorkers, PictureError
from intake.guarded import GuardedWorker, WorkerDied
from intake.records import PictureReading
from intake.sending import send

AHEAD = 8
"""So many pictures a worker are under way: those behind a page of many tags are read while it
is waited for, and ten million pictures do not wait in memory."""

MOST_UNDER_WAY_BYTES = 1_000_000_000
"""Files under way are no larger than this together, unless it is one alone."""

Submit = Callable[[Path], Future[PictureReading]]


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


def cores() -> int:
    """How many workers this machine has work for."""
    return os.cpu_count() or 1


def in_order(
    files: Iterable[Path],
    submit: Submit,
    workers: int,
    passed_over: Callable[[Path], bool] = lambda file: False,
) -> Generator[PictureReading]:
    """What each of ``files`` gave, in their order, each by a future from ``submit``.

    A picture whose future fails or is lost is submitted once more; after that it is an error
    among the readings.
    """
    rest = deque(files)
    under_way: deque[tuple[Path, int, Future[PictureReading]]] = deque()
    try:
        while rest or under_way:
            while rest and _has_room([size for _, size, _ in under_way], workers):
                file = rest.popleft()
                if passed_over(file):
                    under_way.append((file, 0, _not_read(file)))
                else:
                    under_way.append((file, _size_bytes(file), _submitted(file, submit)))
            file, _, future = under_way[0]
            yield _outcome(file, future, submit)
            under_way.popleft()
    finally:
        for _, _, future in under_way:
            future.cancel()


def _not_read(file: Path) -> Future[PictureReading]:
    future: Future[PictureReading] = Future()
    future.set_result(PictureReading(str(file), ()))
    return future


def _has_room(sizes_bytes: Sequence[int], workers: int) -> bool:
    return len(sizes_bytes) < workers * AHEAD and sum(sizes_bytes) < MOST_UNDER_WAY_BYTES


def _size_bytes(file: Path) -> int:
    try:
        return file.stat().st_size
    except OSError:  # whoever reads it says so
        return 0


def _submitted(file: Path, submit: Submit) -> Future[PictureReading]:
    try:
        return submit(file)
    except BalltagError:
        raise
    except Exception as error:  # shut down, broken, or no way to it: each has its own kind
        raise _gone(error) from error


def _outcome(file: Path, future: Future[PictureReading], submit: Submit) -> PictureReading:
    with suppress(_Lost, CancelledError):
        return _result(future)
    try:
        return _result(_submitted(file, submit))
    except CancelledError as error:  # by the executor: it is closing
        raise _gone(error) from error
    except _Lost as lost:
        return PictureReading(
            str(file), (), PictureError(f"{file}: no worker could read it ({lost}); run it again")
        )


class _Lost(Exception):
    """A future brought no reading; ``str`` says why."""


def _result(future: Future[PictureReading]) -> PictureReading:
    try:
        return future.result()
    except (BalltagError, CancelledError):
        raise
    except Exception as error:
        raise _Lost(str(error) or type(error).__name__) from error


def _gone(error: Exception) -> NoWorkers:
    return NoWorkers(
        f"the workers take no more pictures ({str(error) or 'they are gone'}); what was filed "
        "stays filed: start them anew and run it again to go on"
    )


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
            if worker.is_alive and not self._closed:
                self._idle.append(worker)
                return
        worker.close()
