"""Tesseract's words as letters.

Tesseract tells what it saw in lines of tab-separated columns: the level of an entry (1 a page,
5 a word), the numbers of page, block, paragraph, line and word, then left, top, width, height,
confidence in percent, and the text.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from intake.reading.line_pictures import MARGIN_PX
from intake.records import Letter

_COLUMNS = 12


@dataclass(frozen=True, slots=True)
class _Entry:
    level: int
    page: int
    left_px: int
    width_px: int
    percent: float
    text: str


def letters_by_page(table: str, pages: int) -> list[tuple[Letter, ...]]:
    """The letters of each page of ``table``, one page a line of print; a word's score holds
    for its letters, and their places are shares of the picture's width without its margin."""
    found: list[list[Letter]] = [[] for _ in range(pages)]
    widths_px = [1] * pages
    for entry in _entries(table):
        if entry.level == 1:
            widths_px[entry.page] = max(1, entry.width_px - 2 * MARGIN_PX)
            continue
        word = entry.text.strip()
        if entry.percent < 0 or not word:
            continue
        whole_px, letters = widths_px[entry.page], found[entry.page]
        start = (entry.left_px - MARGIN_PX) / whole_px
        step = entry.width_px / whole_px / len(word)
        if letters:
            letters.append(Letter(" ", 1.0, letters[-1].right, max(start, letters[-1].right)))
        letters += [
            Letter(sign, entry.percent / 100, start + step * at, start + step * (at + 1))
            for at, sign in enumerate(word)
        ]
    return [tuple(letters) for letters in found]


def _entries(table: str) -> Iterator[_Entry]:
    for row in table.split("\n"):
        cells = row.split("\t", _COLUMNS - 1)
        if len(cells) < _COLUMNS or not cells[0].isdigit():  # the headings, the end
            continue
        level, page, left, width = (int(cells[at]) for at in (0, 1, 6, 8))
        yield _Entry(level, page - 1, left, width, float(cells[10]), cells[11])
