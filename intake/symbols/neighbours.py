"""How the drawings of a tag stand to each other: which are neighbours, which make a row, and
whether a row has a gap, no room for more, or what seems a square of tension about it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from statistics import median_low

from intake.symbols.boxes import Box
from intake.symbols.look import LIKELY, SURE, Seen
from intake.symbols.squares import is_knitting
from intake.symbols.vocabulary import NAMELESS, NO_SYMBOL

ALIKE = 3.0
"""Sides of two symbols of one row, larger over smaller, at most: one may be cut out with its
frame and the other without."""

AS_LARGE = 1.35
"""The same of two symbols of one column, and of a symbol and a drawing that does not look like
one."""

NEAR = 1.6
"""Room between two symbols of one row, in sides of the larger, at most."""

_GAP = 1.6
"""Two symbols of a row are no further apart, from middle to middle, than this times the usual
distance, or one between them was missed."""

_PAIR = 1.75
"""The middles of two symbols that are a whole row are no further apart than this times the
broader one, or one between them was missed: it would leave 2.1 times at least."""

_FULL = 1.3
"""Between two symbols whose middles are no further apart than this times the usual distance
there is no room for another."""


def are_level(one: Seen, other: Seen) -> bool:
    """Whether two drawings stand beside each other."""
    shared_px = min(one.box[3], other.box[3]) - max(one.box[1], other.box[1])
    return shared_px > 0.5 * min(one.box[3] - one.box[1], other.box[3] - other.box[1])


def are_neighbours(one: Seen, other: Seen) -> bool:
    """Whether two drawings stand near each other in a row or column and are alike in size; in a
    column they must be as large, for other drawings stand above and below a row."""
    low, high = sorted((one.side_px, other.side_px))
    if high > (ALIKE if are_level(one, other) else AS_LARGE) * low:
        return False
    apart_x, apart_y = (
        max(one.box[at], other.box[at]) - min(one.box[at + 2], other.box[at + 2]) for at in (0, 1)
    )
    if max(apart_x, apart_y) > NEAR * high:
        return False
    across = 0 if apart_x < apart_y else 1
    # What was cut out of a frame may be a flat part of its symbol.
    least = min(each.box[across + 2] - each.box[across] for each in (one, other))
    return min(apart_x, apart_y) < -0.3 * least


def rows_of(seen: Sequence[Seen]) -> list[list[Seen]]:
    """Symbols by row, from the top; each row from the left."""
    rows: list[list[Seen]] = []
    for one in sorted(seen, key=lambda one: one.box[1] + one.box[3]):
        middle = (one.box[1] + one.box[3]) / 2
        for row in rows:
            if row[-1].box[1] < middle < row[-1].box[3]:
                row.append(one)
                break
        else:
            rows.append([one])
    return [sorted(row, key=lambda one: one.box[0]) for row in rows]


def has_gap(row: Sequence[Seen]) -> bool:
    """Whether two neighbours of a row stand so far apart that one may be missing."""
    middles = [_middle(one) for one in row]
    apart = [right - left for left, right in pairwise(middles)]
    if len(row) == 2:
        return apart[0] > _PAIR * max(one.box[2] - one.box[0] for one in row)
    return len(apart) > 1 and max(apart) > _GAP * min(apart)


def is_between(one: Seen, row: Sequence[Seen]) -> bool:
    """Whether a drawing stands between two symbols of a ``row`` that have no room for another
    between them: what is seen of the card between two tiles is none."""
    if len(row) < 3:
        return False
    usual = median_low([_middle(right) - _middle(left) for left, right in pairwise(row)])
    full = min(_FULL * usual, _PAIR * max(each.box[2] - each.box[0] for each in row))
    return any(
        left.box[0] < one.box[0]
        and one.box[2] < right.box[2]
        and are_level(one, left)
        and _middle(left) < _middle(one) < _middle(right)
        and _middle(right) - _middle(left) < full
        for left, right in pairwise(row)
    )


def holds_symbols(square: Box, seen: Sequence[Seen]) -> bool:
    """Whether what seems a square of tension is drawn about care symbols, such as the corner of
    a card: one in it surely is a symbol and has another beside it, as no knitting does."""
    told = [one for one in seen if tells(one, LIKELY)]
    return any(
        is_knitting(one.box, square)
        and tells(one, SURE)
        and any(
            other is not one and are_level(one, other) and are_neighbours(one, other)
            for other in told
        )
        for one in told
    )


def tells(one: Seen, confidence: float) -> bool:
    """Whether a drawing is a symbol with a process of its own, of that ``confidence``."""
    told = one.verdict.meaning not in (NO_SYMBOL, NAMELESS)
    return told and one.verdict.confidence >= confidence


def _middle(one: Seen) -> float:
    """The middle of a drawing, across."""
    return (one.box[0] + one.box[2]) / 2
