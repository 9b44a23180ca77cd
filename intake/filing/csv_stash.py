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
import os
import re
from collections import deque
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import chain, islice
from types import MappingProxyType
from typing import BinaryIO

import pyarrow as pa

from intake.errors import BadStash
from intake.filing.columns import table_of, table_of_csv
from intake.filing.csv_form import CsvForm, csv_bytes, csv_form, edited_rows, plain_form
from intake.filing.layouts import Cells, refuse_newer, upgraded
from intake.filing.record import Record, record_cells
from intake.filing.safe_write import may_write, replace_file
from intake.filing.stash import NO_CELLS, Mark, OwnCells, Rows, Stash

_FIRST_LINES = 1 << 16
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
                return Rows((), Mark(), whole=after != Mark())
            with file:
                form = self._form(file)
                end, _ = self._whole_end(file, form)
                follows = after is not None and _follows(file, end, after)
                mark = _mark(file, end)
        start = after.size if after is not None and follows else 0
        if start and not form.is_plain:  # others do not add to it: it was written anew
            follows, start = start == end, start if start == end else 0
        return Rows(self._records(form, start, end), mark, whole=not follows)

    def table(self) -> pa.Table:
        """See :meth:`Stash.table`."""
        with self.readable():
            try:
                file = self.path.open("rb")
            except FileNotFoundError:
                return table_of(())
            with file:
                form = self._form(file)
                end, _ = self._whole_end(file, form)
                file.seek(0)
                data = file.read(end) if form.is_plain else b""
        table = table_of_csv(data) if data else None
        return super().table() if table is None else table

    def rows(self) -> Iterator[tuple[str, Cells]]:
        """See :meth:`Stash.rows`."""
        with self.readable():
            try:
                file = self.path.open("rb")
            except FileNotFoundError:
                return
            with file:
                form = self._form(file)
                end, _ = self._whole_end(file, form)
        for line, row in self._rows(form, 0, end):
            try:
                yield f"line {line}", upgraded(form.cells(row), self._steps)
            except ValueError as error:
                raise self._no_record(line, 0, error) from error

    def has_torn_line(self) -> bool:
        """See :meth:`Stash.has_torn_line`."""
        with self.readable():
            if not self.path.exists():
                return False
            with self.path.open("rb") as file:
                end, _ = self._whole_end(file, self._form(file))
                return end < self.path.stat().st_size

    def own_cells(self, ids: Collection[str]) -> dict[str, Cells]:
        """See :meth:`Stash.own_cells`."""
        with self.readable():
            if not self.path.exists():
                return {}
            with self.path.open("rb") as file:
                names = self._form(file).own_columns
        wanted = frozenset(ids) if names else ()
        return {
            row["id"]: cells
            for _, row in (self.rows() if wanted else ())
            if row["id"] in wanted
            and (cells := {name: row[name] for name in names if row.get(name)})
        }

    def append(self, records: Sequence[Record], own: OwnCells = NO_CELLS) -> Mark:
        """See :meth:`Stash.append`.  The cost does not grow with the file, unless it was
        edited into another form: then it is written anew, after a backup."""
        with self.locked():
            if not self.path.exists() or self.path.stat().st_size == 0:
                return self._replace(plain_form(), records)
            with may_write(self.path), self.path.open("r+b", buffering=0) as file:
                form = self._form(file)
                if form.is_plain:
                    return self._append_rows(file, form, records, own)
            return self.rewrite(chain(self.read().records, records), own)

    def rewrite(self, records: Iterable[Record], own: OwnCells = NO_CELLS) -> Mark:
        """See :meth:`Stash.rewrite`."""
        with self.locked():
            if not self.path.exists():
                return self._replace(plain_form(), records)
            with self.readable(), self.path.open("rb") as file:
                form = self._form(file)
            names = form.own_columns
            old: dict[str, deque[Cells]] = {}
            for _, row in self.rows() if names else ():
                old.setdefault(row["id"], deque()).append(row)
            self.backups.keep()
            return self._replace(form if form.is_plain else plain_form(names), records, old, own)

    def _replace(
        self,
        form: CsvForm,
        records: Iterable[Record],
        old: Mapping[str, deque[Cells]] = MappingProxyType({}),
        own: OwnCells = NO_CELLS,
    ) -> Mark:
        """Write all anew; ``old`` are the rows that were there, by their ids: more than one
        where the user copied a row."""
        rows = (
            form.row(
                {**_next(old.get(record.id)), **own.get(record.id, {}), **record_cells(record)}
            )
            for record in records
        )
        pieces = chain([form.header()], _batches(rows))
        replace_file(self.path, lambda file: file.writelines(pieces))
        with self.path.open("rb") as file:
            return _mark(file, file.seek(0, os.SEEK_END))

    def _append_rows(
        self, file: BinaryIO, form: CsvForm, records: Sequence[Record], own: OwnCells
    ) -> Mark:
        rows = csv_bytes(
            form.row({**own.get(record.id, {}), **record_cells(record)}) for record in records
        )
        end, ended = self._whole_end(file, form)
        file.truncate(end)
        file.seek(end)
        try:
            _write_all(file, rows if ended else b"\n" + rows)
            os.fsync(file.fileno())
        except OSError:
            file.truncate(end)  # a full disk must not leave half a batch behind
            raise
        return _mark(file, file.tell())

    def _form(self, file: BinaryIO) -> CsvForm:
        """How the file is written; an empty one will do."""
        file.seek(0)
        start = file.read(_FIRST_LINES)
        if start.count(b"\n") < 2:
            start += file.read(_LONGEST_LINE)
        return csv_form(self.path, start, self._steps) if start else plain_form()

    def _whole_end(self, file: BinaryIO, form: CsvForm) -> tuple[int, bool]:
        """Where the last whole line ends, and whether a line feed ends it.

        A last line without a line feed is whole if it parses: an editor may have dropped
        the line feed.  Else it is torn, or not of balltag's making: ``BadStash``.
        """
        size = file.seek(0, os.SEEK_END)
        if size == 0 or not form.is_ours:
            return size, True
        file.seek(-1, os.SEEK_END)
        if file.read(1) == b"\n":
            return size, True
        file.seek(max(0, size - _LONGEST_LINE))
        last = file.read().rpartition(b"\n")[2]
        if len(last) == size or self._is_record(form, last):  # one line is the header
            return size, False
        if _TORN.fullmatch(last):
            return size - len(last), True
        raise BadStash(
            f"the last line of {self.path} is no record; correct it or give another file"
        )

    def _is_record(self, form: CsvForm, line: bytes) -> bool:
        try:
            (row,) = csv.reader([line.decode()], strict=True)
            form.record(row, self._steps)
        except (ValueError, csv.Error):
            return False
        return True

    def _records(self, form: CsvForm, start: int, end: int) -> Iterator[Record]:
        """The records in the bytes from ``start`` to ``end``."""
        for line, row in self._rows(form, start, end):
            try:
                yield form.record(row, self._steps)
            except ValueError as error:
                if "version" in form.columns and len(row) == len(form.columns):
                    refuse_newer(self.path, row[form.columns.index("version")])
                raise self._no_record(line, start, error) from error

    def _rows(self, form: CsvForm, start: int, end: int) -> Iterator[tuple[int, list[str]]]:
        """The rows in the bytes from ``start`` to ``end``, each with its line counted from
        there; without rows that a spreadsheet left empty."""
        if start >= end:
            return
        line = 0
        try:
            with self.readable(), self.path.open("rb") as file:
                file.seek(start)
                for line, row in (
                    _plain_rows(file, end) if form.is_plain else edited_rows(form, file.read(end))
                ):
                    if any(row):
                        yield line, row
        except (ValueError, csv.Error) as error:
            raise self._no_record(line + 1, start, error) from error

    def _no_record(self, line: int, start: int, error: Exception) -> BadStash:
        counted = " of those added last" if start else ""
        return BadStash(
            f"line {line}{counted} of {self.path} is no record: {error}; correct that line, or "
            "see balltag check"
        )


def _next(rows: deque[Cells] | None) -> Cells:
    """The next of the rows of one id; the last stays."""
    if not rows:
        return {}
    return rows.popleft() if len(rows) > 1 else rows[0]


def _batches(rows: Iterable[Sequence[str]]) -> Iterator[bytes]:
    """The rows as CSV, some hundreds at a time: one at a time is slow, all are large."""
    left = iter(rows)
    while batch := list(islice(left, _BATCH)):
        yield csv_bytes(batch)


def _write_all(file: BinaryIO, data: bytes) -> None:
    """Write all of ``data``; one call on an unbuffered file may take only a part."""
    left = memoryview(data)
    while left:
        left = left[file.write(left) :]


def _plain_rows(file: BinaryIO, end: int) -> Iterator[tuple[int, list[str]]]:
    """The rows of a plain file from here to byte ``end``, without the header."""
    skip = file.tell() == 0
    rows = csv.reader(_lines(file, end), strict=True)
    if skip:
        next(rows)
    for row in rows:
        yield rows.line_num, row


def _lines(file: BinaryIO, end: int) -> Iterator[str]:
    """The lines from here to byte ``end``, as text."""
    place = file.tell()
    for line in file:
        if place >= end:
            return
        yield line.decode("utf-8-sig" if place == 0 else "utf-8")
        place += len(line)


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
