"""How likely the edges of two cards lie as they do if they were cut once, against twice.

Print that lies otherwise on a card that was cut by the same knife moves all edges together: to
one side, towards one end, a little round.  Errors of measuring go their own ways: a nick or a
shadow spoils an end or a side and leaves the others, and a softer picture moves all edges out.  The
odds are those of all that is seen, whatever the move was and however well the edges could be
measured.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
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

_OWN_ERROR, _TILT_ERROR, _GROWTH = 0.8, 0.6, 0.6
"""How far off an edge's height is by itself, its tilt, and all heights together, to what is said of
it: in a softer picture, or a brighter one, a card seems larger or smaller on all sides.  By 65
drawn tags that were each taken twice."""

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
_MOST_GROWTH, _GROWTH_STEPS = 2.5, 17
"""Over so many deviations of a move and of growth is averaged, in so many steps.  What has grown by
more was cut so."""
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
    usual = float(np.sqrt(np.mean([ends.error**2 for _, ends in edges])))
    for times, share in _ERRORS:
        growths, growth_shares = _spread(_GROWTH * times * usual, _GROWTH_STEPS, _MOST_GROWTH)
        parts = [_Seen(side, ends, times, size) for side, ends in edges]
        once += share * float(growth_shares @ _unmoved(parts, growths))
        moved += share * float(growth_shares @ _moved(parts, growths))
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


class _Seen:
    """How likely an edge is seen as it is, measured so many ``times`` as far off as usual: as the
    card's, where its height and its tilt each by itself is more or less likely, or else spoilt."""

    def __init__(self, side: int, ends: Ends, times: float, size: tuple[float, float]) -> None:
        self.side, self.size = side, size
        self.height, self.tilt = (ends.first + ends.last) / 2, (ends.last - ends.first) / 2
        self.error = times * ends.error
        self.spoilt = sum(share * _strayed(ends, errors) for share, errors in _SPOILT)

    def at(self, growths: Doubles, moves: Doubles) -> Doubles:
        """By the height of a card that seems larger by ``growths`` and was moved by ``moves``."""
        moved, _ = moved_edge(self.side, self.size, moves, moves)
        return _t(self.height - growths - moved, _OWN_ERROR * self.error)

    def turned(self, turns: Doubles) -> Doubles:
        """By the tilt of a card that was turned."""
        _, tilts = moved_edge(self.side, self.size, turns, turns)
        return _WHOLE * _t(self.tilt - tilts, _TILT_ERROR * self.error)


def _unmoved(parts: Sequence[_Seen], growths: Doubles) -> Doubles:
    """How likely edges are seen so, by how much larger the card seems."""
    none = np.zeros(1)
    each = [part.at(growths, none) * part.turned(none) + part.spoilt for part in parts]
    return np.asarray(np.prod(each, axis=0))


def _moved(parts: Sequence[_Seen], growths: Doubles) -> Doubles:
    """As :func:`_unmoved` where the print moved as one on its card, by whatever move and turn."""
    moves, move_shares = _spread(MOVE, _STEPS)
    turns, turn_shares = _spread(TURN_RAD, _TURN_STEPS)
    both = np.ones((len(growths), len(turns)))
    for axis in (0, 1):  # top and bottom move up and down, the others to the sides
        along = [part for part in parts if part.side % 2 == axis]
        likely = np.zeros_like(both)
        for whole in product((True, False), repeat=len(along)):
            at, turned = np.ones((len(growths), len(moves))), np.ones(len(turns))
            for part, is_whole in zip(along, whole, strict=True):
                if is_whole:
                    at = at * part.at(growths[:, None], moves)
                turned = turned * (part.turned(turns) if is_whole else part.spoilt)
            likely += (at @ move_shares)[:, None] * turned
        both *= likely
    return np.asarray(both @ turn_shares)


def _strayed(ends: Ends, errors: tuple[float, float]) -> float:
    """How likely an edge is seen so whose height and tilt stray so far."""
    height, tilt = errors
    return float(_t((ends.first + ends.last) / 2, height) * _t((ends.last - ends.first) / 2, tilt))


def _spread(deviation: float, steps: int, reach: float = _REACH) -> tuple[Doubles, Doubles]:
    """Values of a normal distribution about 0, and the share of each."""
    values = np.linspace(-reach, reach, steps) * deviation
    shares = np.exp(-((values / deviation) ** 2) / 2)
    return values, shares / shares.sum()


def _t(away: Doubles | float, scale: float) -> Doubles:
    """The density of Student's t with three degrees of freedom."""
    peak = 2 / (np.pi * np.sqrt(_FREEDOM) * scale)
    return np.asarray(peak * (1 + (np.asarray(away) / scale) ** 2 / _FREEDOM) ** -2)
