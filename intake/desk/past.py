"""The history as the pages tell it: stroke by stroke, in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from intake.errors import NoSuchRecord
from intake.filing.cabinet import Cabinet
from intake.filing.changes import Action, Change
from intake.filing.history import History
from intake.filing.judge import spoken
from intake.filing.record import record_cells

MOST_LINES = 12
"""So many changes of one stroke are told one by one."""

_NAMED_BY = ("maker", "range", "shade", "shade_code")

_WORDS = {
    Action.ANSWERED: "Answered and filed",
    Action.SETTLED: "Answered in part",
    Action.DISCARDED: "Discarded from the queue",
    Action.JOINED: "Joined as the other side",
    Action.CORRECTED: "Corrected",
    Action.MERGED: "Merged",
    Action.WITHDRAWN: "Withdrawn",
    Action.SPLIT: "Balls split off",
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
    """One change of a stroke; ``name`` says in words which record it is about."""

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


def strokes(cabinet: Cabinet, changes: Sequence[Change]) -> list[Stroke]:
    """The strokes of ``changes`` (which come oldest first), the last one first."""
    return [
        _stroke(cabinet, list(group))
        for _, group in groupby(reversed(changes), key=lambda change: change.stroke)
    ]


def _stroke(cabinet: Cabinet, changes: Sequence[Change]) -> Stroke:
    """One stroke; ``changes`` come last one first."""
    first = changes[-1]
    return Stroke(
        stroke=first.stroke,
        at=first.at,
        words=_words(cabinet.history, first),
        lines=tuple(_line(cabinet, change) for change in changes[: -MOST_LINES - 1 : -1]),
        more=max(0, len(changes) - MOST_LINES),
        stands=any(cabinet.history.stands(change) for change in changes),
    )


def _words(history: History, change: Change) -> str:
    if change.action is not Action.UNDONE:
        return _WORDS[change.action]
    origin, made = history.origin(change)
    return f"{'Made again' if made else 'Taken back'}: {_WORDS[origin.action].lower()}"


def _line(cabinet: Cabinet, change: Change) -> ChangeLine:
    whole = change.new if "id" in change.new else change.old
    if "id" in whole:
        return ChangeLine(change.record, _name(whole), change.into, ())
    try:
        name = _name(record_cells(cabinet.record(change.record)))
    except NoSuchRecord:
        name = ""
    return ChangeLine(change.record, name or change.record, change.into, _steps(change))


def _steps(change: Change) -> tuple[Step, ...]:
    old, new = _with_plus_minus(change.old), _with_plus_minus(change.new)
    columns = dict.fromkeys((*old, *new))
    return tuple(
        Step(spoken(column), old.get(column, ""), new.get(column, "")) for column in columns
    )


def _with_plus_minus(figures: Mapping[str, str]) -> dict[str, str]:
    """A weighing's figures each with its uncertainty: ``31.2 ± 0.5``; other cells as they
    are."""
    joined = dict(figures)
    for figure in ("mass", "length"):
        for unit in ("g", "m"):
            uncertainty = joined.pop(f"{figure}_uncertainty_{unit}", "")
            if uncertainty:
                joined[f"{figure}_{unit}"] += f" ± {uncertainty}"
    return joined


def _name(cells: Mapping[str, str]) -> str:
    """A record in words: whose yarn, which shade, which lot."""
    parts = [cells[column] for column in _NAMED_BY if cells[column]]
    return " ".join((*parts, f"lot {cells['lot']}" if cells["lot"] else "lot unknown"))
