"""What balltag last wrote into each row of the stash, whatever another program makes of it.

For ``stash.csv`` it is ``stash.written.jsonl``: a line of JSON for each row as it is written,
and one for each that is taken out; the last line about a record holds.  It tells a lot that a
spreadsheet turned into a number from one that is a number, and a row that someone took out.
It is only added to, and read only where the stash was changed by another program: what that
changed is then noted too, with what was there before.

It is never made shorter: it grows by some 550 bytes for each row that is written, as the history
does for each change.  5,000 records, each written twenty times, make 55 MB, which are read in
under a second; adding to them costs no more than adding to an empty file.
"""

from __future__ import annotations

import json
import os
from collections.abc import Collection, Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, BinaryIO

from intake.errors import BadStash, BalltagError, NotConfirmed
from intake.filing.layouts import Cells, upgraded
from intake.filing.record import Record, record_cells
from intake.filing.safe_write import cannot_read, keep_names, may_write

VERSION = 1
"""Version of the layout; it stands in the first line."""

_LINE = 1 << 12
_LONGEST_LINE = 1 << 20
_GONE = "gone"
_WAS = "was"


@dataclass(frozen=True, slots=True)
class Row:
    """The last that was written of a record: its cells, or none where it was taken out.

    ``was`` holds what balltag had written into cells that another program changed since;
    it is ``None`` for a row that balltag never wrote and found in the stash.
    """

    cells: Cells
    is_gone: bool = False
    was: Cells | None = field(default_factory=dict)

    @property
    def is_own(self) -> bool:
        """Whether balltag wrote the row and it should be in the stash."""
        return not self.is_gone and self.was is not None

    def text(self, column: str) -> str:
        """What stands in a column."""
        return self.cells.get(column, "")


class Written:
    """The lines in the file at ``path``, which need not exist.  Raises :class:`BadStash`
    where it is none, or of a newer layout."""

    def __init__(self, path: Path) -> None:
        self.path = path

    @contextmanager
    def noting(self, put: Iterable[Record], gone: Collection[str] = ()) -> Iterator[None]:
        """Note what the block is about to do to the stash; nothing, where it does not.  For
        holders of the stash's lock.  Raises :class:`NoAccess` before the block begins."""
        end = self._add([*map(filled, put), *({"id": one, _GONE: True} for one in gone)])
        try:
            yield
        except NotConfirmed:  # it did
            raise
        except BalltagError:
            with may_write(self.path):
                os.truncate(self.path, end)
            raise

    def note_found(self, rows: Iterable[Row]) -> None:
        """Note what another program made of rows.  For holders of the stash's lock."""
        lines: list[dict[str, Any]] = [{**row.cells, _WAS: row.was} for row in rows]
        if lines:
            self._add(lines)

    def rows(self) -> dict[str, Row]:
        """The last that was written of each record, by its id."""
        try:
            with self.path.open("rb") as file:
                return dict(self._lines(file))
        except FileNotFoundError:
            return {}
        except OSError as error:
            raise cannot_read(self.path, error) from error

    def rows_after(self, end: int) -> dict[str, Row] | None:
        """The last that was written of each record since the file was ``end`` bytes long, see
        :meth:`end`; ``None`` where it is shorter now.  Raises :class:`BadStash`."""
        try:
            with self.path.open("rb") as file:
                if _whole_end(file) < end:
                    return None
                return dict(self._lines(file, end))
        except OSError as error:
            raise cannot_read(self.path, error) from error

    def end(self) -> int:
        """How long the file is, in bytes.  Raises :class:`BadStash`."""
        try:
            with self.path.open("rb") as file:
                return _whole_end(file)
        except OSError as error:
            raise cannot_read(self.path, error) from error

    def vouch(self, stash: Path) -> None:
        """Remember that the stash is as balltag left it.  The moment of the stash's last
        change becomes that of this file: it costs no write, and moves along with both."""
        with suppress(OSError):  # then it is only compared once more
            changed_ns = stash.stat().st_mtime_ns
            os.utime(self.path, ns=(changed_ns, changed_ns))

    def vouches_for(self, stash: Path) -> bool:
        """Whether the stash was not changed since the last :meth:`vouch`."""
        try:
            return self.path.stat().st_mtime_ns == stash.stat().st_mtime_ns
        except OSError:
            return False

    def _add(self, lines: Iterable[dict[str, Any]]) -> int:
        """Add lines.  Returns where the file ended before."""
        data = b"".join(map(_bytes, lines))
        with may_write(self.path), self.path.open("a+b") as file:
            end = _whole_end(file)
            file.truncate(end)
            try:
                if end:
                    self._check_version(file)
                else:
                    data = _bytes({"version": VERSION}) + data
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            except OSError:
                file.truncate(end)
                raise
            if not end:
                keep_names(self.path.parent)
        return end

    def _check_version(self, file: BinaryIO) -> None:
        file.seek(0)
        try:
            version = json.loads(file.readline())["version"]
            newer = version > VERSION
        except (ValueError, KeyError, TypeError) as error:
            raise self._no_line(1) from error
        if newer:
            raise BadStash(
                f"{self.path} has layout version {version}; this balltag reads "
                f"version {VERSION}: use the newer balltag"
            )

    def _lines(self, file: BinaryIO, start: int = 0) -> Iterator[tuple[str, Row]]:
        """The lines after the first one, or from byte ``start`` on."""
        file.seek(0)
        if not file.readline().endswith(b"\n"):
            return
        self._check_version(file)
        file.seek(max(start, file.tell()))
        for number, line in enumerate(file, start=2):
            if not line.endswith(b"\n"):
                return
            try:
                cells = json.loads(line)
                is_gone, was = cells.pop(_GONE, False), cells.pop(_WAS, {})
                yield cells["id"], Row(_not_empty(upgraded(cells)), is_gone, was)
            except (ValueError, KeyError, TypeError, AttributeError) as error:
                raise self._no_line(number) from error

    def _no_line(self, number: int) -> BadStash:
        return BadStash(
            f"line {number} of {self.path} tells of no row; correct it, or move the file away"
        )


def filled(record: Record) -> Cells:
    """The cells of a record that are not empty."""
    return _not_empty(record_cells(record))


def _not_empty(cells: Cells) -> Cells:
    return {name: cell for name, cell in cells.items() if cell}


def _bytes(line: dict[str, Any]) -> bytes:
    return json.dumps(line, separators=(",", ":")).encode("ascii") + b"\n"


def _whole_end(file: BinaryIO) -> int:
    """Where the last whole line ends: a kill may have cut the one after it short."""
    size = file.seek(0, os.SEEK_END)
    for most in (_LINE, _LONGEST_LINE):
        start = max(0, size - most)
        file.seek(start)
        found = file.read().rfind(b"\n")
        if found >= 0:
            return start + found + 1
    return start
