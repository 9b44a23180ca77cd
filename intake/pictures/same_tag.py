"""Whether two kept pictures with the same print show one tag or two.

Two tags of one printing differ in what no printer repeats: where the print lies on the card
that was cut from its sheet, and where shade and lot lie in the print, which come on it in a pass
of their own.  Both are measured after the pictures have been laid over each other by their
print, so light, scale and angle do not matter.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib import resources
from typing import Any, NamedTuple

import cv2
import numpy as np

from intake.pictures.card_edges import Line, lines_along, side_grids, strips_of
from intake.pictures.cut_odds import CLEAR, Ends, cut_once_log_odds
from intake.pictures.laid_over import Doubles, Overlay, laid_over
from intake.pictures.load import Image
from intake.pictures.print_shifts import cluster_shift_px, parted, print_shifts

_FEWEST_BLOCKS = 12
_PER_MILLE = 1000.0
_STRAY = 2.5
_SIDES = 4
_FARTHEST = 25.0
"""No cut strays by more thousandths of the longer side: 2 mm on a tag of 80 mm, when one and a
half is much (common practice among printers, from memory, no source)."""

_GREATEST_GROWTH = 20.0
"""No card of a printing is cut larger than another by more (thousandths of its longer side).  Where
opposite edges both lie further out, a frame or a panel printed along the rim was taken for them."""

FEWEST_SIDES = 3
LEAST_OTHERWISE = 1.25
STILL_TO = 1.0
"""Of no one tag has print moved by more thousandths, however alike its edges are."""

SPOILT_TO = 6.0
"""Of no one tag is an edge seen further from its place (thousandths), whatever the others say:
those may be lines that are printed along the rim of both."""

FLAT_TO = 0.25
"""Of a card that is bent by more (thousandths of its longer side) edges tell nothing."""

_OTHERWISE = (0.6, 2.5)
_MOVED = (0.8, 4.0)
"""Thousandths between which an edge turns from not otherwise to otherwise, and print from at its
place to moved.  On a tag of 10 cm a thousandth is 0.1 mm: as well as the best cutters cut (common
practice among printers, from memory, no source)."""

_MOST_ODDS = 8.0
"""Whatever the edges say, they may be those of something else that is printed on both cards: log
odds beyond this count no more."""

_MOVED_COUNTS = 2.0
"""Print that has moved counts as much as two sides that were cut otherwise: of one tag none was
seen to move by a thousandth, folded ones among them."""


class Edge(NamedTuple):
    """How the edges of a side (0 the top of the first picture, then clockwise) compare when print
    lies on print: the ``nearest`` two lines that may be the edges, and the two most ``marked``
    ones, or the innermost, which a shadow beside the card does not reach."""

    side: int
    nearest: Ends
    marked: Ends


@dataclass(frozen=True, slots=True)
class Likeness:
    """How two pictures of a print compare; lengths in thousandths of the longer side.

    ``edges`` are those of the sides that both show, ``size`` is the first picture's width and
    height.  ``print_apart`` is how far some of the print has moved within the rest; ``bend`` how
    far half of it has where the card is bent in one picture against the other; ``unlike`` the share
    of print that looks different.
    """

    edges: tuple[Edge, ...]
    size: tuple[float, float]
    print_apart: float
    bend: float
    unlike: float


def likeness(one_jpeg: bytes, other_jpeg: bytes) -> Likeness | None:
    """How two kept pictures compare; ``None`` where they cannot be laid over each other.
    ``ValueError`` where either is no picture."""
    over = laid_over(one_jpeg, other_jpeg)
    if over is None:
        return None
    shifts = print_shifts(over)
    if len(shifts.places) < _FEWEST_BLOCKS:
        return None
    unit = max(over.print.shape) / _PER_MILLE
    parts = parted(shifts, over.print.shape)
    height, width = over.print.shape
    return Likeness(
        edges=tuple(_edges(over, _flat_matrix(over, shifts.places, shifts.by_px, parts.own))),
        size=(width / unit, height / unit),
        print_apart=cluster_shift_px(shifts.places, parts.own) / unit,
        bend=parts.bend / unit,
        unlike=shifts.unlike,
    )


def _flat_matrix(over: Overlay, places: Doubles, by_px: Doubles, own: Doubles) -> Doubles:
    """The overlay's matrix, refined by all print that did not move by itself."""
    away = np.hypot(*own.T)
    still = away < _STRAY * (1.48 * np.median(away) + 0.15)
    back = np.linalg.inv(over.matrix)
    source = cv2.perspectiveTransform((places + by_px)[still][None], back)[0]
    refined, _ = cv2.findHomography(source, places[still], 0)
    return over.matrix if refined is None else np.asarray(refined, np.float64)


def _edges(over: Overlay, matrix: Doubles) -> list[Edge]:
    """How the card's edges compare on each side that both show."""
    back = np.asarray(np.linalg.inv(matrix), np.float64)
    best: list[Edge] = []
    for is_round in (False, True):
        for image, other, there in (
            (over.image, over.other_image, back),
            (over.other_image, over.image, matrix),
        ):
            found = _edges_seen(image, other, there, is_round)
            if len(found) > len(best):
                best = found
            if len(best) == _SIDES:
                break
        if len(best) > _SIDES / 2:
            break
    # What is further away is no cut that strayed but something else that was seen.
    near = {edge.side: edge for edge in best if abs(_farthest(edge.nearest)) < _FARTHEST}
    return [edge for edge in near.values() if not _grew(edge, near.get((edge.side + 2) % _SIDES))]


def _grew(edge: Edge, opposite: Edge | None) -> bool:
    there = 0.0 if opposite is None else _farthest(opposite.nearest)
    return abs(_farthest(edge.nearest) + there) >= _GREATEST_GROWTH


def _edges_seen(image: Image, other: Image, matrix: Doubles, is_round: bool) -> list[Edge]:
    """As :func:`_edges` over the sides of the first picture that both show; ``matrix`` takes its
    pixels to those of the second."""
    grids = side_grids(image.shape[:2], is_round=is_round)
    longest_px = max(image.shape[:2])
    own, others = (
        [lines_along(strip, longest_px) for strip in strips_of(*each)]
        for each in ((image, grids, np.eye(3)), (other, grids, matrix))
    )
    return [
        Edge(side, *_compared(*lines, longest_px / _PER_MILLE))
        for side, lines in enumerate(zip(own, others, strict=True))
        if all(lines)
    ]


def _compared(lines: Sequence[Line], others: Sequence[Line], unit: float) -> tuple[Ends, Ends]:
    """The nearest two lines, and the most marked or innermost two, in units of ``unit`` px."""
    near = min((_apart(line, other, unit) for line in lines for other in others), key=_distance)
    most, other_most = (max(each, key=lambda line: line.strength) for each in (lines, others))
    marked = (_apart(most, other_most, unit), _apart(lines[-1], others[-1], unit))
    return near, min(marked, key=_distance)


def _apart(line: Line, other: Line, unit: float) -> Ends:
    first, last = ((a - b) / unit for a, b in zip(line.heights, other.heights, strict=True))
    return Ends(first, last, float(np.hypot(line.error_px, other.error_px)) / unit)


def _farthest(ends: Ends) -> float:
    """How far edges are apart, at the end where that is more; below zero where the first lies
    further out."""
    return max(ends.first, ends.last, key=abs)


def _distance(ends: Ends) -> float:
    return abs(_farthest(ends))


class Verdict(StrEnum):
    """What two pictures say of the tags on them."""

    SAME = "one tag"
    ANOTHER = "two tags"
    UNSURE = "cannot be told"


def verdict(one_jpeg: bytes, other_jpeg: bytes) -> Verdict:
    """Whether two kept pictures with the same print show one tag.  ``ValueError`` where either
    is no picture."""
    found = likeness(one_jpeg, other_jpeg)
    return Verdict.UNSURE if found is None else judged(found)


def judged(found: Likeness) -> Verdict:
    """What a likeness says.  The model is in ``same_tag.json`` beside this file;
    ``fixtures/fit_same_tag.py`` fits it to drawn pairs.

    Whatever the model says, one tag is said only of flat cards whose print did not move and that
    show :data:`FEWEST_SIDES` sides, none of them far off, and two tags only on
    :data:`LEAST_OTHERWISE` pieces of evidence: of two edges both may be mistaken for the card's,
    and one may well be.
    """
    model = _model()
    votes = evidence(found)
    for_one = model["start"] + sum(model["weights"][name] * vote for name, vote in votes.items())
    may_be_two = votes["otherwise"] + votes["moved"] >= LEAST_OTHERWISE
    if may_be_two and for_one <= model["two_tags_to"]:
        return Verdict.ANOTHER
    may_be_one = (
        found.bend <= FLAT_TO
        and found.print_apart <= STILL_TO
        and len(found.edges) >= FEWEST_SIDES
        and not may_be_two
        and max(_distance(edge.nearest) for edge in found.edges) <= SPOILT_TO
    )
    return Verdict.SAME if may_be_one and for_one >= model["one_tag_from"] else Verdict.UNSURE


def evidence(found: Likeness) -> dict[str, float]:
    """What speaks for one tag and for two: the log odds that both were cut in one cut, or
    in two, how many sides were cut otherwise, and whether some of the print has moved (0 to 2).  A
    bent card shows no sides."""
    is_flat = found.bend <= FLAT_TO
    cut_once = cut_once_log_odds([(edge.side, edge.marked) for edge in found.edges], found.size)
    return {
        "cut_once": float(np.clip(cut_once, 0, _MOST_ODDS)) * is_flat,
        "cut_twice": float(np.clip(-cut_once, 0, _MOST_ODDS)) * is_flat,
        "otherwise": sum(_rising(_surely_apart(edge.nearest), _OTHERWISE) for edge in found.edges)
        * is_flat,
        "moved": _MOVED_COUNTS * _rising(found.print_apart, _MOVED) * is_flat,
    }


def _surely_apart(ends: Ends) -> float:
    """How far edges are apart, the less the less well they are seen."""
    return _distance(ends) * min(1.0, CLEAR / ends.error)


def _rising(value: float, limits: tuple[float, float]) -> float:
    """0 up to the lower of ``limits``, 1 from the upper one on, by the logarithm between."""
    low, high = limits
    return float(np.clip(np.log(max(value, low) / low) / np.log(high / low), 0, 1))


@cache
def _model() -> dict[str, Any]:
    text = resources.files("intake.pictures").joinpath("same_tag.json").read_text("utf-8")
    model: dict[str, Any] = json.loads(text)
    return model
