"""Reading care symbols together: what each is, given all others on the tag.

ISO 3758 gives five groups of symbols (washing, bleaching, drying, ironing, professional care), each
once and in a fixed order; drying is told by a tumble dryer, a square, or both, and professional
care by a ring for dry cleaning, one for wet cleaning, or both.  The shares of the classifier are
weighed by how well a whole reading keeps to that.  The order is that of the edition of 2012 or
the one before it, which had drying last (both from memory of the published tables).  How much less
likely a reading is that strays from it is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from intake.symbols.classify import Sense, Verdict
from intake.symbols.vocabulary import NAMELESS, NO_CARE

_ORDERS = (
    ("tub", "triangle", "dryer", "iron", "dry", "wet"),
    ("tub", "triangle", "iron", "dry", "wet", "dryer"),
)
"""Groups in the order of each edition."""

_BACKWARD = 0.03
"""Weight of each step back in the order."""

_AGAIN = 0.003
"""Weight of each group that is told a second time: no tag says twice how to wash."""

_NAMELESS = 0.3
"""Weight of a symbol without a process, such as an iron without its heat."""

_NO_DRYING = 0.05
"""Weight of a plain square, which the standard does not have."""

_NO_NUMBER = 0.1
"""Weight of a tub without a process: without a number, or with 50 or 70, which few yarns bear.  The
classifier was fitted on as many of each number."""

_WET_ALONE = 0.1
"""Weight of a row that tells of wet cleaning and not of dry cleaning: its ring comes beside the
other one, or not at all."""

_FRAMED_RING = 1.0
"""Weight of a plain ring against a dryer that may be one in a frame: both look alike, and only
the row tells."""

_STRAIGHT_RING = 0.02
"""Weight of a ring where a drawing has the four sides of a square and no frame: see
:mod:`intake.symbols.border`."""

_STRANGER = 0.05
"""Weight of print that is no symbol where the row has a place for one: the classifier was fitted
on strips of which one drawing in five is no symbol, and of those that stand in a row, as large as
its symbols, about one in eighty is."""

_MOST = 9
"""More symbols than the groups have are a chart, not the care of one tag: each is read alone."""

_BEAM = 300
"""So many readings of the row are followed, the likeliest."""


class _Path(NamedTuple):
    """A reading of the first symbols: its weight for each of ``_ORDERS``, the groups told
    so far, the place in each order of the last, and the senses taken."""

    weights: tuple[float, ...]
    told: frozenset[str]
    last: tuple[int, ...]
    taken: tuple[int, ...]

    @property
    def weight(self) -> float:
        return sum(self.weights)


@dataclass(frozen=True, slots=True)
class Told:
    """What one symbol is in the likeliest reading of its row, and how likely that is."""

    sense: Sense
    confidence: float

    @property
    def is_symbol(self) -> bool:
        """Whether it is a care symbol at all."""
        return self.sense.base not in NO_CARE


def read_together(
    verdicts: Sequence[Verdict],
    framed: Collection[int] = (),
    placed: Collection[int] = (),
    square: Collection[int] = (),
) -> list[Told]:
    """What each of the drawings of a tag's row is, whose ``verdicts`` come in reading order;
    ``framed`` are the numbers of those that may be seen with a frame about them, ``placed`` of
    those that stand where the row has a symbol, ``square`` of those that are squares themselves."""
    senses = [
        _with_ring(verdict.senses)
        if number in framed
        else _without_ring(verdict.senses)
        if number in square
        else verdict.senses
        for number, verdict in enumerate(verdicts)
    ]
    if sum(shown[0].base not in NO_CARE for shown in senses) > _MOST:
        return [Told(shown[0], shown[0].share) for shown in senses]
    paths = [_Path((1.0,) * len(_ORDERS), frozenset(), (0,) * len(_ORDERS), ())]
    for number, shown in enumerate(senses):
        stranger = _STRANGER if number in placed else 1.0
        paths = sorted(_further(paths, shown, stranger), key=lambda path: -path.weight)[:_BEAM]
        whole = sum(path.weight for path in paths)
        paths = [
            path._replace(weights=tuple(one / whole for one in path.weights)) for path in paths
        ]
    paths = _whole(paths)
    return [_told(shown, at, paths) for at, shown in enumerate(senses)]


def _whole(paths: Sequence[_Path]) -> list[_Path]:
    """``paths`` weighed by what they tell as a whole, the likeliest first."""
    weights = [
        _WET_ALONE if "wet" in path.told and "dry" not in path.told else 1.0 for path in paths
    ]
    whole = sum(path.weight * weight for path, weight in zip(paths, weights, strict=True))
    weighed = [
        path._replace(weights=tuple(one * weight / whole for one in path.weights))
        for path, weight in zip(paths, weights, strict=True)
    ]
    return sorted(weighed, key=lambda path: -path.weight)


def _told(shown: Sequence[Sense], at: int, paths: Sequence[_Path]) -> Told:
    """What the symbol at place ``at`` is in the likeliest path, with what all paths give it."""
    sense = shown[paths[0].taken[at]]
    alike = (path for path in paths if shown[path.taken[at]].meaning == sense.meaning)
    return Told(sense, min(1.0, sum(path.weight for path in alike)))


def _further(paths: Sequence[_Path], shown: Sequence[Sense], stranger: float) -> Iterable[_Path]:
    """Each of ``paths`` with each sense of the next symbol, which is worth ``stranger`` where it
    is none."""
    for path in paths:
        for at, sense in enumerate(shown):
            taken = (*path.taken, at)
            if sense.base in NO_CARE:
                share = sense.share * stranger
                weights = tuple(one * share for one in path.weights)
                yield path._replace(weights=weights, taken=taken)
                continue
            weight, subject, group = sense.share * _rarity(sense), *_place(sense)
            places = tuple(order.index(group) for order in _ORDERS)
            yield _Path(
                tuple(
                    one * weight
                    * (_BACKWARD if place < last else 1.0)
                    * (_AGAIN if subject in path.told else 1.0)
                    for one, place, last in zip(path.weights, places, path.last, strict=True)
                ),
                path.told | {subject},
                places,
                taken,
            )  # fmt: skip


def _rarity(sense: Sense) -> float:
    if sense.meaning != NAMELESS:
        return 1.0
    return {"square": _NO_DRYING, "tub": _NO_NUMBER}.get(sense.base, _NAMELESS)


def _place(sense: Sense) -> tuple[str, str]:
    """What a symbol tells of, which no other on the tag tells too, and its group."""
    if sense.base == "circle":
        subject = "wet" if any("wet" in process for process in sense.meaning) else "dry"
        return subject, subject
    if sense.base == "square":
        return ("shade" if sense.meaning == ("dry in shade",) else "square"), "dryer"
    return sense.base, sense.base


def _with_ring(senses: Sequence[Sense]) -> tuple[Sense, ...]:
    """``senses`` of a drawing that is seen with its frame: a dryer may be a ring in it."""
    return tuple(
        one
        for sense in senses
        for one in (
            (sense, _ring(sense))
            if sense.base == "dryer" and sense.meaning[0] in _OF_A_RING
            else (sense,)
        )
    )


def _without_ring(senses: Sequence[Sense]) -> tuple[Sense, ...]:
    """``senses`` of a drawing with four straight sides that are no frame: it is no ring."""
    weighed = [
        sense._replace(share=sense.share * (_STRAIGHT_RING if sense.base == "circle" else 1.0))
        for sense in senses
    ]
    whole = sum(sense.share for sense in weighed)
    shown = (sense._replace(share=sense.share / whole) for sense in weighed)
    return tuple(sorted(shown, key=lambda sense: -sense.share))


_OF_A_RING = {"tumble dry": "dry clean", "do not tumble dry": "do not dry clean"}


def _ring(sense: Sense) -> Sense:
    return Sense(
        "circle",
        (_OF_A_RING[sense.meaning[0]],),
        sense.share * _FRAMED_RING,
        sense.look._replace(kind="clean"),
    )
