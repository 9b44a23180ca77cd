"""The stash, its queue and its tag pictures as one: what a run and a review work with.

A tag's picture is written first, then the record or the queue file, and only then
anything that was there before goes away.  So a process that is killed at any moment
leaves each tag it reported in its place, once: a tag in the stash counts as filed even
if its queue file is still there, and the next run clears that file away.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from intake.filing.answers import BadAnswer, answered
from intake.filing.judge import Doubt, judge, one_per_field
from intake.filing.kinds import open_stash
from intake.filing.queue import Left, NotWaiting, Queue, Waiting
from intake.filing.record import Record, record_from_reading, record_id
from intake.filing.same import REPEAT, REPEAT_ANSWERS, SAME_TAG_AGAIN, Before, Past
from intake.filing.stash import WAIT_S, Mark, Stash
from intake.filing.tag_pictures import TagPictures
from intake.records import Outcome, TagReading


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of one tag of a run: a record where it was filed, doubts where it
    waits, the earlier tag where it was here already."""

    id: str
    outcome: Outcome
    record: Record | None = None
    doubts: tuple[Doubt, ...] = ()
    before: Before | None = None


class Cabinet:
    """One stash with what lies beside it: for ``stash.csv`` the queue in
    ``stash.queue`` and the tag pictures in ``stash.tags``.

    Every method may raise :class:`BadStash`; those that change something also
    :class:`NoAccess` and :class:`StashBusy`.
    """

    def __init__(self, stash: Stash) -> None:
        self.stash = stash
        self.pictures = TagPictures(stash.path.with_suffix(".tags"))
        self.queue = Queue(stash.path.with_suffix(".queue"), self.pictures)
        self._filed: set[str] = set()
        self._mark: Mark | None = None
        self._past: Past | None = None

    def take(self, reading: TagReading) -> Taken:
        """File ``reading`` if all is sure, else let it wait; do neither where it was
        here before."""
        tag_id = record_id(reading.digest, reading.tag)
        with self._up_to_date() as past:
            if self.queue.was_discarded(tag_id):
                before = Before(tag_id, reading.picture, "discarded before")
                return Taken(tag_id, Outcome.ALREADY, before=before)
            if tag_id in self.queue and tag_id not in past:  # another process put it there
                return Taken(
                    tag_id, Outcome.ALREADY, before=Before(tag_id, reading.picture, "the same file")
                )
            look = past.look_back(reading)
            if look.before is not None:
                return Taken(tag_id, Outcome.ALREADY, before=look.before)
            doubts = one_per_field((*judge(reading), *look.doubts))
            if doubts:
                self.hold(reading, doubts)
                return Taken(tag_id, Outcome.QUEUED, doubts=tuple(doubts))
            return Taken(tag_id, Outcome.FILED, record=self.file(reading))

    def file(self, reading: TagReading) -> Record:
        """File ``reading`` as it is, unless it is filed already."""
        record = record_from_reading(reading)
        with self._up_to_date() as past:
            if record.id not in self._filed:
                self.pictures.save(record.id, reading.jpeg)
                self._mark = self.stash.append([record])
                self._filed.add(record.id)
                past.remember(record)
        return record

    def hold(self, reading: TagReading, doubts: Sequence[Doubt]) -> str:
        """Let ``reading`` wait for answers to ``doubts``, at least one.  Returns its id."""
        if not doubts:
            raise ValueError("a tag that waits must have a doubt")
        with self._up_to_date() as past:
            past.remember(record_from_reading(reading))
            return self.queue.add(reading, doubts)

    def waiting(self) -> list[str]:
        """The ids of the tags that wait, those that came first at the head."""
        self._refresh()
        return [tag_id for tag_id in self.queue.ids() if tag_id not in self._filed]

    def get(self, tag_id: str) -> Waiting:
        """One tag that waits.  Raises :class:`NotWaiting`."""
        return self.queue.get(tag_id)

    def further_doubts(self, tag_id: str, answers: Mapping[str, str]) -> list[Doubt]:
        """What is to be asked only now that ``answers`` are known: they may make the tag
        a repeat of a filed one.  Raises as :meth:`resolve` does."""
        past = self._refresh()
        if REPEAT in answers:
            return []
        fields = {name: text for name, text in answers.items() if name != REPEAT}
        return past.repeats(record_from_reading(answered(self.get(tag_id).reading, fields)))

    def resolve(self, tag_id: str, answers: Mapping[str, str]) -> Record | None:
        """File a waiting tag with what the user answered.

        ``answers`` maps fields to values as text, empty for what the tag does not carry;
        a field that is not in it keeps what was read.  A :data:`REPEAT` doubt must be
        answered; ``same tag again`` discards the tag, and ``None`` is returned.  Raises
        :class:`BadAnswer` and :class:`NotWaiting`; the tag then goes on waiting.
        """
        with self._up_to_date():
            item = self._still_waiting(tag_id)
            fields = dict(answers)
            repeat = fields.pop(REPEAT, None)
            asked = any(doubt.field == REPEAT for doubt in item.doubts)
            if repeat not in REPEAT_ANSWERS and (asked or repeat is not None):
                raise BadAnswer(f"answer with {' or '.join(map(repr, REPEAT_ANSWERS))}")
            if repeat == SAME_TAG_AGAIN:
                self.discard(tag_id)
                return None
            record = self.file(answered(item.reading, fields))
            self.queue.remove(tag_id)
            return record

    def discard(self, tag_id: str) -> None:
        """Take a waiting tag out of the queue for good: another run over its picture
        will not ask about it again.  Raises :class:`NotWaiting`."""
        with self._up_to_date() as past:
            self._still_waiting(tag_id)
            self.queue.remove(tag_id, Left.DISCARDED)
            past.forget(tag_id)

    def put_back(self, tag_id: str) -> None:
        """Let a tag that was answered or discarded wait again, as it did before; its
        record leaves the stash.  Raises :class:`NotWaiting` where it never waited."""
        with self._up_to_date() as past:
            self.queue.restore(tag_id)
            if tag_id in self._filed:
                self._mark = self.stash.remove([tag_id])
                self._filed.remove(tag_id)
            past.remember(record_from_reading(self.get(tag_id).reading))

    def _still_waiting(self, tag_id: str) -> Waiting:
        if tag_id in self._filed:
            raise NotWaiting(f"the tag {tag_id} was filed meanwhile")
        return self.get(tag_id)

    @contextmanager
    def _up_to_date(self) -> Iterator[Past]:
        """Hold the lock, knowing all that other processes filed."""
        with self.stash.locked():
            first = self._past is None
            past = self._refresh()
            if first:
                self._clear_answered()
            yield past

    def _clear_answered(self) -> None:
        """Finish what a killed process left: the stash wins over the queue."""
        for tag_id in self.queue.ids():
            if tag_id in self._filed:
                self.queue.remove(tag_id)

    def _refresh(self) -> Past:
        """Learn what was filed since the last look."""
        rows = self.stash.read(self._mark)
        past = self._past
        if past is None or rows.whole:
            past = Past(self.pictures.load)
            self._filed = set()
        for record in rows.records:
            past.remember(record)
            self._filed.add(record.id)
        if past is not self._past:
            for item in self.queue.items():
                if item.id not in self._filed:
                    past.remember(record_from_reading(item.reading))
        self._past, self._mark = past, rows.mark
        return past


def open_cabinet(path: str | os.PathLike[str], wait_s: float = WAIT_S) -> Cabinet:
    """The cabinet of the stash at ``path``; see :func:`intake.filing.kinds.open_stash`."""
    return Cabinet(open_stash(path, wait_s))
