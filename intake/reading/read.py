"""A cut-out tag becomes lines: found, turned upright, and read by both readers."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import cv2
import numpy as np
from rapidfuzz.distance import Levenshtein

from intake.reading import turn
from intake.reading.base import Image, LineFinder, Quads, Reader
from intake.reading.ends import grown_to_ends
from intake.reading.language import is_danish_or_norwegian
from intake.reading.lines import (
    confirmed,
    cut_lines,
    cut_word,
    merge,
    open_codes,
    open_words,
    plain_marks,
    without_lost_accents,
)
from intake.reading.order import reading_order
from intake.records import Line, Quad, Reading

_SMALL_PRINT_PX = 18.0
"""Below this line height the tag is enlarged before its lines are found and read."""

_WELL_READ = 0.93
"""Mean score above which print is taken to stand upright; print upside down scores
below 0.8."""

_MAY_STAND_ON_ITS_HEAD = 0.85
_PLAINLY_BETTER = 0.1
"""A line below the first score is read the other way up too, and kept so if that way it is read
well and better by this."""

_PROBE_LINES = 5
"""So many of the longest lines decide whether the tag stands on its head."""

_LEADER = 2.0
_LEADER_MARGIN = 0.6
"""A line that has so many heights more than its print with this margin has leaders."""

_UNREADABLE = 0.35
"""A box whose reading scores below this holds no print (a drawing, cloth, a fold)."""


Words = Callable[[Line], Sequence[tuple[int, int]]]
"""Words of a line, each as its first letter and the one behind its last."""


@dataclass(frozen=True, slots=True)
class Readers:
    """The line finder and the readers of one worker.

    ``second`` is the second reader, with which a line is looked at again while it
    differs from the first: one entry a look, none where there is only one reader.
    ``danish`` is the look that comes before these at a tag in Danish or Norwegian, and
    ``codes`` are looks at codes alone, while the readers see those unlike.
    """

    finder: LineFinder
    first: Reader
    second: tuple[Reader, ...]
    danish: Reader | None = None
    codes: tuple[Reader, ...] = ()


def read_tag(
    image: Image, readers: Readers, found: Quads | None = None
) -> tuple[Image, tuple[Line, ...]]:
    """Read one straightened tag, whose lines are found unless they were ``found`` already.

    Returns the tag turned so that its print stands upright, and its lines in reading
    order; no lines where there is no print.
    """
    quads = readers.finder.find_lines(image) if found is None else found
    if len(quads) == 0:
        return image, ()
    image, quads = _enlarged(image, quads)
    image, quads = turn.level(image, quads)
    quads = grown_to_ends(image, turn.joined(quads))
    image, quads, known = _set_upright(image, quads, readers.first)
    quads, firsts = _read_first(image, quads, readers.first, known)
    if len(quads) == 0:
        return image, ()
    looks = readers.second
    if readers.danish and is_danish_or_norwegian(reading.text for reading in firsts):
        looks = (readers.danish, *looks)
    seconds = _read_second(image, quads, firsts, looks)
    order = reading_order(turn.righted(quads))
    lines = [merge(_corners(quads[at]), firsts[at], seconds[at]) for at in order]
    return image, tuple(with_more_glances(image, lines, readers))


def righted_lines(lines: Sequence[Line]) -> Sequence[Line]:
    """``lines`` of an upright tag as they lie when each half of it is held upright, see
    :func:`intake.reading.turn.righted`; their order and letters stay."""
    quads = np.array([line.quad for line in lines], np.float32).reshape(-1, 4, 2)
    moved = turn.righted(quads)
    if moved is quads:
        return lines
    return [replace(line, quad=_corners(quad)) for line, quad in zip(lines, moved, strict=True)]


def with_more_glances(image: Image, lines: Sequence[Line], readers: Readers) -> list[Line]:
    """``lines`` of the tag ``image`` after the second reader saw open words once more."""
    glanced = list(lines)
    for look in readers.second[:1]:
        glanced = _with_glance(image, glanced, look, open_words)
    for look in readers.codes:
        glanced = _with_glance(image, glanced, look, open_codes)
    return glanced


def _enlarged(image: Image, quads: Quads) -> tuple[Image, Quads]:
    sides = np.linalg.norm(quads - np.roll(quads, -1, axis=1), axis=2)
    height_px = float(np.median(sides.min(axis=1)))
    if height_px >= _SMALL_PRINT_PX:
        return image, quads
    scale = min(3.0, 1.5 * _SMALL_PRINT_PX / max(height_px, 1.0))
    larger = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_CUBIC)
    return larger.astype(np.uint8), (quads * scale).astype(np.float32)


def _set_upright(
    image: Image, quads: Quads, reader: Reader
) -> tuple[Image, Quads, dict[int, Reading]]:
    """The level tag and its boxes, turned by half a turn where it stands on its head, and what
    was read to tell that, by the number of the box."""
    lengths = np.linalg.norm(quads[:, 1] - quads[:, 0], axis=1)
    longest = [int(at) for at in np.argsort(-lengths)[:_PROBE_LINES]]
    upright = reader.read(cut_lines(image, quads[longest]))
    if _mean_score(upright) < _WELL_READ:
        flipped_image, flipped = turn.upside_down(image, quads)
        readings = reader.read(cut_lines(flipped_image, flipped[longest]))
        if _mean_score(readings) > _mean_score(upright):
            image, quads, upright = flipped_image, flipped, readings
    known = zip(longest, upright, strict=True)
    return image, quads, {at: one for at, one in known if not turn.runs_across(quads[at])}


def _mean_score(readings: list[Reading]) -> float:
    letters = [letter for reading in readings for letter in reading.letters]
    return sum(letter.confidence for letter in letters) / max(1, len(letters))


def _read_first(
    image: Image, quads: Quads, reader: Reader, known: Mapping[int, Reading]
) -> tuple[Quads, list[Reading]]:
    """The first reader's view of every box that holds print, some of them ``known`` by their
    numbers.  A box set across the tag is read in every direction and kept in the better one."""
    ways = [turn.ways_to_run(quad) for quad in quads]
    open_ways = [way for at, options in enumerate(ways) if at not in known for way in options]
    flat = np.array(open_ways, np.float32).reshape(-1, 4, 2)
    readings = iter(reader.read(cut_lines(image, flat)))
    kept: list[tuple[turn.Quad, Reading]] = []
    for at, options in enumerate(ways):
        read = [(way, known[at] if at in known else next(readings)) for way in options]
        kept.append(max(read, key=lambda pair: pair[1].confidence))
    kept = [
        (way, one)
        for way, one in _with_turned_lines(image, kept, reader)
        if one.text.strip() and one.confidence >= _UNREADABLE
    ]
    boxes = np.array([way for way, _ in kept], np.float32).reshape(-1, 4, 2)
    return boxes, [reading for _, reading in kept]


def _with_turned_lines(
    image: Image, lines: Sequence[tuple[turn.Quad, Reading]], reader: Reader
) -> list[tuple[turn.Quad, Reading]]:
    """``lines``, those turned by half a turn that read badly as they stand and well that way:
    half of a folded tag stands on its head where it is spread out.  A code that is one both
    ways, 66 and 99, stays as it stands."""
    weak = [at for at, (_, one) in enumerate(lines) if one.confidence < _MAY_STAND_ON_ITS_HEAD]
    turned = np.array([np.roll(lines[at][0], 2, axis=0) for at in weak], np.float32)
    readings = reader.read(cut_lines(image, turned.reshape(-1, 4, 2)))
    found = list(lines)
    for at, quad, reading in zip(weak, turned, readings, strict=True):
        better = max(_WELL_READ, lines[at][1].confidence + _PLAINLY_BETTER)
        if reading.confidence >= better and not turn.turned_code(reading.text):
            found[at] = (quad, reading)
    return found


def _read_second(
    image: Image, quads: Quads, firsts: Sequence[Reading], looks: Sequence[Reader]
) -> list[Reading | None]:
    """The second reader's view of every box; of several looks the one nearer the first
    reader's view, since two that err seldom err alike."""
    seconds: list[Reading | None] = [None] * len(firsts)
    cut = cut_lines(image, without_leaders(quads, firsts))
    open_lines = list(range(len(firsts)))
    for look in looks:
        for at, seen in zip(open_lines, look.read([cut[at] for at in open_lines]), strict=True):
            before = seconds[at]
            if before is None or _apart(seen, firsts[at]) < _apart(before, firsts[at]):
                seconds[at] = seen
        open_lines = [at for at in open_lines if _apart(seconds[at], firsts[at]) > 0]
    return seconds


def without_leaders(quads: Quads, firsts: Sequence[Reading]) -> Quads:
    """``quads`` without the dots or blanks that lead to their print or away from it, as the first
    reader saw it: of "Lot ........ 4711" set in two boxes the second begins with dots, which the
    second reader takes for words."""
    cut = quads.copy()
    for at, (quad, first) in enumerate(zip(quads, firsts, strict=True)):
        letters = [letter for letter in first.letters if letter.text.isalnum()]
        width_px = float(np.linalg.norm(quad[1] - quad[0]))
        height_px = float(np.linalg.norm(quad[3] - quad[0]))
        margin = _LEADER_MARGIN * height_px / max(width_px, 1.0)
        left = max(0.0, letters[0].left - margin) if letters else 0.0
        right = min(1.0, letters[-1].right + margin) if letters else 1.0
        if (right - left) * width_px < width_px - _LEADER * height_px:
            across, below = quad[1] - quad[0], quad[2] - quad[3]
            cut[at] = (
                quad[0] + left * across,
                quad[0] + right * across,
                quad[3] + right * below,
                quad[3] + left * below,
            )
    return cut


def _with_glance(image: Image, lines: Sequence[Line], look: Reader, words: Words) -> list[Line]:
    """Shows the second reader some of the words that it read otherwise once more, cut out of
    their lines: alone, a code is no longer taken for a word.  Of 62 codes on drawn tags that
    it had read otherwise it then read 28 like the first reader, all of them right, and none
    of the 5 that the first had wrong.
    """
    places = [(at, *word) for at, line in enumerate(lines) for word in words(line)]
    pictures = [cut_word(image, lines[at], start, end) for at, start, end in places]
    glanced = list(lines)
    for (at, start, end), seen in zip(places, look.read(pictures), strict=True):
        if plain_marks(seen.text).replace(" ", "") == plain_marks(lines[at].text[start:end]):
            glanced[at] = confirmed(glanced[at], start, end)
    return glanced


def _apart(one: Reading | None, other: Reading) -> int:
    """By how many letters two readings differ; spaces, styles of marks and accents that one
    of them lost aside."""
    seen, first = (plain_marks(each.text).replace(" ", "") if each else "" for each in (one, other))
    return Levenshtein.distance(*without_lost_accents(first, seen))


def _corners(quad: turn.Quad) -> Quad:
    a, b, c, d = ((float(x), float(y)) for x, y in quad)
    return a, b, c, d
