"""Links that are left when every caption has what stands behind, below or above it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import product

from intake.fields.captions import Caption, Role
from intake.fields.codes import code_and_name
from intake.fields.linked import Fit, Link
from intake.fields.pieces import Frame, Piece
from intake.records import Line

_FITS = 0.35
"""How well a value must fit its caption."""

_SLANTING = 0.5
"""Closeness of a value that stands aslant of its caption."""

_REACH = 2.6
_SLANT_RIGHT, _SLANT_ASIDE = 7.0, 1.0
"""How far it may stand below or above, to the right, and aside where it stands below or above, in
heights of the smaller print."""

_ON_AXIS = 0.3
"""One right below, their middles so many heights of the larger print apart at most, may stand as
far below as the larger print allows."""

_BETWEEN = frozenset("-–—/|·")


def left_over(
    captions: Sequence[Caption], frames: Mapping[Caption, Frame], pieces: Sequence[Piece], fit: Fit
) -> list[Link]:
    """The links of lots and shades whose value stands the other way than those of the other
    captions, stands far below its caption on its axis, or slants from its caption as stamps do:
    where it is the only one within reach, and no other caption is as near to it."""
    links = stepped(captions, frames, pieces, fit)
    if links:
        return links
    for caption in captions:
        near = [
            piece
            for piece in pieces
            if caption.role in (Role.LOT, Role.SHADE)
            and piece.span.line != caption.line
            and fit(caption, piece) >= _FITS
            and _apart(frames[caption], piece.frame) < 1
        ]
        if len(near) != 1:
            continue
        apart = _apart(frames[caption], near[0].frame)
        others = [frame for one, frame in frames.items() if one is not caption]
        if all(_apart(frame, near[0].frame) > apart for frame in others):
            links.append(Link(caption, near[0], _SLANTING))
    claimed = [one.piece for one in links]
    return [one for one in links if claimed.count(one.piece) == 1]


_STEP_ASIDE = 3.0
_STEP_DOWN = 1.2
"""How far a value set in a step stands aside of and below its caption, in heights of the larger
print."""


def stepped(
    captions: Sequence[Caption], frames: Mapping[Caption, Frame], pieces: Sequence[Piece], fit: Fit
) -> list[Link]:
    """The links of lots and shades that are all set in steps, each value one line below its caption
    and beginning behind it; asked about where print stands a step above a caption as well."""
    asking = [one for one in captions if one.role in (Role.LOT, Role.SHADE)]
    links, rival = [], False
    for caption in asking:
        below = [
            piece
            for piece in pieces
            if fit(caption, piece) >= _FITS and _is_step(frames[caption], piece.frame)
        ]
        if len(below) != 1:
            return []
        links.append(Link(caption, below[0], _SLANTING))
        rival = rival or any(_is_step_up(frames[caption], piece.frame) for piece in pieces)
    told = [one.piece for one in links]
    if any(told.count(piece) > 1 for piece in told):
        return []
    ask = "'{}' stands below its caption, and another number above it"
    return [replace(one, doubt=ask.format(one.piece.text) if rival else "") for one in links]


def _is_step(caption: Frame, value: Frame) -> bool:
    height_px = max(caption.height_px, value.height_px, 1.0)
    is_set_in = value.left > caption.left + height_px
    return is_set_in and _is_near(value.left - caption.right, value.top - caption.bottom, height_px)


def _is_step_up(caption: Frame, value: Frame) -> bool:
    height_px = max(caption.height_px, value.height_px, 1.0)
    return _is_near(value.left - caption.right, caption.top - value.bottom, height_px)


def _is_near(aside_px: float, apart_px: float, height_px: float) -> bool:
    """Whether a step leads so far aside and so far up or down."""
    near = -height_px < aside_px < _STEP_ASIDE * height_px
    return near and -0.5 * height_px < apart_px < _STEP_DOWN * height_px


def _apart(caption: Frame, value: Frame) -> float:
    """How far a value stands from its caption, 0 where it touches and 1 at the end of its reach."""
    height_px = max(caption.height_px, value.height_px, 1.0)
    gap_px = value.top - caption.bottom
    if caption.off_axis_px(value) < _ON_AXIS * height_px and gap_px > 0:
        return min(_aslant(caption, value), gap_px / (_REACH * height_px))
    return _aslant(caption, value)


def _aslant(caption: Frame, value: Frame) -> float:
    """How far a value stands from its caption, 0 where it touches and 1 at the end of its reach:
    to the right in a row that it shares only in part, or above or below with hardly a gap
    aside."""
    height_px = max(min(caption.height_px, value.height_px), 1.0)
    across_px, down_px = -caption.overlap_x(value), -caption.overlap_y(value)
    if down_px < 0 < across_px and value.left > caption.left:
        return across_px / (_SLANT_RIGHT * height_px)
    if across_px < _SLANT_ASIDE * height_px:
        return max(0.0, down_px) / (_REACH * height_px)
    return 1.0


def parted_halves(
    links: Sequence[Link], pieces: Sequence[Piece], lines: Sequence[Line]
) -> list[Link]:
    """Links for the other half of a shade that only a dash or a stroke parts from the half that a
    caption announces: "DK76 – Bonbon" below "Färg"."""
    found = []
    for one, piece in product(links, pieces):
        if one.caption.role is not Role.SHADE or one.piece.span.line != piece.span.line:
            continue
        first, last = sorted((one.piece.span, piece.span), key=lambda span: span.start)
        between = lines[first.line].text[first.end : last.start].strip()
        known = [half is not None for half in code_and_name(one.piece.text)]
        other = [half is not None for half in code_and_name(piece.text)]
        if between in _BETWEEN and sorted((known, other)) == [[False, True], [True, False]]:
            found.append(Link(one.caption, piece, one.closeness))
    return found
