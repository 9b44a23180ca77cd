"""The straight edges of a drawing: a crossed dryer has them, a crossed ring has not."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from intake.symbols.boxes import Box, longer_side
from intake.symbols.patch import MARGIN, PATCH_PX, Patch, Pixels, patch_of

_NEAR_CORNERS = np.array([0.12, 0.16, 0.2, 0.24, 0.76, 0.8, 0.84, 0.88])
"""Places along a side, as shares of it, where a ring has left the side and a square has not, be
its corners rounded or not."""

_DEEP = 0.1
"""The first ink there is no further from the side than this share of the box."""

_OUTSIDE_PX = 2
"""Ink so far outside the box belongs to its side, too."""

_BORDERED = 0.95
"""Share of the places from which on all four sides are straight.  Of 1,035 rings in styles of both
splits, drawn without a frame and badly printed, fewer than one in a hundred had so much; of 491
dryers 3 in 4 had.  Badly printed dryers have less."""


def is_bordered(image: Pixels, box: Box) -> bool:
    """Whether the drawing in ``box`` of a colour ``image`` (height, width, 3) has a straight edge
    on all four sides, as a square has."""
    return bool((_depths(patch_of(image, box), box) < _DEEP).mean() >= _BORDERED)


def _depths(patch: Patch, box: Box) -> npt.NDArray[np.float64]:
    """How deep the first ink lies at each place of each side, as shares of the box: (4, places)."""
    ink = patch[:, :PATCH_PX]
    scale = PATCH_PX / (longer_side(box) * (1 + 2 * MARGIN))
    sides_px = (box[2] - box[0]) * scale, (box[3] - box[1]) * scale
    return np.array([
        _depths_from_above(np.rot90(ink, turns), sides_px[turns % 2], sides_px[1 - turns % 2])
        for turns in range(4)
    ])  # fmt: skip


def _depths_from_above(ink: Patch, width_px: float, height_px: float) -> npt.NDArray[np.float64]:
    """The same of the upper side of a box of that size in the middle of ``ink``."""
    left, top = (PATCH_PX - width_px) / 2, (PATCH_PX - height_px) / 2
    columns = np.clip(np.rint(left + _NEAR_CORNERS * width_px).astype(int), 0, PATCH_PX - 1)
    start = max(0, round(top) - _OUTSIDE_PX)
    inked = ink[start:, columns] > 0.5 * ink.max()
    first = np.where(inked.any(axis=0), inked.argmax(axis=0) + start, PATCH_PX)
    return np.asarray((first - top) / height_px, np.float64)
