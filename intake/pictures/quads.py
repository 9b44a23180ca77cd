"""Geometry of four-sided outlines.  Points are float32, pixels, y downwards."""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt

Points = npt.NDArray[np.float32]

_MOST_GROWTH = 1.6


def area_px(outline: Points) -> float:
    """Area of a convex outline."""
    return float(cv2.contourArea(np.asarray(outline, dtype=np.float32)))


def hull_of(points: Points) -> Points:
    """Convex hull of points, shape (n, 2)."""
    return np.asarray(cv2.convexHull(points.reshape(-1, 2))[:, 0], dtype=np.float32)


def clockwise(quad: Points) -> Points:
    """The corners clockwise as seen, from the one nearest the top left."""
    centre = quad.mean(axis=0)
    order = np.argsort(np.arctan2(quad[:, 1] - centre[1], quad[:, 0] - centre[0]))
    quad = quad[order]
    return np.roll(quad, -int(np.argmin(quad.sum(axis=1))), axis=0)


def circumscribed(hull: Points) -> Points:
    """A four-sided outline that holds a convex hull: along the hull's own sides where it
    has four long ones, else the smallest rectangle around it."""
    box = clockwise(np.asarray(cv2.boxPoints(cv2.minAreaRect(hull)), dtype=np.float32))
    length = cv2.arcLength(hull, True)
    for share in (0.01, 0.02, 0.03, 0.05, 0.08):
        corners = cv2.approxPolyDP(hull, share * length, True)
        if len(corners) == 4:
            quad = grown_to_hold(corners[:, 0].astype(np.float32), hull)
            return quad if area_px(quad) <= 1.02 * area_px(box) else box
    return box


def rectangle_along(points: Points, angle_deg: float) -> Points:
    """The rectangle around points whose sides run at ``angle_deg`` and across it."""
    cos, sin = np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))
    axes = np.array([[cos, sin], [-sin, cos]], dtype=np.float32)
    along = points.reshape(-1, 2) @ axes.T
    low, high = along.min(axis=0), along.max(axis=0)
    corners = np.array([low, [high[0], low[1]], high, [low[0], high[1]]], dtype=np.float32)
    return clockwise(np.asarray(corners @ axes, dtype=np.float32))


def grown_to_hold(quad: Points, points: Points) -> Points:
    """``quad`` with each side moved outwards until all ``points`` are within; where that
    makes it far larger than need be, the smallest rectangle around both."""
    quad = clockwise(quad)
    following = np.roll(quad, -1, axis=0)
    along = following - quad
    outward = np.stack([along[:, 1], -along[:, 0]], axis=1)
    outward /= np.maximum(np.linalg.norm(outward, axis=1, keepdims=True), 1e-6)
    beyond = points @ outward.T - np.einsum("sd,sd->s", quad, outward)
    shift = np.maximum(beyond.max(axis=0), 0)[:, None] * outward
    starts, ends = quad + shift, following + shift
    grown = np.array(
        [_crossing(starts[at - 1], ends[at - 1], starts[at], ends[at]) for at in range(4)],
        dtype=np.float32,
    )
    everything = hull_of(np.concatenate([quad, points]))
    if cv2.isContourConvex(grown) and area_px(grown) <= _MOST_GROWTH * area_px(everything):
        return grown
    return clockwise(np.asarray(cv2.boxPoints(cv2.minAreaRect(everything)), dtype=np.float32))


def shares_inside(hull: Points, quads: Points) -> Points:
    """Which share of each of ``quads``, shape (n, 4, 2), lies within a convex hull."""
    steps = np.linspace(0.05, 0.95, 7, dtype=np.float32)[:, None]
    top = quads[:, None, 0] * (1 - steps) + quads[:, None, 1] * steps
    bottom = quads[:, None, 3] * (1 - steps) + quads[:, None, 2] * steps
    points = np.concatenate([top * 0.8 + bottom * 0.2, top * 0.2 + bottom * 0.8], axis=1)
    along = np.roll(hull, -1, axis=0) - hull
    away = points[:, :, None] - hull
    side = along[:, 0] * away[..., 1] - along[:, 1] * away[..., 0]
    within = (side >= 0).all(axis=2) | (side <= 0).all(axis=2)
    return np.asarray(within.mean(axis=1), dtype=np.float32)


def tilt_deg(quads: Points) -> float:
    """Common direction of quads' sides, -45 to 45 degrees against the picture's sides;
    long sides weigh more."""
    sides = (np.roll(quads, -1, axis=1) - quads).reshape(-1, 2)
    lengths = np.linalg.norm(sides, axis=1)
    quarter = 4 * np.arctan2(sides[:, 1], sides[:, 0])
    weights = lengths**2
    return float(np.degrees(np.arctan2(weights @ np.sin(quarter), weights @ np.cos(quarter))) / 4)


def distance_px(one: Points, other: Points) -> float:
    """Distance between two convex outlines, 0 where they meet."""
    shared, _ = cv2.intersectConvexConvex(hull_of(one), hull_of(other))
    if shared > 0:
        return 0.0
    pairs = ((one, other), (other, one))
    return min(
        -cv2.pointPolygonTest(outline, (float(x), float(y)), True)
        for points, outline in pairs
        for x, y in points
    )


def _crossing(a: Points, b: Points, c: Points, d: Points) -> Points:
    """Where the line through ``a`` and ``b`` meets the one through ``c`` and ``d``."""
    first, second = b - a, d - c
    cross = first[0] * second[1] - first[1] * second[0]
    if abs(cross) < 1e-6:
        return c
    share = ((c[0] - a[0]) * second[1] - (c[1] - a[1]) * second[0]) / cross
    return np.asarray(a + share * first, dtype=np.float32)
