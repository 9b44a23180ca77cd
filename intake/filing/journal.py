"""A file of JSON lines that only grows: what is written once is never lost.

The first line tells the layout's version.  Each line is pushed to the disk before the
writer goes on.  A line that was cut short, by a kill or a full disk, is passed over, and
cut off by the next one; nothing was done yet of what it tells.
"""

from __future__ import annotations

import json
import os
from abc import ABC, abstractmethod
from collections.abc import Mapping
from pathlib import Path
from typing import Any, BinaryIO, ClassVar

from intake.errors import BadStash
from intake.filing.safe_write import cannot_read, keep_names, may_write

Json = Mapping[str, Any]
"""What a line holds."""

_TAIL = 256


class Journal(ABC):
    """The file at ``path``, which need not exist.

    Reading follows what other processes add.  Raises :class:`BadStash` where the file is
    no such journal; what writes, for holders of the stash's lock, also :class:`NoAccess`.
    """

    version: ClassVar[int]
    """Version of the layout."""

    name: ClassVar[str]
    """What the file is, in one word."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._seen = (0, 0, 0)
        self._end = 0  # of the last whole line that was read, in bytes
        self._tail = b""  # how that line ends
        self._clear()

    @abstractmethod
    def _clear(self) -> None:
        """Know of no line."""

    @abstractmethod
    def _take(self, data: Json) -> None:
        """Take in a line after the first one; ``ValueError``, ``KeyError``, ``TypeError``
        or ``AttributeError`` where it is none."""

    def _read_on(self) -> None:
        """Take in the lines that came since the last look."""
        try:
            status = self.path.stat()
            seen = status.st_ino, status.st_size, status.st_mtime_ns
            if seen != self._seen:
                with self.path.open("rb") as file:
                    if not self._goes_on(file):
                        self._start_over()
                    self._take_in(file)
                self._seen = seen
        except FileNotFoundError:
            self._start_over()
        except OSError as error:
            raise cannot_read(self.path, error) from error

    def _goes_on(self, file: BinaryIO) -> bool:
        """Whether what was read of the file is still there."""
        file.seek(self._end - len(self._tail))
        return file.read(len(self._tail)) == self._tail

    def _add(self, *lines: Json) -> None:
        """Add lines, after the version where they are the first.  A full disk leaves none
        of them.  All lines that are there must have been read."""
        fresh = self._end == 0
        head = [_bytes({"version": self.version})] if fresh else []
        with may_write(self.path), self.path.open("ab") as file:
            file.truncate(self._end)  # what was cut short
            try:
                file.writelines((*head, *map(_bytes, lines)))
                file.flush()
                os.fsync(file.fileno())
            except OSError:
                file.truncate(self._end)
                raise
            if fresh:
                keep_names(self.path.parent)
        self._read_on()

    def _cut(self, end: int) -> None:
        """Take off all from byte ``end`` on."""
        with may_write(self.path), self.path.open("r+b") as file:
            file.truncate(end)
            os.fsync(file.fileno())
        self._start_over()

    def _start_over(self) -> None:
        self._seen, self._end, self._tail = (0, 0, 0), 0, b""
        self._clear()

    def _take_in(self, file: BinaryIO) -> None:
        file.seek(self._end)
        for line in file:
            if not line.endswith(b"\n"):
                return
            try:
                data = json.loads(line)
                if self._end == 0:
                    self._check_version(data["version"])
                else:
                    self._take(data)
            except (ValueError, KeyError, TypeError, AttributeError) as error:
                raise BadStash(
                    f"line {self._lines_read() + 1} of {self.path} is no line of a "
                    f"{self.name}; correct it, or move the file away"
                ) from error
            self._end += len(line)
            self._tail = line[-_TAIL:]

    def _lines_read(self) -> int:
        return self.path.read_bytes()[: self._end].count(b"\n")

    def _check_version(self, version: int) -> None:
        if version > self.version:
            raise BadStash(
                f"{self.path} has layout version {version}; this balltag reads "
                f"version {self.version}: use the newer balltag"
            )


def _bytes(data: Json) -> bytes:
    # ASCII, for a path may hold bytes that are no UTF-8.
    return json.dumps(data, separators=(",", ":")).encode("ascii") + b"\n"
