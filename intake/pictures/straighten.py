"""A tag is cut out of its picture, straight and at the resolution it was taken."""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt

from intake.pictures.load import Image
from intake.stages import stage

Corners = npt.NDArray[np.float32]
"""Four corners, shape (4, 2): top left, top right, bottom right, bottom left; pixels."""

Boxes = npt.NDArray[np.float32]
"""Corners of several boxes, shape (n, 4, 2); pixels."""

MARGIN = 0.01
"""Width of the rim that is kept around a tag, as a share of its longer side."""


@stage("straighten")
def cut_out(image: Image, quad: Corners) -> Image:
    """The part of ``image`` within ``quad``, with a small rim, warped to a rectangle.

    The rectangle is as wide and high as the longer of the quad's opposite sides, so no
    detail is lost.  A quad along the picture's own axes is cut without resampling.
    ``ValueError`` for a quad of no area.
    """
    width_px, height_px = _size_px(quad)
    rim_px = _rim_px(width_px, height_px)
    if _is_upright(quad):
        (left, top), (right, bottom) = _cropped(quad, rim_px)
        return np.ascontiguousarray(image[top:bottom, left:right])
    size_px = (round(width_px) + 2 * rim_px, round(height_px) + 2 * rim_px)
    warped = cv2.warpPerspective(
        image, _matrix(quad), size_px, flags=cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE
    )
    return np.asarray(warped, dtype=np.uint8)


def moved_onto_cut(boxes: Boxes, quad: Corners) -> Boxes:
    """``boxes`` of the picture as they stand on what :func:`cut_out` makes of ``quad``."""
    if _is_upright(quad):
        (left, top), _ = _cropped(quad, _rim_px(*_size_px(quad)))
        return (boxes - np.array([left, top], np.float32)).astype(np.float32)
    points = boxes.reshape(-1, 1, 2).astype(np.float32)
    moved = cv2.perspectiveTransform(points, _matrix(quad))
    return np.asarray(moved, np.float32).reshape(boxes.shape)


def _matrix(quad: Corners) -> npt.NDArray[np.float64]:
    """What takes ``quad`` to the cut-out's pixels."""
    width_px, height_px = _size_px(quad)
    target = np.array(
        [[0, 0], [width_px, 0], [width_px, height_px], [0, height_px]], dtype=np.float32
    )
    rim_px = np.float32(_rim_px(width_px, height_px))
    return np.asarray(cv2.getPerspectiveTransform(quad.astype(np.float32), target + rim_px))


def _rim_px(width_px: float, height_px: float) -> int:
    if min(width_px, height_px) < 1:
        raise ValueError("the quad has no area")
    return round(MARGIN * max(width_px, height_px))


def _size_px(quad: Corners) -> tuple[float, float]:
    top, right, bottom, left = np.linalg.norm(quad - np.roll(quad, -1, axis=0), axis=1)
    return max(float(top), float(bottom)), max(float(left), float(right))


def _is_upright(quad: Corners) -> bool:
    low, high = quad.min(axis=0), quad.max(axis=0)
    box = np.array([low, [high[0], low[1]], high, [low[0], high[1]]])
    return bool(np.abs(quad - box).max() < 0.5)


def _cropped(quad: Corners, rim_px: int) -> tuple[tuple[int, int], tuple[int, int]]:
    """The first column and row of the cut-out, and those behind its last."""
    left, top = np.maximum(0, np.round(quad.min(axis=0)).astype(int) - rim_px)
    right, bottom = np.round(quad.max(axis=0)).astype(int) + rim_px
    return (int(left), int(top)), (int(right), int(bottom))
