"""Lines for tests: printed text as two readers would have read it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from intake.records import Letter, Line, Quad, Reading

LINE_PITCH_PX = 40.0
LETTER_HEIGHT_PX = 30.0
LETTER_WIDTH_PX = 15.0
CONFIDENCE = 0.999


def lines_from(*texts: str, second: Mapping[int, str] | None = None) -> list[Line]:
    """One line for each text, stacked from top to bottom, both readers of one mind.

    ``second`` gives what the second reader saw in lines where it saw something else; it
    must be as long as the line's text, and differs letter by letter.
    """
    others = second or {}
    return [line_from(text, number, others.get(number, text)) for number, text in enumerate(texts)]


def line_from(text: str, number: float = 0, second: str | None = None) -> Line:
    """A line in row ``number``; ``second`` is the other reader's text, as long as ``text``."""
    other = text if second is None else second
    if len(other) != len(text):
        raise ValueError(f"second reading {other!r} is not as long as {text!r}")
    return Line(
        quad=quad_in_row(number, len(text)),
        letters=letters_of(text),
        agreed=tuple(a == b for a, b in zip(text, other, strict=True)),
        others=tuple("" if a == b else b for a, b in zip(text, other, strict=True)),
        readings=(Reading("first", letters_of(text)), Reading("second", letters_of(other))),
    )


def placed(line: Line, right_px: float = 0.0, down_px: float = 0.0) -> Line:
    """``line`` moved by so much."""
    one, two, three, four = ((x + right_px, y + down_px) for x, y in line.quad)
    return replace(line, quad=(one, two, three, four))


def larger(line: Line, times: float) -> Line:
    """``line`` in print so many times as large, from its top left corner."""
    (x, y), _, _, _ = line.quad
    one, two, three, four = ((x + times * (a - x), y + times * (b - y)) for a, b in line.quad)
    return replace(line, quad=(one, two, three, four))


def letters_of(text: str) -> tuple[Letter, ...]:
    """Letters of even width along the line, all read with the same high confidence."""
    count = max(len(text), 1)
    return tuple(
        Letter(letter, CONFIDENCE, place / count, (place + 1) / count)
        for place, letter in enumerate(text)
    )


def quad_in_row(number: float, length: int) -> Quad:
    """Box of a line of ``length`` letters in row ``number``."""
    top, bottom = number * LINE_PITCH_PX, number * LINE_PITCH_PX + LETTER_HEIGHT_PX
    right = length * LETTER_WIDTH_PX
    return ((0.0, top), (right, top), (right, bottom), (0.0, bottom))
