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
from typing import Any

import cv2
import numpy as np

from intake.pictures.card_edges import Line, lines_along, side_grids, strips_of
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
LEAST_OTHERWISE = 1.75
STILL_TO = 1.0
"""Of no one tag has print moved by more thousandths, however alike its edges are."""

FLAT_TO = 0.25
"""Of a card that is bent by more (thousandths of its longer side) edges tell nothing."""

_ALIKE, _OTHERWISE = (0.2, 0.7), (0.6, 2.5)
_MOVED = (0.8, 4.0)
"""Thousandths between which an edge turns from alike to not alike, from not otherwise to
otherwise, and print from at its place to moved.  On a tag of 10 cm a thousandth is 0.1 mm: as
well as the best cutters cut (common practice among printers, from memory, no source)."""

_MOVED_COUNTS = 2.0
"""Print that has moved counts as much as two sides that were cut otherwise: of one tag none was
seen to move by a thousandth, folded ones among them."""


@dataclass(frozen=True, slots=True)
class Likeness:
    """How two pictures of a print compare; lengths in thousandths of the longer side.

    ``edges_apart`` is how far the card's edges are from each other when the print lies on print,
    a number for each side that both show, in order of size; where an edge is one of several lines,
    that of the nearest two.  ``marked_edges_apart`` is the same for the most marked lines, or the
    innermost, which a shadow beside the card does not reach.
    ``print_apart`` is how far some of the print has moved within the rest; ``bend`` how far half of
    it has where the card is bent in one picture against the other; ``unlike`` the share of print
    that looks different.
    """

    edges_apart: tuple[float, ...]
    marked_edges_apart: tuple[float, ...]
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
    apart = _edges_apart(over, _flat_matrix(over, shifts.places, shifts.by_px, parts.own))
    return Likeness(
        edges_apart=tuple(sorted(near for near, _ in apart)),
        marked_edges_apart=tuple(sorted(marked for _, marked in apart)),
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


def _edges_apart(over: Overlay, matrix: Doubles) -> list[tuple[float, float]]:
    """For each side how far (in thousandths) the card's edges are apart: the nearest two lines
    that may be the edges, and the two most marked or innermost ones."""
    back = np.asarray(np.linalg.inv(matrix), np.float64)
    best: Sides = {}
    for is_round in (False, True):
        for image, other, there in (
            (over.image, over.other_image, back),
            (over.other_image, over.image, matrix),
        ):
            found = _sides_apart(image, other, there, is_round)
            if len(found) > len(best):
                best = found
            if len(best) == _SIDES:
                break
        if len(best) > _SIDES / 2:
            break
    # What is further away is no cut that strayed but something else that was seen.
    near = {side: each for side, each in best.items() if abs(each[0]) < _FARTHEST}
    return [
        (abs(apart), abs(marked))
        for side, (apart, marked) in near.items()
        if abs(apart + near.get((side + 2) % _SIDES, (0.0, 0.0))[0]) < _GREATEST_GROWTH
    ]


Sides = dict[int, tuple[float, float]]
"""By side how far further in the first picture's edge is than the second's, in thousandths."""


def _sides_apart(image: Image, other: Image, matrix: Doubles, is_round: bool) -> Sides:
    """As :func:`_edges_apart` over the sides of the first picture that both show; ``matrix`` takes
    its pixels to those of the second."""
    grids = side_grids(image.shape[:2], is_round=is_round)
    longest_px = max(image.shape[:2])
    own, others = (
        [lines_along(strip, longest_px) for strip in strips_of(*each)]
        for each in ((image, grids, np.eye(3)), (other, grids, matrix))
    )
    unit = longest_px / _PER_MILLE
    return {
        side: (near / unit, marked / unit)
        for side, lines in enumerate(zip(own, others, strict=True))
        if all(lines)
        for near, marked in [_apart_px(*lines)]
    }


def _apart_px(lines: Sequence[Line], others: Sequence[Line]) -> tuple[float, float]:
    near = min((line.apart_px(other) for line in lines for other in others), key=abs)
    most, other_most = (max(each, key=lambda line: line.strength) for each in (lines, others))
    return near, min(most.apart_px(other_most), lines[-1].apart_px(others[-1]), key=abs)


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
    show :data:`FEWEST_SIDES` sides, and two tags only on :data:`LEAST_OTHERWISE` pieces of
    evidence: of two edges both may be mistaken for the card's, and one may well be.
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
        and len(found.edges_apart) >= FEWEST_SIDES
    )
    return Verdict.SAME if may_be_one and for_one >= model["one_tag_from"] else Verdict.UNSURE


def evidence(found: Likeness) -> dict[str, float]:
    """What speaks for one tag and for two: how many sides of the card were cut alike and how many
    otherwise, and whether some of the print has moved (0 to 2).  A bent card shows no sides."""
    is_flat = found.bend <= FLAT_TO
    return {
        "alike": sum(1 - _rising(each, _ALIKE) for each in found.marked_edges_apart) * is_flat,
        "otherwise": sum(_rising(each, _OTHERWISE) for each in found.edges_apart) * is_flat,
        "moved": _MOVED_COUNTS * _rising(found.print_apart, _MOVED) * is_flat,
    }


def _rising(value: float, limits: tuple[float, float]) -> float:
    """0 up to the lower of ``limits``, 1 from the upper one on, by the logarithm between."""
    low, high = limits
    return float(np.clip(np.log(max(value, low) / low) / np.log(high / low), 0, 1))


@cache
def _model() -> dict[str, Any]:
    text = resources.files("intake.pictures").joinpath("same_tag.json").read_text("utf-8")
    model: dict[str, Any] = json.loads(text)
    return model
