"""Finding the squares that stand for a swatch: stitches and rows are printed about them."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from intake.records import Line
from intake.symbols.boxes import Box, longer_side, shared
from intake.symbols.patch import MARGIN, PATCH_PX, Patch, Pixels, patch_of

_SMALLEST_PX = 40.0
"""Side of the smallest square, in pixels of the tag."""

_LEAST_RATIO = 0.8
"""Lesser side over longer of what is still a square."""

_INK = 0.35
_EDGE_PX = 3
_DRAWN = 0.8
"""A side is drawn where so much of its length has ink within three pixels of the patch."""

_NEAR = 0.6
"""Print belongs to a square that is no further from it than this, in sides."""

_COVERED = 0.8
_LARGER = 1.9
"""Knitting lies in its square with so much of its box, and the square is so many times as large; a
frame is not as large as that."""


def find_squares(image: Pixels, boxes: Sequence[Box], lines: Sequence[Line]) -> list[Box]:
    """Those of ``boxes`` on ``image`` that are drawn squares with a number beside them."""
    numbers = [line.centre for line in lines if _may_count_stitches(line.text)]
    return [
        box
        for box in boxes
        if _is_square(box)
        and any(_is_beside(place, box) for place in numbers)
        and _has_four_sides(patch_of(image, box)[:, :PATCH_PX])
    ]


_OF_THE_BALL = re.compile(r"\d\s?(?:g|gr|gramm?[a-z]*|oz)\b|%|@|www\.", re.IGNORECASE)
"""What a line that begins with a number tells of the ball, or an address."""


def _may_count_stitches(text: str) -> bool:
    return text.strip()[:1].isdigit() and not _OF_THE_BALL.search(text)


def is_knitting(box: Box, square: Box) -> bool:
    """Whether what is drawn in ``box`` is part of the knitting that a ``square`` of tension
    shows."""
    return shared(box, square) > _COVERED and longer_side(square) > _LARGER * longer_side(box)


def _is_square(box: Box) -> bool:
    low, high = sorted((box[2] - box[0], box[3] - box[1]))
    return low >= max(_SMALLEST_PX, _LEAST_RATIO * high)


def _is_beside(place: tuple[float, float], box: Box) -> bool:
    """Whether ``place`` lies near ``box`` and not in it."""
    (x, y), (left, top, right, bottom) = place, box
    away = max(left - x, x - right, top - y, y - bottom)
    return 0 < away < _NEAR * (right - left)


def _has_four_sides(patch: Patch) -> bool:
    """Whether ink runs along all four sides of the drawing that fills ``patch``, a square."""
    inked = np.asarray(patch > _INK)
    room = round(PATCH_PX * MARGIN / (1 + 2 * MARGIN))
    near, far = slice(max(0, room - _EDGE_PX), room + _EDGE_PX), slice(-room - _EDGE_PX, None)
    bands = ((inked[near], 0), (inked[far], 0), (inked[:, near], 1), (inked[:, far], 1))
    sides = [np.asarray(band.any(axis=axis)) for band, axis in bands]
    inner = slice(room + _EDGE_PX, -room - _EDGE_PX)
    return all(side[inner].mean() >= _DRAWN for side in sides)
