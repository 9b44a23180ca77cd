"""Numbers in drawings, as readers of words see them: the temperature in a tub, the weight class in
a skein.

The finder of lines seldom sees a number between the walls of a tub, so that a tub that is not told
for sure is shown to the reader as if it were a line.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from intake.reading.base import Reader
from intake.records import Letter, Line
from intake.symbols.boxes import Box, bounds, shared
from intake.symbols.patch import Pixels

_NUMBER = re.compile(r"(\d{1,2}) ?(?:°|º|o)? ?[CF]?")
"""What is read of a number in a tub or a skein."""

_READ_WELL = 0.7
"""Mean letter score from which on a number that is a line counts."""

_DEGREES = frozenset({"30", "40", "50", "60", "70", "95"})
"""Temperatures in °C that stand in tubs, from ISO 3758."""

_AFTER = re.compile(r"[°º*'`\"o0]?[CF]?\W?", re.IGNORECASE)
"""What is read behind the two digits: the sign of degrees often as a nought, then a wall."""

_DIGIT_READ = 0.8
"""Score from which on each digit between walls counts.  Of 259 tubs that were drawn in ``tuning``
styles, 20 to 100 pixels large, some without a number, 124 were read so and none wrongly; from 0.7
on one of 127 was wrong."""

_WINDOWS = ((0.12, 0.10, 0.88, 0.64), (0.08, 0.14, 0.92, 0.70), (0.26, 0.26, 0.74, 0.62))
"""Where numbers stand in a tub or, last, in one on a tile: left, top, right and bottom from the
upper left corner, in shares of the width, for bars may stand under a tub."""


def numbers_of(boxes: Sequence[Box], lines: Sequence[Line]) -> list[str]:
    """The number that is read as a line of its own in each of ``boxes``; empty for none."""
    read = [
        (match[1], bounds(line.quad))
        for line in lines
        if line.readings and line.readings[0].confidence >= _READ_WELL
        if (match := _NUMBER.fullmatch(line.text.strip()))
    ]
    held = ([number for number, place in read if shared(place, box) > 0.8] for box in boxes)
    return [numbers[0] if len(numbers) == 1 else "" for numbers in held]


def temperature_in(image: Pixels, tub: Box, reader: Reader) -> str:
    """The temperature in °C that ``reader`` sees between the walls of a ``tub`` on a colour
    ``image`` (height, width, 3); empty where it sees none for sure."""
    for window in _WINDOWS:
        (reading,) = reader.read([_cut(image, tub, window)])
        if degrees := _degrees(reading.letters):
            return degrees
    return ""


def _cut(image: Pixels, tub: Box, window: Box) -> Pixels:
    left, top, right, _ = tub
    width = right - left
    x, y, to_x, to_y = (
        round(start + width * share)
        for start, share in zip((left, top, left, top), window, strict=True)
    )
    x, y = max(0, min(x, image.shape[1] - 2)), max(0, min(y, image.shape[0] - 2))
    return np.ascontiguousarray(image[y : max(y + 2, to_y), x : max(x + 2, to_x)])


def _degrees(letters: Sequence[Letter]) -> str:
    signs = [one for one in letters if one.text.strip()]
    while signs and not signs[0].text.isalnum():  # the water or a wall
        signs.pop(0)
    text = "".join(one.text for one in signs)
    number = text[:1] + text[1:2].replace("O", "0").replace("o", "0")
    if number not in _DEGREES or not _AFTER.fullmatch(text[2:]):
        return ""
    return number if min(one.confidence for one in signs[:2]) >= _DIGIT_READ else ""
