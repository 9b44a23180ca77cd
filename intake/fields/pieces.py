"""Pieces: the stretches of print that no caption and no other field accounts for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import hypot
from statistics import median

from intake.records import Line, Span

_COLUMN_GAP = 1.0
"""A gap wider than this, in line heights beyond the usual gap between letters, parts two
pieces: two columns that the line finder took for one line.  Words stand 0.4 apart, up to 0.95
in typefaces with wide spaces (measured on drawn tags)."""

_BLIND_GAP = 1.3
"""The same where neither reader saw a space: the place of single letters is rough."""

_LETTERS_APART = 1.2
"""And so many letters' widths."""

_FEWEST_SPACED = 5
"""So many single letters in a row are letter-spaced print."""

_SPACED_WORDS = 4
"""Gaps between words of letter-spaced print, in gaps between its letters, at most."""

_SEPARATOR = re.compile(
    r"(?<=[^\W\d_])\s+[×xX]\s+(?=[^\W\d_]{2})|\s+[|·/•*]\s+|\s*[|·•*]+\s*|\s+[-–—]\s+"
    r"|\s*[;,]\s+(?!(?:S\.? ?[LA]\b|S\.? ?[rR]\.? ?[lL]\b|S\.? ?[pP]\.? ?[aA]\b"
    r"|(?:Ltd|Inc|LLC|GmbH|Lda)\b|B\.? ?V\b))"
)
_SHORTENED = re.compile(r"['’][tns] \w")
"""A Dutch article shortened before a name, "'t Spinnewiel"."""

_ABBREVIATED = re.compile(
    r"(?:(?<=& )C|\b(?:Co|Ltd|Inc|Bros|S\.r\.l|S\.p\.A|S\.A|S\.L|S\.L\.U|S\.A\.S|B\.V"
    r"|Lda|Cie|St|m\.b\.H|N\.V|S\.n\.c|V\.o\.f|(?<=& )Zn|ek\. för))\.$",
    re.IGNORECASE,
)
_RAISED = re.compile(r"[^\W\d_]{2}[°º]$")
"""A raised sign behind a name, such as ®, that was read as another."""

_QUOTES = "'\"“”„«»‹›‘’"
_TRIM = f" .,:;-–—·|/*=_~{_QUOTES}()[]®™©"


@dataclass(frozen=True, slots=True)
class Frame:
    """A rectangle in pixels of the straightened tag."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def height_px(self) -> float:
        """Height of the frame."""
        return self.bottom - self.top

    def overlap_x(self, other: Frame) -> float:
        """How far both share columns, in pixels; negative for a gap between them."""
        return min(self.right, other.right) - max(self.left, other.left)

    def shares_row(self, other: Frame) -> bool:
        """Whether both have more than half of the lower one's height in common."""
        return self.overlap_y(other) > 0.5 * min(self.height_px, other.height_px)

    def overlap_y(self, other: Frame) -> float:
        """How far both share rows, in pixels; negative for a gap between them."""
        return min(self.bottom, other.bottom) - max(self.top, other.top)

    def gap_px(self, other: Frame) -> float:
        """The shortest way between both, in pixels; 0 where they touch."""
        return hypot(max(0.0, -self.overlap_x(other)), max(0.0, -self.overlap_y(other)))

    def aside_px(self, other: Frame) -> float:
        """How far their left ends are apart, or their middles if these are nearer."""
        return min(self.off_axis_px(other), abs(self.left - other.left))

    def off_axis_px(self, other: Frame) -> float:
        """How far their middles are apart, across."""
        return abs((self.left + self.right) - (other.left + other.right)) / 2


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of print with its place; ``height_px`` is that of its line's letters,
    ``is_quoted`` tells whether it stands in quotes; ``tail`` is where the rest of it stands
    if it goes on elsewhere."""

    span: Span
    text: str
    frame: Frame
    height_px: float
    is_quoted: bool = False
    tail: tuple[Span, ...] = ()

    @property
    def spans(self) -> tuple[Span, ...]:
        """All places that hold it."""
        return (self.span, *self.tail)


def frame_of(line: Line, start: int, end: int) -> Frame:
    """The rectangle around letters ``start`` to ``end`` (exclusive) of ``line``."""
    letters = line.letters[start:end]
    first = letters[0].left if letters else 0.0
    last = letters[-1].right if letters else 1.0
    top_left, top_right, bottom_right, bottom_left = line.quad
    corners = [
        (a[0] + (b[0] - a[0]) * at, a[1] + (b[1] - a[1]) * at)
        for a, b in ((top_left, top_right), (bottom_left, bottom_right))
        for at in (first, last)
    ]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Frame(min(xs), min(ys), max(xs), max(ys))


_NEXT_LINE = 1.8
"""The middles of two lines of one text are at most so many heights apart."""


def is_next_line(line: Line, below: Line) -> bool:
    """Whether ``below`` stands as near below ``line`` as the next line of one text."""
    return 0 < below.centre[1] - line.centre[1] < _NEXT_LINE * line.height_px


def is_upright(line: Line) -> bool:
    """Whether the print of ``line`` runs up or down the tag."""
    (left, top), (right, bottom) = line.quad[0], line.quad[1]
    return abs(bottom - top) > abs(right - left)


def turned(frame: Frame) -> Frame:
    """``frame`` with rows and columns exchanged."""
    return Frame(frame.top, frame.left, frame.bottom, frame.right)


def is_letter_spaced(text: str) -> bool:
    """Whether ``text`` is set with gaps between its letters: "M A R L P I T"."""
    words = text.split()
    return len(words) >= _FEWEST_SPACED and all(len(word) == 1 for word in words)


def closed_up(line: Line, start: int, end: int) -> str:
    """The text of letter-spaced print without the gaps within its words."""
    placed = [letter for letter in line.letters[start:end] if letter.text != " "]
    gaps = [after.left - before.right for before, after in pairwise(placed)]
    usual = median(gaps) if gaps else 0.0
    size = median(letter.right - letter.left for letter in placed)
    text = placed[0].text
    for gap, letter in zip(gaps, placed[1:], strict=True):
        text += (" " if gap > max(1.6 * usual, usual + 0.3 * size) else "") + letter.text
    return text


def gap_in_heights(one: Piece, other: Piece) -> float:
    """Gap between two pieces in heights of the smaller line, less within one line of
    print; 99 where they share neither row nor column."""
    height_px = max(1.0, min(one.height_px, other.height_px))
    across_px, down_px = -one.frame.overlap_x(other.frame), -one.frame.overlap_y(other.frame)
    if across_px > 0 and down_px > 0:
        return 99.0
    nearer = 0.3 if one.span.line == other.span.line else 1.0
    return nearer * max(0.0, across_px, down_px) / height_px


def meet(one: Span, other: Span) -> bool:
    """Whether two spans share a letter."""
    return one.line == other.line and one.start < other.end and other.start < one.end


def find_pieces(lines: Sequence[Line], taken: Iterable[Span]) -> list[Piece]:
    """What is left of ``lines`` outside ``taken``, parted at column gaps and separators."""
    free = [[True] * len(line.letters) for line in lines]
    for span in taken:
        for at in range(span.start, min(span.end, len(free[span.line]))):
            free[span.line][at] = False
    found = []
    for number, line in enumerate(lines):
        for start, end in _stretches(line, free[number]):
            piece = piece_of(lines, Span(number, start, end))
            if piece is not None:
                found.append(piece)
    return found


def piece_of(lines: Sequence[Line], span: Span) -> Piece | None:
    """The piece at ``span`` without marks at its ends; ``None`` where nothing is left."""
    line = lines[span.line]
    text = line.text[span.start : span.end]
    start = span.start + len(text) - len(text.lstrip(_TRIM))
    if start > span.start and _SHORTENED.match(line.text, start - 1):
        start -= 1
    end = span.end - (len(text) - len(text.rstrip(_TRIM)))
    if _RAISED.search(line.text[start:end]):
        end -= 1
    if _ABBREVIATED.search(line.text[start : end + 1]) and end < span.end:
        end += 1  # the full stop of "Wool Co." belongs to it
    if start >= end:
        return None
    kept = line.text[start:end]
    if is_letter_spaced(kept) and not any(letter.isdigit() for letter in kept):
        kept = closed_up(line, start, end)
    if not any(letter.isalnum() for letter in kept):
        return None
    before, behind = line.text[:start].rstrip()[-1:], line.text[end:].lstrip()[:1]
    is_quoted = bool(before and behind) and before in _QUOTES and behind in _QUOTES
    frame = frame_of(line, start, end)
    return Piece(Span(span.line, start, end), kept, frame, line.height_px, is_quoted)


def opens_line(line: Line, piece: Piece) -> bool:
    """Whether nothing but marks stands in ``line`` before ``piece``."""
    return not any(sign.isalnum() for sign in line.text[: piece.span.start])


def ends_line(line: Line, piece: Piece) -> bool:
    """Whether nothing but marks stands in ``line`` behind ``piece``."""
    return not any(sign.isalnum() for sign in line.text[piece.span.end :])


def joined(piece: Piece, other: Piece) -> Piece:
    """Two pieces that are one, set apart."""
    one, two = piece.frame, other.frame
    frame = Frame(
        min(one.left, two.left),
        min(one.top, two.top),
        max(one.right, two.right),
        max(one.bottom, two.bottom),
    )
    text = f"{piece.text} {other.text}"
    return replace(piece, text=text, frame=frame, tail=(*piece.tail, *other.spans))


def part_of(piece: Piece, line: Line, span: Span) -> Piece:
    """The part of ``piece``, which stands in ``line``, at ``span``."""
    frame = frame_of(line, span.start, span.end)
    return replace(piece, span=span, text=line.text[span.start : span.end], frame=frame)


def _stretches(line: Line, free: Sequence[bool]) -> Iterable[tuple[int, int]]:
    """Runs of free letters of a line, parted at separators and at wide gaps."""
    text = line.text
    cuts = [match.span() for match in _SEPARATOR.finditer(text)]
    cuts += [(at, at) for at in wide_gaps(line)]
    cuts += [(at, at + 1) for at, is_free in enumerate(free) if not is_free]
    start = 0
    for cut_start, cut_end in sorted(cuts):
        if cut_start > start:
            yield start, cut_start
        start = max(start, cut_end)
    if start < len(text):
        yield start, len(text)


def wide_gaps(line: Line) -> list[int]:
    """Numbers of the letters of ``line`` that stand behind a gap as wide as between columns, which
    in type of one width is wider than the space, one letter."""
    column_gap = max(_COLUMN_GAP, _LETTERS_APART * _pitch(line))
    return [
        at
        for at, gap in gaps_beyond_usual(line).items()
        if gap > (column_gap if line.letters[at - 1].text == " " else _BLIND_GAP)
    ]


def _pitch(line: Line) -> float:
    """How far on each letter of a word begins than the one before it, in the middle and in heights
    of the line."""
    scale = line.width_px / max(line.height_px, 1.0)
    apart = [
        (line.letters[at].left - line.letters[at - 1].left) * scale
        for at in range(1, len(line.letters))
        if _is_within_word(line, at)
    ]
    return median(apart) if apart else 0.0


def _is_within_word(line: Line, at: int) -> bool:
    """Whether letter number ``at`` and the one before it are letters or digits of one word."""
    return line.letters[at - 1].text.isalnum() and line.letters[at].text.isalnum()


def gaps_beyond_usual(line: Line) -> dict[int, float]:
    """By how much the gap before each letter of ``line``, by its number, is wider than usual
    between its letters, in heights of the line; of the first letter and of spaces there is none."""
    scale = line.width_px / max(line.height_px, 1.0)
    letters = [(at, letter) for at, letter in enumerate(line.letters) if letter.text != " "]
    gaps = {
        at: (letter.left - before.right) * scale for (_, before), (at, letter) in pairwise(letters)
    }
    within = [gap for at, gap in gaps.items() if line.letters[at - 1].text != " "]
    within = [gap for at, gap in gaps.items() if _is_within_word(line, at)] or within
    spread = list(gaps.values()) if is_letter_spaced(line.text) else within
    usual = (
        max(0.0, median(spread)) * (_SPACED_WORDS if spread is not within else 1) if spread else 0.0
    )
    return {at: gap - usual for at, gap in gaps.items()}
