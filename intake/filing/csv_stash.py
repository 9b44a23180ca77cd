"""A stash in a CSV file.

UTF-8, a header, one line per record, lines end with a line feed.  Every cell is text;
read it with ``pandas.read_csv(path, dtype=str, keep_default_na=False)``, or pandas takes
a lot ``0012`` for a number and a lot ``NA`` for nothing.

Records are added at the end of the file and pushed to the disk, so adding to a long
stash costs no more than adding to a short one.  A process that is killed while it adds
can leave the start of a line behind: such a torn line was never reported as filed,
reading passes over it and the next append cuts it off.
"""

from __future__ import annotations

import csv
import io
import os
import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import chain, islice
from pathlib import Path
from typing import BinaryIO

import pyarrow as pa

from intake.errors import BadStash
from intake.filing.columns import table_of, table_of_csv
from intake.filing.record import COLUMNS, Record, record_cells, record_from_row
from intake.filing.safe_write import may_write, replace_file
from intake.filing.stash import Mark, Rows, Stash, changed, check_columns

_LONGEST_LINE = 1 << 20
_TAIL = 256
_BATCH = 500
_TORN = re.compile(rb"t?|t[0-9a-f]{0,15}|t[0-9a-f]{15},.*", re.DOTALL)
"""How a torn line begins: as a record's id does."""


class CsvStash(Stash):
    """A stash in a CSV file."""

    def read(self, after: Mark | None = None) -> Rows:
        """See :meth:`Stash.read`.  Reading on from a mark costs what came after it."""
        with self.readable():
            try:
                file = self.path.open("rb")
            except FileNotFoundError:
                return Rows((), Mark(), whole=True)
            with file:
                end, _ = _whole_end(file, self.path)
                _check_head(file, end, self.path)
                follows = after is not None and _follows(file, end, after)
                mark = _mark(file, end)
        start = after.size if after is not None and follows else 0
        return Rows(self._records(start, end), mark, whole=not follows)

    def table(self) -> pa.Table:
        """See :meth:`Stash.table`."""
        with self.readable():
            try:
                file = self.path.open("rb")
            except FileNotFoundError:
                return table_of(())
            with file:
                end, _ = _whole_end(file, self.path)
                _check_head(file, end, self.path)
                file.seek(0)
                data = file.read(end)
        table = table_of_csv(data) if data else table_of(())
        return super().table() if table is None else table

    def append(self, records: Sequence[Record]) -> Mark:
        """See :meth:`Stash.append`.  The cost does not grow with the file."""
        rows = _csv_bytes(map(_row, records))
        with self.locked():
            if not self.path.exists() or self.path.stat().st_size == 0:
                return self._replace([_csv_bytes([COLUMNS]), rows])
            with may_write(self.path), self.path.open("r+b", buffering=0) as file:
                return self._append_rows(file, rows)

    def change(self, put: Sequence[Record], gone: Collection[str] = ()) -> Mark:
        """See :meth:`Stash.change`.  The file is written anew."""
        with self.locked():
            after = changed(self.read().records, put, gone)
            return self._replace(_batches(chain([COLUMNS], map(_row, after))))

    def _replace(self, pieces: Iterable[bytes]) -> Mark:
        replace_file(self.path, lambda file: file.writelines(pieces))
        with self.path.open("rb") as file:
            return _mark(file, file.seek(0, os.SEEK_END))

    def _append_rows(self, file: BinaryIO, rows: bytes) -> Mark:
        end, ended = _whole_end(file, self.path)
        _check_head(file, end, self.path)
        file.truncate(end)
        file.seek(end)
        try:
            _write_all(file, rows if ended else b"\n" + rows)
            os.fsync(file.fileno())
        except OSError:
            file.truncate(end)  # a full disk must not leave half a batch behind
            raise
        return _mark(file, file.tell())

    def _records(self, start: int, end: int) -> Iterator[Record]:
        """The records in the bytes from ``start`` to ``end``."""
        if end == 0:
            return
        with self.readable(), self.path.open("rb") as file:
            file.seek(start)
            reader = csv.reader(_lines(file, end), strict=True)
            try:
                if start == 0:
                    next(reader)
                for cells in reader:
                    yield record_from_row(cells)
            except (ValueError, csv.Error) as error:
                counted = "" if start == 0 else " of those added last"
                raise BadStash(
                    f"line {reader.line_num}{counted} of {self.path} is no record: {error}; "
                    "correct or delete that line"
                ) from error


def _batches(rows: Iterable[Sequence[str]]) -> Iterator[bytes]:
    """The rows as CSV, some hundreds at a time: one at a time is slow, all are large."""
    left = iter(rows)
    while batch := list(islice(left, _BATCH)):
        yield _csv_bytes(batch)


def _row(record: Record) -> list[str]:
    return list(record_cells(record).values())


def _csv_bytes(rows: Iterable[Sequence[str]]) -> bytes:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue().encode()


def _write_all(file: BinaryIO, data: bytes) -> None:
    """Write all of ``data``; one call on an unbuffered file may take only a part."""
    left = memoryview(data)
    while left:
        left = left[file.write(left) :]


def _lines(file: BinaryIO, end: int) -> Iterator[str]:
    """The lines from here to byte ``end``, as text."""
    place = file.tell()
    for line in file:
        if place >= end:
            return
        yield line.decode("utf-8-sig" if place == 0 else "utf-8")
        place += len(line)


def _whole_end(file: BinaryIO, path: Path) -> tuple[int, bool]:
    """Where the last whole line ends, and whether a line feed ends it.

    A last line without a line feed is whole if it parses: an editor may have dropped
    the line feed.  Else it is torn, or not of balltag's making: ``BadStash``.
    """
    size = file.seek(0, os.SEEK_END)
    if size == 0:
        return 0, True
    file.seek(-1, os.SEEK_END)
    if file.read(1) == b"\n":
        return size, True
    file.seek(max(0, size - _LONGEST_LINE))
    last = file.read().rpartition(b"\n")[2]
    if len(last) == size or _is_record(last):  # one line is a header, and checked as such
        return size, False
    if _TORN.fullmatch(last):
        return size - len(last), True
    raise BadStash(f"the last line of {path} is no record; correct it or give another file")


def _is_record(line: bytes) -> bool:
    try:
        (cells,) = csv.reader([line.decode()], strict=True)
        record_from_row(cells)
    except (ValueError, csv.Error):
        return False
    return True


def _check_head(file: BinaryIO, end: int, path: Path) -> None:
    """Refuse a file whose header is not the stash's.  An empty file will do."""
    if end == 0:
        return
    file.seek(0)
    reader = csv.reader(_lines(file, end))
    try:
        columns = next(reader, [])
        first = next(reader, None)
    except (ValueError, csv.Error) as error:
        raise BadStash(f"{path} is no CSV file in UTF-8; give another file") from error
    version = None
    if first is not None and "version" in columns and len(first) == len(columns):
        version = first[columns.index("version")]
    check_columns(path, columns, version)


def _mark(file: BinaryIO, end: int) -> Mark:
    status = os.fstat(file.fileno())
    return Mark(status.st_ino, end, status.st_mtime_ns, _tail(file, end))


def _tail(file: BinaryIO, end: int) -> bytes:
    file.seek(max(0, end - _TAIL))
    return file.read(min(end, _TAIL))


def _follows(file: BinaryIO, end: int, mark: Mark) -> bool:
    """Whether the file only grew since ``mark``, or stayed as it was."""
    status = os.fstat(file.fileno())
    may_follow = end > mark.size > 0 or (end == mark.size and status.st_mtime_ns == mark.changed_ns)
    same_file = status.st_ino == mark.inode
    return same_file and may_follow and _tail(file, mark.size) == mark.tail
