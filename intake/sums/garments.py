"""What a garment needs of which yarn, and the plan file that lists several."""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import TextIO

from intake.errors import BadAmount, BadPlan
from intake.sums.find import Query


class Unit(StrEnum):
    """What a need is counted in."""

    METRES = "m"
    GRAMS = "g"
    BALLS = "balls"


MARGIN_PCT: Mapping[Unit, float] = {Unit.METRES: 10.0, Unit.GRAMS: 10.0, Unit.BALLS: 0.0}
"""What is put by for swatches, another hand and short winding where nothing else is said;
a pattern that counts balls has rounded up already.  Common practice, no source."""

MOST_MARGIN_PCT = 100.0
PLAN_COLUMNS = ("garment", "need", "unit", "margin", "words", "shade", "maker", "class", "fibre")
"""Columns of a plan.  ``garment`` and ``need`` must be there; their order is free."""


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
    """The garments of a plan: a CSV file in UTF-8 whose first line names
    :data:`PLAN_COLUMNS`.  Raises :class:`~intake.errors.BadPlan`."""
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            garments = _garments(path, file)
    except UnicodeDecodeError as error:
        raise BadPlan(f"{path} is not in UTF-8; save the plan as UTF-8 CSV") from error
    except OSError as error:
        why = error.strerror or error
        raise BadPlan(f"the plan {path} cannot be read: {why}; check the path") from error
    if not garments:
        raise BadPlan(f"{path} lists no garment; write a line for each under the first line")
    return list(garments.values())


def _garments(path: Path, file: TextIO) -> dict[str, Garment]:
    """The garments by their names."""
    garments: dict[str, Garment] = {}
    rows = csv.reader(file, strict=True)
    try:
        columns = _header(next(rows, []))
        for cells in rows:
            if any(cell.strip() for cell in cells):
                one = _garment(_by_column(columns, cells))
                if one.name in garments:
                    raise BadAmount(f"{one.name!r} stands twice; give each garment its own name")
                garments[one.name] = one
    except (BadAmount, csv.Error) as error:
        raise BadPlan(f"{path}, line {max(rows.line_num, 1)}: {error}") from error
    return garments


def _header(cells: Sequence[str]) -> list[str]:
    columns = [cell.strip().lower() for cell in cells]
    wrong = [column for column in columns if column not in PLAN_COLUMNS]
    wrong += [column for column in PLAN_COLUMNS if columns.count(column) > 1]
    wrong += [column for column in ("garment", "need") if column not in columns]
    if wrong:
        raise BadAmount(
            f"{wrong[0]!r} is no column, stands twice or is missing; write a first line with "
            f"garment, need and any of {', '.join(PLAN_COLUMNS[2:])}, parted by commas"
        )
    return columns


def _by_column(columns: Sequence[str], cells: Sequence[str]) -> dict[str, str]:
    if len(cells) != len(columns):
        raise BadAmount(
            f"{len(cells)} cells where the first line has {len(columns)}; "
            "put a text that holds a comma in double quotes"
        )
    return {column: cell.strip() for column, cell in zip(columns, cells, strict=True)}


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
