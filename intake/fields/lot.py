"""The lot: the one value that is never guessed and never normalised."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from intake.fields.captions import LANGUAGE_CODE, Role, is_caption
from intake.fields.codes import Found, code_parts, has_lookalike, leading_code, plain_dash
from intake.fields.linked import Link
from intake.fields.names.stacks import is_continued
from intake.fields.pieces import Piece, frame_of, gaps_beyond_usual, meet
from intake.reading.turn import turned_code
from intake.records import Candidate, Line, Span

_WORD_WITHIN = re.compile(r"[A-Za-z]{4}")

_REST = re.compile(r"[A-Z]{1,2}|[A-Za-z]?[\d/.-]*\d[\d/.-]*[A-Za-z]{0,2}")
"""What the second line of a code may hold."""

_ABBREVIATED = re.compile(r"[A-Z]{1,2}\.(?=\d)")
"""How a code begins that may have a caption glued to it: "P.44128"."""

_NAME_BEHIND = re.compile(r"\s+(?:[-–—=:·|/]\s+)?(?P<name>[^\W\d_a-zà-ÿ][^\W\d_]{2,}.*)")
"""A name behind a code, as a shade's stands: "01 – AVORIO"."""

_MUCH_NEARER = 0.5

_UNCLEAR = "the tag has a caption for the lot, but it is unclear what stands beside it"


def lot_fit(text: str) -> float:
    """How well ``text`` would do behind a lot caption, 0 to 1.  The letters of a language are none:
    they announce the caption, "SV Färgbad"."""
    if LANGUAGE_CODE.fullmatch(text):
        return 0.0
    if _LETTER_APART.match(text):
        return _APART_FIT
    found = leading_code(text)
    if found is None:
        return _WORD_FIT if _WORD_AND_NUMBER.fullmatch(text) else 0.0
    return found.shape if found.alone else 0.8 * found.shape


_LETTER_APART = re.compile(
    r"(?:[A-Z]{1,2} (?P<digits>\d[\d./-]*)|(?P<first>\d[\d./-]*\d|\d) [A-Z]\Z)(?!\w)"
)
"""A lot whose letter stands apart from its digits, "B 220" or "1184 A"."""

_IN_GROUPS = re.compile(
    r"(?:[A-Z]{1,3}|[A-Z]{0,2}\d[A-Z\d./]*)(?: (?:[A-Z]|[A-Z]{0,2}\d[A-Z\d./]*)){1,3}"
    r"|\d[\dA-Z]*(?: [-–—/] [\dA-Z]*\d[\dA-Z]*){1,3}"
)
"""A lot printed in groups, "31 004", "F 21 06", or with marks that stand apart, "1 - 07 - 334"."""

_MARK_APART = re.compile(r" [-–—/] ")

_LEAST_GAP = 0.2
"""A gap between two groups is so much wider than usual between letters, in heights of the line."""

_WORD_AND_NUMBER = re.compile(r"[^\W\d_]{3,}[-/]\d{1,4}")
"""What a dyer may call a lot by, "march-3"."""

_APART_FIT = 0.8
_WORD_FIT = 0.3

_CAPTION_LETTERS = frozenset("NLPOI")
"""Letters that a number of a lot may be announced with, "N 4711", or misread from a digit."""

_FEWEST_APART = 3


def find_lot(
    lines: Sequence[Line],
    links: Sequence[Link],
    free: Sequence[Piece],
    scraps: Sequence[Piece],
    left: Sequence[Piece] = (),
    *,
    captioned: bool,
    labelled: Sequence[str] = (),
) -> list[Candidate]:
    """Possible lots, best first.

    ``links`` are all captions with what they announce, ``free`` the pieces that nothing
    accounts for, ``left`` all print that no caption or other field does, ``scraps`` what names and
    codes leave of it.  Where the tag has no caption for the lot
    (``captioned``), every free number may be the lot; where it has one that announces nothing, or
    has other numbers with a label of their own (``labelled``), every one is doubtful.
    """
    announced = [
        candidate
        for one in links
        if one.caption.role is Role.LOT
        for candidate in _with_rival(
            one, lines, left, _with_nearer(one, links, lines, _lot_in(one.piece, one, lines))
        )
        for candidate in [replace(candidate, doubt=candidate.doubt or one.doubt)]
    ]
    if announced:
        announced = [_with_next_line(one, lines, links, scraps) for one in announced]
        return sorted(announced, key=lambda one: -one.cues["closeness"] * one.cues["shape"])
    loose = [candidate for piece in free for candidate in _lot_in(piece, None, lines)]
    if captioned:
        loose = [replace(one, doubt=one.doubt or _UNCLEAR) for one in loose]
    elif labelled:
        ask = f"no caption says that this is the lot, and '{labelled[0]}' may be it"
        loose = [replace(one, doubt=one.doubt or ask) for one in loose]
    return sorted(loose, key=lambda one: -one.cues["shape"])


def _with_nearer(
    own: Link, links: Sequence[Link], lines: Sequence[Line], found: Sequence[Candidate]
) -> list[Candidate]:
    """``found`` beside the caption of a lot, with a doubt where what another caption announces
    stands much nearer to that of the lot: the two may have changed places, but for two captions in
    one line and their values in another."""
    at = own.caption
    caption = frame_of(lines[at.line], at.start, at.end)
    apart_px = caption.gap_px(own.piece.frame)
    for other in links:
        rival = other.caption.role is Role.SHADE and other.closeness < 1 and own.closeness < 1
        in_order = other.caption.line == at.line and other.piece.span.line == own.piece.span.line
        if (
            rival
            and not in_order
            and lot_fit(other.piece.text) > 0
            and caption.gap_px(other.piece.frame) < _MUCH_NEARER * apart_px
        ):
            ask = f"'{other.piece.text}' stands nearer to the caption of the lot than this"
            return [replace(one, doubt=one.doubt or ask) for one in found]
    return list(found)


def _with_rival(
    own: Link, lines: Sequence[Line], left: Sequence[Piece], found: Sequence[Candidate]
) -> list[Candidate]:
    """``found`` beside the caption of a lot, with a doubt where another code that no caption
    announces stands in the line of it, "764Y - 251-90" below a caption is two, or a name behind it,
    as a shade's behind its code."""
    if own.closeness >= 1:
        return list(found)
    name = _NAME_BEHIND.match(lines[own.piece.span.line].text, own.piece.span.end)
    if name and not is_caption(name["name"]):
        ask = f"'{own.piece.text}' may be the code of the shade, '{name['name']}'"
        return [replace(one, doubt=one.doubt or ask) for one in found]
    for other in left:
        code = leading_code(other.text)
        beside = other.span.line == own.piece.span.line and not meet(other.span, own.piece.span)
        if beside and code is not None and _could_be_lot(code):
            ask = f"'{code.text}' in its line may be the lot as well"
            return [replace(one, doubt=one.doubt or ask) for one in found]
    return list(found)


def _with_next_line(
    lot: Candidate, lines: Sequence[Line], links: Sequence[Link], scraps: Sequence[Piece]
) -> Candidate:
    """``lot`` with a doubt where print that nothing accounts for and that may be part of a code
    stands close below it, set in the same size: the lot may go on there, unless a caption of its
    own stands before it in its row, as "Nm" does before "2/28"."""
    piece = next(one.piece for one in links if meet(one.piece.span, lot.spans[0]))
    for below in scraps:
        goes_on = _REST.fullmatch(below.text) and is_continued(lines[piece.span.line], piece, below)
        if goes_on and not _has_caption_before(below, lines):
            doubt = f"the lot '{lot.value}' may go on in the next line, '{below.text}'"
            return replace(lot, doubt=lot.doubt or doubt)
    return lot


def _has_caption_before(piece: Piece, lines: Sequence[Line]) -> bool:
    frames = [frame_of(line, 0, len(line.letters)) for line in lines if is_caption(line.text)]
    return any(one.shares_row(piece.frame) and one.right <= piece.frame.left for one in frames)


def _lot_in(piece: Piece, link: Link | None, lines: Sequence[Line]) -> list[Candidate]:
    closeness = link.closeness if link else 0.0
    if closeness > 0 and _is_in_groups(piece, lines):
        return _in_groups(piece, closeness)
    if closeness > 0 and (apart := _LETTER_APART.match(piece.text)):
        return [_letter_apart(piece, apart, closeness, lines)]
    if closeness > 0 and _WORD_AND_NUMBER.fullmatch(piece.text):
        doubt = f"the lot '{piece.text}' may be a word and a number"
        return [_candidate(piece, piece.text, closeness, _WORD_FIT, doubt)]
    found = leading_code(piece.text)
    if found is None or (closeness == 0 and not _could_be_lot(found)):
        return []
    parts = code_parts(piece.text)
    value, doubt = found.text, ""
    if parts > 1:
        words = piece.text.split()[:parts]
        value = "".join(words)
        doubt = f"the lot may be '{value}', '{words[0]}' or '{' '.join(words)}': " + (
            "there is a gap in the print"
        )
    elif has_lookalike(found.text):
        doubt = f"letters and digits look alike in the lot '{found.text}': is it O or 0, I or 1?"
    elif found.goes_on:
        doubt = f"the print behind the lot '{found.text}' may be part of it"
    elif _WORD_WITHIN.search(found.text):
        doubt = f"the lot '{found.text}' may have a word of its caption in it"
    elif sum(letter.isalnum() for letter in found.text) == 1:
        doubt = f"'{found.text}' is short for a lot: some of it may be lost"
    elif closeness == 0 and _ABBREVIATED.match(found.text):
        doubt = f"'{found.text}' may begin with the caption of the lot, cut short"
    elif closeness == 0 and (other := turned_code(found.text)) and found.alone:
        doubt = f"'{found.text}' reads '{other}' when it is turned: which way up is it?"
    elif not any(letter.isdigit() for letter in found.text):
        doubt = f"'{found.text}' stands where the lot should, without a digit"
    span = Span(piece.span.line, piece.span.start + found.start, piece.span.start + found.end)
    cues = {
        "caption": float(closeness > 0),
        "closeness": closeness,
        "shape": found.shape,
        "alone": float(found.alone),
    }
    values = dict.fromkeys((value, found.text))  # typewriters set gaps within a number
    return [Candidate("lot", one, (span,), cues, doubt=doubt) for one in values]


def _is_in_groups(piece: Piece, lines: Sequence[Line]) -> bool:
    """Whether all of ``piece`` is a lot of several groups, and no letter apart from digits, with
    gaps that all readers saw and that are as wide as spaces are; a typewriter sets all signs
    apart."""
    text = piece.text
    line = lines[piece.span.line]
    words = text.split()
    if not _IN_GROUPS.fullmatch(text) or _LETTER_APART.fullmatch(text):
        return False
    if not any(sign.isdigit() for sign in text) or all(len(word) == 1 for word in words):
        return False
    if words[-1].isdigit() and len(words[-1]) == 1:
        return False  # "57 9" rather lost its last digit to a gap
    seen = len(line.readings) > 1 and all(text in reading.text for reading in line.readings)
    gaps = gaps_beyond_usual(line)
    ends = [at + 1 for at in range(piece.span.start, piece.span.end) if line.text[at] == " "]
    return seen and all(gaps.get(at, 0.0) > _LEAST_GAP for at in ends)


def _in_groups(piece: Piece, closeness: float) -> list[Candidate]:
    """A lot in groups as it is printed, and what else it may be; asked about."""
    value, whole = plain_dash(piece.text), piece.text.replace(" ", "")
    first = piece.text.split()[0]
    if _MARK_APART.search(piece.text):
        values = dict.fromkeys((value, first))
        doubt = f"the lot may be '{value}' or '{first}', and the print behind it be no part of it"
    else:
        values = dict.fromkeys((value, whole, first))
        doubt = f"the lot may be '{value}', '{whole}' or '{first}': there is a gap in the print"
    return [_candidate(piece, one, closeness, 1.0, doubt) for one in values]


def _candidate(piece: Piece, value: str, closeness: float, shape: float, doubt: str) -> Candidate:
    cues = {"caption": 1.0, "closeness": closeness, "shape": shape, "alone": 1.0}
    return Candidate("lot", value, (piece.span,), cues, doubt=doubt)


def _letter_apart(
    piece: Piece, apart: re.Match[str], closeness: float, lines: Sequence[Line]
) -> Candidate:
    """A lot whose letter stands apart, as it is printed.  It is asked about, for the letter may be
    none of it, unless it is nothing that a number is announced with, both readers saw the gap, and
    letter and digits are all that the caption announces."""
    span = Span(piece.span.line, piece.span.start, piece.span.start + apart.end())
    letter, digits = sorted(apart[0].split(), key=lambda word: word[0].isdigit())
    readings = lines[span.line].readings
    plain = (
        len(letter) == 1
        and letter not in _CAPTION_LETTERS
        and sum(sign.isdigit() for sign in digits) >= _FEWEST_APART
        and apart.end() == len(piece.text)
        and len(readings) > 1
        and all(apart[0] in reading.text for reading in readings)
    )
    ask = f"the lot may be '{apart[0]}' or '{digits}': there is a gap in the print"
    shape = 1.0 if plain else _APART_FIT
    cues = {"caption": 1.0, "closeness": closeness, "shape": shape, "alone": 1.0}
    return Candidate("lot", apart[0], (span,), cues, doubt="" if plain else ask)


def _could_be_lot(found: Found) -> bool:
    """Whether a code without a caption is long enough to be a lot and stands alone."""
    long = len(found.text) >= 3 and sum(c.isdigit() for c in found.text) >= 2
    return found.alone and long and _PENCE.fullmatch(found.text) is None


_PENCE = re.compile(r"\d{2,3}p")
"""A price, "75p"."""
