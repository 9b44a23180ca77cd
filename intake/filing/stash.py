"""The stash: one file of records that several runs may share."""

from __future__ import annotations

import os
from abc import ABC, abstractmethod
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

import pyarrow as pa
from filelock import FileLock, Timeout

from intake.errors import BadStash, StashBusy, quoted
from intake.filing.backups import Backups
from intake.filing.columns import table_of
from intake.filing.layouts import STEPS, Cells, Steps
from intake.filing.record import COLUMNS, Record, record_cells
from intake.filing.safe_write import cannot_read, may_write

WAIT_S = 30.0
"""How long to wait for another process to let go of the stash, in seconds."""


_MOST_NAMED = 6

OwnCells = Mapping[str, Cells]
"""The cells of columns that the user added, by the ids of records."""

NO_CELLS: OwnCells = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Mark:
    """A moment in a stash file's life; a later reading can start from it."""

    inode: int = 0
    size: int = 0
    changed_ns: int = 0
    tail: bytes = b""


@dataclass(frozen=True, slots=True)
class Rows:
    """What a reading of a stash gave.

    ``records`` can be gone through once.  They are all there are where ``whole`` is
    true, else those that came after the mark the reading started from.
    """

    records: Iterable[Record]
    mark: Mark
    whole: bool


class Stash(ABC):
    """A file of records.  Reading takes no lock and never changes the file.  ``steps`` lead
    from older layouts to the present one."""

    def __init__(self, path: Path, wait_s: float = WAIT_S, steps: Steps = STEPS) -> None:
        # A link must lead every process to the same lock and survive a replacement.
        self.path = Path(os.path.realpath(path))
        self.backups = Backups(self.path)
        self.wait_s = wait_s
        self._steps = steps
        self._lock = FileLock(f"{self.path}.lock", timeout=wait_s)

    @contextmanager
    def locked(self, wait_s: float | None = None) -> Iterator[None]:
        """Keep other processes from writing.  May be nested.  Raises :class:`StashBusy` after
        the wait, that of the stash or ``wait_s``, :class:`NoAccess` in a read-only folder."""
        with may_write(self.path):
            try:
                self._lock.acquire(timeout=wait_s)
            except Timeout as error:
                raise StashBusy(
                    f"{self.path} is held by another balltag; try again when it has finished"
                ) from error
        try:
            yield
        finally:
            self._lock.release()

    def is_at(self, mark: Mark) -> bool:
        """Whether the file is as a reading that gave ``mark`` found it, to its end."""
        try:
            status = self.path.stat()
        except OSError:
            return False
        seen = status.st_ino, status.st_size, status.st_mtime_ns
        return seen == (mark.inode, mark.size, mark.changed_ns)

    def records(self) -> list[Record]:
        """All records in the order of filing; none where there is no file yet.  Raises
        :class:`BadStash`."""
        return list(self.read().records)

    def table(self) -> pa.Table:
        """All records as a table of :data:`intake.filing.columns.SCHEMA`, in the order of
        filing.  Raises :class:`BadStash`."""
        return table_of(self.records())

    def rows(self) -> Iterator[tuple[str, Cells]]:
        """Where each row stands, in words, and its cells as they are: also those of a row
        that is no record.  Raises :class:`BadStash`."""
        for number, record in enumerate(self.read().records, start=1):
            yield f"row {number}", record_cells(record)

    def has_torn_line(self) -> bool:
        """Whether a process that was killed left the start of a line behind, which the next
        :meth:`append` takes away.  Raises :class:`BadStash`."""
        return False

    @abstractmethod
    def read(self, after: Mark | None = None) -> Rows:
        """The records that came after ``after``, or all where that cannot be told.
        Raises :class:`BadStash`, also while the records are gone through."""

    def own_cells(self, ids: Collection[str]) -> dict[str, Cells]:
        """What columns that the user added hold of these records, by their ids; nothing of
        one that is not there or has nothing there.  Raises :class:`BadStash`."""
        return {}

    @abstractmethod
    def append(self, records: Sequence[Record], own: OwnCells = NO_CELLS) -> Mark:
        """Add ``records``; on return they are on the disk.  After a crash each of them
        is there whole or not at all.  ``own`` is what columns that the user added are to hold
        of some of them, by their ids; a column that is not there any more is left out.
        Returns the mark after them.  Raises :class:`BadStash`, :class:`NoAccess`,
        :class:`StashBusy`."""

    @abstractmethod
    def rewrite(self, records: Iterable[Record], own: OwnCells = NO_CELLS) -> Mark:
        """Put ``records`` in place of all that the file holds, after a backup.  What columns
        that the user added hold stays, but for ``own``, see :meth:`append`.  Returns the
        mark after them.  Raises as :meth:`append` does."""

    def change(
        self, put: Sequence[Record], gone: Collection[str] = (), own: OwnCells = NO_CELLS
    ) -> Mark:
        """Put each record of ``put`` in the place of the one with its id, or at the end
        where there is none, and take those with the ids ``gone`` out, all at one stroke and
        after a backup.  ``own`` and the rest are as for :meth:`rewrite`."""
        with self.locked():
            return self.rewrite(changed(self.read().records, put, gone), own)

    def remove(self, ids: Collection[str]) -> Mark:
        """Take the records with these ids out; see :meth:`change`."""
        return self.change((), ids)

    @contextmanager
    def readable(self) -> Iterator[None]:
        """Turn an ``OSError`` while reading into :class:`BadStash`."""
        try:
            yield
        except OSError as error:
            raise cannot_read(self.path, error) from error


def changed(
    records: Iterable[Record], put: Iterable[Record], gone: Collection[str]
) -> Iterator[Record]:
    """``records`` after a :meth:`Stash.change`."""
    fresh = {record.id: record for record in put}
    left_out = frozenset(gone)
    for record in records:
        if record.id not in left_out:
            yield fresh.pop(record.id, record)
    yield from fresh.values()


def check_columns(path: Path, columns: Sequence[str], *, may_have_own: bool) -> None:
    """Refuse a file that lacks columns of a stash, and unless it ``may_have_own`` one that
    has others or has them in another order.  Raises :class:`BadStash`."""
    foreign = [name for name in columns if name and name not in COLUMNS]
    lacking = [name for name in COLUMNS if name not in columns]
    if lacking or (foreign and not may_have_own):
        found = [f"has {_named(foreign)}"] if foreign else []
        found += [f"lacks {_named(lacking)}"] if lacking else []
        raise BadStash(
            f"{path} has foreign columns ({' and '.join(found)}); give another file for the stash"
        )
    if tuple(columns) != COLUMNS and not may_have_own:
        raise BadStash(
            f"the columns of {path} stand in another order; it must be {', '.join(COLUMNS)}"
        )


def _named(columns: Sequence[str]) -> str:
    """The first of ``columns``, and how many more there are."""
    named = ", ".join(map(quoted, columns[:_MOST_NAMED]))
    more = len(columns) - _MOST_NAMED
    return f"{named} and {more} more" if more > 0 else named
