"""Small tags on paper, to cut out and tie to part balls: a PDF.

Each tag carries a QR code with its record's id, by which intake knows the ball again
(:mod:`intake.filing.printed_tag`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

import matplotlib
import segno
from reportlab.lib.pagesizes import A4, LETTER
from reportlab.lib.utils import simpleSplit
from reportlab.pdfbase.pdfmetrics import registerFont, stringWidth
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from intake.exports.paper import Paper
from intake.exports.tag_words import TagWords, Words, tag_words
from intake.filing.printed_tag import code_text
from intake.filing.safe_write import replace_file
from intake.sums.ball import Ball

MM = 72 / 25.4
"""Points in a millimetre."""

WIDTH_MM = 90.0
HEIGHT_MM = 44.0
COLUMNS = 2
ROWS = 6
A_PAGE = COLUMNS * ROWS
"""Tags on a page: what A4 and Letter both hold within a printer's margins."""

MODULE_MM = 0.7
"""Side of a QR code's module: eight pixels of a scan at 300 dpi, and enough for a phone
at arm's length (common practice, no source)."""

_QUIET_MODULES = 4
"""The white rim of a QR code (ISO/IEC 18004)."""

_HOLE_MM = 4.0
_PADDING_MM = 3.0
_TEXT_LEFT_MM = 11.0
_CUT_MM = 3.0
_LEADING = 1.2
_GAP_PT = 2.0

_LARGE_PT = 13.0
_MIDDLE_PT = 9.0
_SMALL_PT = (7.0, 6.5, 6.0, 5.5, 5.0)
_ID_PT = 5.0

_PAPERS = {Paper.A4: A4, Paper.LETTER: LETTER}

_FACES = {"plain": "DejaVuSans", "bold": "DejaVuSans-Bold", "italic": "DejaVuSans-Oblique"}
"""Faces that come with matplotlib and hold all Latin letters."""


_Line = tuple[str, str, float]
"""A line of print: its text, face, and size in points."""


@dataclass(frozen=True, slots=True)
class _Box:
    """Where one tag lies on its page: its lower left corner, in points."""

    left: float
    bottom: float

    @property
    def top(self) -> float:
        return self.bottom + HEIGHT_MM * MM

    @property
    def right(self) -> float:
        return self.left + WIDTH_MM * MM


def write_small_tags(balls: Sequence[Ball], path: Path, paper: Paper = Paper.A4) -> None:
    """Write the tags of ``balls`` to the PDF ``path``, :data:`A_PAGE` a page, in place of
    what is there.  Raises :class:`~intake.errors.NoAccess`."""
    replace_file(path, lambda file: _fill(file, balls, paper))


def _fill(file: BinaryIO, balls: Sequence[Ball], paper: Paper) -> None:
    _register_faces()
    width, height = _PAPERS[paper]
    canvas = Canvas(file, pagesize=(width, height), initialFontName=_FACES["plain"])
    canvas.setTitle("Tags for part balls")
    for first in range(0, len(balls), A_PAGE):
        corner = _Box((width - COLUMNS * WIDTH_MM * MM) / 2, (height - ROWS * HEIGHT_MM * MM) / 2)
        _draw_cut_marks(canvas, corner)
        for place, ball in enumerate(balls[first : first + A_PAGE]):
            row, column = divmod(place, COLUMNS)
            left = corner.left + column * WIDTH_MM * MM
            bottom = corner.bottom + (ROWS - 1 - row) * HEIGHT_MM * MM
            _draw_tag(canvas, _Box(left, bottom), ball)
        canvas.showPage()
    canvas.save()


def _register_faces() -> None:
    folder = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
    for face in _FACES.values():
        registerFont(TTFont(face, folder / f"{face}.ttf"))


def _draw_cut_marks(canvas: Canvas, corner: _Box) -> None:
    """A cross where the corners of four tags meet."""
    canvas.setLineWidth(0.3)
    for column in range(COLUMNS + 1):
        for row in range(ROWS + 1):
            x = corner.left + column * WIDTH_MM * MM
            y = corner.bottom + row * HEIGHT_MM * MM
            canvas.line(x - _CUT_MM * MM / 2, y, x + _CUT_MM * MM / 2, y)
            canvas.line(x, y - _CUT_MM * MM / 2, x, y + _CUT_MM * MM / 2)


def _draw_tag(canvas: Canvas, box: _Box, ball: Ball) -> None:
    canvas.circle(
        box.left + (_PADDING_MM + _HOLE_MM / 2) * MM,
        (box.bottom + box.top) / 2,
        _HOLE_MM / 2 * MM,
    )
    code_left = _draw_code(canvas, box, ball.record.id)
    _draw_words(canvas, box, tag_words(ball), code_left - box.left - _TEXT_LEFT_MM * MM)


def _draw_code(canvas: Canvas, box: _Box, record_id: str) -> float:
    """Draw the QR code at the right with the id below it.  Returns its left edge."""
    rows = segno.make(code_text(record_id), error="m", micro=False).matrix
    module = MODULE_MM * MM
    side = len(rows) * module
    left = box.right - side - _QUIET_MODULES * module
    top = (box.bottom + box.top + side) / 2 + _ID_PT
    path = canvas.beginPath()
    for y, row in enumerate(rows, start=1):
        for x, dark in enumerate(row):
            if dark:
                path.rect(left + x * module, top - y * module, module, module)
    canvas.drawPath(path, stroke=0, fill=1)
    canvas.setFont(_FACES["plain"], _ID_PT)
    canvas.drawCentredString(left + side / 2, top - side - 2.5 * _ID_PT, record_id)
    return left - _QUIET_MODULES * module


def _draw_words(canvas: Canvas, box: _Box, words: TagWords, width: float) -> None:
    left, y = box.left + _TEXT_LEFT_MM * MM, box.top - _PADDING_MM * MM
    large = (
        *_shade_lines(words.shade.text, width),
        (words.lot.text, _FACES["bold"], _LARGE_PT),
        (words.left.text, _face(words.left), _MIDDLE_PT),
    )
    for line in large:
        y = _draw_line(canvas, (left, y), line, width) - _GAP_PT
    for line in _small_lines(words.others, width, y - box.bottom - _PADDING_MM * MM):
        y = _draw_line(canvas, (left, y), line, width)


def _shade_lines(shade: str, width: float) -> list[_Line]:
    """The shade in one large line, or where it is too long in smaller ones."""
    face = _FACES["bold"]
    if stringWidth(shade, face, _LARGE_PT) <= width:
        return [(shade, face, _LARGE_PT)]
    return [(text, face, _MIDDLE_PT) for text in simpleSplit(shade, face, _MIDDLE_PT, width)]


def _draw_line(canvas: Canvas, place: tuple[float, float], line: _Line, width: float) -> float:
    """Draw one line below ``place``, made smaller until all of it fits: a lot that is cut
    off would be another lot.  Returns where the next line begins."""
    (left, y), (text, face, size) = place, line
    y -= size * _LEADING
    canvas.setFont(face, size * min(1.0, width / float(stringWidth(text, face, size))))
    canvas.drawString(left, y, text)
    return y


def _small_lines(entries: Sequence[Words], width: float, height: float) -> list[_Line]:
    """The lines of ``entries``, as large as the room allows; what fits at no size is cut off
    with dots."""
    for size in _SMALL_PT:
        lines = [
            (line, _face(words), size)
            for words in entries
            for line in simpleSplit(words.text, _face(words), size, width)
        ]
        room = int(height / (size * _LEADING))
        if len(lines) <= room:
            return lines
    text, face, size = lines[room - 1]
    return [*lines[: room - 1], (f"{text} …", face, size)]


def _face(words: Words) -> str:
    return _FACES["italic" if words.assumed else "plain"]
