"""Reading order: blocks of lines set in columns are read one after the other.

A sentence runs on in the line below, not in the next column: "do not" at the end of one
line and "tumble dry" at the start of the next must stay together.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from intake.reading.base import Quads

_WORD_GAP = 1.3
"""Boxes in one row nearer than this, in line heights, are parts of one line."""

_LINE_GAP = 1.0
"""Lines nearer than this, in line heights, may belong to one block."""

_ALIGNED = 1.0
"""Lines of a block begin, end or are centred within so many line heights of each other."""

_WIDE = 6.0
"""Lines so wide, in line heights, one below the other, are a column of text: what stands beside
it belongs to another, however near."""

_SAME_SIZE = 1.5


@dataclass
class _Run:
    """Boxes that are read one after the other, with the frame around them."""

    boxes: list[int]
    left: float
    top: float
    right: float
    bottom: float
    height_px: float
    last_line: _Run | None = None

    @property
    def last(self) -> _Run:
        """The line that was taken in last, itself where there is none."""
        return self.last_line or self

    def take(self, other: _Run) -> None:
        """Read ``other`` after this run."""
        self.boxes += other.boxes
        self.left, self.right = min(self.left, other.left), max(self.right, other.right)
        self.top, self.bottom = min(self.top, other.top), max(self.bottom, other.bottom)


def reading_order(quads: Quads) -> list[int]:
    """Indices of ``quads`` (N x 4 x 2) in the order in which their print is read: blocks
    row by row from the top left, each block line by line."""
    runs = _runs(quads)
    lines = [_joined_line(row, runs) for row in _rows(runs)]
    blocks = _blocks([part for line in lines for part in line])
    return [box for row in _rows(blocks) for block in row for box in block.boxes]


def _runs(quads: Quads) -> list[_Run]:
    lows, highs = quads.min(axis=1), quads.max(axis=1)
    heights = np.linalg.norm(quads[:, 3] - quads[:, 0], axis=1)
    found = []
    for at, ((left, top), (right, bottom)) in enumerate(zip(lows, highs, strict=True)):
        found.append(
            _Run([at], float(left), float(top), float(right), float(bottom), float(heights[at]))
        )
    return found


def _rows(runs: list[_Run]) -> list[list[_Run]]:
    """Runs row by row, each row from the left.  Two share a row when the first line of
    one stands at the height of the first line of the other."""
    rows: list[list[_Run]] = []
    for run in sorted(runs, key=_first_line_middle):
        row = rows[-1] if rows else []
        reach = min([run.height_px, *(other.height_px for other in row)]) / 2
        if row and abs(_first_line_middle(run) - _first_line_middle(row[0])) <= reach:
            row.append(run)
        else:
            rows.append([run])
    return [sorted(row, key=lambda run: run.left) for row in rows]


def _first_line_middle(run: _Run) -> float:
    return run.top + run.height_px / 2


def _joined_line(row: list[_Run], runs: list[_Run]) -> list[_Run]:
    """The parts of a row, those next to each other joined unless a column of ``runs`` begins
    or ends between them."""
    joined: list[_Run] = []
    for run in map(replace, row):
        last = joined[-1] if joined else None
        if (
            last is not None
            and run.left - last.right <= _WORD_GAP * min(run.height_px, last.height_px)
            and _same_size(run, last)
            and not _part_columns(last, run, runs)
        ):
            last.take(run)
        else:
            joined.append(run)
    return joined


def _part_columns(left: _Run, right: _Run, runs: list[_Run]) -> bool:
    """Whether two parts of a row stand in two columns: one of them is a line of text right above
    or below another line of text, and no line above or below goes on from one to the other."""
    near = [run for run in runs if _is_below(run, left) or _is_below(left, run)]
    near += [run for run in runs if _is_below(run, right) or _is_below(right, run)]
    if any(run.left < left.right and run.right > right.left for run in near):
        return False
    return any(
        _is_wide(part) and _is_wide(run) and _same_size(part, run) and _are_aligned(part, run)
        for part in (left, right)
        for run in near
    )


def _is_wide(run: _Run) -> bool:
    return run.right - run.left >= _WIDE * run.height_px


def _blocks(lines: list[_Run]) -> list[_Run]:
    """Lines joined to the block that they continue, if there is one: of several the one whose
    last line they are in line with."""
    blocks: list[_Run] = []
    for line in sorted(lines, key=lambda run: (run.top, run.left)):
        above = [block for block in blocks if _continues(line, block)]
        if above:
            nearest = max(above, key=lambda block: (_are_aligned(line, block.last), block.bottom))
            nearest.take(line)
            nearest.last_line = line
        else:
            blocks.append(line)
    return blocks


def _continues(line: _Run, block: _Run) -> bool:
    return _is_below(line, block) and _same_size(line, block) and _are_aligned(line, block)


def _is_below(line: _Run, block: _Run) -> bool:
    """Whether a line stands right below a block, if it stands in its column at all."""
    height_px = min(line.height_px, block.height_px)
    return -0.6 * height_px <= line.top - block.bottom <= _LINE_GAP * height_px


def _are_aligned(line: _Run, block: _Run) -> bool:
    """Whether a line begins or ends where a block does, or is centred with it."""
    off_left, off_right = line.left - block.left, line.right - block.right
    off = min(abs(off_left), abs(off_right), abs(off_left + off_right) / 2)
    return off <= _ALIGNED * min(line.height_px, block.height_px)


def _same_size(one: _Run, other: _Run) -> bool:
    small, large = sorted((one.height_px, other.height_px))
    return large <= _SAME_SIZE * small
