"""The files of a cabinet and what is remembered of them: all that keeps them agreed.

A tag's picture is written first, then the record or the queue file, and only then
anything that was there before goes away.  What the user does is a stroke: it is written
into the history first, then done to the stash, then to the queue, and then its end is
written into the history.  So a process that is killed at any moment leaves each tag it
reported in its place, once, and a stroke that it began is carried out again by whoever
opens the cabinet next.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace

from intake.errors import BadStash, BalltagError, NotConfirmed, StashBusy
from intake.filing.changes import Change
from intake.filing.columns import records_of
from intake.filing.history import History
from intake.filing.index import FiledIds, IndexFile
from intake.filing.kept_tags import KeptTags
from intake.filing.kinds import check_name, open_stash
from intake.filing.queue import Left, Queue, Waiting
from intake.filing.recall import Recalled, recall
from intake.filing.record import Record, record_from_reading
from intake.filing.same import Past
from intake.filing.settled import with_answers
from intake.filing.stash import Mark, Rows, Stash
from intake.filing.strokes import Effect, effect_of, is_whole
from intake.filing.tag_pictures import TagPictures
from intake.filing.turned_cells import TurnedCells
from intake.filing.written import Written

_LOOK_AGAIN_S = 0.2

INDEX_EVERY = 4_000
"""A stash gets an index, or a new one, when so many records are in none: few enough to be read
again at each start."""


class Store:
    """One stash with what lies beside it: for ``stash.csv`` the queue in ``stash.queue``,
    the tag pictures in ``stash.tags``, the history in ``stash.history.jsonl``,
    what was last written into each row in ``stash.written.jsonl`` and, where there are very
    many records, their index in ``stash.index.arrow``.  Raises :class:`BadStash` where
    ``stash.parquet`` lies beside it, which would have the same, or for too long a name."""

    def __init__(self, stash: Stash) -> None:
        check_name(stash.path)
        self.stash = stash
        self.pictures = TagPictures(stash.path.with_suffix(".tags"))
        self.queue = Queue(stash.path.with_suffix(".queue"), self.pictures)
        self.history = History(stash.path.with_suffix(".history.jsonl"))
        self.written = Written(stash.path.with_suffix(".written.jsonl"))
        self.turned = TurnedCells(stash, self.written, self.history)
        self.index = IndexFile(stash.path.with_suffix(".index.arrow"))
        self.filed = FiledIds()
        """The ids of the records, as of the last look."""
        self._records: dict[str, Record] | None = None  # kept once they were asked for
        self._mark: Mark | None = None
        self._past: Past | None = None
        self._unindexed = 0
        self._recalled: tuple[Mark, Recalled] | None = None

    @contextmanager
    def held(self, wait_s: float | None = None) -> Iterator[Past]:
        """Hold the lock, with all done that was begun and all known that was filed.  ``wait_s``
        is as for :meth:`Stash.locked`."""
        with self.stash.locked(wait_s):
            first = self._past is None
            if not self.written.vouches_for(self.stash.path):
                self.index.discard()
            past = self.look()
            self.turned.note_edits()
            begun = self.history.unfinished()
            if begun:
                self._carry_out(begun)
            if first:
                self._clear_answered()
            if self._unindexed >= INDEX_EVERY:
                self._write_index()
            yield past

    def finish(self) -> None:
        """Carry out what a process that was killed had begun.  A stash with cells that a
        spreadsheet turned is refused.

        Most often the one who began is at work and ends it soon: then nobody who only reads has
        to wait for the lock, which on a busy stash goes from one writer to the next."""
        self.turned.refuse()
        begun = self.history.unfinished()
        most_s = time.monotonic() + self.stash.wait_s
        while begun and self.history.unfinished()[:1] == begun[:1]:
            try:
                with self.held(min(_LOOK_AGAIN_S, self.stash.wait_s)):
                    return
            except StashBusy:
                if time.monotonic() > most_s:
                    raise

    def look(self) -> Past:
        """Learn what was filed since the last look."""
        self.turned.refuse()
        rows = self.stash.read(self._mark)
        past, records = self._past, rows.records
        if past is None or rows.whole:
            past, records = self._start_over(rows)
        for record in records:
            self._remember(record, past)
        if past is not self._past:
            for item in self.queue.heads():
                if item.id not in self.filed:
                    self._remember_waiting(item, past)
        self._past, self._mark = past, rows.mark
        return past

    def recall(self, mark: Mark) -> Recalled | None:
        """What is filed up to ``mark``, where that can be told without reading all rows."""
        if self._recalled is None or self._recalled[0] != mark or not self._is_as_left(mark):
            found = recall(self.stash, mark, self.written, self.index)
            self._recalled = None if found is None else (mark, found)
        return None if self._recalled is None else self._recalled[1]

    def _is_as_left(self, mark: Mark) -> bool:
        return self.written.vouches_for(self.stash.path) and self.stash.is_at(mark)

    def _start_over(self, rows: Rows) -> tuple[Past, Iterable[Record]]:
        """What is known to begin with, and the records to be remembered besides."""
        recalled = self.recall(rows.mark)
        self._unindexed = 0
        if recalled is None:
            self.filed = FiledIds()
            self._records = None if self._records is None else {}
            return Past(self.pictures.load), rows.records
        self.filed = FiledIds(recalled.index)
        self._records = None
        past = Past(self.pictures.load, KeptTags(recalled.index))
        for record_id in recalled.gone:
            past.forget(record_id)
            self.filed.discard(record_id)
        return past, recalled.put

    def _write_index(self) -> None:
        if self.written.vouches_for(self.stash.path):
            self.index.write(self.stash.table(), self.written.end())
        self._unindexed = 0

    def records(self) -> dict[str, Record]:
        """All records by their ids, in the order of the stash."""
        self.look()
        if self._records is None:
            self._records = {record.id: record for record in records_of(self.stash.table())}
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
        changes = self._with_own_cells(changes)
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

    def restore(self, name: str) -> None:
        """Put the backup of that name in place of the stash, after a backup of that.  What the
        stash then holds is what balltag wrote: older lots are no turned ones.  A row that was
        taken out since is left for a check to tell.  Raises :class:`BadStash`, also where the
        backup is no stash, :class:`NoAccess` and :class:`StashBusy`."""
        backup = self.stash.backups.named(name)
        with self.stash.locked():
            records = open_stash(backup).records()
            try:
                known = self.written.rows()
            except BadStash:  # which a check tells
                known, records = {}, []
            rows = [one for one in records if one.id not in known or known[one.id].is_own]
            with self.written.noting(rows):
                self.stash.backups.restore(backup)
            self.forget()

    def _with_own_cells(self, changes: Sequence[Change]) -> list[Change]:
        """``changes`` with what the user's own columns hold of records that leave, and held
        of those that come back."""
        leaving = {one.record for one in changes if is_whole(one.old)}
        own = self.stash.own_cells(leaving) if leaving else {}
        return [
            replace(one, own=own.get(one.record, {}))
            if one.record in leaving
            else replace(one, own=one.own or self._left_with(one.record))
            if is_whole(one.new)
            else one
            for one in changes
        ]

    def _left_with(self, record_id: str) -> Mapping[str, str]:
        """What the user's own columns held of a record when it left the stash."""
        past = reversed(self.history.changes(record_id))
        return next((one.own for one in past if is_whole(one.old)), {})

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
                self._mark = self._changed(effect, gone)
            self.written.vouch(self.stash.path)
        past = self._past or self.look()
        for record_id in gone:
            past.forget(record_id)
            self.filed.discard(record_id)
            if self._records is not None:
                self._records.pop(record_id, None)
        for record in effect.put:
            self._remember(record, past)

    def _changed(self, effect: Effect, gone: Sequence[str]) -> Mark:
        if gone or any(record.id in self.filed for record in effect.put):
            return self.stash.change(effect.put, gone, effect.own)
        return self.stash.append(effect.put, effect.own)

    def _remember_waiting(self, item: Waiting, past: Past) -> None:
        past.remember(record_from_reading(with_answers(item, self.history).reading))

    def _remember(self, record: Record, past: Past) -> None:
        past.remember(record)
        self.filed.add(record.id)
        self._unindexed += 1
        if self._records is not None:
            self._records[record.id] = record

    def _clear_answered(self) -> None:
        """A tag in the stash counts as answered, whoever put it there."""
        self.queue.place(
            {tag_id: Left.ANSWERED for tag_id in self.queue.ids() if tag_id in self.filed}
        )
