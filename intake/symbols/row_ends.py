"""Whether a row of symbols goes on behind its last one: where the picture of its tag ends, or in
the row's next place.

What is cut off with the rim of a tag is no drawing that could be told, but it leaves ink at
the picture's border.  What stands in the next place and was taken for no drawing leaves ink there.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import cv2
import numpy as np

from intake.symbols.boxes import Box
from intake.symbols.patch import Pixels

_INK = 0.6
"""From this share of the symbols' contrast on print at the border is ink."""

_GROUND = 0.25
"""From this share on what lies above and below the row may be the ground that the card lies on."""

_LEAST_INK = 20.0
"""Both from so many grey levels at least."""

_RUN = 0.05
"""Such ink beside the row, as a share of its height, at least."""

_BEYOND = 0.2
"""Such ground, as a share of what lies above and below, at most."""

_BORDER = 0.015
"""Width of the border, as a share of the picture's longer side: what lies beyond a tag that was
cut too narrow may be blank where the tag was turned."""

_REACH = 1.4
"""The next place ends no further from a row than this, in its least distance of two symbols."""

_ABOVE = 0.35
"""So far beyond the row a drawing in its next place may reach, up and down, as a share of the
row's height."""

_DRAWN = 0.4
"""From this share of the symbols' contrast on there is ink in the next place."""

_AS_LARGE = 0.45
"""Lesser side of a drawing there, as a share of the row's height, at least."""


def leaves_picture(image: Pixels, row: Sequence[Box], pitch_px: float) -> bool:
    """Whether another symbol of a ``row``, given from the left and ``pitch_px`` apart, may be cut
    off at the left or the right border of a colour ``image`` (height, width, 3)."""
    return _goes_on(image, row, pitch_px) or _goes_on(
        image[:, ::-1], _mirrored(row, image), pitch_px
    )


def stands_beside(image: Pixels, row: Sequence[Box], known: Sequence[Box], pitch_px: float) -> bool:
    """Whether something as large as a symbol stands in the next place of a ``row``, given from the
    left and ``pitch_px`` apart, at either end, that is none of what is ``known`` to be none."""
    return _has_next(image, row, known, pitch_px) or _has_next(
        image[:, ::-1], _mirrored(row, image), _mirrored(known, image), pitch_px
    )


def pitch_of(row: Sequence[Box]) -> float:
    """The least distance from the middle of one of a ``row`` to the next one's, in pixels; 0
    where there is but one."""
    middles = [(box[0] + box[2]) / 2 for box in row]
    return min((right - left for left, right in pairwise(middles)), default=0.0)


def _mirrored(boxes: Sequence[Box], image: Pixels) -> list[Box]:
    """``boxes``, given from the left, where they lie on the mirrored ``image``."""
    width = image.shape[1]
    return [(width - right, top, width - left, bottom) for left, top, right, bottom in boxes[::-1]]


def _has_next(image: Pixels, row: Sequence[Box], known: Sequence[Box], pitch_px: float) -> bool:
    """Whether something stands in the next place at the right of ``row``."""
    left, _, right, _ = (round(side) for side in row[-1])
    top, bottom = max(0, round(min(box[1] for box in row))), round(max(box[3] for box in row))
    end = min(image.shape[1], round(right + _REACH * pitch_px))
    if end - right < _AS_LARGE * (bottom - top):
        return False
    room = round(_ABOVE * (bottom - top))
    low, high = max(0, top - room), min(image.shape[0], bottom + room)
    strip = image[low:high, right + 1 : end].mean(axis=2)
    paper = float(np.median(strip))
    last = image[top:bottom, left:right].mean(axis=2)
    contrast = float(np.percentile(np.abs(last - paper), 97))
    ink = (np.abs(strip - paper) > max(_LEAST_INK, _DRAWN * contrast)).astype(np.uint8)
    for box in known:
        x, y, to_x, to_y = (round(side) for side in box)
        ink[max(0, y - low) : max(0, to_y - low), max(0, x - right) : max(0, to_x - right)] = 0
    _, _, stats, _ = cv2.connectedComponentsWithStats(ink)
    sides, corners = stats[1:, 2:4], stats[1:, :2]
    within = (corners > 0).all(axis=1) & (corners + sides < strip.shape[::-1]).all(axis=1)
    large = sides.min(axis=1) >= _AS_LARGE * (bottom - top)
    return bool((within & large).any())


def _goes_on(image: Pixels, row: Sequence[Box], pitch_px: float) -> bool:
    """Whether the ``row`` may go on at the right border."""
    height, width = image.shape[:2]
    left, _, right, _ = (round(side) for side in row[-1])
    room, border = width - right, max(2, round(_BORDER * max(height, width)))
    if room > pitch_px:
        return False
    if room <= border:
        return True
    top, bottom = max(0, round(min(box[1] for box in row))), round(max(box[3] for box in row))
    half = (bottom - top) // 2
    low, high = max(0, top - half), min(height, bottom + half)
    own = np.zeros(high - low, bool)
    own[top - low : bottom - low] = True
    strip = image[low:high, right:].mean(axis=2)
    paper = float(np.median(strip[~own] if not own.all() else strip))
    last = image[top:bottom, left:right].mean(axis=2)
    contrast = float(np.percentile(np.abs(last - paper), 97))
    away = np.abs(strip[:, -border:] - paper).max(axis=1)
    beyond = away[~own] > max(_LEAST_INK, _GROUND * contrast)
    if beyond.size and beyond.mean() > _BEYOND:
        return False
    return int((away[own] > max(_LEAST_INK, _INK * contrast)).sum()) >= _RUN * (bottom - top)
