"""Captions that stand behind their values: in brackets, or at the ends of their lines."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from intake.fields.captions import Caption, Role, is_in_brackets
from intake.fields.chains import SHARED
from intake.fields.linked import Fit, Link
from intake.fields.pieces import Piece, frame_of, meet, piece_of, wide_gaps
from intake.records import Line, Span

_BRACKET_REACH = 2.0
"""A caption in brackets stands at most so many of its heights behind its value."""

_LISTED = re.compile(r"\s*\d{1,2}[.)]\s*")
"""What numbers an entry of a list, "4. Kleurnummer"."""


def before_brackets(lines: Sequence[Line], captions: Sequence[Caption], fit: Fit) -> list[Link]:
    """The links of captions in brackets behind their values: "2818 (Bath)"."""
    links: list[Link] = []
    for caption in captions:
        line = lines[caption.line]
        if not is_in_brackets(line.text, caption.start, caption.end):
            continue
        if not any(sign.isalnum() for sign in line.text[: caption.start]):
            links += _before_lone_brackets(lines, caption, fit)
            continue
        bracket = len(line.text[: caption.start].rstrip()) - 1
        starts = [
            one.end + 1 for one in captions if one.line == caption.line and one is not caption
        ]
        starts = [0, *(at for at in (*starts, *wide_gaps(line)) if at < bracket)]
        piece = piece_of(lines, Span(caption.line, max(starts), bracket))
        if piece is not None and fit(caption, piece) > 0:
            links.append(Link(caption, piece, 1.0))
    return links


def _before_lone_brackets(lines: Sequence[Line], caption: Caption, fit: Fit) -> list[Link]:
    """The link of a caption that fills its box, in brackets: to what ends the nearest box before it
    in its row, "Honing, 24.8" and then "(Kleurstelling)"."""
    own = frame_of(lines[caption.line], caption.start, caption.end)
    before = [
        (own.left - frame.right, number)
        for number, line in enumerate(lines)
        for frame in [frame_of(line, 0, len(line.letters))]
        if number != caption.line
        and own.shares_row(frame)
        and -own.height_px < own.left - frame.right < _BRACKET_REACH * own.height_px
    ]
    if not before:
        return []
    number = min(before)[1]
    starts = [0, *wide_gaps(lines[number])]
    piece = piece_of(lines, Span(number, max(starts), len(lines[number].letters)))
    return [Link(caption, piece, SHARED)] if piece is not None and fit(caption, piece) > 0 else []


def before_line_ends(
    lines: Sequence[Line], captions: Sequence[Caption], taken: Sequence[Span], fit: Fit
) -> list[Link]:
    """The links of a tag whose captions end their lines, each right behind its value: "2207/4
    Färgbad" above "28-435 Grus Kulör"."""
    found = [link for one in captions for link in _before_end(lines, captions, one, taken, fit)]
    return found if {Role.LOT, Role.SHADE} <= {one.caption.role for one in found} else []


def before_line_end(
    lines: Sequence[Line],
    waiting: Sequence[Caption],
    taken: Sequence[Span],
    free: Sequence[Piece],
    fit: Fit,
) -> list[Link]:
    """The links of captions that nothing else was found for, to what stands before them in their
    lines, which is asked about."""
    return [
        replace(link, closeness=SHARED, doubt=_asked_before(lines, link))
        for caption in waiting
        for link in _before_end(lines, waiting, caption, taken, fit)
        if any(meet(link.piece.span, piece.span) for piece in free)
    ]


def with_code_before(
    lines: Sequence[Line], links: Sequence[Link], taken: Sequence[Span], fit: Fit
) -> list[Link]:
    """``links``, those asked about whose caption ends its line right behind a code that nothing
    else announces, while what it is linked to stands in another line."""
    asked = []
    for one in links:
        before = [
            link
            for link in _before_end(lines, [one.caption], one.caption, taken, fit)
            if one.closeness < 1
            and any(sign.isdigit() for sign in link.piece.text)
            and not any(meet(link.piece.span, other.piece.span) for other in links)
        ]
        ask = _asked_before(lines, before[0]) if before else ""
        asked.append(replace(one, doubt=one.doubt or ask))
    return asked


def _before_end(
    lines: Sequence[Line],
    captions: Sequence[Caption],
    caption: Caption,
    taken: Sequence[Span],
    fit: Fit,
) -> list[Link]:
    """The link of the only caption of its line, which ends it, to the value right before it."""
    text = lines[caption.line].text
    ends = not any(sign.isalnum() for sign in text[caption.end :])
    ends = ends and ":" not in text[caption.start :]
    alone = [one for one in captions if one.line == caption.line] == [caption]
    if caption.role not in (Role.LOT, Role.SHADE) or not (ends and alone):
        return []
    starts = [0, *(gap for gap in wide_gaps(lines[caption.line]) if gap <= caption.start)]
    if _LISTED.fullmatch(text[: caption.start]):
        return []
    span = Span(caption.line, max(starts), caption.start)
    piece = piece_of(lines, span)
    if piece is None or any(meet(piece.span, one) for one in taken) or fit(caption, piece) <= 0:
        return []
    has_digit = any(sign.isdigit() for sign in piece.text)
    return [Link(caption, piece, 1.0)] if has_digit or caption.role is Role.SHADE else []


def _asked_before(lines: Sequence[Line], link: Link) -> str:
    said = lines[link.caption.line].text[link.caption.start : link.caption.end].strip()
    return f"'{link.piece.text}' stands before '{said}', not behind it: does it belong to it?"
