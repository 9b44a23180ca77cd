"""Print that stands in no card: it is gathered so that none is lost."""

from __future__ import annotations

from collections.abc import Sequence

import cv2
import numpy as np

from intake.pictures.load import Image
from intake.pictures.quads import Points, distance_px, hull_of, rectangle_along, shares_inside
from intake.pictures.regions import LINES_OF_A_TAG, Lines, Region, merged, without_overlap

_MOSTLY = 0.5
_STRAY_LINES = 2

_NEAR = 2.5
_STRAY_NEAR = 6.0
"""In line heights: how close together lines of one tag stand, and how far off a stray line
may be."""

_RIM = 2.0
_NARROW_RIM = 0.5
"""In line heights: how much ground is kept around print that has no outline."""

_RIM_SHARE = 0.25
"""The wide rim is at least this share of the print's longer side."""

_DRAWN_NEAR = 1.6
"""A drawing belongs to print that is no further from it than so many of its own sides."""

_SMALLEST_PX, _LARGEST_SHARE = 5, 0.25
"""Longer side of a drawing: least, and most as a share of the picture's."""

_MOST_DRAWINGS = 60
"""More of them are the grain of the ground."""

_GROUND_PX = 41
"""The ground's grey is the median of a window so wide."""

_LEAST_INK, _INK_SHARE = 20, 0.25
"""Grey levels off the ground from which on there is ink: least, and as a share of the print's."""


def with_loose_print(cards: Sequence[Region], text: Points, image: Image) -> list[Region]:
    """Cards and what print lies beside them: added to the card it stands close to, or a
    region of its own; one region of everything where hardly any card was found."""
    every = frozenset(range(len(text)))
    loose = every - frozenset(line for card in cards for line in card.lines)
    if not loose:
        return list(cards)
    full = [card for card in cards if len(card.lines) >= LINES_OF_A_TAG]
    if len(full) < 2 and len(loose) >= _MOSTLY * len(text):
        return [_around(every, text, image)]
    regions = list(cards)
    for cluster in _with_strays(_clusters(loose, text), text):
        near = [card for card in regions if _is_close(cluster, card, text)]
        if near:
            regions = [region for region in regions if region not in near]
            regions.append(merged([*near, Region(hull_of(text[sorted(cluster)]), cluster)]))
        else:
            regions.append(_around(cluster, text, image))
    return without_overlap(regions)


def _around(lines: Lines, text: Points, image: Image) -> Region:
    """A region around print that has no outline and what is drawn beside it, with a wide rim
    where no other print stands in it."""
    points = text[sorted(lines)]
    others = np.delete(text, sorted(lines), axis=0)
    drawn = _with_drawings(points, _drawings(image, text))
    if not (len(others) and shares_inside(_rectangle(drawn, 0, image), others).any()):
        points = drawn
    line_px = _line_height_px(text[sorted(lines)])
    wide_px = max(_RIM * line_px, _RIM_SHARE * float(np.ptp(points, (0, 1)).max()))
    quad = _rectangle(points, wide_px, image)
    if len(others) and shares_inside(quad, others).any():
        quad = _rectangle(points, _NARROW_RIM * line_px, image)
    return Region(quad, lines)


def _with_drawings(points: Points, boxes: Points) -> Points:
    """``points`` of print and the corners of those ``boxes`` of drawings that stand beside it, such
    as the ends of a row of symbols that is longer than its lines; of a plain ground only."""
    if len(boxes) > _MOST_DRAWINGS:
        return points
    low, high = points.min(axis=(0, 1)), points.max(axis=(0, 1))
    while len(boxes):
        reach = _DRAWN_NEAR * np.ptp(boxes, axis=1).max(axis=1, keepdims=True)
        near = ((boxes[:, 0] - reach < high) & (boxes[:, 1] + reach > low)).all(axis=1)
        if not near.any():
            break
        low = np.minimum(low, boxes[near, 0].min(axis=0))
        high = np.maximum(high, boxes[near, 1].max(axis=0))
        boxes = boxes[~near]
    return np.array([[low, high]], np.float32)


def _drawings(image: Image, text: Points) -> Points:
    """The low and the high corner of every blob of ink that may be a drawing and is no ``text``,
    (n, 2, 2); what touches the picture's border is its rim, a shadow or the card itself."""
    grey = cv2.cvtColor(image, cv2.COLOR_RGB2GRAY)
    away = cv2.absdiff(grey, cv2.medianBlur(grey, _GROUND_PX))
    level = max(_LEAST_INK, _INK_SHARE * float(np.percentile(away, 99)))
    _, _, stats, _ = cv2.connectedComponentsWithStats((away > level).astype(np.uint8))
    low = stats[1:, :2].astype(np.float32)
    sides = stats[1:, 2:4].astype(np.float32)
    height, width = grey.shape
    longer = sides.max(axis=1)
    inside = ((low > 0) & (low + sides < (width, height))).all(axis=1)
    fits = (longer >= _SMALLEST_PX) & (longer <= _LARGEST_SHARE * max(height, width))
    middle = low[:, None] + sides[:, None] / 2
    worded = ((middle > text.min(axis=1)) & (middle < text.max(axis=1))).all(axis=2).any(axis=1)
    found = np.stack([low, low + sides], axis=1)[inside & fits & ~worded]
    return np.asarray(found, np.float32)


def _rectangle(points: Points, rim_px: float, image: Image) -> Points:
    low = np.maximum(points.min(axis=(0, 1)) - rim_px, 0)
    high = np.minimum(points.max(axis=(0, 1)) + rim_px, (image.shape[1], image.shape[0]))
    return rectangle_along(np.array([low, high], np.float32), 0)


def _clusters(lines: Lines, text: Points) -> list[Lines]:
    """Lines that stand close together, directly or through others."""
    left = set(lines)
    clusters = []
    while left:
        cluster: set[int] = set()
        fresh = {left.pop()}
        while fresh:
            line = fresh.pop()
            cluster.add(line)
            reach_px = _NEAR * _line_height_px(text[line][None])
            near = {other for other in left if distance_px(text[line], text[other]) < reach_px}
            left -= near
            fresh |= near
        clusters.append(frozenset(cluster))
    return clusters


def _with_strays(clusters: Sequence[Lines], text: Points) -> list[Lines]:
    """Clusters of one or two lines joined to the nearest, such as the digits under a
    barcode, unless that is far away or other print stands between."""
    joined = sorted(clusters, key=len)
    for stray in [cluster for cluster in joined if len(cluster) <= _STRAY_LINES]:
        if stray not in joined:
            continue  # Another stray has joined it.
        joined.remove(stray)
        home = min(joined, key=lambda other: _gap_px(stray, other, text), default=None)
        if home is not None and _is_home(home, stray, text):
            joined.remove(home)
            joined.append(home | stray)
        else:
            joined.append(stray)
    return joined


def _is_home(home: Lines, stray: Lines, text: Points) -> bool:
    both = sorted(home | stray)
    reach_px = _STRAY_NEAR * _line_height_px(text[both])
    others = np.delete(text, both, axis=0)
    return _gap_px(stray, home, text) < reach_px and not (
        len(others) and shares_inside(hull_of(text[both]), others).any()
    )


def _gap_px(one: Lines, other: Lines, text: Points) -> float:
    return min(distance_px(text[a], text[b]) for a in one for b in other)


def _is_close(cluster: Lines, card: Region, text: Points) -> bool:
    return any(distance_px(text[line], card.quad) == 0 for line in cluster)


def _line_height_px(quads: Points) -> float:
    sides = np.linalg.norm(np.roll(quads, -1, axis=1) - quads, axis=2)
    return float(np.median(sides.min(axis=1)))
