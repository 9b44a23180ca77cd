"""Watching a folder: each picture that lands in it is taken in, once it is complete.

The file system only wakes the watch; what there is to do is told by listing the folder.
So an event that is lost costs a minute and never a picture.
"""

from __future__ import annotations

import os
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from threading import Event

import watchfiles

from intake.errors import NoPicture, NoTag, PictureError
from intake.pictures.walk import Stamp, pictures_within, stamp_of
from intake.records import PictureReading
from intake.run import Filing, TagResult
from intake.watched import Watched
from intake.workers import Workers

SETTLED_S = 1.0
"""A file that has not changed for so long may be complete."""

PATIENCE_S = 20.0
"""A file that cannot be read is given so long without a change before it counts as bad:
its tool may only have stalled."""

RELIST_S = 60.0
"""So often the folder is listed though nothing was heard: network drives tell nothing."""

_TICK_MS = 250
_DEAF_S = 1.0
_PASSING_SUFFIXES = frozenset({".part", ".partial", ".tmp", ".temp"})
_PASSING_START = "~"
"""How sync tools name files that they have not finished, beside a leading dot and endings
that are no picture's."""


def watch(
    folder: str | os.PathLike[str],
    stash: str | os.PathLike[str] = "stash.csv",
    *,
    shade_card: str | os.PathLike[str] | None = None,
    jobs: int | None = None,
    stop: Event | None = None,
) -> Iterator[TagResult]:
    """Read the pictures in ``folder`` into ``stash``, then each that comes; a picture
    that a watch took in before, whatever its name, is left out.

    Yields one :class:`~intake.run.TagResult` a tag, after it has been filed or queued for
    good; a bad picture is a result.  Ends when ``stop`` is set, else never.  The other
    arguments are those of :func:`intake.run.intake`.

    Raises a :class:`~intake.errors.BalltagError` where there is no such folder, or the
    stash cannot be read or written.
    """
    place = Path(folder)
    if not place.is_dir():
        raise NoPicture(f"there is no folder {place}; give the one your pictures are synced to")
    return _results(place, Filing(stash, shade_card), jobs, stop)


def _results(
    folder: Path, filing: Filing, jobs: int | None, stop: Event | None
) -> Iterator[TagResult]:
    arrivals, watched = Arrivals(folder), Watched(filing.cabinet)
    with Workers(jobs) as workers:
        for heard in _wakes(folder, stop):
            settled = arrivals.settled(time.monotonic(), heard=heard)
            files = [file for file in settled if not watched.has(file)]
            arrivals.pass_over(set(settled).difference(files))
            if not files:
                continue
            filing.learn_shades()
            for file, picture in zip(files, workers.read_all(files), strict=True):
                if arrivals.take(file, picture, time.monotonic()):
                    yield from _taken_in(picture, filing, watched)
                if stop is not None and stop.is_set():
                    return


def _wakes(folder: Path, stop: Event | None) -> Iterator[bool]:
    """Again and again, and whether something was heard in ``folder``; ends when ``stop`` is set.

    Who listens for us gives up on a file whose name is no UTF-8, and where the system has no
    more places to listen from; then we listen anew, and look by ourselves meanwhile."""
    while stop is None or not stop.is_set():
        try:
            for changes in watchfiles.watch(
                folder,
                watch_filter=None,
                stop_event=stop,
                rust_timeout=_TICK_MS,
                yield_on_timeout=True,
                ignore_permission_denied=True,
            ):
                yield bool(changes)
        except (RuntimeError, OSError):
            yield True
            time.sleep(_DEAF_S)


def _taken_in(picture: PictureReading, filing: Filing, watched: Watched) -> Iterator[TagResult]:
    results = []
    for result in filing.file(picture):
        results.append(result)
        yield result
    if picture.error is None:
        watched.add(picture.tags[0].digest, [result.id for result in results])


@dataclass(slots=True)
class _Arrival:
    """A file as it stood when last seen, and when it is to be read.  Once its time is up
    (``is_late``) it is taken as it is."""

    stamp: Stamp
    due_s: float
    is_late: bool = False


class Arrivals:
    """The pictures that come into ``folder``: which of them are there whole."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._coming: dict[Path, _Arrival] = {}
        self._taken: dict[Path, Stamp] = {}
        self._listed_s = -RELIST_S

    def settled(self, now_s: float, *, heard: bool = True) -> list[Path]:
        """The files to read now.  ``now_s`` is any clock in seconds; ``heard`` says that
        something happened in the folder."""
        is_due = any(arrival.due_s <= now_s for arrival in self._coming.values())
        if not (heard or is_due or now_s - self._listed_s >= RELIST_S):
            return []
        self._listed_s = now_s
        self._list(now_s)
        return [file for file, arrival in self._coming.items() if arrival.due_s <= now_s]

    def pass_over(self, files: Iterable[Path]) -> None:
        """Leave ``files`` unread until they change."""
        for file in files:
            self._taken[file] = self._coming.pop(file).stamp

    def take(self, file: Path, picture: PictureReading, now_s: float) -> bool:
        """Whether ``picture``, read from ``file``, may be filed.  Not where the file
        changed while it was read, or where it cannot be read and may still be coming."""
        arrival = self._coming[file]
        stamp = stamp_of(file)
        if stamp is None:  # it went away; if it comes back it is new
            del self._coming[file]
            return False
        if stamp != arrival.stamp:
            self._coming[file] = _Arrival(stamp, now_s + SETTLED_S)
            return False
        if _may_be_cut_short(picture) and not arrival.is_late:
            arrival.due_s += PATIENCE_S - SETTLED_S
            arrival.is_late = True
            return False
        self.pass_over([file])
        return True

    def _list(self, now_s: float) -> None:
        there = {
            file: stamp
            for file in pictures_within(self._folder)
            if not _is_passing(file) and (stamp := stamp_of(file)) is not None
        }
        for known in (self._coming, self._taken):
            for file in known.keys() - there.keys():
                del known[file]
        for file, stamp in there.items():
            arrival = self._coming.get(file)
            if arrival is None and self._taken.get(file) == stamp:
                continue
            if arrival is None or arrival.stamp != stamp:
                self._coming[file] = _Arrival(stamp, now_s + SETTLED_S)


def _may_be_cut_short(picture: PictureReading) -> bool:
    return isinstance(picture.error, PictureError) and not isinstance(picture.error, NoTag)


def _is_passing(file: Path) -> bool:
    suffixes = {suffix.lower() for suffix in file.suffixes}
    return file.name.startswith(_PASSING_START) or not suffixes.isdisjoint(_PASSING_SUFFIXES)
