"""Cells of the stash that a spreadsheet turned into something else, found and named."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass

from intake.errors import BadStash, NoAccess
from intake.filing.history import History
from intake.filing.layouts import Cells
from intake.filing.record import NUMBERS
from intake.filing.stash import Stash
from intake.filing.turned import turned_into
from intake.filing.written import Row, Written, filled
from intake.records import FIELDS

TEXTS = tuple(name for name in FIELDS if name not in NUMBERS)
"""The columns whose text a spreadsheet may turn."""


@dataclass(frozen=True, slots=True)
class TurnedCell:
    """One cell: where its row stands, the record, the column, what balltag wrote there,
    what stands there now, and what it looks turned into."""

    place: str
    record: str
    column: str
    known: str
    text: str
    into: str

    def __str__(self) -> str:
        return (
            f"{self.place}, {self.column} of {self.record}: {self.known} looks turned into "
            f"{self.into} ({self.text})"
        )


class TurnedCells:
    """Looks for turned cells in a stash that another program changed, and takes note of all
    else that it changed."""

    def __init__(self, stash: Stash, written: Written, history: History) -> None:
        self._stash = stash
        self._written = written
        self._history = history
        self._sound: tuple[int, ...] = ()

    def refuse(self) -> None:
        """Raise :class:`BadStash` where the stash has a turned cell: a lot that is silently
        another one is the worst that can befall it."""
        state = self._state()
        if state == self._sound or self._written.vouches_for(self._stash.path):
            return
        turned = list(self.found())
        if turned:
            with suppress(NoAccess), self._stash.locked():  # another process may be writing
                turned = list(self.found())
        if turned:
            more = f" (and {len(turned) - 1} more)" if turned[1:] else ""
            raise BadStash(
                f"{self._stash.path}, {turned[0]}{more}; see balltag check, which can put back "
                "what was there"
            )
        self._sound = state

    def found(self) -> Iterator[TurnedCell]:
        """The turned cells.  A stroke that was begun may have written its rows or not."""
        begun = {change.record for change in self._history.unfinished()}
        known = self._written.rows()
        for place, cells in self._stash.rows():
            before = known.get(cells["id"])
            if before is None or before.is_gone or cells["id"] in begun:
                continue
            for column in TEXTS:
                was, text = before.text(column), cells[column]
                if text != was and (into := turned_into(was, text)):
                    yield TurnedCell(place, cells["id"], column, was, text, into)

    def note_edits(self) -> None:
        """Take what another program changed, and no cell of it is turned, for what the stash
        holds from now on.  For holders of the stash's lock."""
        if self._written.vouches_for(self._stash.path):
            return
        known = self._written.rows()
        begun = {change.record for change in self._history.unfinished()}
        records = (record for record in self._stash.records() if record.id not in begun)
        self._written.note_found(
            row for row in (_as_found(filled(one), known.get(one.id)) for one in records) if row
        )
        self._written.vouch(self._stash.path)

    def _state(self) -> tuple[int, ...]:
        try:
            status = self._stash.path.stat()
        except OSError:
            return ()
        return status.st_ino, status.st_size, status.st_mtime_ns


def _as_found(cells: Cells, before: Row | None) -> Row | None:
    """The row to note for ``cells``; ``None`` where it is ``before``."""
    if before is None or before.is_gone:
        return Row(cells, was=None)
    if cells == before.cells:
        return None
    names = {name for name in (*cells, *before.cells) if cells.get(name) != before.cells.get(name)}
    if before.was is None:
        return Row(cells, was=None)
    was = {**{name: before.text(name) for name in names}, **before.was}
    return Row(cells, was={name: text for name, text in was.items() if text != cells.get(name, "")})
