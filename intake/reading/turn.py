"""Which way the print runs: boxes are turned until the lines lie level.

The corner order of a box says how its text runs, so turning print means reordering
corners; turning a whole tag turns picture and boxes together.
"""

from __future__ import annotations

import math

import cv2
import numpy as np
import numpy.typing as npt

from intake.reading.base import Image, Quads
from intake.stages import stage

Quad = npt.NDArray[np.float32]

_LONG_ENOUGH = 2.0
"""A box tells a direction when it is this many times longer than high."""

_SAME_SIZE = 1.35
_WORD_GAP = 0.3
"""The boxes of two words of one line are at most this far apart, in line heights; a box
reaches a little beyond its print."""

_UPSIDE_DOWN = dict(zip("01689/-.HINOSXZ", "01986/-.HINOSXZ", strict=True))
"""Signs that are signs upside down, too."""

_MIRROR = np.array((1, -1), np.float32)

_LEVEL_DEG = 0.3
"""Tilts below this are left alone: turning the picture would blur more than it mends."""


def text_angle_deg(quads: Quads) -> float:
    """Angle of the print against the picture's x axis, above -90 to 90 degrees.

    Directions are only known up to half a turn: upside-down print gives 0 as well.  Long
    lines weigh more; the median is taken so that a few lines set across do not tilt it.
    """
    edges = np.array([_longer_edge(quad) for quad in quads])
    lengths = np.linalg.norm(edges, axis=1)
    ratios = lengths / np.maximum(1.0, [_shorter_side(quad) for quad in quads])
    weights = np.where(ratios >= _LONG_ENOUGH, lengths, lengths * 1e-3)
    angles = np.degrees(np.arctan2(edges[:, 1], edges[:, 0]))
    doubled = np.radians(angles * 2)
    sine, cosine = float(weights @ np.sin(doubled)), float(weights @ np.cos(doubled))
    main = math.degrees(math.atan2(sine, cosine)) / 2
    offsets = (angles - main + 90) % 180 - 90
    angle = main + _weighted_median(offsets, weights)
    return (angle - 90) % -180 + 90


@stage("straighten")
def level(image: Image, quads: Quads) -> tuple[Image, Quads]:
    """``image`` turned so that most print runs level, with its boxes; the ground that
    comes into view takes the picture's edge colour."""
    angle = text_angle_deg(quads)
    image, quads = rotate(image, quads, angle) if abs(angle) > _LEVEL_DEG else (image, quads)
    return image, np.array([_started_top_left(quad) for quad in quads], np.float32)


@stage("straighten")
def upside_down(image: Image, quads: Quads) -> tuple[Image, Quads]:
    """``image`` and its boxes turned by half a turn."""
    height_px, width_px = image.shape[:2]
    turned = np.array([width_px, height_px], np.float32) - quads
    flipped = np.ascontiguousarray(image[::-1, ::-1])
    return flipped, np.roll(turned, 2, axis=1).astype(np.float32)


def rotate(image: Image, quads: Quads, angle_deg: float) -> tuple[Image, Quads]:
    """``image`` turned by ``-angle_deg`` onto a canvas that holds all of it."""
    height_px, width_px = image.shape[:2]
    matrix = cv2.getRotationMatrix2D((width_px / 2, height_px / 2), angle_deg, 1.0)
    cos, sin = abs(matrix[0, 0]), abs(matrix[0, 1])
    new_width_px = round(width_px * cos + height_px * sin)
    new_height_px = round(width_px * sin + height_px * cos)
    matrix[:, 2] += ((new_width_px - width_px) / 2, (new_height_px - height_px) / 2)
    turned = cv2.warpAffine(
        image,
        matrix,
        (new_width_px, new_height_px),
        flags=cv2.INTER_CUBIC,
        borderMode=cv2.BORDER_CONSTANT,
        borderValue=_edge_colour(image),
    )
    moved = quads @ matrix[:, :2].T + matrix[:, 2]
    return turned.astype(np.uint8), moved.astype(np.float32)


def righted(quads: Quads) -> Quads:
    """``quads`` of an upright tag, those that stand on their heads turned about the middle of
    them all: as they lie when that half of a folded tag is held upright."""
    over = np.array([stands_on_its_head(quad) for quad in quads], np.bool_)
    if not over.any():
        return quads
    corners = quads[over].reshape(-1, 2)
    turned = quads.copy()
    turned[over] = corners.min(axis=0) + corners.max(axis=0) - quads[over]
    return turned


def stands_on_its_head(quad: Quad) -> bool:
    """Whether the print of a box runs from right to left."""
    across = quad[1] - quad[0]
    return bool(across[0] < 0 and abs(across[0]) > abs(across[1]))


def turned_code(code: str) -> str:
    """``code`` as it reads upside down; empty where it reads the same or nothing."""
    if not all(sign in _UPSIDE_DOWN for sign in code):
        return ""
    other = "".join(_UPSIDE_DOWN[sign] for sign in reversed(code))
    return "" if other == code else other


def runs_across(quad: Quad) -> bool:
    """Whether a box stands upright in a level picture: its print runs up or down."""
    return bool(
        np.linalg.norm(quad[3] - quad[0]) > _LONG_ENOUGH * np.linalg.norm(quad[1] - quad[0])
    )


def ways_to_run(quad: Quad) -> tuple[Quad, ...]:
    """The ways in which a box's print can run: level, and for an upright box down and up."""
    if not runs_across(quad):
        return (quad,)
    return quad, np.roll(quad, 3, axis=0), np.roll(quad, 1, axis=0)


def joined(quads: Quads) -> Quads:
    """Boxes that are parts of one line of print, level or upright, joined into one box.

    The line finder parts large print at the gaps between words.
    """
    upright = np.array([runs_across(quad) for quad in quads], np.bool_)
    level = _joined_level(quads[~upright])
    back = stood_up(_joined_level(on_their_sides(quads[upright])))
    return np.concatenate([level, back]).astype(np.float32)


def on_their_sides(quads: Quads) -> Quads:
    """``quads`` of a picture that is turned by a quarter to the left about its top left corner,
    upright ones with the corners of level ones."""
    return np.asarray(np.roll(quads, -1, axis=1)[..., ::-1] * _MIRROR, np.float32)


def stood_up(quads: Quads) -> Quads:
    """What :func:`on_their_sides` turned, turned back."""
    return np.asarray(np.roll(quads * _MIRROR, 1, axis=1)[..., ::-1], np.float32)


def _joined_level(quads: Quads) -> Quads:
    boxes = sorted((quad for quad in quads), key=lambda quad: float(quad[:, 0].min()))
    whole: list[Quad] = []
    for box in boxes:
        before = next((at for at, other in enumerate(whole) if _goes_on(other, box)), None)
        if before is None:
            whole.append(box)
        else:
            left = whole[before]
            whole[before] = np.array([left[0], box[1], box[2], left[3]], np.float32)
    return np.array(whole, np.float32).reshape(-1, 4, 2)


def _goes_on(left: Quad, right: Quad) -> bool:
    """Whether the print of ``left`` goes on in ``right``: same size, same height on the
    tag, no wider gap than between two words."""
    heights = [float(np.linalg.norm(quad[3] - quad[0])) for quad in (left, right)]
    small, large = min(heights), max(heights)
    if runs_across(left) or runs_across(right) or large > _SAME_SIZE * small:
        return False
    gap_px = float(right[[0, 3], 0].mean() - left[[1, 2], 0].mean())
    aside_px = abs(float(right[[0, 3], 1].mean() - left[[1, 2], 1].mean()))
    return -0.4 * small <= gap_px <= _WORD_GAP * small and aside_px <= 0.25 * small


def _longer_edge(quad: Quad) -> Quad:
    across: Quad = quad[1] - quad[0]
    down: Quad = quad[3] - quad[0]
    return across if np.linalg.norm(across) >= np.linalg.norm(down) else down


def _shorter_side(quad: Quad) -> float:
    return float(min(np.linalg.norm(quad[1] - quad[0]), np.linalg.norm(quad[3] - quad[0])))


def _started_top_left(quad: Quad) -> Quad:
    """The same corners clockwise, from the one nearest the top left."""
    centre = quad.mean(axis=0)
    around = np.argsort(np.arctan2(quad[:, 1] - centre[1], quad[:, 0] - centre[0]))
    clockwise = quad[around]
    return np.roll(clockwise, -int(np.argmin(clockwise.sum(axis=1))), axis=0)


def _weighted_median(values: npt.NDArray[np.float64], weights: npt.NDArray[np.float64]) -> float:
    order = np.argsort(values)
    total = np.cumsum(weights[order])
    return float(values[order][int(np.searchsorted(total, total[-1] / 2))])


def _edge_colour(image: Image) -> tuple[float, ...]:
    edges = np.concatenate([image[0], image[-1], image[:, 0], image[:, -1]])
    return tuple(float(channel) for channel in np.median(edges, axis=0))
