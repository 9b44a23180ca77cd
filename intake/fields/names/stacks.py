"""Stacks: whether two stretches of print may be the lines of one name."""

from __future__ import annotations

import re

from intake.fields.pieces import Piece, frame_of
from intake.records import Line

ONE_SIZE = 1.2
"""Letters of one size differ by less than this factor as the line finder measures them."""

_SAME_SIZE = 1.15
"""The same for the lines of one name, which lie close together."""

_LINE_GAP = 0.42
"""The lines of one name stand at most so far apart, in heights of its letters."""

_FLUSH = 0.4
"""Lines whose left ends or middles are at most so far apart, in heights of their letters, are
set flush or centred."""


_TALL = re.compile(r"[^\W_acegmnopqrsuvwxyz]")
_HIGH = re.compile(r"[À-ÖÙ-Ý]")
_DEEP = re.compile(r"[gjpqyQ(),;/]")
_ONE_ZONE = 0.8
"""Height of a line without letters that reach down, or up, of one with both (the shares of
ascender, x-height and descender in text faces, about 2 : 4 : 2; common practice, no source)."""


_NEARLY_ONE_SIZE, _NEAR_BELOW, _NEARLY_FLUSH = 1.4, 0.6, 0.6
"""The same three of lines that may be those of one name: short words are measured badly."""


def _size_ratio(piece: Piece, other: Piece) -> float:
    """How many times the one piece is as large as the other: as the line finder measures them, or
    without what letters that reach up or down add, "Tynn" stands higher than "Trollvass" in one
    size; whichever is less."""
    measured = (piece.height_px, other.height_px)
    without = (piece.height_px / _zones(piece.text), other.height_px / _zones(other.text))
    return min(max(heights) / max(1.0, min(heights)) for heights in (measured, without))


def _zones(text: str) -> float:
    """Height of ``text`` in heights of a line with letters that reach up and down."""
    share = _ONE_ZONE ** [bool(zone.search(text)) for zone in (_TALL, _DEEP)].count(False)
    return share / _ONE_ZONE if _HIGH.search(text) else share


def may_go_on(upper: Piece, lower: Piece) -> bool:
    """Whether one word below a name may be its last: close below, of its case and nearly its size,
    flush or centred."""
    return (
        " " not in lower.text
        and upper.text.isupper() == lower.text.isupper()
        and _lie_as_lines(upper, lower, _NEARLY_ONE_SIZE, _NEAR_BELOW, _NEARLY_FLUSH)
    )


def is_stacked(upper: Piece, lower: Piece) -> bool:
    """Whether two pieces may be the lines of one name: set in one size and one case, one close
    below the other, flush or centred."""
    return is_set_alike(upper, lower) and _lie_as_lines(upper, lower, _SAME_SIZE, _LINE_GAP, _FLUSH)


def _lie_as_lines(upper: Piece, lower: Piece, size: float, gap: float, aside: float) -> bool:
    """Whether two pieces of one line each differ in size by less than a factor, and lie so near
    above one another and so little aside, in heights of the smaller letters."""
    height_px = min(upper.height_px, lower.height_px)
    one, two = upper.frame, lower.frame
    return (
        not (upper.tail or lower.tail)
        and _size_ratio(upper, lower) < size
        and abs(two.top - one.bottom) < gap * height_px
        and one.aside_px(two) < aside * height_px
    )


def is_continued(line: Line, piece: Piece, lower: Piece) -> bool:
    """Whether ``piece``, which stands in ``line``, may go on in ``lower``: set in one size, close
    below it, and under its own print or the beginning of its line."""
    small, large = sorted((piece.height_px, lower.height_px))
    own, below = piece.frame, lower.frame
    left = frame_of(line, 0, len(line.letters)).left
    return (
        large < ONE_SIZE * small
        and abs(below.top - own.bottom) < _LINE_GAP * small
        and (abs(below.left - left) < small or own.overlap_x(below) > -small)
    )


def is_set_alike(piece: Piece, other: Piece) -> bool:
    """Whether two pieces are set in one size and one case."""
    return _size_ratio(piece, other) < ONE_SIZE and piece.text.isupper() == other.text.isupper()
