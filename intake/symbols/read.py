"""Reading the symbols of a straightened tag: which there are, and how sure that is.

A drawing counts as a care symbol by its own looks and by its company: care symbols stand in
rows, alike in size, and what each is depends on the others (:mod:`intake.symbols.row`).  What
stands among them and could not be told is kept too, as a symbol without processes, so that
nobody takes the row for complete; what surely is none, such as an emblem, is not.  A skein with
the number of a weight class stands alone, and so must look like one all the more surely.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from intake.reading.base import Reader
from intake.records import Line, State, Symbol, SymbolKind
from intake.symbols.border import is_bordered
from intake.symbols.boxes import Box, bounds, overlap, quad_of, shared
from intake.symbols.drawings import find_drawings
from intake.symbols.look import LIKELY, NO_SQUARE, OTHER, SURE, Seen, look_at
from intake.symbols.neighbours import (
    ALIKE,
    AS_LARGE,
    FRAMED,
    NEAR,
    are_level,
    are_neighbours,
    has_gap,
    holds_symbols,
    is_between,
    rows_of,
    stands_as_next,
    stands_below,
    tells,
)
from intake.symbols.patch import Pixels
from intake.symbols.row import Told, read_together
from intake.symbols.row_ends import leaves_picture, pitch_of, stands_beside
from intake.symbols.squares import find_squares, is_knitting
from intake.symbols.vocabulary import NAMELESS

SURE_IN_ROW = 0.97
"""From this confidence on a care symbol that stands in a row is sure.  Of 8,529 symbols that were
drawn in rows in ``tuning`` styles, 24 to 100 pixels large and badly printed, 8,060 were sure, 2 of
them wrong; from 0.95 on 8,142 were, 5 of them wrong."""

SURE_OF_TUB_AND_DRYER = 0.999
"""From this one on a crossed tub and a dryer that is not crossed are sure: on bad print each looks
like another tub or a crossed dryer.  On 940 drawn tags each of the 43 crossed tubs that were right
had more than 0.9999, each of the 16 that were wrong less than 0.996."""

SURE_OF_HAND = 0.995
"""From this one on a hand in a tub is sure.  Of 2,264 tubs in styles of both splits that were read
as hands with so much none was wrong, of 182 with less 4 were; in rows a crossed one had 0.992."""

_MOST_SURE = {
    "do not wash": SURE_OF_TUB_AND_DRYER,
    "hand wash": SURE_OF_HAND,
    "tumble dry": SURE_OF_TUB_AND_DRYER,
    "tumble dry low": SURE_OF_TUB_AND_DRYER,
}
"""Processes that are easily mistaken to the confidence from which on they are sure."""

SURE_OF_HELD = 0.999
"""From this one on a crossed ring and a crossed dryer are sure that a frame holds: what is left of
the frame makes a dryer of a ring.  One that was wrong had 0.986 (900 drawn tags)."""

_RING_OR_DRYER = frozenset({"do not dry clean", "do not tumble dry"})

SURE_OF_NONE = 0.995
"""From this one on a drawing that stands among symbols surely is none."""

SURE_OF_SKEIN = 0.985
"""From this confidence on the number in a skein is sure.  Of 5,714 patches in ``tuning`` styles,
597 of them skeins, none that was given more than 0.98 was wrong."""

SKEIN = 0.9
"""From this confidence on a skein with a number is taken for one at all."""

_PLACED = 1.6
"""The same of a symbol and a drawing that takes the next place of its row."""

_UNLIKE_OTHERS = frozenset({"tub", "iron"})
"""Shapes that mean care even where one stands alone."""

_MANY = frozenset({"circle", "square"})
"""Shapes of which a tag may have two: dry and wet cleaning, drying and the shade."""

_FEWEST_BESIDE_VAT = 3
"""A tub in a row of so many symbols is the one for washing."""

_TILE_ALIKE = 1.4
"""How many times as large a tile of a row may be as the symbol beside it."""

_COVERED = 0.8
"""Share of the lesser box that two views of one square of tension share."""

_DRAWN = 0.5
"""Share of a line's box that sure symbols cover from which on it holds no words, and share of a
symbol's that lies in the line's."""

_FEWEST_IN_LINE = 3
_ALL_ALONG = 0.8
"""So many symbols that reach over this share of a line's width, or more, are all of it."""


def read_symbols(
    image: Pixels, lines: Sequence[Line], reader: Reader | None = None
) -> tuple[Symbol, ...]:
    """The symbols on ``image`` (height, width, 3): care symbols in reading order, none where
    nothing on it surely is one, then skeins with a number, then the squares of tension.
    ``reader`` reads the numbers in tubs whose looks do not tell them for sure."""
    drawings = find_drawings(image, lines)
    seen = look_at(image, drawings, lines, reader)
    found = find_squares(image, [drawing.box for drawing in drawings], lines)
    squares = [
        box for box in found if not (holds_symbols(box, seen) or _is_between_tiles(box, seen))
    ]
    care = [one for one in seen if not one.is_skein and not _is_swatch(one, squares, seen)]
    return (
        *_care_symbols(image, care, _no_care(seen, squares, lines)),
        *(_skein(one) for one in seen if one.is_skein and one.verdict.confidence >= SKEIN),
        *(Symbol((), 1.0, State.SURE, quad_of(box), SymbolKind.TENSION) for box in squares),
    )


def _is_swatch(one: Seen, squares: Sequence[Box], seen: Sequence[Seen]) -> bool:
    """Whether a drawing is one of the ``squares`` with numbers or part of the knitting in it.  A
    dryer or a frame with a number beneath is none: it stands in the row of others."""
    for box in squares:
        if is_knitting(one.box, box):
            return True
        if overlap(one.box, box) > _COVERED and not tells(one, LIKELY):
            return True
        if overlap(one.box, box) > _COVERED and not tells(one, SURE):
            near = (other for other in seen if are_level(one, other) and tells(other, LIKELY))
            return not any(other is not one and are_neighbours(one, other) for other in near)
    return False


def _is_between_tiles(square: Box, seen: Sequence[Seen]) -> bool:
    """Whether the drawing in ``square`` stands between two symbols as large in their row, as a
    tile does whose symbol was not told."""
    beside = [
        other.box[0] - one.box[0]
        for one in seen
        for other in seen
        if overlap(one.box, square) > _COVERED
        and other is not one
        and tells(other, LIKELY)
        and are_level(one, other)
        and are_neighbours(one, other)
        and max(one.side_px, other.side_px) < _TILE_ALIKE * min(one.side_px, other.side_px)
    ]
    return any(apart < 0 for apart in beside) and any(apart > 0 for apart in beside)


def _no_care(seen: Sequence[Seen], squares: Sequence[Box], lines: Sequence[Line]) -> list[Box]:
    """Boxes of what surely is no care symbol: words, squares of tension, skeins, emblems."""
    words = (line for line in lines if sum(letter.text.isalnum() for letter in line.letters) > 1)
    others = (
        one.box
        for one in seen
        if one.is_skein or (not one.is_symbol and one.verdict.confidence >= SURE_OF_NONE)
    )
    return [*(bounds(line.quad) for line in words), *squares, *others]


def _care_symbols(image: Pixels, seen: Sequence[Seen], no_care: Sequence[Box]) -> list[Symbol]:
    anchors = _anchors(seen)
    own = rows_of([one for one in seen if _belongs(one, anchors)])
    drawn = [one for row in rows_of(_with_level(own, seen)) for one in row]
    told = read_together(
        [one.verdict for one in drawn],
        framed=[number for number, one in enumerate(drawn) if one.framed],
        placed=[number for number, one in enumerate(drawn) if _is_placed(one, anchors)],
        square=squares_themselves(image, drawn),
    )
    both = _without_vats(list(zip(drawn, told, strict=True)))
    shapes = Counter(read.sense.base for _, read in both if read.is_symbol)
    rows = rows_of([one for one, read in both if read.is_symbol])
    whole = {id(one) for row in _whole_rows(image, rows, no_care) for one in row}
    return [
        as_symbol(one, read, may_be_sure=id(one) in whole and _stands_once(read, shapes))
        for one, read in both
        if read.is_symbol or (read.confidence < SURE_OF_NONE and not is_between(one, rows))
    ]


def squares_themselves(image: Pixels, drawn: Sequence[Seen]) -> list[int]:
    """The numbers of those ``drawn`` that have four straight sides where others, which are no
    squares, have none: their sides are no frame."""
    bordered = [is_bordered(image, one.box) for one in drawn]
    no_squares = [
        has_sides
        for one, has_sides in zip(drawn, bordered, strict=True)
        if one.verdict.base in NO_SQUARE and tells(one, LIKELY)
    ]
    if not no_squares or any(no_squares):
        return []
    return [number for number, has_sides in enumerate(bordered) if has_sides]


def _without_vats(both: Sequence[tuple[Seen, Told]]) -> list[tuple[Seen, Told]]:
    """``both``, what is drawn and what it is read as, without tubs that stand alone where another
    stands in a row of care: a vat is drawn for the dye lot."""
    rows = rows_of([one for one, read in both if read.is_symbol])
    tubs = {id(one) for one, read in both if read.is_symbol and read.sense.base == "tub"}
    with_tub = [row for row in rows if any(id(one) in tubs for one in row)]
    if sum(len(row) >= _FEWEST_BESIDE_VAT for row in with_tub) != 1:
        return list(both)
    vats = {id(row[0]) for row in with_tub if len(row) == 1}
    return [(one, read) for one, read in both if id(one) not in vats]


def _is_placed(one: Seen, anchors: Sequence[Seen]) -> bool:
    """Whether a drawing stands beside ``anchors`` as the next of their row."""
    return any(
        other is not one
        and are_level(one, other)
        and are_neighbours(one, other)
        and max(one.side_px, other.side_px) < _PLACED * min(one.side_px, other.side_px)
        for other in anchors
    )


def _whole_rows(
    image: Pixels, rows: Sequence[Sequence[Seen]], no_care: Sequence[Box]
) -> list[Sequence[Seen]]:
    """Those of the ``rows`` that seem to have all of their symbols on the ``image``, and all were
    seen.  One symbol is a row only where it is what was left for another row below a whole one."""
    whole: list[Sequence[Seen]] = []
    for row in rows:
        pitch_px = pitch_of([one.box for one in row])
        if len(row) == 1:
            above = [one for one in whole if stands_below(row[0], one)]
            pitch_px = pitch_of([one.box for one in above[-1]]) if above else 0.0
        if pitch_px and _is_whole(image, row, no_care, pitch_px):
            whole.append(row)
    return whole


def _is_whole(image: Pixels, row: Sequence[Seen], no_care: Sequence[Box], pitch_px: float) -> bool:
    """Whether a row of symbols ``pitch_px`` apart seems to have all of them on the ``image``."""
    boxes = [one.box for one in row]
    return (
        not has_gap(row)
        and not leaves_picture(image, boxes, pitch_px)
        and not stands_beside(image, boxes, no_care, pitch_px)
    )


def _stands_once(one: Told, shapes: Counter[str]) -> bool:
    """Whether its shape is the only one of its kind on the tag, as it must be: of two irons
    one is a misread triangle, and of two dryers one may be a ring in a frame."""
    return one.sense.base in _MANY or shapes[one.sense.base] == 1


def without_symbols(lines: Sequence[Line], symbols: Sequence[Symbol]) -> tuple[Line, ...]:
    """``lines`` without those that only read sure symbols as if they were letters."""
    boxes = [
        bounds(one.quad)
        for one in symbols
        if one.state is State.SURE and one.kind is not SymbolKind.TENSION
    ]
    return tuple(line for line in lines if not _is_drawn(bounds(line.quad), boxes))


def _is_drawn(line: Box, symbols: Sequence[Box]) -> bool:
    """Whether ``symbols`` cover a ``line``, or make a row from its one end to the other."""
    if sum(shared(line, box) for box in symbols) >= _DRAWN:
        return True
    row = [box for box in symbols if shared(box, line) > _DRAWN]
    width = max((box[2] for box in row), default=0.0) - min((box[0] for box in row), default=0.0)
    return len(row) >= _FEWEST_IN_LINE and width >= _ALL_ALONG * (line[2] - line[0])


def _anchors(seen: Sequence[Seen]) -> list[Seen]:
    """Drawings that surely are care symbols: those in company, and of those alone what looks
    like nothing else on a tag.  Rings, triangles and boxes stand on tags for other reasons
    too, and a symbol without a process of its own looks like any of these."""
    likely = [one for one in seen if tells(one, LIKELY)]
    return [
        one
        for one in likely
        if any(other is not one and are_neighbours(one, other) for other in likely)
        or (one.verdict.base in _UNLIKE_OTHERS and one.verdict.confidence >= SURE)
    ]


def _belongs(one: Seen, anchors: Sequence[Seen]) -> bool:
    """Whether a drawing is a symbol or stands among symbols as one of them, however little
    it looks like one: it may be the one that was drawn worst."""
    if one in anchors:
        return True
    near = [anchor for anchor in anchors if are_neighbours(one, anchor)]
    if one.is_symbol:
        return bool(near)
    if one.verdict.confidence >= OTHER:
        return False
    most = AS_LARGE if one.verdict.confidence >= LIKELY else FRAMED
    return any(stands_as_next(one, other, most) for other in near)


def _with_level(rows: Sequence[Sequence[Seen]], seen: Sequence[Seen]) -> list[Seen]:
    """The symbols of ``rows``, and those that look like symbols and stand near one of them, level
    with the row as a whole if not with the next symbol, which may be cut out flat."""
    found = [one for row in rows for one in row]
    for row in rows:
        low, high = min(one.box[1] for one in row), max(one.box[3] for one in row)
        side_px = max(one.side_px for one in row)
        for one in seen:
            left, top, right, bottom = one.box
            level = min(bottom, high) - max(top, low) > 0.5 * (bottom - top)
            apart = min(max(left - each.box[2], each.box[0] - right) for each in row)
            alike = side_px < ALIKE * one.side_px < ALIKE**2 * side_px
            told = one.is_symbol and one.verdict.confidence >= LIKELY
            if one not in found and told and level and alike and apart <= NEAR * side_px:
                found.append(one)
    return found


def is_sure(read: Told) -> bool:
    """Whether a care symbol in a row is read with the confidence that its kind asks for."""
    least = max(_MOST_SURE.get(process, SURE_IN_ROW) for process in read.sense.meaning or ("",))
    return read.confidence >= least


def as_symbol(one: Seen, read: Told, *, may_be_sure: bool) -> Symbol:
    """The record of what was ``read`` in a drawing, sure only where it ``may_be_sure``."""
    told = read.is_symbol and read.sense.meaning != NAMELESS
    confidence = read.confidence if read.is_symbol else max(0.0, 1 - read.confidence)
    may_be_sure = may_be_sure and not (
        one.held
        and read.confidence < SURE_OF_HELD
        and _RING_OR_DRYER.intersection(read.sense.meaning)
    )
    state = State.SURE if told and may_be_sure and is_sure(read) else State.DOUBTFUL
    return Symbol(
        processes=read.sense.meaning if told else (),
        confidence=confidence,
        state=state,
        quad=quad_of(one.box),
    )


def _skein(one: Seen) -> Symbol:
    """A skein with a number, which nothing but its own looks makes sure."""
    (weight_class,) = one.verdict.meaning
    confidence = one.verdict.confidence
    state = State.SURE if confidence >= SURE_OF_SKEIN else State.DOUBTFUL
    return Symbol((), confidence, state, quad_of(one.box), SymbolKind.WEIGHT, weight_class)
