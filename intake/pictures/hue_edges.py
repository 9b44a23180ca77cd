"""Where a card ends by its hue, which its shadow does not change.

A shadow takes the ground's colour towards black.  What differs across that is the card's alone, and
comes at the edge whatever the shadow does.  Hue is soft in JPEG pictures but is so on both sides
alike, and along a whole side even a faint step is found to a fraction of a pixel.
"""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float32]
Doubles = npt.NDArray[np.float64]

_REACH_PX = 9
_BESIDE = 4
"""Colour is looked at so far to both sides, the outermost rows showing ground and card alone."""

_PARTS, _SAMPLES = 10, 40
_ROUNDS = 3
_FARTHEST_PX = 5.0
"""An edge is measured in so many parts of so many columns each, so often anew where it was found,
and by no more at once."""

_LEAST_CHANGE = 0.3
_STEEP = 1.5
_BLACK = np.array([-41.0, 128.0, 128.0], np.float32)
"""Where darkened colours meet in CIE L*a*b* of 8 bits: its lightness is 116 times a root of the
light, less 16."""

_LEAST_STEP = 0.8
_SOFTEST_PX, _UNSURE_PX = 0.15, 4.0
"""How well an edge's height is known where hue makes the clearest step, and one of 1: by the edges
of 21 drawn tags that were each taken twice."""

_USUAL_PX = (1.0, 0.6, 0.4, 0.4)


def edge_by_hue(
    strip: Floats, heights: tuple[float, float], ends: Doubles
) -> tuple[tuple[float, float], float] | None:
    """The heights (px) of an edge at ``ends`` (columns of ``strip``, CIE L*a*b*) that lies near
    ``heights``, and the step in hue; ``None`` where hue hardly changes."""
    columns = np.linspace(float(ends[0]), float(ends[1]), _PARTS * _SAMPLES)
    middles = columns.reshape(_PARTS, _SAMPLES).mean(axis=1)
    line = np.polyfit(ends, heights, 1)
    for _ in range(_ROUNDS):
        along = _along(strip, line, columns)
        towards = _hue_step(along)
        step = float(np.linalg.norm(towards))
        if step < _LEAST_STEP:
            return None
        away = np.clip(_middles_of_change(along @ (towards / step**2)), -_FARTHEST_PX, _FARTHEST_PX)
        line = robust_line(middles, np.polyval(line, middles) + away, line, _USUAL_PX)
    first, last = np.polyval(line, ends)
    return (float(first), float(last)), step


def hue_error_px(step: float) -> float:
    """The deviation with which the height of an edge is known that makes such a step in hue."""
    return float(np.hypot(_SOFTEST_PX, _UNSURE_PX / step))


def robust_line(
    columns: Doubles, places: Doubles, line: Doubles, usual_px: tuple[float, ...]
) -> Doubles:
    """The line through most of ``places``, from near ``line``: those further away than usual,
    round by round, count less."""
    for usual in usual_px:
        away = places - np.polyval(line, columns)
        line = np.polyfit(columns, places, 1, w=1 / (1 + (away / usual) ** 2))
    return line


def _along(strip: Floats, line: Doubles, columns: Doubles) -> Floats:
    """The colours beside a line, of shape (across, along, 3)."""
    rows = np.polyval(line, columns)
    across = np.arange(-_REACH_PX, _REACH_PX + 1)[:, None]
    x = np.broadcast_to(columns, (len(across), len(columns))).astype(np.float32)
    y = (rows[None] + across).astype(np.float32)
    seen = cv2.remap(strip, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    return np.asarray(seen, np.float32)


def _hue_step(along: Floats) -> Floats:
    """How the card's colour differs from the ground's other than by shadow."""
    ground, card = (_usual_colour(each) for each in (along[:3], along[-3:]))
    darker = (ground - _BLACK) / np.linalg.norm(ground - _BLACK)
    return np.asarray((card - ground) - float((card - ground) @ darker) * darker, np.float32)


def _usual_colour(colours: Floats) -> Floats:
    each = np.sort(colours.reshape(-1, 3), axis=0)
    return np.asarray(each[len(each) // 4 : 3 * len(each) // 4].mean(axis=0), np.float32)


def _middles_of_change(hue: Floats) -> Doubles:
    """How far in from the line hue changes, part by part; 0 where it hardly does."""
    parts = np.sort(hue.reshape(len(hue), _PARTS, _SAMPLES), axis=2)
    usual = parts[:, :, _SAMPLES // 4 : 3 * _SAMPLES // 4].mean(axis=2)
    change = usual[-_BESIDE:].mean(axis=0) - usual[:_BESIDE].mean(axis=0)
    slopes = np.diff(usual, axis=0)[2:-2] / np.where(np.abs(change) < _LEAST_CHANGE, np.inf, change)
    steep = np.clip(slopes, 0, None) ** _STEEP
    middles = np.arange(len(steep)) - (len(steep) - 1) / 2
    return np.asarray(middles @ steep / np.maximum(steep.sum(axis=0), 1e-9), np.float64)
