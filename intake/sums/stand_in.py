"""What is near a yarn, to stand in for it: how far apart two yarns are, and in what.

The distance is counted in points.  What makes a point is our own rule of thumb, stated
here; colour has no part in it.  Yarns that no tag tells apart can still knit up unlike.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from intake.fields.amounts.weight import CATEGORIES
from intake.records import FibrePart
from intake.sums.ball import Ball
from intake.sums.lots import Lot
from intake.sums.terms import weight_category
from intake.sums.yarn_number import YarnNumber, yarn_number
from intake.wording import fibre_parts

THICKNESS_STEP = 1.1
"""A point for each tenth that one yarn is heavier per length than the other."""

CLASS_POINTS = 1.0
"""Points for each weight class between the two."""

FIBRE_POINTS = 4.0
"""Points where no fibre is shared; a quarter of the yarn in other fibres is one point."""

KIND_POINTS = 0.5
"""Points where the fibres' kinds differ, such as merino and shetland."""

UNKNOWN_POINTS = 2.0
"""Points for each of length per mass and fibre that a tag and the maker sheet leave open,
and for the class where length per mass cannot speak for it."""

NO_DIFFERENCE = "the tags tell no difference; knit a swatch"


@dataclass(frozen=True, slots=True)
class StandIn:
    """A lot that may stand in for a yarn: ``distance`` in points, and what it is made of."""

    lot: Lot
    distance: float
    reasons: tuple[str, ...]


def stand_ins(ball: Ball, lots: Iterable[Lot], most: int = 10) -> list[StandIn]:
    """The ``most`` nearest of ``lots`` to the yarn of ``ball``, nearest first, the longer
    one first where two are as near.  The ball's own lot is left out."""
    others = (lot for lot in lots if all(each.record.id != ball.record.id for each in lot.balls))
    found = [_stand_in(ball, lot) for lot in others]
    return sorted(found, key=lambda one: (one.distance, -one.lot.totals.left_m))[:most]


def _stand_in(ball: Ball, lot: Lot) -> StandIn:
    differences = list(yarn_differences(ball, lot.balls[0]))
    reasons = tuple(words for _, words in differences) or (NO_DIFFERENCE,)
    return StandIn(lot, round(sum(points for points, _ in differences), 2), reasons)


def yarn_differences(yarn: Ball, other: Ball) -> Iterator[tuple[float, str]]:
    """In what ``other`` is unlike ``yarn``: points and words of each difference."""
    yield from _thickness(yarn, other)
    yield from _weight_class(yarn, other)
    yield from _fibre(yarn, other)


def _thickness(yarn: Ball, other: Ball) -> Iterator[tuple[float, str]]:
    ours, theirs = _number(yarn), _number(other)
    if ours is None or theirs is None:
        yield UNKNOWN_POINTS, f"length per mass not known of {_whose(ours, theirs)}"
        return
    ratio = theirs.tex / ours.tex
    percent = round(100 * abs(ratio - 1))
    if percent:
        yield (
            abs(math.log(ratio, THICKNESS_STEP)),
            f"{percent}% {'heavier' if ratio > 1 else 'lighter'} per metre: "
            f"{theirs.metres_per_100_g:.0f} m per 100 g against {ours.metres_per_100_g:.0f}"
            + _assumed(yarn, other, "length_m", "mass_g"),
        )


def _weight_class(yarn: Ball, other: Ball) -> Iterator[tuple[float, str]]:
    texts = yarn.text("weight_class"), other.text("weight_class")
    ours, theirs = (weight_category(text) for text in texts)
    if ours is None or theirs is None:
        if _number(yarn) is None or _number(other) is None:
            yield UNKNOWN_POINTS, f"weight class not known of {_whose(ours, theirs)}"
        return
    steps = abs(CATEGORIES.index(ours) - CATEGORIES.index(theirs))
    if steps:
        words = f"weight class {theirs} against {ours}"
        yield CLASS_POINTS * steps, words + _assumed(yarn, other, "weight_class")


def _fibre(yarn: Ball, other: Ball) -> Iterator[tuple[float, str]]:
    texts = yarn.text("fibre"), other.text("fibre")
    ours, theirs = (_composition(text) for text in texts)
    if ours is None or theirs is None:
        yield UNKNOWN_POINTS, f"fibre not known of {_whose(ours, theirs)}"
        return
    apart = 1 - _shared(ours, theirs)
    percent = round(100 * apart)
    assumed = _assumed(yarn, other, "fibre")
    if percent:
        yield (
            FIBRE_POINTS * apart,
            f"{percent}% in other fibres: {texts[1]} against {texts[0]}{assumed}",
        )
    elif _kinds(ours) != _kinds(theirs):
        yield KIND_POINTS, f"fibre of another kind: {texts[1]} against {texts[0]}{assumed}"
    if _is_superwash(ours) != _is_superwash(theirs):
        yield 0.0, "superwash is said of only one of them: they wash and felt differently"


def _number(ball: Ball) -> YarnNumber | None:
    if not ball.length_m or not ball.mass_g:
        return None
    return yarn_number(ball.length_m, ball.mass_g)


def _composition(text: str) -> tuple[FibrePart, ...] | None:
    try:
        return fibre_parts(text) if text else None
    except ValueError:  # typed into the file by hand
        return None


def _shared(ours: Iterable[FibrePart], theirs: Iterable[FibrePart]) -> float:
    """The part of the yarn that is of fibres that both have, 0 to 1."""
    mine, other = _shares(ours), _shares(theirs)
    return sum(min(share, other.get(fibre, 0.0)) for fibre, share in mine.items())


def _shares(parts: Iterable[FibrePart]) -> dict[str, float]:
    """Each fibre's part of the whole; rounded percentages are brought to a whole."""
    shares: dict[str, float] = {}
    for part in parts:
        shares[part.fibre] = shares.get(part.fibre, 0.0) + part.percent
    whole = sum(shares.values())
    return {fibre: percent / whole for fibre, percent in shares.items()} if whole else {}


def _kinds(parts: Iterable[FibrePart]) -> set[tuple[str, str]]:
    return {(part.fibre, part.kind) for part in parts}


def _is_superwash(parts: Iterable[FibrePart]) -> bool:
    return any("superwash" in part.kind.split() for part in parts)


def _whose(ours: object, theirs: object) -> str:
    return "either" if ours is None and theirs is None else "this yarn" if ours is None else "it"


def _assumed(yarn: Ball, other: Ball, *columns: str) -> str:
    is_assumed = any(ball.is_assumed(column) for ball in (yarn, other) for column in columns)
    return " (assumed)" if is_assumed else ""
