"""Nearness: how well a value stands beside or below its caption."""

from __future__ import annotations

from collections.abc import Sequence

from intake.fields.pieces import Frame

_RIGHT_REACH = 14.0
_FAR_RIGHT = 3.0
_DOWN_REACH = 2.6
"""How far a value may stand from its caption, in heights of the caption's line; one further to
the right than ``_FAR_RIGHT``, or right below another caption, gives way to one right below."""

_IN_ROW = 0.4
"""From this share of their heights on that both have, a value stands in the row of its caption:
smaller captions may be set a little lower."""


def is_right_below(caption: Frame, value: Frame) -> bool:
    """Whether a value stands close below its caption, at its margin or on its axis."""
    height_px = max(min(caption.height_px, value.height_px), 1.0)
    gap_px = value.top - caption.bottom
    flush = caption.aside_px(value) < 0.6 * height_px
    return -0.5 * height_px < gap_px < height_px and flush


def is_far_right(caption: Frame, value: Frame) -> bool:
    """Whether a value stands so far to the right that one right below its caption is nearer."""
    height_px = max(min(caption.height_px, value.height_px), 1.0)
    return value.left - caption.right > _FAR_RIGHT * height_px


def is_under(lower: Frame, upper: Frame) -> bool:
    """Whether a caption stands right under others, at the same margin."""
    height_px = max(lower.height_px, 1.0)
    gap_px = lower.top - upper.bottom
    return -0.5 * height_px < gap_px < 0.6 * height_px and abs(lower.left - upper.left) < height_px


def rightness(caption: Frame, value: Frame, others: Sequence[Frame]) -> float:
    """1 for a value right behind its caption in the same row, 0 out of reach or with
    another caption between them."""
    height_px = max(min(caption.height_px, value.height_px), 1.0)
    shared = caption.overlap_y(value) / max(1.0, min(height_px, value.height_px))
    gap_px = value.left - caption.right
    if shared < _IN_ROW or gap_px < -height_px or gap_px > _RIGHT_REACH * height_px:
        return 0.0
    for other in others:
        between = caption.right <= other.left + height_px and other.right <= value.left + height_px
        if between and other.overlap_y(caption) > 0.5 * min(height_px, other.height_px):
            return 0.0
    return 0.95 - 0.4 * max(0.0, gap_px) / (_RIGHT_REACH * height_px)


def downness(upper: Frame, lower: Frame) -> float:
    """1 for ``lower`` right under ``upper``, 0 out of reach or in another column."""
    height_px = max(min(upper.height_px, lower.height_px), 1.0)
    narrower_px = max(1.0, min(upper.right - upper.left, lower.right - lower.left))
    gap_px = lower.top - upper.bottom
    if gap_px < -0.6 * height_px or gap_px > _DOWN_REACH * height_px:
        return 0.0
    if upper.overlap_x(lower) <= 0.1 * narrower_px:
        return 0.0
    aside = upper.aside_px(lower) / height_px
    far = max(0.0, gap_px) / (_DOWN_REACH * height_px)
    return 0.9 - 0.4 * far - min(0.3, 0.02 * aside)
