"""Names of which a part may stand right beside or below what was taken for them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from intake.fields.amounts.weight import is_weight_word
from intake.fields.captions import is_caption
from intake.fields.fibre.print import KIND_WORDS
from intake.fields.letters import Folded
from intake.fields.names.heading_pieces import OF_WORDS, is_in_two_lines, may_be_one_name
from intake.fields.names.headings import (
    Surroundings,
)
from intake.fields.names.leads import (
    is_by,
)
from intake.fields.names.stacks import is_stacked
from intake.fields.names.trade_words import is_place, is_service_text
from intake.fields.pieces import (
    Piece,
    ends_line,
    gaps_beyond_usual,
    is_next_line,
    is_upright,
    meet,
    turned,
)
from intake.records import Candidate, Line, Span

_SIDE_REACH = 1.5
_SIDE_REACH_OF_BOXES = 1.0
"""Names nearer than this in one row, in line heights, may be one name; the second where the
line finder parted them too (on drawn tags all 12 such pairs from 1.0 on were two names)."""

_PRESENTS = re.compile(r"(?:presents|presenta|präsentiert|presente(?:ert|rar|rer)?|præsenterer)")

_MARKS = "-–—·•|/,;:*"
"""Marks that part two names in one line."""

_FEW = 2
"""A scrap of a name has at most so many words."""

_WORD_BESIDE = re.compile(r"[^\W\d_]{2,}")

WORD_GAP = 0.4
"""Words of one name stand nearer than this, in line heights beyond the usual gap between letters
(10 pairs on drawn tags)."""

_TRADE_MARKS = frozenset({"TM", "R", "MC", "MD"})
"""What stands raised behind a name and is no part of it."""

_TO_SHADE = frozenset({"in", "in the", "in der", "im", "en", "en el", "in het", "nel", "i", "pa"})
"""Words before the caption of a shade: "in the colour Lantern"."""

_GOES_ON = re.compile(rf"(?:(?:{OF_WORDS}|of the|de la|de l'|aux?) |d['’])(?=[^\W\d_])")
"""How the second line of a name begins, with a small letter."""

_LONE_NUMBER = re.compile(r"\d{1,4}")
_AS_LARGE = 0.8
_LINE_SPACE = 0.5
"""The second line of a name is nearly as large as the first, and at most so many heights below."""

_WORD_SPACE = 0.6
"""A scrap stands at most so far from its name, in heights of the larger print."""


_ARTICLES = re.compile(r"a|an|the|der|die|das|l['’]|l[aeo]|les|il|gli|el|los|las|de[nt]?|het")
_LEADS_ON = re.compile(rf".* (?:{OF_WORDS}|aux?|a|in|am|im|the|la|le|der|het|den|det)")
_ARTICLE_SPACE = 1.5
"""An article by itself, or what ends with one or with "of", leads to the name behind it over a
wider space, so many heights."""


def with_split_names(
    candidates: Sequence[Candidate], names: Sequence[Piece], around: Surroundings
) -> list[Candidate]:
    """Asks where a heading has another name right beside it, or alike below it: the gap
    between them may be one within a name.  Maker and range may stand side by side if they are
    set unlike."""
    best = {one.name: one for one in reversed(candidates)}
    taken = [one.spans[0] for one in best.values()]
    places = {piece.span: piece for piece in names}
    asked = []
    for one in candidates:
        piece = places.get(one.spans[0])
        if piece is not None and one is best[one.name]:
            beside = [
                other
                for other in names
                if other is not piece
                and _is_beside(piece, other)
                and not _are_parted(piece, other, around.lines)
                and (other.span not in taken or may_be_one_name(piece, other))
            ]
            beside += [
                other
                for other in names
                if is_in_two_lines(piece, other, around) or is_in_two_lines(other, piece, around)
            ]
            one = _asked(one, [other.text for other in beside])
        asked.append(one)
    return asked


def with_scraps(
    candidates: Sequence[Candidate],
    names: Sequence[Piece],
    left: Sequence[Piece],
    lines: Sequence[Line],
) -> list[Candidate]:
    """Asks where print that is no name by itself stands right beside a heading, a small "Le" or
    "yarn co.", or goes on below it in small letters or with a kind of fibre, "Extrafine": it may be
    part of the name."""
    places = {piece.span: piece for piece in names}
    held = [span for piece in names for span in piece.spans]
    scraps = [
        piece
        for piece in left
        if not any(meet(piece.span, span) for span in held) and _is_scrap(piece.text)
    ]
    asked = []
    for one in candidates:
        piece = places.get(one.spans[0])
        beside = [
            other.text
            for other in scraps
            if piece is not None
            and (
                _adjoins(piece, other, upright=is_upright(lines[piece.span.line]))
                or (
                    (other.text[0].islower() or Folded(other.text).text in KIND_WORDS)
                    and is_stacked(piece, other)
                )
            )
        ]
        if piece is not None and one.name == "range":
            beside += _number_next(piece, left)
        if piece is not None:
            beside += _words_beside(lines[piece.span.line], piece, held)
            beside += _wrapped_words(piece, lines, held)
        asked.append(_asked(one, beside))
    return asked


def _number_next(piece: Piece, left: Sequence[Piece]) -> list[str]:
    """A number alone in the size of a name that is set close below it as its next line, or right
    behind it: "Summerfold" above "22"."""
    return [
        other.text
        for other in left
        if _LONE_NUMBER.fullmatch(other.text)
        and other.height_px > _AS_LARGE * piece.height_px
        and _is_below_or_behind(piece, other)
    ]


def _is_below_or_behind(piece: Piece, other: Piece) -> bool:
    small_px = min(piece.height_px, other.height_px)
    own, next_ = piece.frame, other.frame
    below = abs(next_.top - own.bottom) < _LINE_SPACE * small_px and own.aside_px(next_) < small_px
    behind = own.overlap_y(next_) > 0.5 * small_px and abs(next_.left - own.right) < small_px
    return below or behind


def _asked(candidate: Candidate, beside: Sequence[str]) -> Candidate:
    """``candidate``, asked about where some print stands ``beside`` it."""
    if not beside or candidate.doubt:
        return candidate
    doubt = f"'{beside[0]}' beside '{candidate.value}' may belong to its name"
    return replace(candidate, doubt=doubt)


def _words_beside(line: Line, piece: Piece, held: Sequence[Span]) -> list[str]:
    """Words that stand in the line of a name as near to it as its own words, and that are neither
    another name, a caption, a word for the weight nor one for "by"."""
    gaps = gaps_beyond_usual(line)
    found = []
    for match in _WORD_BESIDE.finditer(line.text):
        span = Span(piece.span.line, *match.span())
        before, behind = span.end + 1 == piece.span.start, span.start == piece.span.end + 1
        at = piece.span.start if before else span.start
        parted = line.text[at - 1 : at] != " " or gaps.get(at, 0.0) > WORD_GAP
        known = is_caption(match[0]) or is_weight_word(match[0]) or is_by(match[0])
        if (before or behind) and not (parted or known or any(meet(span, one) for one in held)):
            found.append(match[0])
    return found


def _wrapped_words(piece: Piece, lines: Sequence[Line], held: Sequence[Span]) -> list[str]:
    """The line below that of a name, which ends its own, where it begins with a word that goes on
    with a name and holds no other: "Hollin Fold · Breath" above "of Winter"."""
    line = lines[piece.span.line]
    if piece.tail or not ends_line(line, piece):
        return []
    return [
        other.text
        for number, other in enumerate(lines)
        if _GOES_ON.match(other.text)
        and all(span.line != number for span in held)
        and is_next_line(line, other)
        and other.quad[0][0] < line.quad[1][0]
        and line.quad[0][0] < other.quad[1][0]
    ]


def _is_scrap(text: str) -> bool:
    """Whether ``text`` is a word or two without a digit, and no word for the weight, no country
    and nothing that a tag says of itself."""
    wordy = all(sign.isalpha() or sign in " .&'’-" for sign in text)
    known = text in _TRADE_MARKS or text in _TO_SHADE or is_weight_word(text)
    known = (
        known or is_place(text) or is_service_text(text) or _PRESENTS.fullmatch(text) is not None
    )
    return wordy and len(text.split()) <= _FEW and not known


def _adjoins(piece: Piece, other: Piece, *, upright: bool) -> bool:
    """Whether a scrap stands as near to a name, which may run ``upright``, as the words of a name
    to one another, measured by the larger of the two."""
    large_px = max(piece.height_px, other.height_px)
    frame, beside = piece.frame, other.frame
    if upright:
        frame, beside = turned(frame), turned(beside)
    in_row = frame.overlap_y(beside) > 0.5 * min(frame.height_px, beside.height_px)
    said = Folded(other.text).text
    leads_on = _ARTICLES.fullmatch(said) or _LEADS_ON.fullmatch(said)
    reach = _ARTICLE_SPACE if leads_on else _WORD_SPACE
    return in_row and -frame.overlap_x(beside) < reach * large_px


def _are_parted(piece: Piece, other: Piece, lines: Sequence[Line]) -> bool:
    """Whether a printed mark, seen by both readers, stands between two names in one line."""
    if piece.span.line != other.span.line:
        return False
    line = lines[piece.span.line]
    first, last = sorted((piece.span, other.span), key=lambda one: one.start)
    return any(line.text[at] in _MARKS and line.agreed[at] for at in range(first.end, last.start))


def _is_beside(piece: Piece, other: Piece) -> bool:
    height_px = min(piece.height_px, other.height_px)
    in_row = piece.frame.overlap_y(other.frame) > 0.5 * height_px
    one_line = piece.span.line == other.span.line
    reach = _SIDE_REACH if one_line else _SIDE_REACH_OF_BOXES
    return in_row and -piece.frame.overlap_x(other.frame) < reach * height_px
