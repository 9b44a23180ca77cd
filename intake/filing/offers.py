"""What was learnt since, offered for the tags that wait.

An offer is never taken unasked: the user sees which tags it changes, and how.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from intake.filing.asked import Asked
from intake.filing.cabinet import Cabinet
from intake.filing.changes import Change
from intake.filing.knowledge import Knowledge
from intake.records import State
from intake.shades.evidence import CodeWitness
from intake.shades.names import KnownNames, Names, known_headings
from intake.wording import value_text


@dataclass(frozen=True, slots=True)
class Offer:
    """A doubt about ``field`` of waiting tag ``tag`` that what is known now would settle:
    it was read as ``old`` and is ``new``; ``why`` says so in words."""

    tag: str
    field: str
    old: str
    new: str
    why: str


def offers(cabinet: Cabinet, known: Knowledge) -> list[Offer]:
    """All offers, those for the tags that came first at the head.  ``known`` is to be
    refreshed by the caller.  Makers and ranges are known too by the tags that wait for another
    reason and name them surely."""
    waiting = cabinet.asked().values()
    named = KnownNames(
        Names(asked.texts.get("maker", ""), asked.texts.get("range", ""))
        for asked in waiting
        if not asked.headings
    )
    return [
        offer
        for asked in waiting
        for offer in (
            *(_headings_offered(asked, known.names) or _headings_offered(asked, named)),
            *_shade_offered(asked, known),
        )
    ]


def accept(cabinet: Cabinet, accepted: Iterable[Offer]) -> list[Change]:
    """Answer the doubts of the offers with what they offer, at one stroke.  Raises as
    :meth:`Cabinet.settle` does."""
    answers: dict[str, dict[str, str]] = {}
    for offer in accepted:
        answers.setdefault(offer.tag, {})[offer.field] = offer.new
    return cabinet.settle(answers)


def _headings_offered(asked: Asked, names: KnownNames) -> list[Offer]:
    if not asked.headings:
        return []
    maker, range_ = asked.headings
    offered = []
    for read, found in zip(asked.headings, known_headings(maker, range_, names), strict=True):
        settled = found.state is State.SURE and read.state is not State.SURE
        if settled and asked.is_asked(read.name):
            old, new = (value_text(read.name, one.value) for one in (read, found))
            offered.append(Offer(asked.id, read.name, old, new, found.note.rpartition("; ")[2]))
    return offered


def _shade_offered(asked: Asked, known: Knowledge) -> Iterator[Offer]:
    """A shade that is spelled as a known one of the same maker, or was answered before;
    unless the code of the tag speaks against it."""
    read, maker = asked.texts.get("shade", ""), asked.texts.get("maker", "")
    if not (read and maker and asked.is_asked("shade")):
        return
    range_, code = asked.texts.get("range", ""), asked.texts.get("shade_code", "")
    meant = known.names.slips.meant("shade", maker, read)
    for group in known.shades.own_groups(maker, range_):
        same = group.same(meant or read)
        if len(same) == 1 and not CodeWitness(code, group).conflict(same[0]):
            why = f"{read!r} was {meant} before" if meant else f"a known shade of {maker}"
            yield Offer(asked.id, "shade", read, same[0], why)
            return
