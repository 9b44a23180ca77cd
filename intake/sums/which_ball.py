"""The one ball that the user means: by its record's id, its lot, or words of its tag."""

from __future__ import annotations

from collections.abc import Sequence

from intake.errors import WhichBall
from intake.shades.spelling import key
from intake.sums.ball import Ball
from intake.wording import number_text

NAMING = ("maker", "range", "shade", "shade_code", "lot")
"""The columns that name a ball."""

MOST_NAMED = 5
"""So many balls are told apart in one message."""


def ball_words(ball: Ball) -> str:
    """A ball in words: ``Quillstow Spinners Sluicegate, Kelp 041, lot 0012``."""
    record = ball.record
    yarn = f"{record.maker} {record.range}".strip()
    shade = f"{record.shade} {record.shade_code}".strip()
    lot = f"lot {record.lot}" if record.lot else ""
    return ", ".join(filter(None, (yarn, shade, lot))) or record.id


def the_ball(balls: Sequence[Ball], wanted: str) -> Ball:
    """The one ball of ``balls`` that ``wanted`` names.

    An id names its own ball whatever else is like it, and a lot comes before words.  Lots
    and ids are compared letter by letter.  Raises :class:`~intake.errors.WhichBall` where no
    ball is meant, or more than one: then the user is asked.
    """
    for is_meant in (_has_id, _has_lot, _has_words):
        meant = [ball for ball in balls if is_meant(ball, wanted)]
        if len(meant) == 1:
            return meant[0]
        if meant:
            raise WhichBall(
                f"{len(meant)} balls go by {wanted!r}; name one by its id: {_told_apart(meant)}"
            )
    raise WhichBall(
        f"no ball goes by {wanted!r}; give the id of its record, its lot, or words of its tag"
    )


def _has_id(ball: Ball, wanted: str) -> bool:
    return ball.record.id == wanted


def _has_lot(ball: Ball, wanted: str) -> bool:
    return bool(wanted) and ball.record.lot == wanted


def _has_words(ball: Ball, wanted: str) -> bool:
    """Whether all words of ``wanted`` stand among those that name the ball."""
    words = {key(word) for name in NAMING for word in str(getattr(ball.record, name)).split()}
    asked = {key(word) for word in wanted.split()}
    return bool(asked) and asked <= words


def _told_apart(balls: Sequence[Ball]) -> str:
    named = [f"{ball.record.id} ({ball_words(ball)}{_left(ball)})" for ball in balls[:MOST_NAMED]]
    more = len(balls) - len(named)
    return "; ".join((*named, f"and {more} more") if more else named)


def _left(ball: Ball) -> str:
    return "" if ball.left_m is None else f", {number_text(ball.left_m)} m left"
