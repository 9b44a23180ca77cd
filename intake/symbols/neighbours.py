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

FRAMED = 2.2
"""The same of a symbol that is cut out with its frame and of another without."""

AS_LARGE = 1.35
"""The same of two symbols of one column, and of a symbol and a drawing that does not look like
one."""

NEAR = 1.6
"""Room between two symbols of one row, in sides of the larger, at most."""

_GAP = 1.6
"""Two symbols of a row are no further apart, from middle to middle, than this times the usual
distance, or one between them was missed."""

_BELOW = 0.8
"""Room between two rows of symbols, in sides of the larger, at most."""

_ASIDE = 0.75
"""The middle of a symbol in a second row is no further aside from that of the nearest above it, in
sides of the larger: a row of fewer may be centred."""

_UNDER = 0.3
"""The same of a symbol that is all of its row."""

_TOUCH = 0.1
"""Two drawings share so much of the larger one's side at most if one is below the other."""

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
    column they must be as large if not both surely are symbols, for other drawings stand above and
    below a row."""
    low, high = sorted((one.side_px, other.side_px))
    if high > _most_alike(one, other) * low:
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


def _most_alike(one: Seen, other: Seen) -> float:
    """The longer side of the larger of two neighbours over that of the lesser, at most."""
    if are_level(one, other):
        return ALIKE
    return FRAMED if tells(one, SURE) and tells(other, SURE) else AS_LARGE


def stands_as_next(one: Seen, other: Seen, as_large: float) -> bool:
    """Whether a drawing takes a place beside a symbol of its row, ``as_large`` times as large or as
    small at most, or one in the row below or above it."""
    low, high = sorted((one.side_px, other.side_px))
    if are_level(one, other):
        return high < as_large * low
    apart_px = max(one.box[1], other.box[1]) - min(one.box[3], other.box[3])
    off_px = abs(_middle(one) - _middle(other))
    return high < AS_LARGE * low and apart_px < _BELOW * high and off_px < _ASIDE * high


def stands_below(one: Seen, row: Sequence[Seen]) -> bool:
    """Whether a symbol is the only one of a second row, below the ``row``'s first symbol or its
    middle."""
    side_px = max(each.side_px for each in row)
    apart_px = one.box[1] - max(each.box[3] for each in row)
    middle = (_middle(row[0]) + _middle(row[-1])) / 2
    off_px = min(abs(_middle(one) - at) for at in (_middle(row[0]), middle))
    return -_BELOW * side_px < apart_px < _BELOW * side_px and off_px < _UNDER * side_px


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


def is_between(one: Seen, rows: Sequence[Sequence[Seen]]) -> bool:
    """Whether a drawing stands between two symbols of ``rows`` that have no room for another
    between them: what is seen of the card between two tiles is none."""
    return any(_is_in_row(one, row) for row in rows) or any(
        _is_below(upper, one) and _is_below(one, lower) and _are_close(upper, lower)
        for above, below in pairwise(rows)
        for upper in above
        for lower in below
    )


def _is_in_row(one: Seen, row: Sequence[Seen]) -> bool:
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


def _is_below(upper: Seen, lower: Seen) -> bool:
    """Whether one drawing stands right below another, and does not reach into it."""
    off_px = abs(_middle(upper) - _middle(lower))
    side_px = max(upper.side_px, lower.side_px)
    return lower.box[1] > upper.box[3] - _TOUCH * side_px and off_px < _UNDER * side_px


def _are_close(upper: Seen, lower: Seen) -> bool:
    """Whether there is no room for another between two symbols of one column."""
    return lower.box[1] - upper.box[3] < _BELOW * max(upper.side_px, lower.side_px)


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
