"""The history as the pages tell it: stroke by stroke, in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from intake.filing.changes import Action, Change
from intake.filing.history import History
from intake.filing.judge import spoken

MOST_LINES = 12
"""So many changes of one stroke are told one by one."""

_TOLD_WHOLE = ("maker", "range", "shade", "shade_code", "lot")
"""What a record is called by where it came in or left whole."""

_WORDS = {
    Action.ANSWERED: "Answered and filed",
    Action.DISCARDED: "Discarded from the queue",
    Action.CORRECTED: "Corrected",
    Action.MERGED: "Merged",
    Action.WITHDRAWN: "Withdrawn",
    Action.WEIGHED: "Weighed",
    Action.UNDONE: "Taken back",
}


@dataclass(frozen=True, slots=True)
class Step:
    """One column of a change: its name in words, what it was and what it became."""

    column: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """One change of a stroke; ``name`` tells which record where it came or left whole."""

    record: str
    name: str
    into: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Stroke:
    """What was done at one stroke, and whether it stands: only what stands can be taken
    back.  ``more`` changes of it are not among ``lines``."""

    stroke: str
    at: str
    words: str
    lines: tuple[ChangeLine, ...]
    more: int
    stands: bool


def strokes(history: History, changes: Sequence[Change]) -> list[Stroke]:
    """The strokes of ``changes`` (which come oldest first), the last one first."""
    return [
        _stroke(history, list(group))
        for _, group in groupby(reversed(changes), key=lambda change: change.stroke)
    ]


def _stroke(history: History, changes: Sequence[Change]) -> Stroke:
    first = changes[-1]
    return Stroke(
        stroke=first.stroke,
        at=first.at,
        words=_words(history, first),
        lines=tuple(_line(change) for change in reversed(changes[-MOST_LINES:])),
        more=max(0, len(changes) - MOST_LINES),
        stands=any(history.stands(change) for change in changes),
    )


def _words(history: History, change: Change) -> str:
    if change.action is not Action.UNDONE:
        return _WORDS[change.action]
    origin, made = history.origin(change)
    return f"{'Made again' if made else 'Taken back'}: {_WORDS[origin.action].lower()}"


def _line(change: Change) -> ChangeLine:
    whole = change.new if "id" in change.new else change.old if "id" in change.old else {}
    if whole:
        name = " ".join(whole[column] for column in _TOLD_WHOLE if whole.get(column))
        return ChangeLine(change.record, name, change.into, ())
    columns: Iterable[str] = dict.fromkeys((*change.old, *change.new))
    steps = (
        Step(spoken(column), change.old.get(column, ""), change.new.get(column, ""))
        for column in columns
    )
    return ChangeLine(change.record, "", change.into, tuple(steps))
