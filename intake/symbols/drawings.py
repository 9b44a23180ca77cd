"""Finding what may be a drawing on a straightened tag: its box, from blobs of ink.

A symbol is seldom one blob: dots, numbers and a hand lie in it, bars lie under it, a frame
may lie about it.  Blobs whose boxes meet are taken together, and flat blobs below join what
they underline.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from intake.records import Line
from intake.symbols.patch import Pixels

Boxes = npt.NDArray[np.float32]
"""Left, top, right, bottom in pixels: (n, 4)."""

_LONGEST_SIDE_PX = 1800
"""A larger tag is made smaller before its blobs are found."""

_SMALLEST_PX = 15.0
"""Lesser side of the smallest drawing, in pixels of the tag."""

_FLATTEST_PX = 9.0
"""The same of one that is flat, as an iron is beside the other symbols of its row."""

_FLAT_SIDES = 1.4
"""Longer side over lesser side of what is flat, at least."""

_SLIMMEST = 2.7
"""Longer side over lesser side of a drawing, at most."""

_SLIMMEST_PART = 3.2
"""And of a blob that may be the larger part of one, such as the sole of an iron."""

_LARGEST_SHARE = 0.6
"""Of the tag's lesser side, at most."""

_GROUNDS = ((5, 21), (10, 41))
"""The colour of the card about a place is the median of a window of 21 pixels in a picture
five times smaller: wide enough that strokes and letters never make half of it.  A solid tile
does, and is found in a second look with a window four times as wide."""

_TILE_PX = 40.0
"""Lesser side of what the second look is for, at least, in pixels of the tag."""

_SEEN_SHARE = 0.85
"""Share of the larger of two boxes that both cover if they are one drawing seen twice."""

_LEAST_INK = 14.0
"""Grey levels from the ground below which nothing counts as ink."""

_MEETING = 0.03
"""Boxes this near, as a share of the larger one's side, are taken together."""

_FLAT = 3.5
"""Width over height of a bar under a symbol, at least."""

_MOST_BLOBS = 4000
_MOST_DRAWINGS = 160
"""More of them are cloth or grain, not print."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """What may be a symbol: its box in pixels of the tag, and the box of what lies in its
    frame where it might be framed."""

    box: tuple[float, float, float, float]
    inside: tuple[float, float, float, float] | None = None


def find_drawings(image: Pixels, lines: Sequence[Line]) -> list[Drawing]:
    """All that may be a symbol on a colour ``image`` (height, width, 3) whose words are
    ``lines``, dark on light or light on dark."""
    scale = min(1.0, _LONGEST_SIDE_PX / max(image.shape[:2]))
    small = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    grey = np.asarray(cv2.cvtColor(small, cv2.COLOR_RGB2GRAY), np.uint8)
    worded = _worded(lines, scale)
    drawings: list[Drawing] = []
    for (shrink, window), smallest_px in zip(_GROUNDS, (_SMALLEST_PX, _TILE_PX), strict=True):
        away = np.subtract(_ground(grey, shrink, window), grey, dtype=np.int16)
        level = _ink_level(away)
        found: list[Drawing] = []
        for ink in (away > level, away < -level):
            found += _drawings(_blobs(ink), worded, smallest_px * scale, min(grey.shape))
        drawings += _unlike(found, drawings)
    return [_scaled(drawing, 1 / scale) for drawing in drawings[:_MOST_DRAWINGS]]


def _ground(grey: npt.NDArray[np.uint8], shrink: int, window: int) -> npt.NDArray[np.uint8]:
    """The card's grey about every pixel."""
    height, width = grey.shape
    size = (max(1, width // shrink), max(1, height // shrink))
    coarse = cv2.medianBlur(cv2.resize(grey, size, interpolation=cv2.INTER_AREA), window)
    return np.asarray(cv2.resize(coarse, (width, height)), np.uint8)


def _unlike(drawings: Sequence[Drawing], others: Sequence[Drawing]) -> list[Drawing]:
    """Those of ``drawings`` that are none of ``others`` seen again."""
    if not drawings or not others:
        return list(drawings)
    boxes, seen = (np.array([one.box for one in many]) for many in (drawings, others))
    low = np.maximum(boxes[:, None, :2], seen[None, :, :2])
    high = np.minimum(boxes[:, None, 2:], seen[None, :, 2:])
    shared = np.maximum(0, high - low).prod(axis=2)
    areas, seen_areas = ((many[:, 2:] - many[:, :2]).prod(axis=1) for many in (boxes, seen))
    alike = shared >= _SEEN_SHARE * np.maximum(areas[:, None], seen_areas[None])
    return [one for one, again in zip(drawings, alike.any(axis=1), strict=True) if not again]


def _ink_level(away: npt.NDArray[np.int16]) -> float:
    """Grey levels from the ground from which on a pixel is ink: a fifth of the way to the
    print's darkest, for symbols may be fainter than the barcode."""
    strong = float(np.percentile(np.abs(away[::3, ::3]), 99))
    return max(_LEAST_INK, 0.2 * strong)


def _blobs(ink: npt.NDArray[np.bool_]) -> Boxes:
    """Boxes of the blobs of ink that are no specks, largest first."""
    _, _, stats, _ = cv2.connectedComponentsWithStats(ink.astype(np.uint8), connectivity=8)
    left, top, width, height = stats[1:, :4].T
    large = np.maximum(width, height) >= 4
    boxes = np.stack([left, top, left + width, top + height], axis=1)[large].astype(np.float32)
    order = np.argsort(-_sides(boxes).prod(axis=1), kind="stable")
    return np.asarray(boxes[order][:_MOST_BLOBS], np.float32)


def _drawings(blobs: Boxes, worded: Boxes, smallest_px: float, side_px: int) -> list[Drawing]:
    """Blobs taken together to drawings."""
    main = _is_drawing(blobs, smallest_px * 0.8, side_px, _SLIMMEST_PART)
    main &= ~_lies_in(blobs, worded)
    groups = _together(blobs[main])
    groups = _with_parts(groups, blobs[~main])
    groups = _underlined(_underlined(groups, blobs), blobs)
    groups = groups[_is_drawing(groups, smallest_px, side_px)]
    return [Drawing(_corners(box), _inside(box, blobs)) for box in groups[:_MOST_DRAWINGS]]


def _is_drawing(
    boxes: Boxes, smallest_px: float, side_px: int, slimmest: float = _SLIMMEST
) -> npt.NDArray[np.bool_]:
    sides = _sides(boxes)
    low, high = sides.min(axis=1), sides.max(axis=1)
    flat = (high >= _FLAT_SIDES * low) & (high >= smallest_px)
    least = np.where(flat, _FLATTEST_PX / _SMALLEST_PX * smallest_px, smallest_px)
    fits = (low >= least) & (high <= _LARGEST_SHARE * side_px)
    return np.asarray(fits & (high <= slimmest * low))


def _lies_in(boxes: Boxes, others: Boxes) -> npt.NDArray[np.bool_]:
    """Whether the middle of each box lies in one of ``others`` that is as high as it."""
    if len(others) == 0 or len(boxes) == 0:
        return np.zeros(len(boxes), bool)
    x, y = (boxes[:, 0] + boxes[:, 2]) / 2, (boxes[:, 1] + boxes[:, 3]) / 2
    heights_px = others[:, 3] - others[:, 1]
    inside = (
        (x[:, None] > others[:, 0]) & (x[:, None] < others[:, 2])
        & (y[:, None] > others[:, 1]) & (y[:, None] < others[:, 3])
        & (_sides(boxes)[:, 1, None] < 1.3 * heights_px)
    )  # fmt: skip
    return np.asarray(inside.any(axis=1))


def _worded(lines: Sequence[Line], scale: float) -> Boxes:
    """Boxes of the lines that surely are words: a row of symbols is often read as a few
    letters, with poor scores."""
    quads = [
        line.quad
        for line in lines
        if line.readings
        and line.readings[0].confidence >= 0.85
        and sum(letter.text.isalnum() for letter in line.letters) >= 5
    ]
    if not quads:
        return np.zeros((0, 4), np.float32)
    corners = np.asarray(quads, np.float32) * scale
    return np.concatenate([corners.min(axis=1), corners.max(axis=1)], axis=1)


def _together(boxes: Boxes) -> Boxes:
    """Boxes that meet, joined until none do."""
    while len(boxes) > 1:
        reach = _MEETING * _sides(boxes).max(axis=1)
        meet = _meeting(boxes, boxes, reach)
        first = meet.argmax(axis=1)
        while (again := first[first] != first).any():
            first[again] = first[first[again]]
        if len(np.unique(first)) == len(boxes):
            break
        boxes = _unions(boxes, first)
    return boxes


def _unions(boxes: Boxes, group: npt.NDArray[np.intp]) -> Boxes:
    """One box about all boxes of each group."""
    kept, index = np.unique(group, return_inverse=True)
    joined = np.empty((len(kept), 4), np.float32)
    joined[:, :2], joined[:, 2:] = np.inf, -np.inf
    np.minimum.at(joined[:, :2], index, boxes[:, :2])
    np.maximum.at(joined[:, 2:], index, boxes[:, 2:])
    return joined


def _with_parts(groups: Boxes, parts: Boxes) -> Boxes:
    """``groups`` grown by the parts that reach out of them, such as a hand or a handle; a
    part that is larger than its group is a frame or a rule, and none of it."""
    if len(groups) == 0 or len(parts) == 0:
        return groups
    grown = groups.copy()
    meet = _meeting(groups, parts, np.full(len(groups), -1.0, np.float32))
    sides, part_sides = _sides(groups).max(axis=1), _sides(parts).max(axis=1)
    meet &= part_sides[None] < 0.9 * sides[:, None]
    for at, part in zip(*np.nonzero(meet), strict=True):
        grown[at, :2] = np.minimum(grown[at, :2], parts[part, :2])
        grown[at, 2:] = np.maximum(grown[at, 2:], parts[part, 2:])
    return grown


def _underlined(groups: Boxes, blobs: Boxes) -> Boxes:
    """``groups`` with the bar right below each, where there is one."""
    if len(groups) == 0:
        return groups
    sides = _sides(blobs)
    bars = blobs[sides[:, 0] >= _FLAT * sides[:, 1]]
    if len(bars) == 0:
        return groups
    grown = groups.copy()
    width, height = _sides(groups).T
    bar_width = bars[:, 2] - bars[:, 0]
    gap = bars[None, :, 1] - groups[:, None, 3]
    off = np.abs(bars[None, :, 0] + bars[None, :, 2] - groups[:, None, 0] - groups[:, None, 2]) / 2
    side = np.maximum(width, height)[:, None]
    under = (
        (gap > -0.05 * side) & (gap < 0.22 * side) & (off < 0.12 * side)
        & (bar_width[None] > 0.4 * width[:, None]) & (bar_width[None] < 1.3 * width[:, None])
    )  # fmt: skip
    for at, bar in zip(*np.nonzero(under), strict=True):
        if gap[at, bar] <= gap[at][under[at]].min() + 1:
            grown[at, 3] = max(grown[at, 3], bars[bar, 3])
            grown[at, 0] = min(grown[at, 0], bars[bar, 0])
            grown[at, 2] = max(grown[at, 2], bars[bar, 2])
    return grown


def _inside(box: npt.NDArray[np.float32], blobs: Boxes) -> tuple[float, float, float, float] | None:
    """The box of the print well inside ``box``, where that might be a frame about it."""
    width, height = box[2:] - box[:2]
    room = 0.06 * max(width, height)
    held = blobs[
        (blobs[:, 0] > box[0] + room) & (blobs[:, 1] > box[1] + room)
        & (blobs[:, 2] < box[2] - room) & (blobs[:, 3] < box[3] - room)
    ]  # fmt: skip
    if len(held) == 0:
        return None
    inner = np.concatenate([held[:, :2].min(axis=0), held[:, 2:].max(axis=0)])
    if max(inner[2:] - inner[:2]) < 0.45 * max(width, height):
        return None
    return _corners(inner)


def _meeting(boxes: Boxes, others: Boxes, reach: npt.NDArray[np.float32]) -> npt.NDArray[np.bool_]:
    """Whether each of ``boxes``, grown by its ``reach``, meets each of ``others``."""
    return np.asarray(
        (boxes[:, None, 0] - reach[:, None] <= others[None, :, 2])
        & (boxes[:, None, 2] + reach[:, None] >= others[None, :, 0])
        & (boxes[:, None, 1] - reach[:, None] <= others[None, :, 3])
        & (boxes[:, None, 3] + reach[:, None] >= others[None, :, 1])
    )


def _sides(boxes: Boxes) -> Boxes:
    """Width and height of each box: (n, 2)."""
    return np.asarray(boxes[:, 2:] - boxes[:, :2], np.float32)


def _corners(box: npt.NDArray[np.float32]) -> tuple[float, float, float, float]:
    left, top, right, bottom = (float(value) for value in box)
    return left, top, right, bottom


def _scaled(drawing: Drawing, scale: float) -> Drawing:
    def grown(box: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
        left, top, right, bottom = (value * scale for value in box)
        return left, top, right, bottom

    return Drawing(grown(drawing.box), grown(drawing.inside) if drawing.inside else None)
