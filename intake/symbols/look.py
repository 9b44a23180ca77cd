"""Looking at drawings: what each one shows, with its frame or without.

A drawing that looks like a symbol is looked at again in several cuts, and with the number that
a reader of words saw in it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from intake.reading.base import Reader
from intake.records import Line
from intake.symbols.boxes import Box, longer_side, overlap, shared
from intake.symbols.classify import Verdict, classify
from intake.symbols.drawings import Drawing
from intake.symbols.numbers import numbers_of, temperature_in
from intake.symbols.patch import Pixels, patch_of
from intake.symbols.vocabulary import NO_SYMBOL

SURE = 0.9995
"""From this confidence on a drawing is sure by its own looks alone."""

OTHER = 0.98
"""From this confidence on a drawing in a row is no symbol."""

LIKELY = 0.8
"""From this confidence on a drawing shows that there are symbols on the tag at all."""

_MAY_BE_TUB = 0.2
"""From this share on a drawing may be a tub that is not crossed out."""

_NUMBER_SEEN = 0.995
"""Where a first look is as confident as this no reader is asked for the number in a tub."""

_SAME_PLACE = 0.4
"""Share of the lesser box that two views of one drawing share."""

_CUTS = ((0.0, 0.0, 0.0), (0.02, -0.01, 0.035), (-0.02, 0.015, 0.0), (0.0, 0.0, -0.02))
"""How a drawing is cut out when it is looked at again: moved across and down, and widened on
every side, in shares of its own side."""

_FRAMED = frozenset({"tub", "triangle", "iron", "square", "dryer"})
"""What stands in a square only where that is a frame; a ring in a square is a dryer."""


_IN_A_TILE = (0.45, 0.88)
"""Longer side of a drawing in a tile, as shares of the tile's: least and most."""

_LIES_IN = 0.95
"""Share of its box that lies on the tile, at least."""

_IN_THE_MIDDLE = 0.12
"""Its middle is no further from the tile's, as a share of the tile's longer side."""

_RIM = 0.06
"""How far within its edges and beyond them a box is looked at, as a share of its side."""

_TILE_CONTRAST = 30.0
"""Grey levels between a tile and the card, at least."""

NO_SQUARE = frozenset({"tub", "triangle", "iron"})
"""Shapes that are no squares themselves."""


@dataclass(frozen=True, slots=True)
class Seen:
    """One drawing with the verdict on it, and whether a frame may be part of what is seen: a ring
    in a frame looks like a dryer; or whether it is what a frame ``held``, which was left out."""

    box: Box
    verdict: Verdict
    framed: bool = False
    held: bool = False

    @property
    def is_symbol(self) -> bool:
        """Whether it looks like a care symbol or a skein with a number."""
        return self.verdict.meaning != NO_SYMBOL

    @property
    def is_skein(self) -> bool:
        return self.verdict.base == "skein" and self.is_symbol

    @property
    def side_px(self) -> float:
        return longer_side(self.box)


def look_at(
    image: Pixels,
    drawings: Sequence[Drawing],
    lines: Sequence[Line],
    reader: Reader | None = None,
) -> list[Seen]:
    """What ``drawings`` on a tag with ``lines`` of words show, each once; ``reader`` is asked for
    the numbers in tubs."""
    return _without_doubles(_seen(image, drawings, lines, reader))


def _seen(
    image: Pixels, drawings: Sequence[Drawing], lines: Sequence[Line], reader: Reader | None
) -> list[Seen]:
    """Verdicts on the drawings, those of what lies in a frame where the tag frames its
    symbols."""
    boxes = [drawing.box for drawing in drawings]
    held_boxes = [drawing.inside or _box_within(drawing.box, boxes) for drawing in drawings]
    inner = [box for box in held_boxes if box]
    verdicts = verdicts_on(image, [*boxes, *inner], lines, reader)
    outside = [Seen(box, one) for box, one in zip(boxes, verdicts, strict=False)]
    inside = iter(Seen(box, one) for box, one in zip(inner, verdicts[len(boxes) :], strict=True))
    pairs = [
        (outer, next(inside) if held else None)
        for outer, held in zip(outside, held_boxes, strict=True)
    ]
    alone = any(_shows_a_frame(held) for _, held in pairs if held)
    framed = alone or sum(_is_framed(held, outer) for outer, held in pairs if held) > 1
    framed = framed or sum(_is_on_tile(image, outer) for outer in outside) > 1
    if not framed:
        return outside
    return [_unframed(outer, held, boxes) for outer, held in pairs]


def _unframed(outer: Seen, held: Seen | None, boxes: Sequence[Box]) -> Seen:
    """Of a drawing on a tag that frames its symbols what lies in the frame, where that is the
    symbol.  What is a dryer without what is about it is no ring in a frame, nor is what lies in
    one of the ``boxes``, its frame, itself."""
    if held and _reads_better(held, outer):
        return replace(held, held=True)
    is_dryer = held and held.verdict.base == "dryer" and held.verdict.confidence >= LIKELY
    in_frame = any(_lies_in_the_middle(outer.box, box) for box in boxes)
    return replace(outer, framed=not is_dryer and not in_frame)


def _box_within(outer: Box, boxes: Sequence[Box]) -> Box | None:
    """The largest of ``boxes`` that lies well inside ``outer``, in its middle: what is printed
    light on a dark tile is no part of the tile's own ink."""
    within = [box for box in boxes if _lies_in_the_middle(box, outer)]
    return max(within, key=longer_side, default=None)


def _lies_in_the_middle(box: Box, outer: Box) -> bool:
    """Whether a drawing lies in another as a symbol lies in its tile."""
    side_px = longer_side(outer)
    least, most = (share * side_px for share in _IN_A_TILE)
    return (
        least < longer_side(box) < most
        and shared(box, outer) > _LIES_IN
        and _off_middle(box, outer) < _IN_THE_MIDDLE * side_px
    )


def _off_middle(box: Box, outer: Box) -> float:
    """How far the middles of two boxes are apart, across or down."""
    return max(abs(box[at] + box[at + 2] - outer[at] - outer[at + 2]) / 2 for at in (0, 1))


def verdicts_on(
    image: Pixels, boxes: Sequence[Box], lines: Sequence[Line], reader: Reader | None = None
) -> list[Verdict]:
    """Verdicts on what stands in ``boxes``; what may be a symbol is looked at again, cut
    a little wider and narrower, so that none is sure for the chance of its cut, and with the
    number that ``reader`` sees in what may be a tub with one."""
    numbers = numbers_of(boxes, lines)
    verdicts = classify([patch_of(image, box) for box in boxes], 1, numbers)
    again = [
        at for at, one in enumerate(verdicts) if one.meaning != NO_SYMBOL or one.confidence < OTHER
    ]
    if reader:
        for at in again:
            if not numbers[at] and _may_hold_a_number(verdicts[at]):
                numbers[at] = temperature_in(image, boxes[at], reader)
    cuts = [patch_of(image, box) for at in again for box in _cuts(boxes[at])]
    for at, verdict in zip(
        again, classify(cuts, len(_CUTS), [numbers[at] for at in again]), strict=True
    ):
        verdicts[at] = verdict
    return verdicts


def _may_hold_a_number(verdict: Verdict) -> bool:
    """Whether a drawing may be a tub with a number that its looks alone do not tell for sure."""
    share = sum(
        sense.share
        for sense in verdict.senses
        if sense.base == "tub" and sense.look.kind.startswith("wash") and not sense.look.crossed
    )
    return share >= _MAY_BE_TUB and verdict.confidence < _NUMBER_SEEN


def _cuts(box: Box) -> list[Box]:
    left, top, right, bottom = box
    side = longer_side(box)
    return [
        (
            left + (x - wider) * side,
            top + (y - wider) * side,
            right + (x + wider) * side,
            bottom + (y + wider) * side,
        )
        for x, y, wider in _CUTS
    ]


def _shows_a_frame(held: Seen) -> bool:
    sure = held.is_symbol and held.verdict.confidence >= SURE
    return sure and held.verdict.base in _FRAMED


def _is_framed(held: Seen, outer: Seen) -> bool:
    """Whether a drawing is likely the same symbol with what is about it and without, and that
    is no square itself."""
    return (
        held.is_symbol
        and held.verdict.base in NO_SQUARE
        and held.verdict.base == outer.verdict.base
        and held.verdict.confidence >= LIKELY
    )


def _is_on_tile(image: Pixels, outer: Seen) -> bool:
    """Whether a drawing that is no square itself fills its box to the edges."""
    if not outer.is_symbol or outer.verdict.base not in NO_SQUARE:
        return False
    step = 1 + _RIM * outer.side_px
    inner, beyond = (
        [_grey_at(image, *place) for place in _along_edges(outer.box, off)] for off in (step, -step)
    )
    differ = [abs(one - other) for one, other in zip(inner, beyond, strict=True)]
    return min(differ) > max(_TILE_CONTRAST, 2 * (max(inner) - min(inner)))


def _along_edges(box: Box, off: float) -> list[tuple[float, float]]:
    """Two places along each edge of ``box``, so many pixels within it."""
    left, top, right, bottom = box
    across, down = ([low + at * (high - low) for at in (0.25, 0.75)]
                    for low, high in ((left, right), (top, bottom)))  # fmt: skip
    level = [(x, y) for x in across for y in (top + off, bottom - off)]
    return level + [(x, y) for x in (left + off, right - off) for y in down]


def _grey_at(image: Pixels, x: float, y: float) -> float:
    """The mean of the few pixels about a place, grey."""
    height, width = image.shape[:2]
    column, row = (round(min(max(at, 1), side - 2)) for at, side in ((x, width), (y, height)))
    return float(image[row - 1 : row + 2, column - 1 : column + 2].mean())


def _reads_better(held: Seen, outer: Seen) -> bool:
    """Whether what lies in a frame is the symbol: it reads as one, and its frame either adds
    nothing or turns a ring into a dryer."""
    if not held.is_symbol or held.verdict.confidence < LIKELY:
        return False
    return held.verdict.confidence >= outer.verdict.confidence or (
        outer.verdict.base == "dryer" and held.verdict.base == "circle"
    )


def _without_doubles(seen: Sequence[Seen]) -> list[Seen]:
    """Of drawings that overlap (a shape and its inside, dark and light blobs) the one that
    reads best as a symbol; where two read alike the larger, so that all of a framed row are
    taken with their frames, and without a doubt that one of them does not leave."""
    best_first = sorted(seen, key=lambda one: (not one.is_symbol, -one.verdict.confidence))
    kept: list[Seen] = []
    for one in best_first:
        doubles = [
            at for at, other in enumerate(kept) if overlap(one.box, other.box) >= _SAME_PLACE
        ]
        if not doubles:
            kept.append(one)
        elif len(doubles) == 1 and _says_the_same(one, kept[doubles[0]]):
            other = kept[doubles[0]]
            larger = max(one, other, key=lambda each: each.side_px)
            kept[doubles[0]] = replace(larger, framed=one.framed and other.framed)
    return kept


def _says_the_same(one: Seen, other: Seen) -> bool:
    both_likely = min(one.verdict.confidence, other.verdict.confidence) >= LIKELY
    return one.is_symbol and one.verdict.meaning == other.verdict.meaning and both_likely
