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
_DEEP = re.compile(r"[gjpqyQ(),;/]")
_ONE_ZONE = 0.8
"""Height of a line without letters that reach down, or up, of one with both (the shares of
ascender, x-height and descender in text faces, about 2 : 4 : 2; common practice, no source)."""


def type_px(piece: Piece) -> float:
    """How high a piece would be with letters that reach up and letters that reach down, which tells
    the size of its type: "Tynn" stands higher than "Trollvass" in one size."""
    zones = [bool(pattern.search(piece.text)) for pattern in (_TALL, _DEEP)]
    return piece.height_px / _ONE_ZONE ** zones.count(False)


def is_stacked(upper: Piece, lower: Piece) -> bool:
    """Whether two pieces may be the lines of one name: set in one size and one case, one close
    below the other, flush or centred."""
    height_px = min(upper.height_px, lower.height_px)
    one, two = upper.frame, lower.frame
    small_px, large_px = sorted((type_px(upper), type_px(lower)))
    return (
        not (upper.tail or lower.tail)
        and is_set_alike(upper, lower)
        and large_px < _SAME_SIZE * small_px
        and abs(two.top - one.bottom) < _LINE_GAP * height_px
        and one.aside_px(two) < _FLUSH * height_px
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
    small, large = sorted((type_px(piece), type_px(other)))
    return large < ONE_SIZE * small and piece.text.isupper() == other.text.isupper()
