"""The files of a cabinet and what is remembered of them: all that keeps them agreed.

A tag's picture is written first, then the record or the queue file, and only then
anything that was there before goes away.  What the user does is a stroke: it is written
into the history first, then done to the stash, then to the queue, and then its end is
written into the history.  So a process that is killed at any moment leaves each tag it
reported in its place, once, and a stroke that it began is carried out again by whoever
opens the cabinet next.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from intake.errors import BalltagError, NotConfirmed
from intake.filing.changes import Change
from intake.filing.history import History
from intake.filing.queue import Left, Queue, Waiting
from intake.filing.record import Record, record_from_reading
from intake.filing.same import Past
from intake.filing.settled import with_answers
from intake.filing.stash import Mark, Stash
from intake.filing.strokes import Effect, effect_of
from intake.filing.tag_pictures import TagPictures
from intake.filing.turned_cells import TurnedCells
from intake.filing.written import Written


class Store:
    """One stash with what lies beside it: for ``stash.csv`` the queue in ``stash.queue``,
    the tag pictures in ``stash.tags``, the history in ``stash.history.jsonl``
    and what was last written into each row in ``stash.written.jsonl``."""

    def __init__(self, stash: Stash) -> None:
        self.stash = stash
        self.pictures = TagPictures(stash.path.with_suffix(".tags"))
        self.queue = Queue(stash.path.with_suffix(".queue"), self.pictures)
        self.history = History(stash.path.with_suffix(".history.jsonl"))
        self.written = Written(stash.path.with_suffix(".written.jsonl"))
        self.turned = TurnedCells(stash, self.written, self.history)
        self.filed: set[str] = set()
        """The ids of the records, as of the last look."""
        self._records: dict[str, Record] | None = None  # kept once they were asked for
        self._mark: Mark | None = None
        self._past: Past | None = None

    @contextmanager
    def held(self) -> Iterator[Past]:
        """Hold the lock, with all done that was begun and all known that was filed."""
        with self.stash.locked():
            first = self._past is None
            past = self.look()
            self.turned.note_edits()
            begun = self.history.unfinished()
            if begun:
                self._carry_out(begun)
            if first:
                self._clear_answered()
            yield past

    def finish(self) -> None:
        """Carry out what a process that was killed had begun.  A stash with cells that a
        spreadsheet turned is refused."""
        self.turned.refuse()
        if self.history.unfinished():
            with self.held():
                pass

    def look(self) -> Past:
        """Learn what was filed since the last look."""
        self.turned.refuse()
        rows = self.stash.read(self._mark)
        past = self._past
        if past is None or rows.whole:
            past = Past(self.pictures.load)
            self.filed = set()
            if self._records is not None:
                self._records = {}
        for record in rows.records:
            self._remember(record, past)
        if past is not self._past:
            for item in self.queue.heads():
                if item.id not in self.filed:
                    self._remember_waiting(item, past)
        self._past, self._mark = past, rows.mark
        return past

    def records(self) -> dict[str, Record]:
        """All records by their ids, in the order of the stash."""
        self.look()
        if self._records is None:
            self._records = {record.id: record for record in self.stash.read().records}
        return self._records

    def file(self, record: Record, jpeg: bytes) -> None:
        """Add a record with its tag picture, unless it is there.  For holders."""
        if record.id not in self.filed:
            self.pictures.save(record.id, jpeg)
            self._write(Effect(put=[record]))

    def make(self, changes: Sequence[Change]) -> list[Change]:
        """Make ``changes`` at one stroke.  For holders.  Returns them as the history
        has them.  Where the stash cannot be written, none of them is made."""
        if not changes:
            return []
        effect = self._effect(changes)
        made = self.history.intend(changes)
        try:
            self._write(effect)
        except NotConfirmed:  # it is made, and its end is to be carried out by the next one
            raise
        except BalltagError:
            self.history.call_off()
            raise
        self._finish(effect)
        return made

    def forget(self) -> None:
        """Look at all files anew."""
        self._past = self._mark = self._records = None

    def _carry_out(self, changes: Sequence[Change]) -> None:
        effect = self._effect(changes)
        self._write(effect)
        self._finish(effect)

    def _finish(self, effect: Effect) -> None:
        """Do what a stroke does when the stash has been written."""
        self.queue.place(effect.moves)
        self.history.end()
        past = self._past or self.look()
        for tag_id, left in (*effect.moves.items(), *dict.fromkeys(effect.settled).items()):
            if left in (Left.DISCARDED, Left.JOINED):
                past.forget(tag_id)
            elif tag_id in self.queue:
                self._remember_waiting(self.queue.head(tag_id), past)

    def _effect(self, changes: Sequence[Change]) -> Effect:
        return effect_of(changes, self.history.origin, lambda one: self.records().get(one))

    def _write(self, effect: Effect) -> None:
        """Do to the stash what a stroke does."""
        gone = [record_id for record_id in effect.gone if record_id in self.filed]
        if gone or effect.put:
            with self.written.noting(effect.put, gone):
                self._mark = self._changed(effect.put, gone)
            self.written.vouch(self.stash.path)
        past = self._past or self.look()
        for record_id in gone:
            past.forget(record_id)
            self.filed.discard(record_id)
            if self._records is not None:
                self._records.pop(record_id, None)
        for record in effect.put:
            self._remember(record, past)

    def _changed(self, put: Sequence[Record], gone: Sequence[str]) -> Mark:
        if gone or any(record.id in self.filed for record in put):
            return self.stash.change(put, gone)
        return self.stash.append(put)

    def _remember_waiting(self, item: Waiting, past: Past) -> None:
        past.remember(record_from_reading(with_answers(item, self.history).reading))

    def _remember(self, record: Record, past: Past) -> None:
        past.remember(record)
        self.filed.add(record.id)
        if self._records is not None:
            self._records[record.id] = record

    def _clear_answered(self) -> None:
        """A tag in the stash counts as answered, whoever put it there."""
        self.queue.place(
            {tag_id: Left.ANSWERED for tag_id in self.queue.ids() if tag_id in self.filed}
        )
