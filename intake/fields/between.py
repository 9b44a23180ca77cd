"""Values that other print parts from their captions: asked about, for a box that is stamped later
may be empty, and what stands below it is something else.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from intake.fields.captions import Caption, Role
from intake.fields.linked import Link
from intake.fields.pieces import Frame, frame_of
from intake.records import Line

_COVERED = 0.5
"""What shares so much of the width of the narrower of both stands between them."""


def asked_of_parted(
    lines: Sequence[Line], captions: Sequence[Caption], links: Sequence[Link]
) -> list[Link]:
    """``links``, those of shade and lot asked about whose value stands below its caption with a
    line of other print in between."""
    announcing = {one.line for one in captions}
    frames = [frame_of(line, 0, len(line.letters)) for line in lines]
    asked = []
    for one in links:
        own = {one.caption.line, one.piece.span.line} | announcing
        caption = frame_of(lines[one.caption.line], one.caption.start, one.caption.end)
        between = [
            line.text.strip()
            for at, line in enumerate(lines)
            if at not in own and _stands_between(frames[at], caption, one.piece.frame)
        ]
        if between and one.caption.role in (Role.SHADE, Role.LOT):
            doubt = f"'{between[0]}' stands between '{one.piece.text}' and its caption"
            one = replace(one, doubt=one.doubt or doubt)
        asked.append(one)
    return asked


def _stands_between(frame: Frame, caption: Frame, value: Frame) -> bool:
    middle = (frame.top + frame.bottom) / 2
    widths = (each.right - each.left for each in (frame, caption, value))
    narrowest = max(1.0, min(widths))
    return caption.bottom <= middle <= value.top and all(
        frame.overlap_x(each) > _COVERED * narrowest for each in (caption, value)
    )
