"""How each kind of change is written down, and what it does to the stash and the queue."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace

from intake.filing.answers import BadAnswer, answer_cell
from intake.filing.changes import Action, Change
from intake.filing.layouts import Cells
from intake.filing.queue import Left, Waiting
from intake.filing.record import (
    COLUMNS,
    Record,
    picture_name,
    record_cells,
    record_from_row,
    with_cells,
)
from intake.wording import value_text

LEFT_BY = {
    Action.ANSWERED: Left.ANSWERED,
    Action.DISCARDED: Left.DISCARDED,
    Action.JOINED: Left.JOINED,
}
"""How a tag leaves the queue by each action that takes it out."""

OF_RECORDS = frozenset(Action) - {Action.SETTLED, Action.WEIGHED}
"""The actions whose ``old`` and ``new`` are cells of a record in the stash."""

WEIGHED_FIGURES = ("mass_g", "mass_uncertainty_g", "length_m", "length_uncertainty_m")
"""What is kept of every weighing, as text; see :class:`intake.sums.ball.Weighing`."""


@dataclass(slots=True)
class Effect:
    """What a stroke does: records to ``put`` into the stash, what columns that the user added
    hold of some of them (``own``), ids of those that are ``gone`` from it, ``moves`` of tags
    in the queue (``None``: it waits again), and the tags that wait with another answer
    (``settled``)."""

    put: list[Record] = field(default_factory=list)
    own: dict[str, Cells] = field(default_factory=dict)
    gone: list[str] = field(default_factory=list)
    moves: dict[str, Left | None] = field(default_factory=dict)
    settled: list[str] = field(default_factory=list)


def answered_change(record: Record) -> Change:
    """A waiting tag became ``record``."""
    return _change(Action.ANSWERED, record.id, new=record_cells(record))


def settled_change(item: Waiting, answers: Mapping[str, str]) -> Change:
    """Answers were given about a waiting tag that do not file it yet.  Raises
    :class:`BadAnswer`."""
    fields = item.reading.fields
    old = {name: value_text(name, fields[name].value) if name in fields else "" for name in answers}
    new = {name: answer_cell(name, text) for name, text in answers.items()}
    return _change(Action.SETTLED, item.id, old, new)


def discarded_change(tag_id: str) -> Change:
    """A waiting tag was taken out of the queue."""
    return _change(Action.DISCARDED, tag_id)


def joined_change(tag_id: str, into: str) -> Change:
    """A waiting tag is the other side of that of record ``into``."""
    return _change(Action.JOINED, tag_id, into=into)


def filled_change(record: Record, cells: Mapping[str, str]) -> Change | None:
    """Columns of ``record`` that were empty set to ``cells``, what its tag's other side says;
    ``None`` where there are none."""
    before = record_cells(record)
    old = {name: before[name] for name in cells}
    return _change(Action.CORRECTED, record.id, old, cells) if cells else None


def corrected_change(record: Record, texts: Mapping[str, str]) -> Change | None:
    """Columns of ``record`` set to what the user typed; ``None`` where they say that
    already.  Raises :class:`BadAnswer`."""
    cells = {name: answer_cell(name, text) for name, text in texts.items()}
    if "shade" in cells and cells["shade"] != record.shade:
        cells["shade_printed"] = ""  # it belongs to the shade that the user refused
    before = record_cells(record)
    new = {name: cell for name, cell in cells.items() if cell != before[name]}
    old = {name: before[name] for name in new}
    return _change(Action.CORRECTED, record.id, old, new) if new else None


def merged_change(record: Record, into: str) -> Change:
    """``record`` left the stash for it is the same ball as record ``into``."""
    return _change(Action.MERGED, record.id, old=record_cells(record), into=into)


def withdrawn_change(record: Record) -> Change:
    """``record`` left the stash."""
    return _change(Action.WITHDRAWN, record.id, old=record_cells(record))


def split_changes(record: Record, balls: int, new_id: str) -> list[Change]:
    """``balls`` of ``record`` become record ``new_id``.  Raises :class:`BadAnswer` where
    none would stay."""
    if not 0 < balls < record.balls:
        raise BadAnswer(
            f"{record.id} stands for {record.balls} balls, so {balls} cannot be split off; at "
            "least one must go and one must stay"
        )
    old = {"balls": str(record.balls)}
    note = "; ".join(filter(None, (record.note, f"split off {record.id}")))
    fresh = replace(record, id=new_id, balls=balls, tag_picture=picture_name(new_id), note=note)
    return [
        _change(Action.SPLIT, record.id, old, {"balls": str(record.balls - balls)}),
        _change(Action.SPLIT, new_id, new=record_cells(fresh)),
    ]


def weighed_change(record_id: str, figures: Mapping[str, str]) -> Change:
    """A part ball was weighed.  Raises :class:`BadAnswer`."""
    for name in WEIGHED_FIGURES:
        if not _is_amount(figures.get(name, "")):
            raise BadAnswer(f"a weighing needs {name}; give a number from 0 up")
    return _change(Action.WEIGHED, record_id, new=figures)


def undone_change(change: Change) -> Change:
    """``change`` was taken back."""
    back = _change(
        Action.UNDONE, change.record, change.new, change.old, change.stroke, into=change.into
    )
    return replace(back, own=change.own)


def effect_of(
    changes: Iterable[Change],
    origin: Callable[[Change], tuple[Change, bool]],
    filed: Callable[[str], Record | None],
) -> Effect:
    """What ``changes`` do; ``origin`` is :meth:`History.origin`, ``filed`` gives the
    record that the stash holds under an id."""
    effect = Effect()
    for change in changes:
        first, makes = origin(change)
        if first.action in LEFT_BY:
            effect.moves[change.record] = LEFT_BY[first.action] if makes else None
        if first.action is Action.SETTLED:
            effect.settled.append(change.record)
        if first.action not in OF_RECORDS:
            continue
        if is_whole(change.new):
            effect.put.append(_record(change.new))
            if change.own:
                effect.own[change.record] = dict(change.own)
        elif is_whole(change.old):
            effect.gone.append(change.record)
        elif change.new and (record := filed(change.record)) is not None:
            effect.put.append(with_cells(record, change.new))
    return effect


def is_whole(cells: Mapping[str, str]) -> bool:
    """Whether ``cells`` are all columns of a record that came into the stash or left it."""
    return "id" in cells  # which is never corrected


def holds(change: Change, record: Record | None) -> bool:
    """Whether ``record``, what the stash holds now, is as ``change`` to it left it."""
    if is_whole(change.old):
        return record is None
    if not change.new:
        return True
    cells = {} if record is None else record_cells(record)
    return all(cells.get(name) == cell for name, cell in change.new.items())


def _is_amount(text: str) -> bool:
    try:
        return 0 <= float(text) < math.inf
    except ValueError:
        return False


def _record(cells: Mapping[str, str]) -> Record:
    return record_from_row([cells[name] for name in COLUMNS])


def _change(
    action: Action,
    record: str,
    old: Mapping[str, str] | None = None,
    new: Mapping[str, str] | None = None,
    undoes: str = "",
    *,
    into: str = "",
) -> Change:
    """A change whose stroke :meth:`History.intend` still has to name."""
    return Change("", "", "", action, record, dict(old or {}), dict(new or {}), undoes, into)
