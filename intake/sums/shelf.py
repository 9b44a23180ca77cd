"""The balls behind an allotment: which of them each garment takes, and what stays."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from intake.sums.allot import TRACE, Place
from intake.sums.ball import Ball
from intake.sums.garments import Unit
from intake.sums.piles import Pile, PiledLot, Yarn


@dataclass(frozen=True, slots=True)
class Take:
    """What a garment takes of one ball: ``share`` of what is left on it, 0 to 1, which is
    ``amount`` in the garment's unit.  ``is_whole`` tells that the ball was not begun.
    ``number`` tells it from others of its record that are in the same pile."""

    ball: Ball
    share: float
    amount: float
    is_whole: bool
    number: int

    @property
    def of(self) -> tuple[str, bool, int]:
        """What tells its ball from every other."""
        return self.ball.record.id, self.is_whole, self.number


class Shelf:
    """The stock, and how many balls each garment draws from each pile of it."""

    def __init__(self, stock: Sequence[Yarn], draws: Mapping[int, Mapping[Place, float]]) -> None:
        self.stock = stock
        self.draws = draws
        by_pile: defaultdict[Place, dict[int, float]] = defaultdict(dict)
        for garment, drawn in draws.items():
            for place, count in drawn.items():
                by_pile[place][garment] = count
        self._drawn = by_pile
        self._handed = {place: hand_out(drawn) for place, drawn in by_pile.items()}

    def lot(self, yarn: int, lot: int) -> PiledLot:
        """A lot of the stock."""
        return self.stock[yarn].lots[lot]

    def takes(self, garment: int, yarn: int, lot: int, unit: Unit) -> tuple[Take, ...]:
        """What a garment takes of the balls of a lot, part balls first."""
        return tuple(
            Take(pile.balls[at], share, share * pile.amounts[unit], pile.whole, at)
            for number, pile in enumerate(self.lot(yarn, lot).piles)
            for at, share in self._handed.get(Place(yarn, lot, number), {}).get(garment, ())
        )

    def left(self, yarn: int, lot: int, unit: Unit) -> float:
        """What stays in a lot when all garments have taken theirs."""
        return sum(
            self._balls_left(Place(yarn, lot, number), pile) * pile.amounts.get(unit, 0.0)
            for number, pile in enumerate(self.lot(yarn, lot).piles)
        )

    def broken(self, yarn: int, lot: int) -> int:
        """How many whole balls of a lot are broken into: a part of them stays."""
        return sum(
            self._balls_left(Place(yarn, lot, number), pile) % 1 > 0
            for number, pile in enumerate(self.lot(yarn, lot).piles)
            if pile.whole
        )

    def _balls_left(self, place: Place, pile: Pile) -> float:
        left = len(pile.balls) - sum(self._drawn.get(place, {}).values())
        return float(round(left)) if abs(left - round(left)) < TRACE else left


def hand_out(drawn: Mapping[int, float]) -> dict[int, list[tuple[int, float]]]:
    """Balls of one pile for the garments that draw on it, as (number of the ball, share).

    ``drawn`` is how many balls each takes.  Each gets its whole balls first; the rests are
    then cut from further balls, one behind the other, so that no ball more is broken into
    than must be.
    """
    handed: dict[int, list[tuple[int, float]]] = {}
    rests = {}
    given = 0
    for garment, count in drawn.items():
        wholes = int(count + TRACE)
        handed[garment] = [(given + at, 1.0) for at in range(wholes)]
        given += wholes
        rests[garment] = count - wholes
    start = float(given)
    for garment, rest in rests.items():
        if rest > TRACE:
            handed[garment] += _slices(start, start + rest)
            start += rest
    return handed


def _slices(start: float, end: float) -> list[tuple[int, float]]:
    """The balls that lie between two places along the pile, counted in balls."""
    at = int(start + TRACE)
    slices = []
    while end - at > TRACE:
        slices.append((at, min(end, at + 1.0) - max(start, float(at))))
        at += 1
    return slices
