"""Tension that is drawn: a square with stitches below or above it and rows at its side."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from intake.fields.amounts.tension import (
    NUMBER_SPAN,
    ROWS,
    STITCHES,
    Counts,
    count_texts,
    numbers_in,
    sound,
)
from intake.fields.evidence import is_witnessed, letters_of
from intake.fields.letters import Folded
from intake.records import Field, Line, Quad, Span, State, Symbol, SymbolKind

Box = tuple[float, float, float, float]

_STITCH_COUNT = re.compile(rf"(?P<count>{NUMBER_SPAN}) ?(?P<unit>{STITCHES})?\.?")
_ROW_COUNT = re.compile(rf"(?P<count>{NUMBER_SPAN}) ?(?P<unit>{ROWS})?\.?")
_AREA = re.compile(
    r'(?<!\d)(?:10 ?(?:cm)? ?(?:x ?10 ?)?cm|10 ?x ?10|4 ?(?:in(?:ch(?:es)?)?|"))(?![a-z])'
)

_NEAR = 0.5
"""A count stands no further from its square than this, in the square's sides."""

_MIDDLE = 0.4
"""And no further than this from the middle of the side that it counts along."""

_AREA_NEAR = 0.9
"""The area may be printed a little further away."""


def drawn_counts(lines: Sequence[Line], symbols: Sequence[Symbol]) -> list[Field]:
    """Stitches and rows per 10 cm as printed about the squares among ``symbols``; nothing
    where the square has no area beside it and its counts no words, or where a count was read
    unclearly: it may be any square."""
    return [
        field
        for symbol in symbols
        if symbol.kind is SymbolKind.TENSION
        for field in _about(_bounds(symbol.quad), lines)
    ]


def _about(square: Box, lines: Sequence[Line]) -> list[Field]:
    stitches = list(_read(_STITCH_COUNT, _beside(square, lines, along=0), lines))
    rows = list(_read(_ROW_COUNT, _beside(square, lines, along=1), lines))
    if len(stitches) != 1 or len(rows) > 1:
        return []
    has_area = any(_AREA.search(Folded(lines[at].text).text) for at in _near(square, lines))
    if not has_area and not all(worded for _, _, worded in (*stitches, *rows)):
        return []
    numbers = [count for count, _, _ in (*stitches, *rows)]
    counts = sound(Counts(*numbers))
    if counts.rows and counts.rows < counts.stitches:  # which is which is told by place alone
        return []
    places = [at for _, at, _ in (*stitches, *rows)]
    return [
        _field(name, text, lines, at)
        for (name, text), at in zip(count_texts(counts), places, strict=False)
    ]


def _field(name: str, text: str, lines: Sequence[Line], at: int) -> Field:
    span = _whole(lines[at], at)
    confidence = min(letter.confidence for letter, _ in letters_of(lines, [span]))
    return Field(name, text, confidence, State.SURE, line=lines[at].text, spans=(span,))


def _whole(line: Line, at: int) -> Span:
    return Span(at, 0, len(line.letters))


def _read(
    pattern: re.Pattern[str], places: Iterable[int], lines: Sequence[Line]
) -> Iterator[tuple[tuple[float, ...], int, bool]]:
    """The counts in the lines at ``places`` that are nothing else and that both readers read
    alike: the numbers, the line's place, and whether a word names them."""
    for at in places:
        match = pattern.fullmatch(Folded(lines[at].text.strip()).text)
        spans = [_whole(lines[at], at)]
        alike = is_witnessed(lines, spans) and all(
            seen for letter, seen in letters_of(lines, spans) if letter.text.isdigit()
        )
        if match and alike:
            yield numbers_in(match["count"]), at, match["unit"] is not None


def _beside(square: Box, lines: Sequence[Line], *, along: int) -> Iterator[int]:
    """The lines that stand beyond the sides of ``square`` that run along axis ``along``."""
    across = 1 - along
    low, high = square[across], square[across + 2]
    middle = (square[along] + square[along + 2]) / 2
    side = square[along + 2] - square[along]
    for at, line in enumerate(lines):
        bounds = _bounds(line.quad)
        gap = max(low - bounds[across + 2], bounds[across] - high)
        off = abs((bounds[along] + bounds[along + 2]) / 2 - middle)
        if -0.1 * side < gap < _NEAR * side and off < _MIDDLE * side:
            yield at


def _near(square: Box, lines: Sequence[Line]) -> Iterator[int]:
    """The lines in ``square`` or not far from it."""
    left, top, right, bottom = square
    room = _AREA_NEAR * (right - left)
    for at, line in enumerate(lines):
        x, y = line.centre
        if left - room < x < right + room and top - room < y < bottom + room:
            yield at


def _bounds(quad: Quad) -> Box:
    across, down = [x for x, _ in quad], [y for _, y in quad]
    return min(across), min(down), max(across), max(down)
