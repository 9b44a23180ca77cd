"""Boxes of lines grown to where their print ends: a line finder now and then leaves the first or
last letters of a line outside, and a number that lost its last digit is still a number."""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt

from intake.reading.base import Image, Quads
from intake.reading.turn import Quad, on_their_sides, runs_across, stood_up

_ROWS = 32
_REACH = 5.0
"""So far beyond a box print is looked for, in heights of the box."""

_GAP = 0.5
"""Print of one line has no wider gap, in heights of the box, the hairlines of large letters, which
may not be seen, within it; columns lie further apart."""

_SPECK = 0.07
"""Less print than this, in heights of the box, is no letter."""

_LEAST = 0.06
"""A column that is covered less holds no print."""

_FULLEST = 0.6
_LONGEST_RUN = 2.5
"""What covers more of its columns' height, or goes on so far without a gap (in heights of the
box), is no print but the ground beyond the card."""

_RIM = 0.12
"""A grown box goes so much further than its print, in its heights."""

Ink = npt.NDArray[np.bool_]


def grown_to_ends(image: Image, quads: Quads) -> Quads:
    """``quads`` of the level ``image``, those longer whose print goes on beyond them, up and down
    where they stand upright; no box grows into another."""
    grey = np.asarray(cv2.cvtColor(image, cv2.COLOR_RGB2GRAY), np.uint8)
    upright = np.array([runs_across(quad) for quad in quads], np.bool_)
    grown = quads.copy()
    grown[~upright] = _grown_level(grey, quads, ~upright)
    if upright.any():
        turned = np.ascontiguousarray(np.rot90(grey))
        down_px = np.array((0, grey.shape[1]), np.float32)
        sides = _grown_level(turned, on_their_sides(quads) + down_px, upright)
        grown[upright] = stood_up(sides - down_px)
    return grown


def _grown_level(grey: npt.NDArray[np.uint8], quads: Quads, chosen: npt.NDArray[np.bool_]) -> Quads:
    """Those of ``quads`` that are ``chosen``, which lie level, grown."""
    found = [_grown(grey, quads[at], np.delete(quads, at, axis=0)) for at in np.flatnonzero(chosen)]
    return np.array(found, np.float32).reshape(-1, 4, 2)


def _grown(grey: npt.NDArray[np.uint8], quad: Quad, others: Quads) -> Quad:
    height_px = float(np.linalg.norm(quad[3] - quad[0]))
    width_px = float(np.linalg.norm(quad[1] - quad[0]))
    if height_px < 4 or width_px < height_px:
        return quad
    along = (quad[1] - quad[0]) / width_px
    free = [_free(quad, others, side) / height_px for side in (-1, 1)]
    left, right = (min(_REACH, max(0.0, one)) for one in free)
    strip = _strip(grey, quad, along * height_px, left, right)
    ink = _ink(strip, round(left * _ROWS), strip.shape[1] - round(right * _ROWS))
    before = _beyond(ink[:, ::-1], round(left * _ROWS))
    behind = _beyond(ink, round(right * _ROWS))
    by = along * height_px / _ROWS
    return np.array(
        [
            quad[0] - by * before,
            quad[1] + by * behind,
            quad[2] + by * behind,
            quad[3] - by * before,
        ],
        np.float32,
    )


def _free(quad: Quad, others: Quads, side: int) -> float:
    """How many pixels beyond the left (-1) or right (1) end of a box the next one begins."""
    top, bottom = quad[:, 1].min(), quad[:, 1].max()
    beside = np.minimum(others[:, :, 1].max(axis=1), bottom) > np.maximum(
        others[:, :, 1].min(axis=1), top
    )
    end = float((quad[:, 0] * side).max())
    near = (others[:, :, 0] * side).min(axis=1)
    middles = (others[:, :, 0] * side).mean(axis=1)
    ahead = beside & (middles > float((quad[:, 0] * side).mean()))
    return float((near[ahead] - end).min(initial=np.inf))


def _strip(
    grey: npt.NDArray[np.uint8], quad: Quad, by: npt.NDArray[np.float32], left: float, right: float
) -> npt.NDArray[np.uint8]:
    """The line with what stands so many heights left and right of it, :data:`_ROWS` high."""
    start, end = quad[0] - by * left, quad[1] + by * right
    low = quad[3] - by * left
    width = max(8, round(float(np.linalg.norm(end - start) / np.linalg.norm(by)) * _ROWS))
    source = np.array([start, end, low], np.float32)
    target = np.array([[0, 0], [width, 0], [0, _ROWS]], np.float32)
    matrix = cv2.getAffineTransform(source, target)
    strip = cv2.warpAffine(
        grey, matrix, (width, _ROWS), flags=cv2.INTER_AREA, borderMode=cv2.BORDER_REPLICATE
    )
    return np.asarray(strip, np.uint8)


def _ink(strip: npt.NDArray[np.uint8], start: int, end: int) -> Ink:
    """Where there is print; columns ``start`` to ``end`` are those of the box."""
    own = np.ascontiguousarray(strip[:, start:end])
    level, _ = cv2.threshold(own, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    dark = np.mean(own > level) >= 0.5
    return strip <= level if dark else strip > level


def _beyond(ink: Ink, reach: int) -> int:
    """By how many columns the print goes on to the right; the last ``reach`` columns lie beyond
    the box."""
    edge = int(ink.shape[1]) - reach
    filled = ink.mean(axis=0)
    columns = np.flatnonzero(filled > _LEAST)
    inside = columns[columns < edge]
    last = int(inside[-1]) if len(inside) else edge
    for column in columns[columns >= edge]:
        if column - last > _GAP * _ROWS:
            break
        last = int(column)
    if last - edge < _SPECK * _ROWS:
        return 0
    beyond = filled[edge : last + 1]
    runs = np.diff(np.flatnonzero(np.r_[True, beyond <= _LEAST, True]))
    if beyond[beyond > _LEAST].mean() > _FULLEST or runs.max() > _LONGEST_RUN * _ROWS:
        return 0
    return min(reach, last - edge + round(_RIM * _ROWS))
