"""From a line finder's map to boxes of lines.

The map tells of each pixel how surely the core of a line lies there, after the method of
"Real-time Scene Text Detection with Differentiable Binarization" (Liao et al. 2020, section 3.5):
each connected area becomes the smallest box around it, which is then grown by its area times a
ratio over its circumference.
"""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt
import pyclipper

from intake.reading.base import Quads

Map = npt.NDArray[np.float32]
"""How surely a line lies at each pixel: height x width, 0 to 1."""

Box = npt.NDArray[np.float32]

_PRINT = 0.3
_SURE = 0.5
"""A pixel above the first holds print; a box whose pixels come to less than the second on
average is dropped."""

_GROWN = 1.6
_MOST_BOXES = 1000
_THINNEST_PX, _THINNEST_GROWN_PX = 3, 5
_SMALLEST_PX = 3


def boxes_of(seen: Map, width_px: int, height_px: int) -> Quads:
    """The boxes on a map, in pixels of the picture that it was made of and whose size is given,
    from the top left of each clockwise."""
    mask = cv2.dilate((seen > _PRINT).astype(np.uint8), np.ones((2, 2), np.uint8))
    areas, _ = cv2.findContours(mask, cv2.RETR_LIST, cv2.CHAIN_APPROX_SIMPLE)
    scale = np.array([width_px / seen.shape[1], height_px / seen.shape[0]])
    last = np.array([width_px - 1, height_px - 1])
    found = []
    for area in areas[:_MOST_BOXES]:
        core, thin_px = _smallest_box(np.asarray(area, np.int32))
        if thin_px < _THINNEST_PX or _mean_inside(seen, core) < _SURE:
            continue
        box, thin_px = _smallest_box(_grown(core))
        if thin_px < _THINNEST_GROWN_PX:
            continue
        corners = np.clip(np.round(box * scale).astype(np.int32), 0, last)
        corners = _clockwise(corners)
        across, down = corners[1] - corners[0], corners[3] - corners[0]
        if min(int(np.linalg.norm(across)), int(np.linalg.norm(down))) > _SMALLEST_PX:
            found.append(corners)
    return np.array(found, np.float32).reshape(-1, 4, 2)


def _smallest_box(points: npt.NDArray[np.int32]) -> tuple[Box, float]:
    """The corners of the smallest box around ``points``, one after the other, and its shorter
    side in pixels."""
    box = cv2.minAreaRect(points)
    return np.asarray(cv2.boxPoints(box), np.float32), min(box[1])


def _mean_inside(seen: Map, box: Box) -> float:
    """The mean of the map within ``box``."""
    height_px, width_px = seen.shape
    most = (width_px - 1, height_px - 1)
    low = np.clip(np.floor(box.min(axis=0)).astype(np.int32), 0, most)
    high = np.clip(np.ceil(box.max(axis=0)).astype(np.int32), 0, most)
    inside = np.zeros((high[1] - low[1] + 1, high[0] - low[0] + 1), np.uint8)
    cv2.fillPoly(inside, [(box - low).astype(np.int32)], 1)
    window = seen[low[1] : high[1] + 1, low[0] : high[0] + 1]
    return float(cv2.mean(window, inside)[0])


def _grown(core: Box) -> npt.NDArray[np.int32]:
    """``core`` with a rim as wide as its area times :data:`_GROWN` over its circumference."""
    around_px = float(np.linalg.norm(core - np.roll(core, -1, axis=0), axis=1).sum())
    by_px = cv2.contourArea(core) * _GROWN / around_px
    offset = pyclipper.PyclipperOffset()
    offset.AddPath(core, pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON)
    return np.array(offset.Execute(by_px), np.int32).reshape(-1, 1, 2)


def _clockwise(corners: npt.NDArray[np.int32]) -> npt.NDArray[np.int32]:
    """The corners clockwise from the upper of the two on the left."""
    by_x = corners[np.argsort(corners[:, 0])]
    left = by_x[:2][np.argsort(by_x[:2, 1])]
    right = by_x[2:][np.argsort(by_x[2:, 1])]
    return np.array([left[0], right[0], right[1], left[1]])
