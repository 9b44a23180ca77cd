"""Rows: shares in one column and fibres in another, which may be read column after column."""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.pieces import Frame, frame_of
from intake.records import Line

_SHARE = re.compile(r"\s*\d{1,3}(?:[.,]\d)?\s?%\s*")
_FURTHEST = 6.0
"""A fibre stands at most so many heights behind its share."""


def row_by_row(lines: Sequence[Line]) -> list[int]:
    """The numbers of ``lines`` in their order, but what stands right of a share that is alone in
    its line comes right behind it."""
    frames = [frame_of(line, 0, len(line.letters)) for line in lines]
    moved: dict[int, int] = {}
    for at, line in enumerate(lines):
        if _SHARE.fullmatch(line.text):
            beside = [
                other
                for other, words in enumerate(lines)
                if other not in moved.values()
                and words.text[:1].isalpha()
                and _is_beside(frames[at], frames[other])
            ]
            if beside:
                moved[at] = min(beside, key=lambda other: frames[other].left)
    order: list[int] = []
    for at in range(len(lines)):
        if at not in moved.values():
            order.append(at)
        if at in moved:
            order.append(moved[at])
    return order


def _is_beside(share: Frame, words: Frame) -> bool:
    gap_px = words.left - share.right
    return words.shares_row(share) and -0.3 < gap_px / max(1.0, share.height_px) < _FURTHEST
