"""Many pictures under way at once, and their readings in order, whatever is lost on the way."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Generator, Iterable, Sequence
from concurrent.futures import CancelledError, Future
from contextlib import suppress
from pathlib import Path

from intake.errors import BalltagError, NoWorkers, PictureError, said_by
from intake.records import PictureReading

AHEAD = 8
"""So many pictures a worker are under way: those behind a page of many tags are read while it
is waited for, and ten million pictures do not wait in memory."""

MOST_UNDER_WAY_BYTES = 1_000_000_000
"""Files under way are no larger than this together, unless it is one alone."""

Submit = Callable[[Path], Future[PictureReading]]


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
        raise _Lost(said_by(error)) from error


def _gone(error: Exception) -> NoWorkers:
    why = said_by(error) if str(error) else "they are gone"
    return NoWorkers(
        f"the workers take no more pictures ({why}); what was filed stays filed: start them anew "
        "and run it again to go on"
    )
