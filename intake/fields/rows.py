"""Rows: a table on a tag, with its captions down one side and their values down the other.

The gap between the two may be as wide as the tag, so nearness tells nothing there; what
tells is that every caption of the column has exactly one line of print in its row.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import groupby

from intake.fields.captions import Caption, role_in_column
from intake.fields.names.trade_words import has_firm_word, says_by_whom
from intake.fields.pieces import Frame, frame_of
from intake.records import Line

_FEWEST_ROWS = 3
_FEWEST_FLUSH = 2
"""So many captions in a column, each with one line beside it, are a table, and so many where what
stands beside them begins or ends at one margin."""

_FEWEST_SHARES = 2
_SHARE = re.compile(r"\W*\d{1,3}(?:[.,]\d)?\s?%\W*")

_FURTHEST = 6.0
"""A fibre stands at most so many heights behind its share."""

_MARGIN = 1.0
"""Captions of one column begin within so many line heights of each other."""

_SIZE = 1.3
"""Captions of one column differ in height by less than this factor, as boxes are measured."""

_MOST_WORDS = 3

_FEWEST_KNOWN, _FEWEST_OF_COLUMN = 2, 4
"""A column of so many lines is one of captions where so many of them are known."""

_IN_ROW = 0.5
"""Lines whose middles are within so many heights of the lower one stand in one row."""


def table_values(lines: Sequence[Line], captions: Sequence[Caption]) -> dict[int, int]:
    """The line that stands in the row of each line which is a caption of a table."""
    whole = [
        at for at in {one.line: None for one in captions} if _is_all_caption(at, lines, captions)
    ]
    found: dict[int, int] = {}
    for column in _columns(whole, lines):
        beside = {at: _beside(at, lines) for at in column}
        values = {at: others[0] for at, others in beside.items() if len(others) == 1}
        flush = len(values) >= _FEWEST_FLUSH and _are_flush([lines[at] for at in values.values()])
        apart = len(set(values.values())) == len(values)
        if apart and (flush or len(values) >= _FEWEST_ROWS):
            found |= values
    return found


def empty_rows(lines: Sequence[Line], captions: Sequence[Caption]) -> set[int]:
    """The lines that are captions of a table whose values stand beside its captions, with nothing
    beside them: what stands above or below is a value of another row."""
    values = table_values(lines, captions)
    return {
        one.line
        for one in captions
        if one.line not in values
        and _is_all_caption(one.line, lines, captions)
        and not _beside(one.line, lines)
        and sum(_is_in_column(lines[at], lines[one.line]) for at in values) >= _FEWEST_ROWS
    }


def with_column_captions(lines: Sequence[Line], captions: Sequence[Caption]) -> list[Caption]:
    """``captions`` in order, with those that only their place in a table gives away: words that
    stand in a column of captions, in their size, with one line beside them, "Tipo" above "Lote".
    Captions that have nothing but captions beside them head columns of their own: what stands
    below them are their values."""
    held = {one.line for one in captions}
    whole = {at for at in held if _is_all_caption(at, lines, captions)}
    known = [at for at in whole if set(_beside(at, lines)) - whole]
    wordy = [
        at
        for at, line in enumerate(lines)
        if at not in held and _is_wordy(line.text) and len(_beside(at, lines)) == 1
    ]
    found: set[int] = set()
    for caption in known:
        column = [at for at in known if _is_in_column(lines[at], lines[caption])]
        more = [at for at in wordy if _is_in_column(lines[at], lines[caption])]
        if len(column) >= _FEWEST_KNOWN and len(column) + len(more) >= _FEWEST_OF_COLUMN:
            found.update(more)
    extra = [Caption(role_in_column(lines[at].text), at, 0, len(lines[at].text)) for at in found]
    return sorted([*captions, *extra], key=lambda one: (one.line, one.start))


def _is_wordy(text: str) -> bool:
    """Whether ``text`` is a few words that may be a caption, and name no firm."""
    if has_firm_word(text) or says_by_whom(text):
        return False
    words = text.split()
    return 0 < len(words) <= _MOST_WORDS and all(sign.isalpha() or sign in " .:" for sign in text)


def _is_in_column(line: Line, caption: Line) -> bool:
    """Whether ``line`` begins where ``caption`` does, and is set in its size."""
    small, large = sorted((line.height_px, caption.height_px))
    return abs(line.quad[0][0] - caption.quad[0][0]) <= _MARGIN * small and large < _SIZE * small


def row_order(lines: Sequence[Line], values: Mapping[int, int]) -> list[int]:
    """The numbers of ``lines`` as they are read row by row, where a table with these
    ``values`` was read column by column; lines below its captions are its rows, too, where
    they have one line beside them."""
    mates = dict(values)
    columns = [lines[at].quad[0][0] for at in values]
    for at, line in enumerate(lines):
        in_column = any(abs(line.quad[0][0] - left) <= _MARGIN * line.height_px for left in columns)
        others = _beside(at, lines) if in_column and at not in mates else []
        if len(others) == 1 and others[0] not in mates.values():
            mates[at] = others[0]
    moved = set(mates.values())
    order: list[int] = []
    for at in range(len(lines)):
        if at not in moved:
            order.append(at)
            if at in mates:
                order.append(mates[at])
    return order


def shares_in_rows(lines: Sequence[Line]) -> list[int]:
    """The numbers of ``lines`` with each share of a fibre that stands by itself behind the words
    in its row, however far apart; empty where fewer than two have such a row."""
    mates: dict[int, int] = {}
    for at, line in enumerate(lines):
        if not any(sign.isdigit() for sign in line.text):
            shares = [other for other in _beside(at, lines) if _SHARE.fullmatch(lines[other].text)]
            if len(shares) == 1:
                mates[at] = shares[0]
    moved = set(mates.values())
    if len(mates) < _FEWEST_SHARES or len(moved) < len(mates):
        return []
    return [
        place
        for at in range(len(lines))
        if at not in moved
        for place in ([at, mates[at]] if at in mates else [at])
    ]


def fibres_in_rows(lines: Sequence[Line]) -> list[int]:
    """The numbers of ``lines`` with what stands close to the right of a share that is alone in its
    line right behind it; empty where all are in their order as they are."""
    frames = [frame_of(line, 0, len(line.letters)) for line in lines]
    moved: dict[int, int] = {}
    for at, line in enumerate(lines):
        if _SHARE.fullmatch(line.text):
            beside = [
                other
                for other, words in enumerate(lines)
                if other not in moved.values()
                and words.text[:1].isalpha()
                and _is_behind(frames[at], frames[other])
            ]
            if beside:
                moved[at] = min(beside, key=lambda other: frames[other].left)
    order: list[int] = []
    for at in range(len(lines)):
        if at not in moved.values():
            order.append(at)
        if at in moved:
            order.append(moved[at])
    return [] if order == sorted(order) else order


def _is_behind(share: Frame, words: Frame) -> bool:
    gap_px = words.left - share.right
    return words.shares_row(share) and -0.3 < gap_px / max(1.0, share.height_px) < _FURTHEST


def _is_all_caption(at: int, lines: Sequence[Line], captions: Sequence[Caption]) -> bool:
    """Whether a line holds captions, marks and nothing else."""
    text = lines[at].text
    spans = [(one.start, one.end) for one in captions if one.line == at]
    return not any(
        letter.isalnum() and not any(start <= place < end for start, end in spans)
        for place, letter in enumerate(text)
    )


def _are_flush(lines: Sequence[Line]) -> bool:
    """Whether all of ``lines`` begin at one margin, or end at one."""
    small_px = min(line.height_px for line in lines)
    lefts, rights = ([line.quad[corner][0] for line in lines] for corner in (0, 1))
    return any(max(edges) - min(edges) <= _MARGIN * small_px for edges in (lefts, rights))


def _columns(numbers: Sequence[int], lines: Sequence[Line]) -> list[list[int]]:
    """``numbers`` of lines by the margin at which they begin."""
    ordered = sorted(numbers, key=lambda at: lines[at].quad[0][0])
    margins: list[float] = []
    for at in ordered:
        left = lines[at].quad[0][0]
        near = margins and left - margins[-1] <= _MARGIN * lines[at].height_px
        margins.append(margins[-1] if near else left)
    by_margin = groupby(zip(margins, ordered, strict=True), key=lambda one: one[0])
    return [[at for _, at in group] for _, group in by_margin]


def _beside(at: int, lines: Sequence[Line]) -> list[int]:
    """The lines in the row of line ``at``, to the right of it."""
    (_, y), right = lines[at].centre, lines[at].quad[1][0]
    return [
        other
        for other, line in enumerate(lines)
        if other != at
        and line.quad[0][0] >= right - line.height_px
        and abs(line.centre[1] - y) <= _IN_ROW * min(line.height_px, lines[at].height_px)
    ]
