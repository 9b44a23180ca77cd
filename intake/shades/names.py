"""The makers and ranges that are known already, and which heading of a tag is which.

A reader sees headings well and is still unsure which of them names the maker and which
the range.  Names that were filed or confirmed before tell.  Only names read in full are
looked up, never names that are merely near.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from intake.fields.choose import reason_in_print
from intake.fields.confidence import confidence
from intake.fields.names.questions import may_be_either, may_be_range_or_maker
from intake.records import Field, Line, State, TagReading
from intake.shades.known import ShadeGroup
from intake.shades.match import RAISE
from intake.shades.slips import Slips
from intake.shades.spelling import key, same_marks

_NO_THIRD_NAME = 0.95
"""How likely the one name beside a known maker's is the range's."""

_QUOTED = re.compile(r"'([^']*)'")


class NamedRecord(Protocol):
    """Anything that names a maker and a range, such as a row of the stash."""

    @property
    def maker(self) -> str: ...
    @property
    def range(self) -> str: ...


@dataclass(frozen=True, slots=True)
class Names:
    """A maker and one of its ranges, spelled as they are known; empty for no range."""

    maker: str
    range: str = ""


class KnownNames:
    """Makers with their ranges.  The spelling that came first stays the known one."""

    def __init__(self, records: Iterable[NamedRecord] = ()) -> None:
        self.slips = Slips()
        self._makers: dict[str, str] = {}
        self._pairs: dict[tuple[str, str], Names] = {}
        self._makers_of: defaultdict[str, dict[str, None]] = defaultdict(dict)
        self._times: Counter[tuple[str, str]] = Counter()
        self.makers = ShadeGroup()
        self._ranges: defaultdict[str, ShadeGroup] = defaultdict(ShadeGroup)
        for record in records:
            self.add(record.maker, record.range)

    def add(self, maker: str, range_: str = "", times: int = 1) -> None:
        """Take in a maker, with a range of it, seen so many ``times``; without a maker nothing
        is learnt."""
        if not key(maker):
            return
        spelled = self._makers.setdefault(key(maker), maker)
        self.makers.add(spelled)
        self._times["maker", key(maker)] += times
        if key(range_):
            self._pairs.setdefault((key(maker), key(range_)), Names(spelled, range_))
            self._makers_of[key(range_)][spelled] = None
            self._ranges[key(maker)].add(range_)
            self._times["range", key(range_)] += times

    def maker(self, text: str) -> str:
        """The known spelling of a maker; empty where it is none, or as often a range."""
        name = key(text)
        is_maker = self._times["maker", name] > self._times["range", name]
        return self._makers[name] if is_maker else ""

    def makers_of(self, text: str) -> tuple[str, ...]:
        """The makers that have a range of this name; none where it is as often a maker."""
        name = key(text)
        is_range = self._times["range", name] > self._times["maker", name]
        return tuple(self._makers_of[name]) if is_range else ()

    def ranges_of(self, maker: str) -> ShadeGroup | None:
        """The known ranges of a maker; ``None`` where none is known."""
        return self._ranges.get(key(maker))

    def is_known(self, text: str) -> bool:
        """Whether ``text`` names a maker or a range."""
        return key(text) in self._makers or key(text) in self._makers_of

    def pair(self, maker: str, range_: str) -> Names | None:
        """The maker and range of these names; ``None`` where they are not known together,
        or the other way round as well."""
        keys = key(maker), key(range_)
        return None if keys[::-1] in self._pairs else self._pairs.get(keys)

    def begins_another(self, maker: str) -> bool:
        """Whether a known maker's name goes on where ``maker`` ends."""
        start = key(maker)
        return any(name != start and name.startswith(start) for name in self._makers)


def with_known_names(reading: TagReading, known: KnownNames) -> TagReading:
    """``reading`` with its maker and range as :func:`known_headings` has them."""
    maker, range_ = (reading.fields.get(name) or Field(name) for name in ("maker", "range"))
    found = known_headings(maker, range_, known)
    found = found[0], beside_known_maker(*found, known, reading.lines)
    if found == (maker, range_):
        return reading
    return replace(reading, fields={**reading.fields, "maker": found[0], "range": found[1]})


def known_headings(maker: Field, range_: Field, known: KnownNames) -> tuple[Field, Field]:
    """Maker and range of one tag after a look at the known ones.

    Two headings that are known together are sure, and change places where they were
    taken for one another; so is a known maker with no range or a new one.  All must be
    spelled as they are known, and both readers must have seen them so, unless that reading
    was answered before.  A reason that names yet another heading still
    stands.  Sure fields are asked about where a maker was more often a range, or a range
    more often a maker.
    """
    if State.DOUBTFUL not in (maker.state, range_.state):
        return _asked_if_known_otherwise(maker, range_, known)
    head, second = _heading(maker, known), _heading(range_, known)
    if head and second and not _name_others(maker, range_):
        straight, crossed = known.pair(head, second), known.pair(second, head)
        if straight is not None:
            return (
                _settled(maker, straight.maker, maker, head),
                _settled(range_, straight.range, range_, second),
            )
        if crossed is not None:
            return (
                _settled(maker, crossed.maker, range_, second),
                _settled(range_, crossed.range, maker, head),
            )
    name = known.maker(head)
    is_whole = not known.begins_another(head) and not _name_others(maker)
    if name and is_whole and not known.is_known(str(range_.value or "")):
        return _settled(maker, name, maker, head), range_
    return maker, range_


def beside_known_maker(
    maker: Field, range_: Field, known: KnownNames, lines: Sequence[Line]
) -> Field:
    """``range_`` without the question whether it is the range or the ``maker``, where that one is
    known.  If the tag has no third name, it hardly can be anything else."""
    name = str(maker.value or "")
    told = maker.state is State.SURE and known.maker(name)
    open_ = may_be_either(maker.printed or name), may_be_range_or_maker(str(range_.value or ""))
    if not told or range_.state is not State.DOUBTFUL or range_.reason not in open_:
        return range_
    if {key(other) for other in range_.others} <= {key(name)}:
        cues = {**range_.cues, "role": max(range_.cues.get("role", 0.0), _NO_THIRD_NAME)}
        range_ = replace(range_, cues=cues, confidence=confidence("range", cues))
    if reason := reason_in_print(range_, lines):
        return replace(range_, reason=reason)
    note = f"the range {range_.value} stands beside the maker {name}, as known"
    notes = "; ".join(filter(None, (range_.note, note)))
    return replace(range_, state=State.SURE, reason="", note=notes)


def _heading(field: Field, known: KnownNames) -> str:
    """The name a heading was read as, or was meant to be; empty where it was not read so
    well that it can be looked up."""
    text = field.value if isinstance(field.value, str) else ""
    meant = "" if known.is_known(text) else known.slips.meant(field.name, "", text)
    # Where the second reader saw it otherwise, what it saw is among the others.
    spelled = field.cues.get("unanimous") or key(text) in map(key, field.others)
    return meant or (text if spelled and field.cues.get("witnessed") else "")


def _name_others(*fields: Field) -> bool:
    """Whether a reason for asking about one of ``fields`` names a heading that is none of
    their values."""
    values = [str(field.value) for field in fields]
    reasons = [field.reason for field in fields if field.state is State.DOUBTFUL]
    return any(_QUOTED.search(_without(reason, values)) for reason in reasons)


def _without(reason: str, values: Iterable[str]) -> str:
    for value in values:
        reason = reason.replace(f"'{value}'", "")
    return reason


def _asked_if_known_otherwise(
    maker: Field, range_: Field, known: KnownNames
) -> tuple[Field, Field]:
    """Fields that nothing asks about, with a reason to ask where one of them is known as
    what the other should be."""
    makers = known.makers_of(str(maker.value or ""))
    if makers:
        maker = asked(maker, makers, f"so far '{maker.value}' was a range of '{makers[0]}'")
    as_maker = known.maker(str(range_.value or ""))
    if as_maker:
        range_ = asked(range_, (), f"so far '{as_maker}' was a maker")
    return maker, range_


def asked(field: Field, others: Iterable[str], reason: str) -> Field:
    """``field`` with a ``reason`` to ask, which offers ``others`` before its own."""
    offered = tuple(dict.fromkeys((*others, *field.others)))
    return replace(field, state=State.DOUBTFUL, reason=reason, others=offered)


def other_marks(read: str, known: str) -> str:
    """Why a name is asked about that is known with other accents."""
    return f"reads '{read}', and is known as '{known}': one may be a misreading"


def _settled(field: Field, name: str, read: Field, said: str) -> Field:
    """``field`` with a known ``name``, which is what the heading ``read`` says; it is asked about
    where it was ``said`` with other accents, one of which was misread."""
    if not same_marks(said, name):
        return asked(replace(read, name=field.name), (name,), other_marks(said, name))
    if field is read and field.state is State.SURE:
        return field
    text = str(read.value)
    taken = "" if name == text else f"{text!r} taken as "
    evidence = f"{taken}the {field.name} {name}, as known"
    return replace(
        read,
        name=field.name,
        value=name,
        printed=read.printed or (text if name != text else ""),
        confidence=read.confidence + RAISE * (1 - read.confidence),
        state=State.SURE,
        others=tuple(other for other in field.others if other != name),
        reason="",
        note="; ".join(filter(None, (read.note, evidence))),
    )
