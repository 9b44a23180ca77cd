"""The one ball that the user means: by its record's id, its lot, or words of its tag."""

from __future__ import annotations

from collections.abc import Sequence

from intake.errors import WhichBall
from intake.sums.ball import Ball
from intake.sums.catalogue import Catalogue
from intake.sums.find import Found, Query, find
from intake.sums.lots import Lot
from intake.sums.terms import lot_text
from intake.wording import first_named, number_text


def ball_words(ball: Ball) -> str:
    """A ball in words: ``Quillstow Spinners Sluicegate, Kelp 041, lot 0012``."""
    record = ball.record
    yarn = f"{record.maker} {record.range}".strip()
    shade = f"{record.shade} {record.shade_code}".strip()
    lot = f"lot {record.lot}" if record.lot else ""
    return ", ".join(filter(None, (yarn, shade, lot))) or record.id


def the_ball(balls: Catalogue, wanted: str) -> Ball:
    """The one ball that ``wanted`` names.

    An id names its own ball whatever else is like it, and a lot comes before words, which
    are looked for as :func:`~intake.sums.find.find` does.  Raises
    :class:`~intake.errors.WhichBall` where no ball is meant, more than one, or one only if a
    word was misspelt: then the user is asked.
    """
    wanted = lot_text(wanted)
    for column in ("id", "lot"):
        meant = balls.balls(balls.exactly(column, wanted)) if wanted else []
        if meant:
            return _only(meant, wanted)
    found = find(balls, Query(words=tuple(wanted.split())))
    if found.taken_as or not found.lots:
        raise WhichBall(_no_ball(found, wanted))
    return _only(_balls(found.lots), wanted)


def _balls(lots: Sequence[Lot]) -> list[Ball]:
    return [ball for lot in lots for ball in lot.balls]


def _only(meant: Sequence[Ball], wanted: str) -> Ball:
    if len(meant) == 1:
        return meant[0]
    count = sum(ball.count for ball in meant)
    raise WhichBall(f"{count} balls go by {wanted!r}; name one by its id: {_told_apart(meant)}")


def _no_ball(found: Found, wanted: str) -> str:
    near = _balls(found.lots or found.near)
    advice = (
        f"near it: {_told_apart(near)}"
        if near
        else "give the id of its record, its lot, or words of its tag"
    )
    return f"no ball goes by {wanted!r}; {advice}"


def _told_apart(balls: Sequence[Ball]) -> str:
    return first_named([f"{ball.record.id} ({ball_words(ball)}{_left(ball)})" for ball in balls])


def _left(ball: Ball) -> str:
    balls = f", {ball.count} balls" if ball.count > 1 else ""
    return balls + ("" if ball.left_m is None else f", {number_text(ball.left_m)} m left")
