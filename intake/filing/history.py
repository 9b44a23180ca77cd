"""The history: every change to the stash after a tag was read, kept for good.

For ``stash.csv`` it is ``stash.history.jsonl``: a line of JSON for each stroke with all its
changes, followed by one that says it is done.

A stroke's line is written before the stash and the queue are touched, its end after.  So
a process that is killed in between leaves a stroke without its end, always the last one:
whoever next holds the stash's lock carries it out again, which does no harm to what was
done already.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from intake.errors import BadStash
from intake.filing.changes import Action, Change
from intake.filing.journal import Journal, Json
from intake.filing.layouts import upgraded
from intake.filing.record import utc_now

_DONE = "done"


class History(Journal):
    """The history in the file at ``path``; see :class:`Journal`."""

    version = 1
    name = "history"

    def __init__(self, path: Path) -> None:
        super().__init__(path)
        self._before = 0  # where the last stroke that was intended begins, in bytes

    def changes(self, record: str = "") -> list[Change]:
        """All changes, oldest first; those of one record or waiting tag where it is given."""
        log = self._look()
        return list(log.by_record.get(record, ()) if record else log.changes)

    def standing(self, record: str = "") -> list[Change]:
        """The changes that hold, oldest first: those that were not taken back, without
        the lines that tell of taking back."""
        return [
            change
            for change in self.changes(record)
            if change.action is not Action.UNDONE and self._log.stands(change)
        ]

    def stroke(self, stroke: str) -> list[Change]:
        """The changes made at one stroke; none where there is no such stroke."""
        return list(self._look().by_stroke.get(stroke, ()))

    def last_stroke(self) -> str:
        """The stroke made last of those that hold, as in :meth:`standing`; empty where
        there is none."""
        return next((change.stroke for change in reversed(self.standing())), "")

    def stands(self, change: Change) -> bool:
        """Whether ``change`` was not taken back, or that was itself taken back."""
        return self._look().stands(change)

    def later(self, change: Change) -> list[Change]:
        """The changes that hold and came to the same record or tag after ``change``."""
        after = int(change.stroke)
        return [one for one in self.standing(change.record) if int(one.stroke) > after]

    def origin(self, change: Change) -> tuple[Change, bool]:
        """The change that a chain of undoing began with, and whether ``change`` makes it
        (true) or takes it back.  Raises :class:`BadStash` where someone took its lines out."""
        makes = True
        while change.action is Action.UNDONE:
            undone = (one for one in self.stroke(change.undoes) if one.record == change.record)
            before = next(undone, None)
            if before is None:
                raise BadStash(
                    f"{self.path} lacks stroke {change.undoes}, which stroke {change.stroke} "
                    "took back; put its line back in"
                )
            change, makes = before, not makes
        return change, makes

    def unfinished(self) -> list[Change]:
        """The changes of the last stroke, where it has not been carried out."""
        log = self._look()
        return list(log.by_stroke.get(log.begun, ()))

    def intend(self, changes: Sequence[Change]) -> list[Change]:
        """Write down that ``changes`` are about to be made at one stroke.  Their ``id``,
        ``at`` and ``stroke`` are filled in here."""
        stroke, at = self._look().next_stroke(), utc_now()
        made = [
            replace(change, id=f"{stroke}.{number}", at=at, stroke=stroke)
            for number, change in enumerate(changes, 1)
        ]
        self._before = self._end
        self._add({"stroke": stroke, "at": at, "changes": [_change_to_json(one) for one in made]})
        return made

    def end(self) -> None:
        """Write down that the last stroke has been carried out."""
        self._add({_DONE: self._look().begun})

    def call_off(self) -> None:
        """Take the stroke that :meth:`intend` just wrote down off again: nothing of it was
        done."""
        self._cut(self._before)

    def _look(self) -> _Log:
        self._read_on()
        return self._log

    def _clear(self) -> None:
        self._log = _Log()

    def _take(self, data: Json) -> None:
        self._log.take(data)


class _Log:
    """The lines of a history, as far as they were read."""

    def __init__(self) -> None:
        self.changes: list[Change] = []
        self.by_record: defaultdict[str, list[Change]] = defaultdict(list)
        self.by_stroke: dict[str, list[Change]] = {}
        self.begun = ""
        """The stroke whose end was not read."""
        self._undone: frozenset[tuple[str, str]] | None = frozenset()

    def take(self, data: Json) -> None:
        """See :meth:`Journal._take`."""
        if _DONE in data:
            self.begun = ""
            return
        self.begun = data["stroke"]
        made = [_change_from_json(one, self.begun, data["at"]) for one in data["changes"]]
        self.by_stroke[self.begun] = made
        self.changes += made
        for change in made:
            self.by_record[change.record].append(change)
            if change.action is Action.UNDONE:
                self._undone = None  # to be found anew

    def next_stroke(self) -> str:
        """The name of the next stroke: a number, for it is typed."""
        return str(int(next(reversed(self.by_stroke), "0")) + 1)

    def stands(self, change: Change) -> bool:
        """See :meth:`History.stands`."""
        undone = self._undone
        if undone is None:
            undone = self._undone = _undone(self.changes)
        return (change.stroke, change.record) not in undone


def _undone(changes: Sequence[Change]) -> frozenset[tuple[str, str]]:
    """What was taken back, as stroke and record.  Seen from the end, for taking back can
    be taken back."""
    undone: set[tuple[str, str]] = set()
    for change in reversed(changes):
        if change.action is Action.UNDONE and (change.stroke, change.record) not in undone:
            undone.add((change.undoes, change.record))
    return frozenset(undone)


def _change_to_json(change: Change) -> Json:
    """A change without what its stroke says; empty parts are left out."""
    data = {
        "id": change.id,
        "action": change.action.value,
        "record": change.record,
        "old": dict(change.old),
        "new": dict(change.new),
        "undoes": change.undoes,
        "into": change.into,
        "own": dict(change.own),
    }
    return {name: part for name, part in data.items() if part}


def _change_from_json(data: Json, stroke: str, at: str) -> Change:
    return Change(
        id=data["id"],
        at=at,
        stroke=stroke,
        action=Action(data["action"]),
        record=data["record"],
        old=upgraded(dict(data.get("old", {}))),
        new=upgraded(dict(data.get("new", {}))),
        undoes=data.get("undoes", ""),
        into=data.get("into", ""),
        own=data.get("own", {}),
    )
