"""The stash as a garment draws on it: yarns, their lots, and piles of balls that are alike."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from intake.sums.ball import Ball
from intake.sums.garments import Unit
from intake.sums.lots import Lot, ShadeName


@dataclass(frozen=True, slots=True)
class Pile:
    """Balls of one lot that have the same left on them, one by one.

    ``amounts`` is what each ball has left, in the units in which that is known;
    ``whole`` tells that the balls are not begun yet.
    """

    balls: tuple[Ball, ...]
    whole: bool
    amounts: Mapping[Unit, float]

    def total(self, unit: Unit) -> float:
        """What the pile holds; 0 where it cannot be counted in ``unit``."""
        return len(self.balls) * self.amounts.get(unit, 0.0)


@dataclass(frozen=True, slots=True)
class PiledLot:
    """A lot in piles, part balls first."""

    lot: Lot
    piles: tuple[Pile, ...]

    def total(self, unit: Unit) -> float:
        """What the lot holds, as far as it can be counted in ``unit``."""
        return sum(pile.total(unit) for pile in self.piles)


@dataclass(frozen=True, slots=True)
class Yarn:
    """One shade of one maker's range, in one weight class; a garment is of one yarn."""

    name: ShadeName
    weight_class: str
    lots: tuple[PiledLot, ...]

    def total(self, unit: Unit) -> float:
        """What all lots hold, as far as it can be counted in ``unit``."""
        return sum(lot.total(unit) for lot in self.lots)


def yarns(lots: Iterable[Lot]) -> list[Yarn]:
    """The yarns that ``lots`` are of.

    Tags of one shade that name two weight classes are of two yarns, for a maker may spin
    one range in several.  Balls whose lot is not known are a lot each, though they share a
    tag: nothing says that they match.
    """
    by_shade: defaultdict[ShadeName, list[Lot]] = defaultdict(list)
    for lot in lots:
        by_shade[lot.name] += [lot] if lot.lot else _one_by_one(lot)
    return [
        Yarn(name, weight_class, tuple(PiledLot(lot, piles(lot.balls)) for lot in of_class))
        for name, of_shade in by_shade.items()
        for weight_class, of_class in _by_class(of_shade)
    ]


def piles(balls: Iterable[Ball]) -> tuple[Pile, ...]:
    """The balls of one lot in piles, part balls first, the smaller first."""
    alike: defaultdict[tuple[bool, tuple[tuple[Unit, float], ...]], list[Ball]] = defaultdict(list)
    for one in (one for ball in balls for one in ball.each()):
        alike[is_whole(one), tuple(amounts_left(one).items())].append(one)
    return tuple(
        Pile(tuple(alike[whole, amounts]), whole, dict(amounts)) for whole, amounts in sorted(alike)
    )


def _one_by_one(lot: Lot) -> list[Lot]:
    return [replace(lot, balls=(one,)) for ball in lot.balls for one in ball.each()]


def is_whole(ball: Ball) -> bool:
    """Whether a single ball is not begun: never weighed, or weighed as no less than whole."""
    last = ball.weighing
    if last is None:
        return True
    return ball.mass_g is not None and last.mass_g + last.mass_uncertainty_g >= ball.mass_g


def amounts_left(ball: Ball) -> dict[Unit, float]:
    """What is surely left of a single ball in each unit in which that is known.

    A weighed ball counts at the lower end of its uncertainty, a ball that was not weighed
    as its tag or the maker sheet has it.  A part ball is a share of a ball by its grams.
    """
    left = {
        Unit.METRES: _lower_end_m(ball),
        Unit.GRAMS: _lower_end_g(ball),
        Unit.BALLS: _lower_end_balls(ball),
    }
    return {unit: amount for unit, amount in left.items() if amount is not None}


def _lower_end_m(ball: Ball) -> float | None:
    last = ball.weighing
    return ball.length_m if last is None else max(0.0, last.length_m - last.length_uncertainty_m)


def _lower_end_g(ball: Ball) -> float | None:
    last = ball.weighing
    return ball.mass_g if last is None else max(0.0, last.mass_g - last.mass_uncertainty_g)


def _lower_end_balls(ball: Ball) -> float | None:
    left_g = _lower_end_g(ball)
    if ball.weighing is None:
        return 1.0
    return min(1.0, left_g / ball.mass_g) if left_g is not None and ball.mass_g else None


def _by_class(lots: Sequence[Lot]) -> Iterator[tuple[str, list[Lot]]]:
    """Weight classes with their lots; a tag without one goes with the only one there is."""
    classes = sorted({ball.text("weight_class") for lot in lots for ball in lot.balls})
    if len(classes) == 1 or (len(classes) == 2 and "" in classes):
        yield classes[-1], list(lots)
        return
    for weight_class in classes:
        yield weight_class, [part for lot in lots if (part := _only_class(lot, weight_class)).balls]


def _only_class(lot: Lot, weight_class: str) -> Lot:
    balls = (ball for ball in lot.balls if ball.text("weight_class") == weight_class)
    return replace(lot, balls=tuple(balls))
