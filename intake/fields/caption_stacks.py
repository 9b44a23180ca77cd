"""Stacks: a caption of the shade and one of the lot, one under the other, above two values that
stand one under the other too.  The nearest value is not the lower caption's: both go in order.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from intake.fields.captions import Caption, Role
from intake.fields.linked import Fit, Link
from intake.fields.nearness import is_right_below, is_under
from intake.fields.pieces import Frame, Piece

_BOTH = {Role.SHADE, Role.LOT}


def in_order(
    links: Sequence[Link],
    captions: Sequence[Caption],
    frames: Mapping[Caption, Frame],
    pieces: Sequence[Piece],
    fit: Fit,
) -> list[Link]:
    """``links`` of ``captions`` to what stands below them, those of stacks in order and asked
    about; ``pieces`` are free to be announced."""
    kept = list(links)
    for link in links:
        lower, first = link.caption, link.piece
        upper = _above(lower, captions, frames)
        if upper is None:
            continue
        own = next((one for one in links if one.caption is upper), None)
        second = own.piece if own else _below(first, lower, pieces, links, fit)
        if second is None or second.frame.top < first.frame.top or fit(upper, first) <= 0:
            continue
        doubt = f"'{first.text}' and '{second.text}' stand below two captions: which is the lot?"
        kept = [one for one in kept if one.caption is not lower and one.caption is not upper]
        kept += [
            replace(link, caption=upper, doubt=link.doubt or doubt),
            replace(link, piece=second, doubt=link.doubt or doubt),
        ]
    return kept


def _above(
    lower: Caption, captions: Sequence[Caption], frames: Mapping[Caption, Frame]
) -> Caption | None:
    """The caption of the other of shade and lot right above ``lower``."""
    return next(
        (
            one
            for one in captions
            if {one.role, lower.role} == _BOTH and is_under(frames[lower], frames[one])
        ),
        None,
    )


def _below(
    first: Piece, lower: Caption, pieces: Sequence[Piece], links: Sequence[Link], fit: Fit
) -> Piece | None:
    """What stands right below ``first``, fits the ``lower`` caption and is announced by none."""
    announced = {id(one.piece) for one in links}
    return next(
        (
            piece
            for piece in pieces
            if id(piece) not in announced
            and is_right_below(first.frame, piece.frame)
            and fit(lower, piece) > 0
        ),
        None,
    )
