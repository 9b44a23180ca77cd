"""What to buy where a garment is not covered, or not of one lot."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from intake.sums.garments import Garment, Unit
from intake.sums.lots import ShadeName
from intake.sums.piles import Yarn


@dataclass(frozen=True, slots=True)
class Purchase:
    """What to buy, in the garment's unit and in balls of the yarn's usual size, which is
    ``None`` where nobody knows it.

    ``short`` is what is missing even if all lots are mixed.  ``short_of_lot`` more of
    ``lot`` make the garment of one lot throughout; an empty ``lot`` stands for a new one.
    """

    name: ShadeName
    weight_class: str
    lot: str
    short: float
    balls: int | None
    short_of_lot: float
    balls_of_lot: int | None


def purchase(garment: Garment, yarn: Yarn, free: Iterable[tuple[str, float]]) -> Purchase:
    """What to buy so that ``garment`` can be made of ``yarn``.

    ``free`` has what the garment may have of each lot: the lot, empty where it is not
    known, and the amount in the garment's unit.
    """
    free = list(free)
    # Nobody can ask a shop for a lot that is not known.
    lot, of_lot = max(((lot, amount) for lot, amount in free if lot), key=_amount, default=("", 0))
    short = max(0.0, garment.amount - sum(amount for _, amount in free))
    short_of_lot = max(0.0, garment.amount - of_lot)
    size = ball_size(yarn, garment.unit)
    return Purchase(
        yarn.name,
        yarn.weight_class,
        lot,
        short,
        _balls(short, size),
        short_of_lot,
        _balls(short_of_lot, size),
    )


def ball_size(yarn: Yarn, unit: Unit) -> float | None:
    """What a whole ball of ``yarn`` holds; the least where its tags differ."""
    if unit is Unit.BALLS:
        return 1.0
    column = "length_m" if unit is Unit.METRES else "mass_g"
    sizes = [getattr(ball, column) for lot in yarn.lots for ball in lot.lot.balls]
    return min((size for size in sizes if size), default=None)


def _balls(amount: float, size: float | None) -> int | None:
    return None if size is None else math.ceil(round(amount / size, 9))


def _amount(one: tuple[str, float]) -> float:
    return one[1]
