"""What the classifier sees of a drawing: a small square of ink on paper, whatever the colours."""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt

Pixels = npt.NDArray[np.uint8]
Patch = npt.NDArray[np.float32]
"""``PATCH_PX`` by ``PATCH_PX``: 0 where there is paper, 1 where there is ink."""

PATCH_PX = 48
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
    side_px = max(right - left, bottom - top, 4.0) * (1 + 2 * MARGIN)
    scale = PATCH_PX / side_px
    shift_x = PATCH_PX / 2 - scale * (left + right) / 2
    shift_y = PATCH_PX / 2 - scale * (top + bottom) / 2
    window, scale, shift_x, shift_y = _near_size(image, scale, shift_x, shift_y)
    square = cv2.warpAffine(
        window,
        np.array([[scale, 0, shift_x], [0, scale, shift_y]]),
        (PATCH_PX, PATCH_PX),
        flags=cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_REPLICATE,
    ).astype(np.float32)
    away = np.abs(square - _paper(square)).max(axis=2)
    contrast = max(_LEAST_CONTRAST, float(np.percentile(away, 97)))
    return np.asarray(np.minimum(away / contrast, 1.0), np.float32)


def _near_size(
    image: Pixels, scale: float, shift_x: float, shift_y: float
) -> tuple[Pixels, float, float, float]:
    """The part of ``image`` that a patch shows, made smaller by averaging where it is much
    larger than the patch, and the placing that belongs to it."""
    height, width = image.shape[:2]
    low_x, low_y = max(0, int(-shift_x / scale) - 2), max(0, int(-shift_y / scale) - 2)
    high_x = min(width, int((PATCH_PX - shift_x) / scale) + 3)
    high_y = min(height, int((PATCH_PX - shift_y) / scale) + 3)
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
