"""What a garment needs of which yarn, and the plan file that lists several."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from intake.errors import BadAmount, BadTable
from intake.hand_table import HandTable, bad_line
from intake.sums.find import Query
from intake.wording import number_text


class Unit(StrEnum):
    """What a need is counted in."""

    METRES = "m"
    GRAMS = "g"
    BALLS = "balls"

    def figure(self, amount: float) -> str:
        """``amount`` as it is told: whole metres and grams, tenths of balls."""
        return number_text(round(amount, 1 if self is Unit.BALLS else 0))

    def told(self, amount: float) -> str:
        """``amount`` with its unit."""
        figure = self.figure(amount)
        return f"{figure} {'ball' if self is Unit.BALLS and figure == '1' else self}"


MARGIN_PCT: Mapping[Unit, float] = {Unit.METRES: 10.0, Unit.GRAMS: 10.0, Unit.BALLS: 0.0}
"""What is put by for swatches, another hand and short winding where nothing else is said;
a pattern that counts balls has rounded up already.  Common practice, no source."""

MOST_MARGIN_PCT = 100.0
PLAN_COLUMNS = ("garment", "need", "unit", "margin", "words", "shade", "maker", "class", "fibre")
"""Columns of a plan.  ``garment`` and ``need`` must be there; their order is free."""

_PLAN = HandTable("plan", PLAN_COLUMNS, needed=("garment", "need"))


@dataclass(frozen=True, slots=True)
class Garment:
    """``need`` in ``unit``, and ``margin_pct`` percent on top, of a yarn that ``wanted``
    means.  Raises :class:`~intake.errors.BadAmount` for figures that cannot be."""

    name: str
    need: float
    unit: Unit
    wanted: Query
    margin_pct: float

    def __post_init__(self) -> None:
        if not 0 < self.need < math.inf:
            raise BadAmount(f"no garment needs {self.need:g} {self.unit}; give a number above 0")
        if not 0 <= self.margin_pct <= MOST_MARGIN_PCT:
            raise BadAmount(
                f"a margin of {self.margin_pct:g} % cannot be; give 0 to {MOST_MARGIN_PCT:g}"
            )

    @property
    def amount(self) -> float:
        """The need with its margin."""
        return self.need * (1 + self.margin_pct / 100)


def garment(
    name: str, need: float, unit: str, wanted: Query, margin_pct: float | None = None
) -> Garment:
    """A garment; ``margin_pct`` is the unit's :data:`MARGIN_PCT` unless it is given.
    Raises :class:`~intake.errors.BadAmount`."""
    try:
        counted_in = Unit(unit.strip().lower() or Unit.METRES)
    except ValueError:
        raise BadAmount(f"{unit!r} is no unit; give one of {', '.join(Unit)}") from None
    margin = MARGIN_PCT[counted_in] if margin_pct is None else margin_pct
    return Garment(name, need, counted_in, wanted, margin)


def read_plan(path: Path) -> list[Garment]:
    """The garments of a plan, a table of :data:`PLAN_COLUMNS`.  Raises
    :class:`~intake.errors.BadTable`."""
    garments: dict[str, Garment] = {}
    for number, cells in _PLAN.read(path):
        try:
            one = _garment(cells)
            if one.name in garments:
                raise BadAmount(f"{one.name!r} stands twice; give each garment its own name")
        except BadAmount as error:
            raise bad_line(path, number, error) from error
        garments[one.name] = one
    if not garments:
        raise BadTable(f"{path} lists no garment; write a line for each under the first line")
    return list(garments.values())


def _garment(cells: Mapping[str, str]) -> Garment:
    margin = cells.get("margin", "")
    if not cells["garment"]:
        raise BadAmount("the garment is empty; give it a name")
    return garment(
        cells["garment"],
        _number(cells["need"], "need"),
        cells.get("unit", ""),
        Query(
            words=tuple(cells.get("words", "").split()),
            shade=cells.get("shade", ""),
            maker=cells.get("maker", ""),
            weight_class=cells.get("class", ""),
            fibre=cells.get("fibre", ""),
        ),
        _number(margin, "margin") if margin else None,
    )


def _number(text: str, column: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise BadAmount(
            f"{text!r} is no number for {column}; write digits with a point, such as 1200"
        ) from None
