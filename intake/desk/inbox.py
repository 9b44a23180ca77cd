"""Pictures that were sent to the desk.

They are kept in a folder beside the stash (``stash.inbox`` for ``stash.csv``) under names
of our own, first in its folder ``unread``.  One after the other is read in a process of its
own and filed as any picture is; one that brought a record or a question stays, the others
go.  What was not read when the desk closed is read when it opens again.
"""

from __future__ import annotations

import os
import secrets
import threading
from collections import OrderedDict
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from enum import StrEnum
from pathlib import Path
from queue import SimpleQueue
from typing import TYPE_CHECKING, BinaryIO

from filelock import FileLock, Timeout

from intake.errors import BalltagError, EmptyFile, NotAPicture, TooLarge, one_line
from intake.filing.safe_write import keep_names, make_folder, may_write
from intake.pictures.load import HEAD_BYTES, suffix_of
from intake.records import Outcome

if TYPE_CHECKING:
    from intake.run import Filing, TagResult
    from intake.workers import Workers

MOST_BYTES = 100_000_000
"""A larger picture is refused; a phone's have some 10 MB, a colour A4 page at 600 dpi as
TIFF has 100."""

MOST_UNREAD = 100
"""So many pictures may wait to be read; who sends more has to wait."""

_MOST_TOLD = 500
_LONGEST_NAME = 120
_COMING = ".part"
_ANY = "picture"
"""Stands for any file of the folder where one cannot be written."""


class InboxFull(BalltagError):
    """Too many pictures wait to be read."""


class Stage(StrEnum):
    """How far a picture is."""

    WAITS = "waits"
    READING = "reading"
    DONE = "done"


@dataclass(frozen=True, slots=True)
class Sent:
    """One picture that was sent.  ``name`` is what its sender calls it, for people only;
    ``results`` are there when it is done, ``failure`` where something stopped it."""

    id: str
    name: str
    stage: Stage = Stage.WAITS
    results: tuple[Told, ...] = ()
    failure: str = ""


@dataclass(frozen=True, slots=True)
class Told:
    """What became of one tag: its record's or waiting tag's ``id`` and a line of words."""

    outcome: Outcome
    id: str
    words: str


class Coming:
    """A picture on its way: bytes are written as they come, and checked."""

    def __init__(self, folder: Path, name: str) -> None:
        self.name = one_line(name)[:_LONGEST_NAME] or "picture"
        stamp = datetime.now(UTC).strftime("%Y%m%dT%H%M%S")
        self._path = folder / f"{stamp}-{secrets.token_hex(4)}{_COMING}"
        self._file: BinaryIO = self._path.open("xb")
        self._head = b""
        self._size = 0

    def expect(self, size: int) -> None:
        """Raise :class:`TooLarge` where a picture of ``size`` bytes is not taken in."""
        if size > MOST_BYTES:
            raise TooLarge(
                f"{self.name}: has more than {MOST_BYTES // 1_000_000} MB; scan it at 300 dpi"
            )

    def write(self, piece: bytes) -> None:
        """Take the next bytes.  Raises :class:`TooLarge`, :class:`NotAPicture` as soon as
        it can be told, and :class:`~intake.errors.NoAccess` where the disk is full."""
        self._size += len(piece)
        self.expect(self._size)
        if len(self._head) < HEAD_BYTES:
            self._head += piece[: HEAD_BYTES - len(self._head)]
            if len(self._head) == HEAD_BYTES:
                self._suffix()
        with may_write(self._path.with_name(_ANY)):
            self._file.write(piece)

    def keep(self) -> Path:
        """All bytes are there: push them to the disk and give the file its name.  Raises
        :class:`NotAPicture` and :class:`EmptyFile`."""
        if not self._size:
            raise EmptyFile(f"{self.name}: the file is empty; scan or copy it again")
        path = self._path.with_suffix(self._suffix())
        self._file.flush()
        os.fsync(self._file.fileno())
        self._file.close()
        self._path.rename(path)
        keep_names(path.parent)
        return path

    def drop(self) -> None:
        """Leave nothing behind."""
        with suppress(OSError):  # a full disk refuses what is still to be written
            self._file.close()
        self._path.unlink(missing_ok=True)

    def _suffix(self) -> str:
        suffix = suffix_of(self._head)
        if suffix is None:
            raise NotAPicture(
                f"{self.name}: is not a picture that can be read; "
                "use JPEG, PNG, TIFF, WebP, HEIC or PDF"
            )
        return suffix


class Inbox:
    """The pictures sent to the desk of the stash at ``stash``."""

    def __init__(self, stash: Path) -> None:
        self._stash = stash
        self.folder = stash.with_suffix(".inbox")
        self._unread_folder = self.folder / "unread"
        self._sent: OrderedDict[str, Sent] = OrderedDict()
        self._lock = threading.Lock()
        self._queue: SimpleQueue[Path | None] = SimpleQueue()
        self._reader: threading.Thread | None = None
        self._mine = FileLock(self.folder / ".lock", timeout=0)

    def resume(self) -> None:
        """Read what was left unread, unless another desk of this stash is at it."""
        if not self._unread_folder.is_dir() or not self._is_mine():
            return
        for path in sorted(self._unread_folder.iterdir()):
            if path.suffix == _COMING:
                path.unlink()
            else:
                self._enqueue(path, path.name)

    def close(self) -> None:
        """Stop after the picture that is being read."""
        self._queue.put(None)
        if self._reader is not None:
            self._reader.join()
        self._mine.release(force=True)

    def receive(self, name: str) -> Coming:
        """Start to take in a picture that its sender calls ``name``.  Raises
        :class:`InboxFull` and :class:`~intake.errors.NoAccess`."""
        with self._lock:
            unread = sum(sent.stage is not Stage.DONE for sent in self._sent.values())
        if unread >= MOST_UNREAD:
            raise InboxFull(f"{unread} pictures wait to be read; send more when some are done")
        make_folder(self.folder)
        make_folder(self._unread_folder)
        self._is_mine()  # so that a desk opened later leaves alone what comes
        with may_write(self._unread_folder / _ANY):
            return Coming(self._unread_folder, name)

    def add(self, coming: Coming) -> Sent:
        """Let a picture that is there whole be read.  Raises :class:`NotAPicture` and
        :class:`~intake.errors.NoAccess`."""
        with may_write(self._unread_folder / _ANY):
            path = coming.keep()
        return self._enqueue(path, coming.name)

    def all_sent(self) -> Sequence[Sent]:
        """The pictures sent since the desk was opened, the last one first."""
        with self._lock:
            return list(reversed(self._sent.values()))

    def _enqueue(self, path: Path, name: str) -> Sent:
        sent = Sent(path.stem, name)
        self._note(sent)
        with self._lock:
            if self._reader is None:
                self._reader = threading.Thread(target=self._read_all, daemon=True)
                self._reader.start()
        self._queue.put(path)
        return sent

    def _is_mine(self) -> bool:
        """Whether this desk, and no other of the same stash, minds what is left unread."""
        try:
            self._mine.acquire()
        except Timeout:
            return False
        return True

    def _note(self, sent: Sent) -> None:
        with self._lock:
            self._sent[sent.id] = sent
            while len(self._sent) > _MOST_TOLD:
                self._sent.popitem(last=False)

    def _read_all(self) -> None:
        # Here and not at the top: they bring the readers, and the desk should open at once.
        from intake.run import Filing
        from intake.workers import Workers

        with Workers(1) as workers:
            filing: Filing | None = None
            for path in iter(self._queue.get, None):
                with self._lock:
                    sent = self._sent.get(path.stem, Sent(path.stem, path.name))
                self._note(replace(sent, stage=Stage.READING))
                try:
                    filing = filing or Filing(self._stash)
                    told = self._read(path, sent.name, workers, filing)
                    self._note(replace(sent, stage=Stage.DONE, results=told))
                except Exception as error:
                    # Whatever it is, those behind go on; the picture stays for the next time.
                    self._note(replace(sent, stage=Stage.DONE, failure=_why(error)))

    def _read(self, path: Path, name: str, workers: Workers, filing: Filing) -> tuple[Told, ...]:
        filing.learn_shades()
        picture = workers.read(path)
        kept = self.folder / path.name
        tags = tuple(replace(tag, picture=str(kept)) for tag in picture.tags)
        results = list(filing.file(replace(picture, picture=str(kept), tags=tags), name))
        if any(result.outcome in (Outcome.FILED, Outcome.QUEUED) for result in results):
            path.rename(kept)
        else:
            path.unlink()
        return tuple(_told(result, path, name) for result in results)


def _why(error: Exception) -> str:
    if isinstance(error, BalltagError):
        return str(error)
    return f"balltag failed on it ({error}); it is kept, and read when the desk is opened again"


def _told(result: TagResult, path: Path, name: str) -> Told:
    """``result`` in words that call the picture what its sender calls it."""
    from intake.reports.intake import what_of

    words = what_of(result).replace(f"{path}: ", "").replace(str(path), name)
    return Told(result.outcome, result.id, words)
