"""What is asked about all tags that wait, kept in memory: small, and read once."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass

from intake.filing.history import History
from intake.filing.judge import Doubt
from intake.filing.queue import NotWaiting, Queue, Waiting
from intake.filing.settled import with_answers
from intake.records import FIELDS, Field
from intake.wording import value_text

HEADINGS = ("maker", "range")


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked about one waiting tag, with what was answered so far.

    ``texts`` has the values of its fields as text, those that it carries; ``headings`` are
    the fields of its maker and range where one of them is doubtful.
    """

    id: str
    doubts: tuple[Doubt, ...]
    texts: Mapping[str, str]
    headings: tuple[Field, ...] = ()

    def is_asked(self, field: str) -> bool:
        """Whether there is a doubt about ``field``."""
        return any(doubt.field == field for doubt in self.doubts)


class AskedTags:
    """The :class:`Asked` of each tag in a queue, read again where it has changed."""

    def __init__(self, queue: Queue, history: History) -> None:
        self._queue = queue
        self._history = history
        self._kept: dict[str, tuple[int, Asked]] = {}
        self._changes = 0

    def all(self) -> dict[str, Asked]:
        """All tags in the queue by their ids, those that came first at the head."""
        self._drop_changed()
        came = self._queue.came()
        for tag_id in self._kept.keys() - came.keys():
            del self._kept[tag_id]
        for tag_id, moment_ns in came.items():
            if self._kept.get(tag_id, (0,))[0] != moment_ns:
                with suppress(NotWaiting):  # another process just answered it
                    item = with_answers(self._queue.head(tag_id), self._history)
                    self._kept[tag_id] = moment_ns, _asked(item)
        ids = sorted(self._kept, key=lambda tag_id: (self._kept[tag_id][0], tag_id))
        return {tag_id: self._kept[tag_id][1] for tag_id in ids}

    def _drop_changed(self) -> None:
        """Forget the tags that answers touched since the last look."""
        changes = self._history.changes()
        if len(changes) < self._changes:  # another history lies there now
            self._kept.clear()
        for change in changes[self._changes :]:
            self._kept.pop(change.record, None)
        self._changes = len(changes)


def _asked(item: Waiting) -> Asked:
    fields = item.reading.fields
    texts = {
        name: value_text(name, fields[name].value)
        for name in FIELDS
        if name in fields and fields[name].value is not None
    }
    doubted = any(doubt.field in HEADINGS for doubt in item.doubts)
    headings = tuple(fields.get(name) or Field(name) for name in HEADINGS) if doubted else ()
    return Asked(item.id, item.doubts, texts, headings)
