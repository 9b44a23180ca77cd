"""The stash, its queue, its tag pictures and its history as one: what a run, a review and
later corrections work with."""

from __future__ import annotations

import os
from collections.abc import Collection, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from itertools import chain, count

import pyarrow as pa

from intake.errors import BadStash, BalltagError, CannotUndo, NoAccess, NoSuchRecord
from intake.filing.answers import BadAnswer, answered
from intake.filing.asked import Asked, AskedTags
from intake.filing.changes import Action, Change
from intake.filing.judge import Doubt, judge, one_per_field
from intake.filing.kinds import open_stash
from intake.filing.learnt import Learnt, Lesson, lessons_of_answer, lessons_of_correction
from intake.filing.printed_tag import printed_before, printed_doubts, printed_for
from intake.filing.queue import NotWaiting, Waiting
from intake.filing.recall import Recalled
from intake.filing.record import (
    Record,
    record_from_reading,
    record_id,
    split_id,
    with_cells,
)
from intake.filing.same import REPEAT, REPEAT_ANSWERS, SAME_TAG_AGAIN, Before, Past
from intake.filing.settled import with_answers
from intake.filing.sides import (
    OTHER_SIDE,
    SIDE,
    SIDE_ANSWERS,
    OtherSide,
    as_waiting,
    disagreements,
    from_other_side,
    further_sides_doubts,
    other_side_id,
    side_cells,
    with_both_sides,
)
from intake.filing.stash import WAIT_S, Mark, Stash
from intake.filing.store import Store
from intake.filing.strokes import (
    LEFT_BY,
    answered_change,
    corrected_change,
    discarded_change,
    filled_change,
    joined_change,
    merged_change,
    settled_change,
    split_changes,
    undone_change,
    weighed_change,
    withdrawn_change,
)
from intake.filing.undo import check_can_undo
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
    """One stash with what lies beside it, see :class:`~intake.filing.store.Store`.

    Every method may raise :class:`BadStash`; those that change something also
    :class:`NoAccess` and :class:`StashBusy`.  What the user does (answers, corrections
    and so on) is kept in ``history`` and can be taken back with :meth:`undo`; what it taught
    is in ``learnt``.  One thread at a time may use a cabinet; processes may share a stash.
    """

    def __init__(self, stash: Stash) -> None:
        self._store = Store(stash)
        self.stash = stash
        self.pictures = self._store.pictures
        self.queue = self._store.queue
        self.history = self._store.history
        self._asked = AskedTags(self.queue, self.history)
        self.learnt = Learnt(stash.path.with_suffix(".learnt.jsonl"), self.history)

    def finish(self) -> None:
        """Carry out what a process that was killed had begun."""
        self._store.finish()

    def recall(self, mark: Mark) -> Recalled | None:
        """See :meth:`intake.filing.store.Store.recall`."""
        return self._store.recall(mark)

    # Tags as they are read

    def take(self, reading: TagReading) -> Taken:
        """File ``reading`` if all is sure, else let it wait; do neither where it was
        here before."""
        tag_id = record_id(reading.digest, reading.tag)
        with self._store.held() as past:
            gone = self._how_gone(tag_id)
            if gone:
                before = Before(tag_id, reading.picture, gone)
                return Taken(tag_id, Outcome.ALREADY, before=before)
            if tag_id in self.queue and tag_id not in past:  # another process put it there
                return Taken(
                    tag_id, Outcome.ALREADY, before=Before(tag_id, reading.picture, "the same file")
                )
            known = [
                self.record(one)
                for one in printed_for(reading.barcodes)
                if one in self._store.filed
            ]
            printed = printed_doubts(reading, known)
            if known and not printed:
                return Taken(tag_id, Outcome.ALREADY, before=printed_before(known))
            look = past.look_back(reading)
            if look.before is not None:
                return Taken(tag_id, Outcome.ALREADY, before=look.before)
            side = past.other_side(reading)
            asked = [] if side is None else [side.doubt]
            doubts = one_per_field((*asked, *judge(reading), *look.doubts, *printed))
            if not doubts:
                return Taken(tag_id, Outcome.FILED, record=self.file(reading))
            self.hold(reading, doubts)
            if side is not None and side.named and self._is_whole_with(tag_id, side.id):
                return self._joined(tag_id, side)
            return Taken(tag_id, Outcome.QUEUED, doubts=tuple(doubts))

    def _is_whole_with(self, tag_id: str, other_id: str) -> bool:
        """Whether a waiting tag and its other side together leave nothing to ask."""
        item = self._still_waiting(tag_id)
        open_ = [doubt for doubt in item.doubts if doubt.field != SIDE]
        answers = {SIDE: OTHER_SIDE}
        filled = self.from_other_side(tag_id, answers)
        return all(doubt.field in filled for doubt in open_) and not self.further_doubts(
            tag_id, answers
        )

    def _joined(self, tag_id: str, side: OtherSide) -> Taken:
        record = self.resolve(tag_id, {SIDE: OTHER_SIDE})
        if record is not None and record.id == tag_id:
            return Taken(tag_id, Outcome.FILED, record=record)
        before = Before(side.id, side.picture, f"the other side of record {side.id}")
        return Taken(tag_id, Outcome.ALREADY, before=before)

    def file(self, reading: TagReading) -> Record:
        """File ``reading`` as it is, unless it is filed already."""
        record = record_from_reading(reading)
        with self._store.held():
            self._store.file(record, reading.jpeg)
        return record

    def hold(self, reading: TagReading, doubts: Sequence[Doubt]) -> str:
        """Let ``reading`` wait for answers to ``doubts``, at least one.  Returns its id."""
        if not doubts:
            raise ValueError("a tag that waits must have a doubt")
        with self._store.held() as past:
            past.remember(record_from_reading(reading))
            return self.queue.add(reading, doubts)

    def has_met(self, tag_id: str) -> bool:
        """Whether a tag is filed, waits, or was taken away for good."""
        self._store.look()
        return tag_id in self._store.filed or tag_id in self.queue or bool(self._how_gone(tag_id))

    def _how_gone(self, tag_id: str) -> str:
        """How the user took a tag or its record away for good; empty where not so."""
        if self.queue.was_discarded(tag_id):
            return "discarded before"
        last = self.history.standing(tag_id)[-1:]
        if last and last[0].action is Action.WITHDRAWN:
            return "withdrawn before"
        if last and last[0].action is Action.JOINED:
            return f"the other side of record {last[0].into}"
        if last and last[0].action is Action.MERGED:
            return f"merged into record {last[0].into} before"
        return ""

    # Tags that wait

    def waiting(self) -> list[str]:
        """The ids of the tags that wait, those that came first at the head."""
        self._store.look()
        return [tag_id for tag_id in self.queue.ids() if tag_id not in self._store.filed]

    def asked(self) -> dict[str, Asked]:
        """What is asked about each tag that waits, in the order of :meth:`waiting`.  Kept
        in memory: only what came or changed since the last time is read."""
        self._store.look()
        asked = self._asked.all()
        return {tag_id: asked[tag_id] for tag_id in asked if tag_id not in self._store.filed}

    def get(self, tag_id: str) -> Waiting:
        """One tag that waits, with what was answered about it so far.  Raises
        :class:`NotWaiting`."""
        return self._as_answered(self.queue.get(tag_id))

    def _as_answered(self, item: Waiting) -> Waiting:
        item = with_answers(item, self.history)
        if item.doubts:
            return item
        past = self._store.look()
        return replace(item, doubts=tuple(past.repeats(record_from_reading(item.reading))))

    def side(self, tag_id: str) -> Waiting:
        """A waiting tag or a record, as what another tag may be the other side of.  Raises
        :class:`NotWaiting` where it is neither."""
        record = self._store.records().get(tag_id)
        if record is None:
            return self.get(tag_id)
        item = as_waiting(record)
        return replace(item, reading=replace(item.reading, jpeg=self.pictures.load(tag_id)))

    def from_other_side(
        self, tag_id: str, answers: Mapping[str, str], joined: str = ""
    ) -> dict[str, str]:
        """What only the other side of a waiting tag says, by fields as text; nothing where
        ``answers`` do not say that it has one.  Arguments as for :meth:`resolve`."""
        item = self._as_answered(self.queue.head(tag_id))
        other = self._other_side(item, answers, joined)
        return {} if other is None else from_other_side(item.reading, other.reading)

    def _other_side(self, item: Waiting, answers: Mapping[str, str], joined: str) -> Waiting | None:
        """The tag that is joined to ``item``: ``joined``, or the one that was asked about."""
        if not joined and answers.get(SIDE) == OTHER_SIDE:
            joined = other_side_id(item.doubts)
        return self.side(joined) if joined else None

    def further_doubts(
        self, tag_id: str, answers: Mapping[str, str], joined: str = ""
    ) -> list[Doubt]:
        """What is to be asked only now that ``answers`` are known: they may make the tag a
        repeat of a filed one, or join it to another side that says otherwise.  Arguments and
        errors as for :meth:`resolve`."""
        past = self._store.look()
        fields = _of_fields(answers)
        item = self._as_answered(self.queue.head(tag_id))
        other = self._other_side(item, answers, joined)
        reading, doubts = item.reading, []
        if other is not None:
            doubts = further_sides_doubts(reading, other, fields)
            reading = with_both_sides(reading, other.reading)
        if REPEAT not in answers and (other is None or other.id not in self._store.filed):
            doubts += past.repeats(record_from_reading(answered(reading, fields)))
        return doubts

    def resolve(self, tag_id: str, answers: Mapping[str, str], joined: str = "") -> Record | None:
        """File a waiting tag with what the user answered.

        ``answers`` maps fields to values as text, empty for what the tag does not carry;
        a field that is not in it keeps what was read.  A :data:`REPEAT` or :data:`SIDE` doubt
        must be answered; ``same tag again`` discards the tag, and ``None`` is returned.
        ``joined`` is the id of a waiting tag or a record that is its other side, whatever is
        asked: both become one record, which is returned.  Raises :class:`BadAnswer` and
        :class:`NotWaiting`; the tag then goes on waiting.
        """
        with self._store.held():
            item = self._still_waiting(tag_id)
            repeat = _chosen(item, answers, REPEAT, REPEAT_ANSWERS)
            if repeat == SAME_TAG_AGAIN:
                self.discard(tag_id)
                return None
            _chosen(item, answers, SIDE, SIDE_ANSWERS)
            fields = _of_fields(answers)
            other = self._other_side(item, answers, joined)
            if other is not None:
                return self._join(item, other, fields)
            return self._answer(item, answered(item.reading, fields))

    def _answer(self, item: Waiting, reading: TagReading, *further: Change) -> Record:
        as_read = self.queue.head(item.id)
        record = record_from_reading(reading)
        made = self._store.make([answered_change(record), *further])
        self._learn(made[:1], {item.id: as_read})
        return record

    def _join(self, item: Waiting, other: Waiting, fields: Mapping[str, str]) -> Record:
        """Make one record of a waiting tag and its other side."""
        for doubt in disagreements(item.reading, other.reading, fields):
            raise BadAnswer(f"{doubt.reason}; say which it is")
        whole = answered(with_both_sides(item.reading, other.reading), fields)
        if other.id not in self._store.filed:
            return self._answer(item, whole, joined_change(other.id, item.id))
        record = self.record(other.id)
        filled = filled_change(record, side_cells(record, whole, item.reading, fields))
        self._store.make([*filter(None, [filled]), joined_change(item.id, record.id)])
        return self.record(record.id)

    def settle(self, answers: Mapping[str, Mapping[str, str]]) -> list[Change]:
        """Answer doubts about many waiting tags at one stroke.

        ``answers`` maps ids to fields to texts, in the form that :meth:`resolve` takes.
        A tag with nothing left to ask is filed, any other goes on waiting with what was
        answered.  Raises :class:`BadAnswer` and :class:`NotWaiting`; then nothing is
        changed at all.
        """
        with self._store.held() as past:
            try:
                as_read = {tag_id: self.queue.head(tag_id) for tag_id in answers}
                changes = [self._settled(tag_id, answers[tag_id], past) for tag_id in answers]
                made = self._store.make(changes)
            except BalltagError:
                self._store.forget()  # that these tags were to be filed
                raise
            self._learn(made, as_read)
            return made

    def _settled(self, tag_id: str, answers: Mapping[str, str], past: Past) -> Change:
        item = self._still_waiting(tag_id)
        record = record_from_reading(answered(item.reading, answers))
        is_open = any(doubt.field not in answers for doubt in item.doubts)
        if is_open or past.repeats(record):
            return settled_change(item, answers)
        past.remember(record)  # the next of these tags may repeat it
        return answered_change(record)

    def discard(self, tag_id: str) -> None:
        """Take a waiting tag out of the queue for good: another run over its picture
        will not ask about it again.  Raises :class:`NotWaiting`."""
        with self._store.held():
            self._still_waiting(tag_id)
            self._store.make([discarded_change(tag_id)])

    def put_back(self, tag_id: str) -> None:
        """Let a tag that was answered or discarded wait again, as it did before; its
        record leaves the stash.  Raises :class:`NotWaiting` where it never waited,
        :class:`CannotUndo` where its record was changed since."""
        with self._store.held():
            made = [one for one in self.history.standing(tag_id) if one.action in LEFT_BY]
            if self.queue.left(tag_id) is None or not made:
                raise NotWaiting(
                    f"the tag {tag_id} was neither answered nor discarded; see balltag history"
                )
            self._take_back(self._with_its_sides(made[-1]))

    def _with_its_sides(self, change: Change) -> list[Change]:
        """``change`` with those of its stroke that joined two sides by it."""
        stroke = [one for one in self.history.stroke(change.stroke) if self.history.stands(one)]
        pairs = {(one.record, one.into) for one in stroke if one.action is Action.JOINED}
        sides = {side for pair in pairs if change.record in pair for side in pair}
        return [one for one in stroke if one.record in {change.record, *sides}]

    def _still_waiting(self, tag_id: str) -> Waiting:
        """A tag without its print and picture, which answers do not need."""
        if tag_id in self._store.filed:
            raise NotWaiting(f"the tag {tag_id} was filed meanwhile; look again at what waits")
        return self._as_answered(self.queue.head(tag_id))

    def _learn(self, made: Iterable[Change], as_read: Mapping[str, Waiting]) -> None:
        """Keep what answers to waiting tags taught."""
        lessons = (
            lessons_of_answer(change, item, with_answers(item, self.history))
            for change in made
            for item in [as_read[change.record]]
        )
        self._keep(chain.from_iterable(lessons))

    def _keep(self, lessons: Iterable[Lesson]) -> None:
        # What was answered is filed: a lesson that cannot be kept costs a question later.
        with suppress(BadStash, NoAccess):
            self.learnt.add(lessons)

    # Records of the stash

    def records(self) -> list[Record]:
        """All records of the stash, in their order there."""
        return list(self._store.records().values())

    def table(self) -> pa.Table:
        """All records by column; see :meth:`intake.filing.stash.Stash.table`."""
        self._store.turned.refuse()
        return self.stash.table()

    def record(self, record_id: str) -> Record:
        """One record of the stash.  Raises :class:`NoSuchRecord`."""
        record = self._store.records().get(record_id)
        if record is None:
            raise NoSuchRecord(f"{self.stash.path} has no record {record_id!r}; look its id up")
        return record

    def other_sides(self, record_id: str) -> list[str]:
        """The ids of the tags that are the other side of a record's; their pictures are kept."""
        return [
            one.record
            for change in self.history.standing(record_id)
            for one in self.history.stroke(change.stroke)
            if one.action is Action.JOINED and one.into == record_id
        ]

    def correct(self, edits: Mapping[str, Mapping[str, str]]) -> list[Change]:
        """Set columns of records to what the user typed, all at one stroke.

        ``edits`` maps ids to columns to texts, in the form that :meth:`resolve` takes.
        Records that say so already do not change.  Raises :class:`BadAnswer` and
        :class:`NoSuchRecord`; then nothing is changed at all.
        """
        with self._store.held():
            changes = [corrected_change(self.record(one), edits[one]) for one in edits]
            made = self._store.make([change for change in changes if change is not None])
            lessons = (lessons_of_correction(each, self.record(each.record)) for each in made)
            self._keep(chain.from_iterable(lessons))
            return made

    def correction_doubts(self, edits: Mapping[str, Mapping[str, str]]) -> dict[str, list[Doubt]]:
        """What may be asked before :meth:`correct`, by the ids of the records: whether
        the lot is a misread one of the same shade, whether the tag then is a repeat of
        another.  Raises as :meth:`correct` does."""
        records = [self.record(one) for one in edits]
        past = self._store.look()
        found: dict[str, list[Doubt]] = {}
        for record in records:
            change = corrected_change(record, edits[record.id])
            doubts = past.second_thoughts(with_cells(record, change.new)) if change else []
            if doubts:
                found[record.id] = doubts
        return found

    def withdraw(self, ids: Collection[str]) -> list[Change]:
        """Take records out of the stash at one stroke.  Their tag pictures stay, and
        another run over their pictures does not file them again.  Raises
        :class:`NoSuchRecord`; then nothing is changed at all."""
        with self._store.held():
            return self._store.make([withdrawn_change(self.record(one)) for one in _each(ids)])

    def merge(self, keep: str, others: Collection[str]) -> list[Change]:
        """Take the records ``others`` out of the stash at one stroke, for they are the
        same ball as ``keep``, which stays as it is.  Raises :class:`NoSuchRecord`; then
        nothing is changed at all."""
        with self._store.held():
            self.record(keep)
            leaving = [self.record(one) for one in _each(others) if one != keep]
            return self._store.make([merged_change(record, keep) for record in leaving])

    def split(self, record_id: str, balls: int = 1) -> list[Change]:
        """Make ``balls`` of those that a record stands for a record of their own; the last
        of the changes tells its id.  Raises :class:`NoSuchRecord` and :class:`BadAnswer`."""
        with self._store.held():
            record = self.record(record_id)
            ids = (split_id(record, number) for number in count(2))
            new_id = next(one for one in ids if not self._was_there(one))
            taken, made = split_changes(record, balls, new_id)
            own = self.stash.own_cells([record_id]).get(record_id, {})
            if jpeg := self.pictures.load(record_id):
                self.pictures.save(new_id, jpeg)
            return self._store.make([taken, replace(made, own=own)])

    def _was_there(self, record_id: str) -> bool:
        """Whether a record of this id is in the stash or ever was."""
        return record_id in self._store.records() or bool(self.history.changes(record_id))

    def weigh(self, record_id: str, figures: Mapping[str, str]) -> Change:
        """Keep what a scale said of a part ball, one of those that the record stands for:
        at least
        :data:`~intake.filing.strokes.WEIGHED_FIGURES`, as text.  Raises
        :class:`NoSuchRecord` and :class:`BadAnswer`."""
        with self._store.held():
            change = weighed_change(self.record(record_id).id, figures)
            return self._store.make([change])[0]

    def undo(self, stroke: str) -> list[Change]:
        """Take a stroke back: records are again as it found them, tags that it answered
        or discarded wait again.  This is itself a stroke, and can be undone.

        Raises :class:`CannotUndo` where there is no such stroke, where it was taken back
        already, or where something that it touched has changed since.
        """
        with self._store.held():
            made = self.history.stroke(stroke)
            if not made:
                raise CannotUndo(f"{self.history.path} has no stroke {stroke!r}; list the history")
            standing = [change for change in made if self.history.stands(change)]
            if not standing:
                raise CannotUndo(f"stroke {stroke} was taken back already; see balltag history")
            return self._take_back(standing)

    def unlearn(self, lesson_id: str) -> Lesson:
        """Take back what an answer taught; the answer itself stays.  Raises
        :class:`CannotUndo` where there is no such lesson."""
        with self._store.held():
            return self.learnt.forget(lesson_id)

    def _take_back(self, changes: Sequence[Change]) -> list[Change]:
        for change in changes:
            check_can_undo(change, self._store)
        return self._store.make([undone_change(change) for change in changes])


def _of_fields(answers: Mapping[str, str]) -> dict[str, str]:
    """The answers that are values of fields."""
    return {name: text for name, text in answers.items() if name not in (REPEAT, SIDE)}


def _chosen(
    item: Waiting, answers: Mapping[str, str], name: str, choices: Sequence[str]
) -> str | None:
    """The answer about the tag as a whole, which must be one of ``choices`` where there is such
    a doubt.  Raises :class:`BadAnswer`."""
    answer = answers.get(name)
    asked = any(doubt.field == name for doubt in item.doubts)
    if answer not in choices and (asked or answer is not None):
        raise BadAnswer(
            f"the tag as a whole is asked about; answer with {' or '.join(map(repr, choices))}"
        )
    return answer


def _each(ids: Collection[str]) -> list[str]:
    return list(dict.fromkeys(ids))


def open_cabinet(path: str | os.PathLike[str], wait_s: float = WAIT_S) -> Cabinet:
    """The cabinet of the stash at ``path``, with all carried out that a process that was
    killed had begun; see :func:`intake.filing.kinds.open_stash`."""
    cabinet = Cabinet(open_stash(path, wait_s))
    cabinet.finish()
    return cabinet
