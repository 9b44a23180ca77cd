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

_IN_CELLS = 0.8

_FEWEST_CELLS = 3
"""So many captions stand in a row of cells at least."""

_FLUSH = 0.6
"""Values begin within so many heights of where their caption begins."""

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
        row = [one for one in captions if frames[one].shares_row(frames[caption])]
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
        if not found and joined:
            found = _at_margins(lines, row, frames, below)
        elif len(found) != len(words):
            continue
        fitting = all(
            fit(one, word) >= _FITS and (one.role is not Role.LOT or _has_digit(word.text))
            for one, word in found
        )
        if joined and fitting and len(found) >= 2:
            links += [Link(one, word, _IN_COLUMNS) for one, word in found]
    return links


def link_cells(
    lines: Sequence[Line],
    captions: Sequence[Caption],
    waiting: Sequence[Caption],
    pieces: Sequence[Piece],
    fit: Fit,
) -> list[Link]:
    """The links of captions that stand in a row at the heads of cells, each with its value flush
    below it and all values in one row, however deep the cells are."""
    frames = {one: frame_of(lines[one.line], one.start, one.end) for one in captions}
    own = {one.line for one in captions}
    boxes = [frame_of(line, 0, len(line.letters)) for at, line in enumerate(lines) if at not in own]
    links: list[Link] = []
    for caption in waiting:
        row = [one for one in captions if frames[one].shares_row(frames[caption])]
        below = {one: _next_flush(frames[one], [*boxes, *frames.values()]) for one in row}
        value = below[caption]
        if value is None or len({one.line for one in row}) < _FEWEST_CELLS:
            continue
        in_row = all(box is not None and box.shares_row(value) for box in below.values())
        fitting = [
            piece
            for piece in pieces
            if piece.frame.shares_row(value)
            and piece.frame.overlap_x(value) > 0
            and fit(caption, piece) >= _FITS
        ]
        if in_row and len(fitting) == 1:
            links.append(Link(caption, fitting[0], _IN_CELLS))
    return links


def _next_flush(head: Frame, boxes: Sequence[Frame]) -> Frame | None:
    """The nearest of ``boxes`` below ``head`` that begins where it begins."""
    below = [
        box
        for box in boxes
        if box.top > head.bottom - 0.3 * head.height_px
        and abs(box.left - head.left) < _FLUSH * head.height_px
    ]
    return min(below, key=lambda box: box.top, default=None)


def _at_margins(
    lines: Sequence[Line],
    row: Sequence[Caption],
    frames: dict[Caption, Frame],
    below: Sequence[Piece],
) -> list[tuple[Caption, Piece]]:
    """Each caption of a row with the words of one line below that stand in its column, where those
    of each begin right below their caption: "8947 Plum 98782" below "Col." and "Lot"."""
    if len({piece.span.line for piece in below}) != 1:
        return []
    order = sorted(row, key=lambda one: frames[one].left)
    words = sorted((word for piece in below for word in _words(lines, piece)), key=_start)
    firsts: list[int] = []
    for one in order:
        flush_px = _FLUSH * frames[one].height_px
        near = [
            at
            for at, word in enumerate(words)
            if abs(word.frame.left - frames[one].left) < flush_px
        ]
        if len(near) != 1:
            return []
        firsts.append(near[0])
    if firsts[0] != 0 or firsts != sorted(set(firsts)):
        return []
    found = []
    for one, first, end in zip(order, firsts, [*firsts[1:], len(words)], strict=True):
        span = Span(words[0].span.line, words[first].span.start, words[end - 1].span.end)
        piece = piece_of(lines, span)
        if piece is None:
            return []
        found.append((one, piece))
    return found


def _start(piece: Piece) -> int:
    return piece.span.start


def _has_digit(text: str) -> bool:
    return any(letter.isdigit() for letter in text)


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
