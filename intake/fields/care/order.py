"""The order in which care is read where the print of another column stands between its lines."""

from __future__ import annotations

from collections.abc import Sequence

from intake.fields.pieces import Frame, frame_of
from intake.records import Line

_BELOW = 2.5
"""A line goes on at most so many heights below its lower edge."""

_RAISED = 0.5
"""Boxes of lines overlap by up to so many heights, as boxes are measured."""

_SHARED = 0.5
"""The share of the shorter of two lines that stands below the other one."""

_APART = 1.5
"""Columns are so many heights apart."""

_SIZE = 1.5
"""Lines of one column differ in height by less than this factor, as boxes are measured."""


def by_columns(lines: Sequence[Line]) -> list[int]:
    """The numbers of ``lines`` in the order of their columns: each with the line right below it
    behind it, though print of another column, well aside of both, was read between them."""
    frames = [frame_of(line, 0, len(line.letters)) for line in lines]
    left = list(range(len(lines)))
    order: list[int] = []
    while left:
        at: int | None = left.pop(0)
        while at is not None:
            order.append(at)
            at = _next(frames, at, left)
            if at is not None:
                left.remove(at)
    return order


def _next(frames: Sequence[Frame], at: int, left: Sequence[int]) -> int | None:
    """Of the lines that are ``left`` the one that goes on below line ``at``, if all before it stand
    aside."""
    below = [other for other in left if other > at and _goes_on(frames[at], frames[other])]
    if not below:
        return None
    nearest = min(below, key=lambda other: frames[other].top)
    between = [other for other in left if at < other < nearest]
    ends = (frames[at], frames[nearest])
    aside = all(_is_aside(frames[other], end) for other in between for end in ends)
    return nearest if aside else None


def _goes_on(one: Frame, other: Frame) -> bool:
    height_px = min(one.height_px, other.height_px)
    gap_px = other.top - one.bottom
    width_px = min(one.right - one.left, other.right - other.left)
    return (
        -_RAISED * height_px <= gap_px <= _BELOW * height_px
        and max(one.height_px, other.height_px) < _SIZE * height_px
        and one.overlap_x(other) >= _SHARED * width_px
    )


def _is_aside(one: Frame, other: Frame) -> bool:
    return -one.overlap_x(other) >= _APART * min(one.height_px, other.height_px)
