"""What the classifier sees of a drawing: ink on paper, whatever the colours.

It sees the whole in a small square, and its middle, where numbers, letters and dots stand, in
another one beside it, larger.
"""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt

Pixels = npt.NDArray[np.uint8]
Patch = npt.NDArray[np.float32]
"""``PATCH_PX`` high and ``PATCH_PX + MARKS_PX`` wide: 0 where there is paper, 1 where there is
ink.  The whole is on the left, the middle at the top right; nothing is beneath that."""

PATCH_PX = 56
MARKS_PX = 40
MARKS_SHARE = 0.64
"""Side of the middle, as a share of the drawing's longer side."""

MARGIN = 0.1
"""Room about the drawing, as a share of its longer side."""

_RING = 2
"""Width in pixels of the rim whose median colour is taken for the paper's."""

_LEAST_CONTRAST = 24.0
"""Grey levels between paper and ink below which a patch stays faint."""


def patch_of(image: Pixels, box: tuple[float, float, float, float]) -> Patch:
    """The drawing in ``box`` (left, top, right, bottom in pixels) of a colour ``image``.

    Light print on dark becomes ink like any other: ink is what differs from the rim.
    """
    left, top, right, bottom = box
    side_px = max(right - left, bottom - top, 4.0)
    middle = ((left + right) / 2, (top + bottom) / 2)
    whole = _square(image, middle, side_px * (1 + 2 * MARGIN), PATCH_PX)
    marks = _square(image, middle, side_px * MARKS_SHARE, MARKS_PX)
    paper = _paper(whole)
    away, marks_away = (np.abs(square - paper).max(axis=2) for square in (whole, marks))
    contrast = max(_LEAST_CONTRAST, float(np.percentile(away, 97)))
    patch = np.zeros((PATCH_PX, PATCH_PX + MARKS_PX), np.float32)
    patch[:, :PATCH_PX] = np.minimum(away / contrast, 1.0)
    patch[:MARKS_PX, PATCH_PX:] = np.minimum(marks_away / contrast, 1.0)
    return patch


def _square(
    image: Pixels, middle: tuple[float, float], side_px: float, to_px: int
) -> npt.NDArray[np.float32]:
    """The square about ``middle`` with sides of ``side_px``, brought to ``to_px``."""
    scale = to_px / side_px
    shift_x, shift_y = (to_px / 2 - scale * place for place in middle)
    window, scale, shift_x, shift_y = _near_size(image, scale, shift_x, shift_y, to_px)
    square = cv2.warpAffine(
        window,
        np.array([[scale, 0, shift_x], [0, scale, shift_y]]),
        (to_px, to_px),
        flags=cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    )
    return np.asarray(square, np.float32)


def _near_size(
    image: Pixels, scale: float, shift_x: float, shift_y: float, to_px: int
) -> tuple[Pixels, float, float, float]:
    """The part of ``image`` that a square of ``to_px`` shows, made smaller by averaging where
    it is much larger than that, and the placing that belongs to it."""
    height, width = image.shape[:2]
    low_x, low_y = max(0, int(-shift_x / scale) - 2), max(0, int(-shift_y / scale) - 2)
    high_x = min(width, int((to_px - shift_x) / scale) + 3)
    high_y = min(height, int((to_px - shift_y) / scale) + 3)
    window = image[low_y:high_y, low_x:high_x]
    shift_x, shift_y = shift_x + scale * low_x, shift_y + scale * low_y
    if scale < 0.8:
        size = (max(1, round(window.shape[1] * scale)), max(1, round(window.shape[0] * scale)))
        window = cv2.resize(window, size, interpolation=cv2.INTER_AREA).astype(np.uint8)
        scale = 1.0
    return window, scale, shift_x, shift_y


def _paper(square: npt.NDArray[np.float32]) -> npt.NDArray[np.float32]:
    """The colour of the paper: the median of the rim."""
    rim = np.concatenate(
        [
            square[:_RING].reshape(-1, 3),
            square[-_RING:].reshape(-1, 3),
            square[_RING:-_RING, :_RING].reshape(-1, 3),
            square[_RING:-_RING, -_RING:].reshape(-1, 3),
        ]
    )
    return np.asarray(np.median(rim, axis=0), np.float32)
