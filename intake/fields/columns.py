"""Columns: captions side by side whose values the line finder took for one line below them.

The values stand too near each other to be parted by their gaps; what tells is that every word
of the line lies below a caption of its own.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.captions import Caption, Role
from intake.fields.linked import Fit, Link
from intake.fields.pieces import Frame, Piece, frame_of, piece_of
from intake.records import Line, Span

_REACH = 2.6
"""Values stand at most so many heights of the captions below them."""

_IN_COLUMNS = 0.85
"""Closeness of a value in the column of its caption."""

_FITS = 0.35

_WORD = re.compile(r"\S+")


def link_columns(
    lines: Sequence[Line], captions: Sequence[Caption], pieces: Sequence[Piece], fit: Fit
) -> list[Link]:
    """The links of captions in one row with as many words in a row below, each word below
    a caption of its own, a lot's with a digit."""
    frames = {one: frame_of(lines[one.line], one.start, one.end) for one in captions}
    links: list[Link] = []
    for caption in captions:
        row = [one for one in captions if _in_row(frames[one], frames[caption])]
        if row[0] is not caption or len(row) < 2:
            continue
        bottom = max(frames[one].bottom for one in row)
        height_px = max(frames[caption].height_px, 1.0)
        below = [
            piece
            for piece in pieces
            if -0.6 * height_px < piece.frame.top - bottom < _REACH * height_px
        ]
        words = [word for piece in below for word in _words(lines, piece)]
        found = _one_each(row, frames, words)
        joined = any(len(_words(lines, piece)) > 1 for piece in below)
        fitting = all(
            fit(one, word) >= _FITS and (one.role is not Role.LOT or _has_digit(word.text))
            for one, word in found
        )
        if joined and fitting and len(found) == len(words) and len(found) >= 2:
            links += [Link(one, word, _IN_COLUMNS) for one, word in found]
    return links


def _has_digit(text: str) -> bool:
    return any(letter.isdigit() for letter in text)


def _in_row(one: Frame, other: Frame) -> bool:
    return one.overlap_y(other) > 0.5 * min(one.height_px, other.height_px)


def _words(lines: Sequence[Line], piece: Piece) -> list[Piece]:
    line, start = piece.span.line, piece.span.start
    spans = [match.span() for match in _WORD.finditer(lines[line].text, start, piece.span.end)]
    found = [piece_of(lines, Span(line, *span)) for span in spans]
    return [one for one in found if one is not None]


def _one_each(
    row: Sequence[Caption], frames: dict[Caption, Frame], words: Sequence[Piece]
) -> list[tuple[Caption, Piece]]:
    """Each word with the caption right above it; none where two words share one."""
    found: dict[Caption, Piece] = {}
    for word in words:
        above = [one for one in row if frames[one].overlap_x(word.frame) > 0]
        if len(above) != 1 or above[0] in found:
            return []
        found[above[0]] = word
    return list(found.items())
