"""Boxes on a tag: left, top, right, bottom in pixels."""

from __future__ import annotations

from intake.records import Quad

Box = tuple[float, float, float, float]


def bounds(quad: Quad) -> Box:
    """The box about ``quad``."""
    across, down = [x for x, _ in quad], [y for _, y in quad]
    return min(across), min(down), max(across), max(down)


def quad_of(box: Box) -> Quad:
    """The corners of ``box``."""
    left, top, right, bottom = box
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def longer_side(box: Box) -> float:
    """The longer side of ``box``."""
    left, top, right, bottom = box
    return max(right - left, bottom - top)


def shared(box: Box, other: Box) -> float:
    """The share of ``box`` that lies in ``other``."""
    width = min(box[2], other[2]) - max(box[0], other[0])
    height = min(box[3], other[3]) - max(box[1], other[1])
    whole = (box[2] - box[0]) * (box[3] - box[1])
    return max(0.0, width) * max(0.0, height) / max(1e-6, whole)


def overlap(one: Box, other: Box) -> float:
    """The area that two boxes share over the lesser one's."""
    return max(shared(one, other), shared(other, one))
