"""Fragments: a scrap of print right beside a lot or a code may be part of it.

The line finder parts a stamped or widely set code ("9220-J") in two boxes now and then;
then each part reads well and the whole is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from intake.fields.choose import plain_name
from intake.fields.letters import Folded
from intake.fields.names.leads import (
    is_by,
)
from intake.fields.pieces import Frame, Piece, find_pieces, frame_of, is_upright, turned
from intake.records import Field, Line, Span, State

_REACH = 1.5
"""A scrap nearer than this, in heights of the value's line, may belong to the value."""

_LONGEST = 6
"""Scraps have at most so many letters, which may be spaced."""

_ENDS = re.compile(r"[,;]\s")
"""A mark that parts what stands on either side of it."""

_NUMBER_WORD = re.compile(r"(?:nr|number|nummer|numero)\.?")
"""Words for a number are no part of one."""

_CODES = ("lot", "shade_code")


def doubt_fragments(
    fields: Mapping[str, Field], lines: Sequence[Line], explained: Sequence[Span]
) -> dict[str, Field]:
    """``fields`` with a doubt at a lot or a shade code that has a scrap of print beside it.

    ``explained`` is print that is known for something else, such as captions.
    """
    known = [*explained, *(span for field in fields.values() for span in field.spans)]
    scraps = [
        piece
        for piece in find_pieces(lines, known)
        if len(piece.text.replace(" ", "")) <= _LONGEST
        and not _NUMBER_WORD.fullmatch(Folded(piece.text).text)
        and not (piece.text.islower() and is_by(piece.text))
    ]
    found = dict(fields)
    for name in _CODES:
        field = fields[name]
        beside = [piece for piece in scraps if _is_beside(piece, field.spans, lines)]
        if beside and field.state is State.SURE:
            reason = (
                f"'{beside[0].text}' stands right beside the {plain_name(name)} '{field.value}' "
                "and may be part of it"
            )
            found[name] = replace(field, state=State.DOUBTFUL, reason=reason)
    return found


def _is_beside(piece: Piece, spans: Sequence[Span], lines: Sequence[Line]) -> bool:
    for span in spans:
        line = lines[span.line]
        frame, other = frame_of(line, span.start, span.end), piece.frame
        if is_upright(line):
            frame, other = turned(frame), turned(other)
        first, last = sorted((piece.span, span), key=lambda one: one.start)
        parted = piece.span.line == span.line and _ENDS.search(line.text[first.end : last.start])
        if parted:
            continue
        if _gap_px(other, frame) <= _REACH * line.height_px and _in_row(other, frame):
            return True
    return False


def _gap_px(one: Frame, other: Frame) -> float:
    return max(0.0, -one.overlap_x(other))


def _in_row(one: Frame, other: Frame) -> bool:
    return one.overlap_y(other) > 0.4 * min(one.height_px, other.height_px)
