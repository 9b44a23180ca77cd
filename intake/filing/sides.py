"""Front and back: two tags as they were read that may be the two sides of one.

A lot that is taken from the wrong tag is the worst that can happen, so sides are joined unasked
only where the user named the files so; else they are asked about.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from intake.filing.agreeing import Told, contradictions, told
from intake.filing.judge import Doubt, earlier_named
from intake.filing.neighbours import Nearness, nearness
from intake.filing.queue import Waiting
from intake.filing.record import Record, cell_text, record_cells, record_from_reading
from intake.records import FIELDS, Field, State, TagReading
from intake.wording import value_from_text, value_text

SIDE = "side"
"""The field of a doubt whether a tag is the other side of an earlier one."""

OTHER_SIDE = "its other side"
TAG_OF_ITS_OWN = "a tag of its own"
SIDE_ANSWERS = (OTHER_SIDE, TAG_OF_ITS_OWN)
"""The answers to a :data:`SIDE` doubt."""

_NOTED = "other side"
"""How the note of a record with two sides begins."""


_ONCE = ("weight_class", "fibre", "length_m", "mass_g", "care")
_SAME_FACE = 2
"""A tag says each of these on one side; two that both say two of them show the same side."""

_SAME_SHAPE = 1.15
"""The two sides of a card have one shape: width to height differ by no more than this factor."""


@dataclass(frozen=True, slots=True)
class Side:
    """A tag as one side: where it was seen, and what it tells.  ``once`` are the fields of it
    that a tag says on one side only."""

    id: str
    picture: str
    page: str
    told: Told
    once: frozenset[str]
    joined: bool


@dataclass(frozen=True, slots=True)
class OtherSide:
    """The tag that another may be the other side of, and whether the file names say so."""

    id: str
    picture: str
    named: bool

    @property
    def doubt(self) -> Doubt:
        """What is asked."""
        reason = (
            f"it and record {self.id} from picture {self.picture} lie near each other, and one "
            f"says what the other does not: {OTHER_SIDE}, or {TAG_OF_ITS_OWN}?"
        )
        return Doubt(SIDE, reason, SIDE_ANSWERS)


def side_of(record: Record) -> Side:
    """``record`` as one side of a tag."""
    return Side(
        record.id,
        record.picture,
        record.page,
        told(record),
        frozenset(name for name in _ONCE if getattr(record, name)),
        _NOTED in record.note,
    )


def other_side(
    tag: Side, earlier: Iterable[Side], shape: Callable[[str], float]
) -> OtherSide | None:
    """The one of ``earlier`` that ``tag`` may be the other side of: one of a neighbouring
    picture that says nothing else and has what it lacks, or lacks what it has.  The nearest,
    then the last.  ``shape`` gives the width of a tag's picture as a multiple of its height."""
    best: tuple[Nearness, Side] | None = None
    for each in earlier:
        if each.id == tag.id or not _complete_each_other(tag, each):
            continue
        near = nearness(each.picture, each.page, tag.picture, tag.page)
        if near is Nearness.NEAR and not _have_one_shape(shape(tag.id), shape(each.id)):
            continue
        if near > Nearness.FAR and (best is None or near >= best[0]):
            best = near, each
    if best is None:
        return None
    near, side = best
    return OtherSide(side.id, side.picture, near is Nearness.NAMED)


def _complete_each_other(one: Side, other: Side) -> bool:
    """Whether together they have both lot and shade, which one of them lacks, show two faces
    and do not contradict each other."""
    here, there = one.told, other.told
    if one.joined or other.joined or not (_is_half(here) or _is_half(there)):
        return False
    shade = here.shade or here.shade_code or there.shade or there.shade_code
    two_faces = len(one.once & other.once) < _SAME_FACE
    return (
        bool(here.lot or there.lot)
        and bool(shade)
        and two_faces
        and not contradictions(here, there)
    )


def _is_half(told: Told) -> bool:
    return not (told.lot and (told.shade or told.shade_code))


def _have_one_shape(one: float, other: float) -> bool:
    """Whether two pictures have one shape, either of them lying; true where one is lost."""
    if not one or not other:
        return True
    return min(max(one, each) / min(one, each) for each in (other, 1 / other)) <= _SAME_SHAPE


# What both sides say


def as_waiting(record: Record) -> Waiting:
    """A filed record as a tag about which nothing is asked."""
    fields = {
        name: Field(name, value_from_text(name, text), 1.0, State.SURE)
        for name in FIELDS
        if (text := cell_text(getattr(record, name)))
    }
    reading = TagReading(
        picture=record.picture,
        page=int(record.page) if record.page.isdecimal() else 1,
        tag=int(record.tag) if record.tag.isdecimal() else 1,
        digest=record.digest,
        print_hash=record.print_hash,
        jpeg=b"",
        lines=(),
        barcodes=(),
        fields=fields,
    )
    return Waiting(record.id, reading, ())


def from_other_side(tag: TagReading, other: TagReading) -> dict[str, str]:
    """What the other side says surely and this one does not, or not surely though it reads the
    same: fields and their texts."""
    return {
        name: _text(other, name)
        for name in FIELDS
        if _text(other, name)
        and other.fields[name].state is State.SURE
        and (not _text(tag, name) or (_agree(tag, other, name) and not _is_sure(tag, name)))
    }


def disagreements(tag: TagReading, other: TagReading, given: Mapping[str, str]) -> list[Doubt]:
    """What both sides say otherwise, and the user has not answered (``given``)."""
    return [
        Doubt(
            name,
            f"one side of the tag says {_text(tag, name)}, the other {_text(other, name)}",
            (_text(tag, name), _text(other, name)),
        )
        for name in FIELDS
        if name not in given
        and _text(tag, name)
        and _text(other, name)
        and not _agree(tag, other, name)
    ]


def further_sides_doubts(tag: TagReading, other: Waiting, given: Mapping[str, str]) -> list[Doubt]:
    """What is asked of a tag with two sides: where they disagree, and what is asked of the other
    about a field that this one lacks."""
    theirs = [
        doubt
        for doubt in other.doubts
        if doubt.field in FIELDS and doubt.field not in given and not _text(tag, doubt.field)
    ]
    return [*disagreements(tag, other.reading, given), *theirs]


def other_side_id(doubts: Iterable[Doubt]) -> str:
    """The id of the tag that a :data:`SIDE` doubt among ``doubts`` is about; empty where there
    is none."""
    reason = next((doubt.reason for doubt in doubts if doubt.field == SIDE), "")
    return earlier_named(reason)


def side_cells(
    record: Record, whole: TagReading, side: TagReading, given: Mapping[str, str]
) -> dict[str, str]:
    """The cells that ``record`` gets from the other side of its tag: those that it lacks, those
    that were answered (``given``), and a note of where the other side is."""
    before, after = record_cells(record), record_cells(record_from_reading(whole))
    told = [
        name
        for name in (*FIELDS, "shade_printed")
        if after[name] != before[name] and (name in given or not before[name])
    ]
    note = "; ".join(filter(None, (record.note, side_note(side))))
    return {**{name: after[name] for name in told}, "note": note}


def with_both_sides(tag: TagReading, other: TagReading) -> TagReading:
    """``tag`` with what only the other side says, and a note that says where that is."""
    fields = dict(tag.fields)
    for name in from_other_side(tag, other):
        # It stands on the other side's picture, not on this one's lines.
        fields[name] = replace(other.fields[name], spans=())
    return replace(tag, fields=fields, notes=(*tag.notes, side_note(other)))


def side_note(other: TagReading) -> str:
    """Where the other side is, in words."""
    return f"{_NOTED}: {other.picture}, page {other.page}, tag {other.tag}"


def _agree(tag: TagReading, other: TagReading, name: str) -> bool:
    return _text(tag, name).casefold() == _text(other, name).casefold()


def _is_sure(tag: TagReading, name: str) -> bool:
    return name in tag.fields and tag.fields[name].state is State.SURE


def _text(reading: TagReading, name: str) -> str:
    field = reading.fields.get(name)
    return "" if field is None else value_text(name, field.value)
