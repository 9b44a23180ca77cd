"""What answers taught: names that the user confirmed, and readings that meant another.

For ``stash.csv`` it is kept in ``stash.learnt.jsonl``: a line for each lesson, and one for
each that the user took back.  A lesson lasts as long as the answer that taught it stands.
Only makers, ranges and shades are learnt; a lot or a code never is.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from enum import StrEnum
from pathlib import Path

from intake.errors import CannotUndo
from intake.filing.changes import Change
from intake.filing.history import History
from intake.filing.journal import Journal, Json
from intake.filing.queue import Waiting
from intake.filing.record import Record, record_cells, record_from_reading
from intake.shades.confusion import similarity
from intake.shades.evidence import SAME_PLACE
from intake.shades.spelling import key

LEARNT_FIELDS = ("maker", "range", "shade")

_FORGOTTEN = "forgotten"


class Kind(StrEnum):
    """What a lesson is about."""

    NAME = "name"
    """The name ``meant`` is a maker, range or shade."""
    SLIP = "slip"
    """What reads ``read`` means ``meant``."""


@dataclass(frozen=True, slots=True)
class Lesson:
    """One thing that an answer taught about ``field``, of :data:`LEARNT_FIELDS`.

    ``maker``, ``range`` and ``shade_code`` are those of the tag that taught it (the code for
    a shade only); ``record`` is its id and ``stroke`` the answer.  ``id`` is given when the
    lesson is kept.
    """

    kind: Kind
    field: str
    meant: str
    read: str = ""
    maker: str = ""
    range: str = ""
    shade_code: str = ""
    record: str = ""
    stroke: str = ""
    id: str = ""

    @property
    def shade(self) -> str:
        """The shade it names, as :class:`intake.shades.known.ShadeRecord` asks for it."""
        return self.meant if self.kind is Kind.NAME and self.field == "shade" else ""

    @property
    def teaches(self) -> tuple[str, ...]:
        """What it teaches, whoever taught it."""
        return (
            self.kind, self.field, self.meant, self.read, self.maker, self.range, self.shade_code
        )  # fmt: skip


class Learnt(Journal):
    """The lessons in the file at ``path``; see :class:`Journal`."""

    version = 1
    name = "list of lessons"

    def __init__(self, path: Path, history: History) -> None:
        self._history = history
        super().__init__(path)

    def lessons(self) -> list[Lesson]:
        """The lessons that hold, oldest first: neither taken back, nor taught by an answer
        that was taken back or corrected since."""
        self._read_on()
        return [lesson for lesson in self._lessons.values() if self._holds(lesson)]

    def add(self, lessons: Iterable[Lesson]) -> None:
        """Keep the lessons that are new.  For holders of the stash's lock."""
        self._read_on()
        fresh = [lesson for lesson in lessons if not self._is_known(lesson)]
        first = len(self._lessons) + len(self._forgotten) + 1
        numbered = (
            replace(lesson, id=str(number)) for number, lesson in enumerate(fresh, start=first)
        )
        if fresh:
            self._add(*map(_to_json, numbered))

    def forget(self, lesson_id: str) -> Lesson:
        """Take a lesson back.  For holders of the stash's lock.  Returns it; raises
        :class:`CannotUndo` where there is none."""
        held = {lesson.id: lesson for lesson in self.lessons()}
        if lesson_id not in held:
            raise CannotUndo(f"{self.path} has no lesson {lesson_id!r}; see balltag learnt")
        self._add({_FORGOTTEN: lesson_id})
        return held[lesson_id]

    def _clear(self) -> None:
        self._lessons: dict[str, Lesson] = {}
        self._forgotten: set[str] = set()
        self._taught: defaultdict[tuple[str, ...], list[Lesson]] = defaultdict(list)

    def _take(self, data: Json) -> None:
        if _FORGOTTEN in data:
            self._forgotten.add(data[_FORGOTTEN])
            del self._lessons[data[_FORGOTTEN]]
        else:
            lesson = Lesson(**{**data, "kind": Kind(data["kind"])})
            self._lessons[lesson.id] = lesson
            self._taught[lesson.teaches].append(lesson)

    def _is_known(self, lesson: Lesson) -> bool:
        return any(
            known.id in self._lessons and self._holds(known)
            for known in self._taught[lesson.teaches]
        )

    def _holds(self, lesson: Lesson) -> bool:
        for change in self._history.changes(lesson.record):
            if change.stroke == lesson.stroke:
                return self._history.stands(change) and not any(
                    later.new.get(lesson.field, lesson.meant) != lesson.meant
                    for later in self._history.later(change)
                )
        return True  # the history was moved away


def lessons_of_answer(change: Change, read: Waiting, now: Waiting) -> list[Lesson]:
    """What an answer to a waiting tag teaches; ``read`` is the tag as it was read, ``now``
    with what is answered.  A field that was asked about and filed is confirmed, even where
    the answer was what was read."""
    before = record_cells(record_from_reading(read.reading))
    after = {**record_cells(record_from_reading(now.reading)), **change.new}
    doubted = {doubt.field for doubt in read.doubts}
    asked = {
        name for name, text in change.new.items() if name in doubted or text != before.get(name)
    }
    return _lessons(change, before, after, asked)


def lessons_of_correction(change: Change, record: Record) -> list[Lesson]:
    """What a correction that gave ``record`` teaches."""
    return _lessons(change, change.old, record_cells(record), change.new.keys())


def _lessons(
    change: Change, before: Mapping[str, str], after: Mapping[str, str], asked: Collection[str]
) -> list[Lesson]:
    lessons = []
    for field in LEARNT_FIELDS:
        name = after[field]
        if field not in asked or not key(name):
            continue
        lesson = Lesson(
            Kind.NAME,
            field,
            name,
            maker=after["maker"],
            range="" if field == "maker" else after["range"],
            shade_code=after["shade_code"] if field == "shade" else "",
            record=change.record,
            stroke=change.stroke,
        )
        lessons.append(lesson)
        if is_slip(before[field], name):
            lessons.append(replace(lesson, kind=Kind.SLIP, read=before[field], shade_code=""))
    return lessons


def is_slip(read: str, meant: str) -> bool:
    """Whether ``read`` is ``meant`` misread, and not another text of the tag."""
    return bool(key(read)) and key(read) != key(meant) and similarity(read, meant) >= SAME_PLACE


def _to_json(lesson: Lesson) -> Json:
    return {name: text for name, text in asdict(lesson).items() if text}
