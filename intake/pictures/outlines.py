"""Card-like outlines in a picture: smooth, convex, nearly four-sided areas with an edge.

No single rule sees a card on every ground: pale card on a white lid, dark card on dark
wood, a card half in shadow.  So outlines are gathered from many simple views of the
picture (brightness, colour, difference from the border, texture, edges), each cut at many
levels, and every outline is then judged by its shape and by the step across its edge.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import cv2
import numpy as np
import numpy.typing as npt

from intake.pictures.load import Image
from intake.pictures.quads import Points, area_px, circumscribed, hull_of

Plane = npt.NDArray[np.uint8]

LEVELS = 7
"""Number of levels at which each view is cut."""

_LEVELS_PER_SCATTER = 12
_EDGE_STRENGTHS = ((8, 24), (20, 60), (50, 120))
"""Thresholds of the Canny edge finder, low and high."""

_SMALLEST_SHARE = 0.003
_LARGEST_SHARE = 0.97
"""Area of an outline as a share of the picture."""

_LEAST_SOLID = 0.82
_LEAST_FOUR_SIDED = 0.72
_TALLEST_LINE = 2.5
_STEP_PX = 4
_LEAST_STEP = 1.7
_OTHER_GROUND = 8.0


@dataclass(frozen=True, slots=True)
class Outline:
    """A convex outline.  ``hull`` has shape (n, 2), ``quad`` (4, 2) holds all of it;
    ``four_sided`` tells how much of the quad the hull fills, ``edge`` on which share of
    its length there is a step in colour; both 0 to 1."""

    hull: Points
    quad: Points
    four_sided: float
    edge: float

    @property
    def area_px(self) -> float:
        """Area of the hull."""
        return area_px(self.hull)

    @property
    def score(self) -> float:
        """How much it looks like a card, 0 to 1."""
        return self.four_sided * self.edge


def card_outlines(image: Image, text: Points) -> list[Outline]:
    """Outlines that could be cards; many are the same card seen in several views.

    ``text``, shape (n, 4, 2), are the picture's lines of print, which are painted over
    first: they would tear a card's area to pieces.
    """
    smooth = cv2.medianBlur(_without_text(image, _true_lines(text)), 5)
    lab = _lab(smooth)
    outlines = []
    for mask in _masks(lab):
        for hull in _hulls(mask):
            outline = _judged(hull, lab)
            if outline is not None:
                outlines.append(outline)
    return outlines


# Views and masks


def _lab(rgb: npt.NDArray[Any]) -> Image:
    return np.asarray(cv2.cvtColor(rgb, cv2.COLOR_RGB2LAB), dtype=np.uint8)


def _planes(lab: Image) -> tuple[Plane, ...]:
    return tuple(np.ascontiguousarray(lab[..., at]) for at in range(3))


def _true_lines(text: Points) -> Points:
    """Boxes of one line each.  Where small print was taken for one large block, the block
    overshoots the card and would paint over its edge."""
    if not len(text):
        return text
    sides = np.linalg.norm(np.roll(text, -1, axis=1) - text, axis=2)
    heights = sides.min(axis=1)
    kept: Points = text[heights <= _TALLEST_LINE * np.median(heights)]
    return kept


def _without_text(image: Image, text: Points) -> Image:
    """Each line of print painted over with the paper around it."""
    painted = image.copy()
    print_mask = np.zeros(image.shape[:2], np.uint8)
    polygons = np.round(text).astype(np.int32)
    for polygon in polygons:
        cv2.fillConvexPoly(print_mask, polygon, 1)
    print_mask = _widened(print_mask, 1)
    height_px, width_px = image.shape[:2]
    for polygon in polygons:
        low = np.clip(polygon.min(axis=0) - 4, 0, None)
        high = np.minimum(polygon.max(axis=0) + 5, (width_px, height_px))
        if (high <= low).any():
            continue
        window = np.s_[low[1] : high[1], low[0] : high[0]]
        near = np.zeros((high[1] - low[1], high[0] - low[0]), np.uint8)
        cv2.fillConvexPoly(near, polygon - low, 1)
        inside = _widened(near, 1) > 0
        ring = (_widened(near, 4) > 0) & (print_mask[window] == 0)
        if ring.any():
            painted[window][inside] = np.median(image[window][ring], axis=0)
    return painted


def _widened(mask: Plane, by_px: int) -> Plane:
    side = 2 * by_px + 1
    return np.asarray(cv2.dilate(mask, np.ones((side, side), np.uint8)), dtype=np.uint8)


def _masks(lab: Image) -> Iterator[Plane]:
    for view in (*_planes(lab), _unlike_border(lab)):
        for mask in _cuts(view):
            yield mask
            yield 1 - mask
    yield from _enclosed(lab)


def _cuts(view: Plane) -> Iterator[Plane]:
    low, high = np.percentile(view[::4, ::4], (2, 98))
    if high - low < 3:
        return
    for level in np.unique(np.linspace(low, high, LEVELS + 2)[1:-1].round()):
        yield (view > level).astype(np.uint8)


def _unlike_border(lab: Image) -> Plane:
    """Difference from the colour along the picture's border, in units of its scatter."""
    rim = max(2, min(lab.shape[:2]) // 60)
    border = np.concatenate(
        [
            lab[:rim].reshape(-1, 3),
            lab[-rim:].reshape(-1, 3),
            lab[:, :rim].reshape(-1, 3),
            lab[:, -rim:].reshape(-1, 3),
        ]
    ).astype(np.float32)
    centre = np.median(border, axis=0)
    scatter = np.median(np.abs(border - centre), axis=0) * 1.5 + 1
    away = np.linalg.norm((lab.astype(np.float32) - centre) / scatter, axis=2)
    return np.asarray(np.clip(away * _LEVELS_PER_SCATTER, 0, 255), dtype=np.uint8)


def _enclosed(lab: Image) -> Iterator[Plane]:
    """Areas that edges enclose, for weak and for strong edges."""
    planes = _planes(lab)
    for low, high in _EDGE_STRENGTHS:
        edges = np.max([cv2.Canny(plane, low, high) for plane in planes], axis=0)
        yield (_widened(edges, 1) == 0).astype(np.uint8)


def _hulls(mask: Plane) -> Iterator[Points]:
    """Convex hulls of the mask's large areas that nearly fill them."""
    count, labels, boxes, _ = cv2.connectedComponentsWithStats(mask, connectivity=4)
    box_areas = boxes[:, cv2.CC_STAT_WIDTH] * boxes[:, cv2.CC_STAT_HEIGHT]
    large = [label for label in range(1, count) if box_areas[label] > _SMALLEST_SHARE * mask.size]
    for label in large:
        left, top, width, height = boxes[label][:4]
        area = (labels[top : top + height, left : left + width] == label).astype(np.uint8)
        contours, _ = cv2.findContours(
            area, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE, offset=(int(left), int(top))
        )
        contour = max(contours, key=cv2.contourArea)
        hull = cv2.convexHull(contour)
        hull_area = cv2.contourArea(hull)
        if not _SMALLEST_SHARE <= hull_area / mask.size <= _LARGEST_SHARE:
            continue
        if cv2.contourArea(contour) >= _LEAST_SOLID * hull_area:
            yield hull_of(hull.astype(np.float32))


# Judging an outline


def _judged(hull: Points, lab: Image) -> Outline | None:
    quad = circumscribed(hull)
    four_sided = area_px(hull) / max(area_px(quad), 1)
    if four_sided < _LEAST_FOUR_SIDED:
        return None
    return Outline(hull, quad, four_sided, _edge_share(hull, lab))


def _edge_share(hull: Points, lab: Image) -> float:
    """Share of the outline's length where colour steps, compared with how it varies on
    either side.  What runs along the picture's border is left out."""
    on, normal = _samples(hull)
    height_px, width_px = lab.shape[:2]

    def colour(offset: float) -> npt.NDArray[np.float32]:
        at = np.round(on + offset * normal).astype(int)
        x, y = np.clip(at[:, 0], 0, width_px - 1), np.clip(at[:, 1], 0, height_px - 1)
        return np.asarray(lab[y, x], dtype=np.float32)

    outermost = on + 2 * _STEP_PX * normal
    kept = ((outermost >= 0) & (outermost < (width_px, height_px))).all(axis=1)
    if kept.sum() < 0.2 * len(on):
        return 0.0
    inner, outer = colour(-_STEP_PX), colour(_STEP_PX)
    step = np.linalg.norm(inner - outer, axis=1)
    for offset in (0, _STEP_PX / 2):
        # White on white there is no step, only the thin shadow of the edge.
        on_edge = colour(offset)
        shadow = np.minimum(
            np.linalg.norm(on_edge - inner, axis=1), np.linalg.norm(on_edge - outer, axis=1)
        )
        step = np.maximum(step, shadow)
    unrest = np.linalg.norm(inner - colour(-2 * _STEP_PX), axis=1) + np.linalg.norm(
        outer - colour(2 * _STEP_PX), axis=1
    )
    return float((step > np.maximum(_LEAST_STEP, 0.7 * unrest))[kept].mean())


def _samples(hull: Points) -> tuple[Points, Points]:
    """Points evenly along a hull, and the outward normal at each."""
    following = np.roll(hull, -1, axis=0)
    lengths = np.linalg.norm(following - hull, axis=1)
    total = np.concatenate([[0], np.cumsum(lengths)])
    at = np.linspace(0, total[-1], 120, endpoint=False)
    side = np.clip(np.searchsorted(total, at, side="right") - 1, 0, len(hull) - 1)
    share = ((at - total[side]) / np.maximum(lengths[side], 1e-6))[:, None]
    along = (following - hull)[side] / np.maximum(lengths[side], 1e-6)[:, None]
    on = hull[side] * (1 - share) + following[side] * share
    outward = np.stack([along[:, 1], -along[:, 0]], axis=1)
    if np.einsum("nd,nd->n", on - hull.mean(axis=0), outward).mean() < 0:
        outward = -outward
    return on.astype(np.float32), outward.astype(np.float32)


def ground_differs(image: Image, outline: Points, within: Sequence[Points]) -> bool:
    """Whether the ground inside an outline, around the quads ``within`` it, has another
    colour than the ground just outside it."""
    lab = _lab(image)
    inside, taken = np.zeros(image.shape[:2], np.uint8), np.zeros(image.shape[:2], np.uint8)
    cv2.fillConvexPoly(inside, np.round(outline).astype(np.int32), 1)
    for quad in within:
        cv2.fillConvexPoly(taken, np.round(quad).astype(np.int32), 1)
    near = (_widened(inside, 3 * _STEP_PX) > 0) & (_widened(inside, _STEP_PX) == 0)
    between = (_widened(1 - inside, _STEP_PX) == 0) & (_widened(taken, _STEP_PX) == 0)
    if not near.any() or not between.any():
        return True
    colours = [np.median(lab[mask], axis=0) for mask in (near, between)]
    return bool(np.linalg.norm(colours[0] - colours[1]) > _OTHER_GROUND)
