"""Stretches: captions in a row above a row of values that stand neither flush nor centred below
them, as in boxes whose captions are set to the left and whose values to the right.

What tells is that every stretch, from where one caption begins to where the next begins, holds
just one value; that of an article or a date may be known by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from intake.fields.captions import Caption, Role
from intake.fields.linked import Fit, Link
from intake.fields.pieces import Frame, Piece, frame_of
from intake.records import Line

_REACH = 2.6
"""Values stand at most so many heights of the captions below them."""

_IN_STRETCH = 0.8
"""Closeness of a value in the stretch of its caption."""

_FITS = 0.35

_ASIDE = 0.6
"""A value may stand out of its stretch by so many heights of the captions."""

_WIDEST = 12.0
"""The last stretch is at most so many heights of the captions wide."""


def link_stretches(
    lines: Sequence[Line],
    captions: Sequence[Caption],
    waiting: Sequence[Caption],
    pieces: Sequence[Piece],
    fit: Fit,
) -> list[Link]:
    """The links of ``waiting`` captions in a row to the values in a row below, of which each
    stretch holds one."""
    frames = {one: frame_of(lines[one.line], one.start, one.end) for one in captions}
    links: list[Link] = []
    seen: set[Caption] = set()
    for caption in waiting:
        if caption in seen:
            continue
        row = [one for one in captions if frames[one].shares_row(frames[caption])]
        row.sort(key=lambda one: frames[one].left)
        seen.update(row)
        if _may_share(row, waiting):
            links += _in_row(lines, row, frames, pieces, fit)
    return links


def _may_share(row: Sequence[Caption], waiting: Sequence[Caption]) -> bool:
    """Whether captions of a row, each in a line of its own, all wait, and for shade and lot."""
    roles = {one.role for one in row}
    apart = len({one.line for one in row}) == len(row) > 1
    return apart and roles >= {Role.SHADE, Role.LOT} and all(one in waiting for one in row)


def _in_row(
    lines: Sequence[Line],
    row: Sequence[Caption],
    frames: dict[Caption, Frame],
    pieces: Sequence[Piece],
    fit: Fit,
) -> list[Link]:
    heads = [frames[one] for one in row]
    height_px = max(1.0, *(one.height_px for one in heads))
    bottom = max(one.bottom for one in heads)
    if any(_stands_among(piece.frame, heads) for piece in pieces):
        return []
    below = [
        piece
        for piece in pieces
        if -0.6 * height_px < piece.frame.top - bottom < _REACH * height_px
    ]
    boxes = [frame_of(line, 0, len(line.letters)) for line in lines]
    edges = [*(head.left for head in heads), _right_of(boxes, heads[-1], height_px)]
    stretches = [(left - _ASIDE * height_px, end) for left, end in pairwise(edges)]
    for first in below:
        values = [one for one in below if one.frame.shares_row(first.frame)]
        in_row = [box for box in boxes if box.shares_row(first.frame)]
        found = [_only(values, *stretch, _ASIDE * height_px) for stretch in stretches]
        links = [
            Link(caption, value, _IN_STRETCH)
            for caption, value in zip(row, found, strict=True)
            if value is not None and fit(caption, value) >= _FITS
        ]
        answered = {one.caption for one in links}
        others = (
            one.role is Role.NUMBER and any(left < box.left < end for box in in_row)
            for one, (left, end) in zip(row, stretches, strict=True)
            if one not in answered
        )
        if links and all(others):
            return links
    return []


def _only(
    values: Sequence[Piece], left_px: float, right_px: float, aside_px: float
) -> Piece | None:
    """The only value that begins in a stretch, if it ends there too."""
    within = [one for one in values if left_px < one.frame.left < right_px]
    is_whole = len(within) == 1 and within[0].frame.right < right_px + aside_px
    return within[0] if is_whole else None


def _stands_among(value: Frame, heads: Sequence[Frame]) -> bool:
    """Whether a value stands in the row of captions, behind one of them."""
    return any(value.shares_row(head) and value.left > head.left for head in heads)


def _right_of(boxes: Sequence[Frame], last: Frame, height_px: float) -> float:
    """Where the last stretch ends: where other print begins in the row of the captions."""
    begins = [one.left for one in boxes if one.shares_row(last) and one.left > last.right]
    return min([last.right + _WIDEST * height_px, *begins])
