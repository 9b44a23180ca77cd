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

MOVE = 1.2
TURN_RAD = 0.002
"""Deviations of how a card lies in its cut against another: thousandths of its longer side, and
radians.  As well as the best cutters cut: 0.1 mm on a tag of 12 cm, and 0.08 degrees, each twice
(common practice among printers, from memory, no source)."""

CLEAR = 0.1
"""How far off a clear edge is measured, in thousandths."""

_ERRORS = ((0.5, 0.25), (1.0, 0.5), (2.0, 0.25))
"""How many times as far off as usual the edges of a pair are measured, and how often."""

_TILT_ERROR = 0.6
"""How far off an edge's tilt is, to its height."""

_SPOILT = ((0.05, (0.4, 0.35)), (0.02, (2.0, 1.5)))
"""How often a side shows something else than the card's edge, and how far its height and tilt then
stray, in thousandths: by half the width of an edge, or by that of a shadow."""

_LOOSE = ((0.15, (2.5, 1.2)), (0.15, (7.0, 2.5)))
"""How often a card is cut on each side by itself, and how far the heights and tilts of its sides
then stray, in thousandths: on large cards and on small ones."""

_WHOLE, _MOVED = (1 - sum(share for share, _ in others) for others in (_SPOILT, _LOOSE))

_FREEDOM = 3
_REACH = 4.0
_STEPS, _TURN_STEPS = 241, 121
_INWARD = (1.0, -1.0, -1.0, 1.0)
"""Which way a move to the right, or down, takes the edges of the four sides, from the top one
clockwise, each seen from outside."""


class Ends(NamedTuple):
    """How much further in than another's an edge lies near both of its ends, clockwise, and the
    deviation with which that is known, in thousandths of the card's longer side."""

    first: float
    last: float
    error: float = CLEAR


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
    by_itself = 0.0
    for share, errors in _LOOSE:
        by_itself += share * float(np.prod([_strayed(end, errors) for _, end in edges]))
    return float(np.log(once) - np.log(_MOVED * moved + by_itself))


def moved_edge(
    side: int, size: tuple[float, float], move: Doubles, turn_rad: Doubles
) -> tuple[Doubles, Doubles]:
    """By how much the edge of a side is taken in, and how far it is tilted, by a ``move`` of the
    cut, down for the sides 0 and 2 and to the right for the others, and a turn; lengths in
    thousandths of the longer of ``size``."""
    return _INWARD[side] * move, turn_rad * size[side % 2] * (ENDS[1] - ENDS[0]) / 2


def _seen(
    ends: Ends, times: float, height: Doubles | float = 0.0, tilt: Doubles | float = 0.0
) -> Doubles:
    """How likely an edge is seen as ``ends`` say where it lies at ``height`` with ``tilt`` and is
    measured so many ``times`` as far off as usual."""
    high, tilted = (ends.first + ends.last) / 2, (ends.last - ends.first) / 2
    error = times * ends.error
    of_edge = _t(high - height, error) * _t(tilted - tilt, _TILT_ERROR * error)
    return _WHOLE * of_edge + sum(share * _strayed(ends, errors) for share, errors in _SPOILT)


def _seen_moved(
    edges: Sequence[tuple[int, Ends]], size: tuple[float, float], error: float
) -> float:
    """How likely the edges are seen so where the print moved as one on its card."""
    moves, move_shares = _spread(MOVE, _STEPS)
    turns, turn_shares = _spread(TURN_RAD, _TURN_STEPS)
    both = turn_shares
    for axis in (0, 1):  # top and bottom move up and down, the others to the sides
        likely = np.ones((len(turns), len(moves)))
        for side, ends in edges:
            if side % 2 == axis:
                likely *= _seen(ends, error, *moved_edge(side, size, moves[None], turns[:, None]))
        both = both * (likely @ move_shares)
    return float(both.sum())


def _strayed(ends: Ends, errors: tuple[float, float]) -> float:
    """How likely an edge is seen so whose height and tilt stray so far."""
    height, tilt = errors
    return float(_t((ends.first + ends.last) / 2, height) * _t((ends.last - ends.first) / 2, tilt))


def _spread(deviation: float, steps: int) -> tuple[Doubles, Doubles]:
    """Values of a normal distribution about 0, and the share of each."""
    values = np.linspace(-_REACH, _REACH, steps) * deviation
    shares = np.exp(-((values / deviation) ** 2) / 2)
    return values, shares / shares.sum()


def _t(away: Doubles | float, scale: float) -> Doubles:
    """The density of Student's t with three degrees of freedom."""
    peak = 2 / (np.pi * np.sqrt(_FREEDOM) * scale)
    return np.asarray(peak * (1 + (np.asarray(away) / scale) ** 2 / _FREEDOM) ** -2)
