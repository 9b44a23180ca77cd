"""The one yarn that the user means: by a record's id, a lot, or words of its tags."""

from __future__ import annotations

from collections.abc import Sequence

from intake.errors import WhichBall
from intake.sums.ball import Ball
from intake.sums.catalogue import Catalogue
from intake.sums.find import Query, find
from intake.sums.lots import Lot, ShadeName, name_key
from intake.sums.terms import lot_text
from intake.wording import first_named


def the_yarn(balls: Catalogue, wanted: str) -> list[Ball]:
    """The balls of the one yarn that ``wanted`` names; of an id, that ball alone.

    Words are looked for as :func:`~intake.sums.find.find` does; a shade of that very name
    goes before others that have it in theirs.  Raises :class:`~intake.errors.WhichBall`
    where no yarn is meant, more than one, or one only if a word was misspelt.
    """
    by_id = balls.balls(balls.exactly("id", lot_text(wanted))) if wanted.strip() else []
    if by_id:
        return by_id
    found = find(balls, Query(words=tuple(wanted.split()))) if wanted.strip() else None
    if found is None or not found.lots:
        raise WhichBall(f"no yarn goes by {wanted!r}; give a record's id or words of its tag")
    if found.taken_as:
        raise WhichBall(f"no yarn goes by {wanted!r}; near it: {_told_apart(found.lots)}")
    lots = _very_name(found.lots, wanted) or found.lots
    if len({lot.name for lot in lots}) > 1:
        raise WhichBall(
            f"several yarns go by {wanted!r}; put more words in the same quotes, or give a "
            f"record's id: {_told_apart(lots)}"
        )
    return [ball for lot in lots for ball in lot.balls]


def _very_name(lots: Sequence[Lot], wanted: str) -> list[Lot]:
    return [lot for lot in lots if name_key(lot.name.shade) == name_key(wanted)]


def _told_apart(lots: Sequence[Lot]) -> str:
    first: dict[ShadeName, str] = {}
    for lot in lots:
        first.setdefault(lot.name, lot.balls[0].record.id)
    return first_named(
        [
            f"{', '.join(filter(None, (name.yarn, name.text)))} ({record_id})"
            for name, record_id in first.items()
        ]
    )
