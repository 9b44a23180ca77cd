"""Reading the care symbols of a straightened tag: which there are, and how sure that is.

A drawing counts as a symbol by its own looks and by its company: care symbols stand in rows,
alike in size.  What stands among them and could not be told is kept too, as a symbol without
processes, so that nobody takes the row for complete.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from intake.records import Line, Quad, State, Symbol
from intake.symbols.classify import Verdict, classify
from intake.symbols.drawings import Drawing, find_drawings
from intake.symbols.patch import Pixels, patch_of
from intake.symbols.vocabulary import NAMELESS, NO_SYMBOL

Box = tuple[float, float, float, float]

SURE = 0.998
"""From this confidence on a symbol that stands in a row is sure."""

LIKELY = 0.8
"""From this confidence on a drawing shows that there are symbols on the tag at all."""

_ALIKE = 1.75
"""Sides of two symbols of one row, larger over smaller, at most."""

_AS_LARGE = 1.35
"""The same of a symbol and a drawing that does not look like one."""

_NEAR = 1.6
"""Room between two symbols of one row, in sides of the larger, at most."""

_SAME_PLACE = 0.4
"""Share of the lesser box that two views of one drawing share."""

_CUTS = ((0.0, 0.0, 0.0), (0.02, -0.01, 0.035), (-0.02, 0.015, 0.0), (0.0, 0.0, -0.02))
"""How a drawing is cut out when it is looked at again: moved across and down, and widened on
every side, in shares of its own side."""

_UNLIKE_OTHERS = frozenset({"tub", "iron"})
"""Shapes that mean care even where one stands alone."""

_DRAWN = 0.5
"""Share of a line's box that sure symbols cover from which on it holds no words."""

_FRAMED = frozenset({"tub", "triangle", "iron", "square", "dryer"})
"""What stands in a square only where that is a frame; a ring in a square is a dryer."""


@dataclass(frozen=True, slots=True)
class _Seen:
    """One drawing with the verdict on it."""

    box: Box
    verdict: Verdict

    @property
    def is_symbol(self) -> bool:
        return self.verdict.processes != NO_SYMBOL

    @property
    def side_px(self) -> float:
        left, top, right, bottom = self.box
        return max(right - left, bottom - top)


def read_symbols(image: Pixels, lines: Sequence[Line]) -> tuple[Symbol, ...]:
    """The care symbols on ``image`` (height, width, 3), in reading order; none where nothing
    on it surely is one."""
    seen = _without_doubles(_seen(image, find_drawings(image, lines)))
    anchors = _anchors(seen)
    if not anchors:
        return ()
    rows = _rows([one for one in seen if _belongs(one, anchors)])
    return tuple(_symbol(one, in_company=len(row) > 1) for row in rows for one in row)


def without_symbols(lines: Sequence[Line], symbols: Sequence[Symbol]) -> tuple[Line, ...]:
    """``lines`` without those that only read sure symbols as if they were letters."""
    boxes = [_bounds(one.quad) for one in symbols if one.state is State.SURE]
    return tuple(
        line for line in lines if sum(_shared(_bounds(line.quad), box) for box in boxes) < _DRAWN
    )


def _bounds(quad: Quad) -> Box:
    across, down = [x for x, _ in quad], [y for _, y in quad]
    return min(across), min(down), max(across), max(down)


def _shared(box: Box, other: Box) -> float:
    """The share of ``box`` that lies in ``other``."""
    width = min(box[2], other[2]) - max(box[0], other[0])
    height = min(box[3], other[3]) - max(box[1], other[1])
    whole = (box[2] - box[0]) * (box[3] - box[1])
    return max(0.0, width) * max(0.0, height) / max(1e-6, whole)


def _seen(image: Pixels, drawings: Sequence[Drawing]) -> list[_Seen]:
    """Verdicts on the drawings; those of what lies in a frame where the tag frames its
    symbols."""
    boxes = [drawing.box for drawing in drawings]
    inner = [drawing.inside for drawing in drawings if drawing.inside]
    verdicts = _verdicts(image, [*boxes, *inner])
    outside = [_Seen(box, one) for box, one in zip(boxes, verdicts, strict=False)]
    inside = iter(_Seen(box, one) for box, one in zip(inner, verdicts[len(boxes) :], strict=True))
    pairs = [
        (outer, next(inside) if drawing.inside else None)
        for outer, drawing in zip(outside, drawings, strict=True)
    ]
    framed = any(_shows_a_frame(held) for _, held in pairs if held)
    return [held if held and framed and _reads_better(held, outer) else outer
            for outer, held in pairs]  # fmt: skip


def _verdicts(image: Pixels, boxes: Sequence[Box]) -> list[Verdict]:
    """Verdicts on what stands in ``boxes``; what looks like a symbol is looked at again, cut
    a little wider and narrower, so that none is sure for the chance of its cut."""
    verdicts = classify([patch_of(image, box) for box in boxes])
    again = [at for at, one in enumerate(verdicts) if one.processes != NO_SYMBOL]
    cuts = [patch_of(image, box) for at in again for box in _cuts(boxes[at])]
    for at, verdict in zip(again, classify(cuts, len(_CUTS)), strict=True):
        verdicts[at] = verdict
    return verdicts


def _cuts(box: Box) -> list[Box]:
    left, top, right, bottom = box
    side = max(right - left, bottom - top)
    return [
        (
            left + (x - wider) * side,
            top + (y - wider) * side,
            right + (x + wider) * side,
            bottom + (y + wider) * side,
        )
        for x, y, wider in _CUTS
    ]


def _shows_a_frame(held: _Seen) -> bool:
    sure = held.is_symbol and held.verdict.confidence >= SURE
    return sure and held.verdict.base in _FRAMED


def _reads_better(held: _Seen, outer: _Seen) -> bool:
    """Whether what lies in a frame is the symbol: it reads as one, and its frame either adds
    nothing or turns a ring into a dryer."""
    if not held.is_symbol or held.verdict.confidence < LIKELY:
        return False
    return held.verdict.confidence >= outer.verdict.confidence or (
        outer.verdict.base == "dryer" and held.verdict.base == "circle"
    )


def _without_doubles(seen: Sequence[_Seen]) -> list[_Seen]:
    """Of drawings that overlap (a shape and its inside, dark and light blobs) the one that
    reads best as a symbol."""
    best_first = sorted(seen, key=lambda one: (not one.is_symbol, -one.verdict.confidence))
    kept: list[_Seen] = []
    for one in best_first:
        if all(_overlap(one.box, other.box) < _SAME_PLACE for other in kept):
            kept.append(one)
    return kept


def _overlap(one: Box, other: Box) -> float:
    """The area that two boxes share over the lesser one's."""
    return max(_shared(one, other), _shared(other, one))


def _anchors(seen: Sequence[_Seen]) -> list[_Seen]:
    """Drawings that surely are care symbols: those in company, and of those alone what looks
    like nothing else on a tag.  Rings, triangles and boxes stand on tags for other reasons
    too, and a symbol without a process of its own looks like any of these."""
    likely = [
        one
        for one in seen
        if one.verdict.processes not in (NO_SYMBOL, NAMELESS) and one.verdict.confidence >= LIKELY
    ]
    return [
        one
        for one in likely
        if any(other is not one and _are_neighbours(one, other) for other in likely)
        or (one.verdict.base in _UNLIKE_OTHERS and one.verdict.confidence >= SURE)
    ]


def _belongs(one: _Seen, anchors: Sequence[_Seen]) -> bool:
    """Whether a drawing is a symbol or stands among symbols as one of them, however little
    it looks like one: it may be the one that was drawn worst."""
    if one in anchors:
        return True
    near = [anchor for anchor in anchors if _are_neighbours(one, anchor)]
    if one.is_symbol or one.verdict.confidence < LIKELY:
        return bool(near)
    return any(max(one.side_px, other.side_px) < _AS_LARGE * min(one.side_px, other.side_px)
               for other in near)  # fmt: skip


def _are_neighbours(one: _Seen, other: _Seen) -> bool:
    """Whether two drawings stand near each other in a row or column and are alike in size."""
    low, high = sorted((one.side_px, other.side_px))
    if high > _ALIKE * low:
        return False
    apart_x = max(one.box[0], other.box[0]) - min(one.box[2], other.box[2])
    apart_y = max(one.box[1], other.box[1]) - min(one.box[3], other.box[3])
    return max(apart_x, apart_y) <= _NEAR * high and min(apart_x, apart_y) < -0.3 * low


def _rows(seen: Sequence[_Seen]) -> list[list[_Seen]]:
    """Symbols by row, from the top; each row from the left."""
    rows: list[list[_Seen]] = []
    for one in sorted(seen, key=lambda one: one.box[1] + one.box[3]):
        middle = (one.box[1] + one.box[3]) / 2
        for row in rows:
            if row[-1].box[1] < middle < row[-1].box[3]:
                row.append(one)
                break
        else:
            rows.append([one])
    return [sorted(row, key=lambda one: one.box[0]) for row in rows]


def _symbol(one: _Seen, *, in_company: bool) -> Symbol:
    left, top, right, bottom = one.box
    told = one.is_symbol and one.verdict.processes != NAMELESS
    doubted = max(0.0, 1 - one.verdict.confidence)
    confidence = one.verdict.confidence if one.is_symbol else doubted
    return Symbol(
        processes=one.verdict.processes if told else (),
        confidence=confidence,
        state=State.SURE if told and in_company and confidence >= SURE else State.DOUBTFUL,
        quad=((left, top), (right, top), (right, bottom), (left, bottom)),
    )
