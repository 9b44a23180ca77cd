"""How likely the edges of two cards lie as they do if they were cut once, against twice.

Print that lies otherwise on a card that was cut by the same knife moves all edges together: to
one side, towards one end, a little round.  Errors of measuring go their own ways: a nick or a
shadow spoils an end or a side and leaves the others.  The odds are those of all that is seen,
whatever the move was and however well the edges could be measured.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from intake.pictures.card_edges import ENDS, Doubles

_MOVE = 1.2
_TURN_RAD = 0.002
"""Deviations of how a card lies in its cut against another: thousandths of its longer side, and
radians.  As well as the best cutters cut: 0.1 mm on a tag of 12 cm, and 0.08 degrees, each twice
(common practice among printers, from memory, no source)."""

_ERRORS = ((0.05, 0.3), (0.1, 0.4), (0.2, 0.2), (0.4, 0.1))
"""Errors of measuring an edge's height, in thousandths, and how often each is usual: most edges
of drawn tags are measured to a tenth, those in the dark less well."""

_SPOILT = 0.1
_SPOILT_ERRORS = (2.0, 1.5)
"""How often a side shows something else than the card's edge, and how far its height and tilt then
stray, in thousandths: mostly by the width of a shadow."""

_LOOSE = 0.3
_LOOSE_ERRORS = (6.0, 2.0)
"""How often a card is cut on each side by itself, and how far the heights and tilts of its sides
then stray, in thousandths."""

_FREEDOM = 3
_REACH = 4.0
_STEPS = 241
_INWARD = (1.0, -1.0, -1.0, 1.0)
"""Which way a move to the right, or down, takes the edges of the four sides, from the top one
clockwise, each seen from outside."""


class Ends(NamedTuple):
    """How much further in than another's an edge lies near both of its ends, clockwise, in
    thousandths of the card's longer side."""

    first: float
    last: float


def cut_once_log_odds(edges: Sequence[tuple[int, Ends]], size: tuple[float, float]) -> float:
    """The natural logarithm of the odds that edges lie so because both cards are one.

    Each of ``edges`` is a side (0 the top, then clockwise) with how its edges compare; ``size`` is
    the card's width and height in thousandths of the longer.  0 where there is no edge.  Student's
    t of three degrees of freedom stands for errors, which now and then are large; what is not known
    is averaged over (marginal likelihoods: Bishop, Pattern Recognition and Machine Learning, 3.4).
    """
    if not edges:
        return 0.0
    once = moved = 0.0
    for error, share in _ERRORS:
        once += share * float(np.prod([_seen(end, error) for _, end in edges]))
        moved += share * _seen_moved(edges, size, error)
    loose = float(np.prod([_strayed(end, _LOOSE_ERRORS) for _, end in edges]))
    return float(np.log(once) - np.log((1 - _LOOSE) * moved + _LOOSE * loose))


def _seen(
    ends: Ends, error: float, height: Doubles | float = 0.0, tilt: Doubles | float = 0.0
) -> Doubles:
    """How likely an edge is seen as ``ends`` say where it lies at ``height`` with ``tilt``."""
    high, tilted = (ends.first + ends.last) / 2, (ends.last - ends.first) / 2
    of_edge = _t(high - height, error) * _t(tilted - tilt, error)
    return (1 - _SPOILT) * of_edge + _SPOILT * _strayed(ends, _SPOILT_ERRORS)


def _seen_moved(
    edges: Sequence[tuple[int, Ends]], size: tuple[float, float], error: float
) -> float:
    """How likely the edges are seen so where the print moved as one on its card."""
    moves, move_shares = _spread(_MOVE)
    turns, turn_shares = _spread(_TURN_RAD)
    both = turn_shares
    for axis in (0, 1):  # top and bottom move up and down, the others to the sides
        likely = np.ones((len(turns), len(moves)))
        for side, ends in edges:
            if side % 2 == axis:
                tilts = turns[:, None] * size[axis] * (ENDS[1] - ENDS[0]) / 2
                likely *= _seen(ends, error, _INWARD[side] * moves[None], tilts)
        both = both * (likely @ move_shares)
    return float(both.sum())


def _strayed(ends: Ends, errors: tuple[float, float]) -> float:
    """How likely an edge is seen so whose height and tilt stray so far."""
    height, tilt = errors
    return float(_t((ends.first + ends.last) / 2, height) * _t((ends.last - ends.first) / 2, tilt))


def _spread(deviation: float) -> tuple[Doubles, Doubles]:
    """Values of a normal distribution about 0, and the share of each."""
    values = np.linspace(-_REACH, _REACH, _STEPS) * deviation
    shares = np.exp(-((values / deviation) ** 2) / 2)
    return values, shares / shares.sum()


def _t(away: Doubles | float, scale: float) -> Doubles:
    """The density of Student's t with three degrees of freedom."""
    peak = 2 / (np.pi * np.sqrt(_FREEDOM) * scale)
    return np.asarray(peak * (1 + (np.asarray(away) / scale) ** 2 / _FREEDOM) ** -2)
