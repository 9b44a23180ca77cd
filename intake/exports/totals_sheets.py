"""Sheets that count together: shades, lots, and lots that make no garment."""

from __future__ import annotations

from collections.abc import Iterable

from intake.exports.book import Cell, Column, Kind, Row, Sheet
from intake.sums.lots import Lot, Shade, ShadeName, Totals, short_lots
from intake.wording import number_text

_NAME_COLUMNS = (
    Column("maker", width=20),
    Column("range", width=20),
    Column("shade", width=20),
    Column("shade_code"),
)
_TOTALS_COLUMNS = (
    Column("balls", Kind.COUNT),
    Column("left_m", Kind.NUMBER),
    Column("left_g", Kind.NUMBER),
    Column("balls_of_unknown_m", Kind.COUNT, 20),
    Column("balls_of_unknown_g", Kind.COUNT, 20),
    Column("balls_with_assumed_m_or_g", Kind.COUNT, 26),
)
_LOT_COLUMNS = (*_NAME_COLUMNS, Column("lot"), *_TOTALS_COLUMNS)


def shades_sheet(shades: Iterable[Shade]) -> Sheet:
    """Balls, metres and grams of each shade, all its lots together."""
    columns = (*_NAME_COLUMNS, Column("lots", Kind.COUNT), *_TOTALS_COLUMNS)
    rows = tuple(
        _row((*_name_cells(shade.name), len(shade.lots)), shade.totals) for shade in shades
    )
    return Sheet("shades", columns, rows)


def lots_sheet(lots: Iterable[Lot]) -> Sheet:
    """Balls, metres and grams of each lot."""
    return Sheet("lots", _LOT_COLUMNS, tuple(_row(_lot_cells(lot), lot.totals) for lot in lots))


def short_lots_sheet(lots: Iterable[Lot], garment_m: float) -> Sheet:
    """The lots with less than the ``garment_m`` metres of a garment, and what they lack."""
    rows = []
    for lot in short_lots(lots, garment_m):
        row = _row(_lot_cells(lot), lot.totals)
        rows.append(Row((*row.cells, garment_m - lot.totals.left_m), row.assumed))
    columns = (*_LOT_COLUMNS, Column("lacking_m", Kind.NUMBER))
    return Sheet(f"lots under {number_text(garment_m)} m", columns, tuple(rows))


def _name_cells(name: ShadeName) -> tuple[Cell, ...]:
    return name.maker, name.range, name.shade, name.shade_code


def _lot_cells(lot: Lot) -> tuple[Cell, ...]:
    return *_name_cells(lot.name), lot.lot


def _row(names: tuple[Cell, ...], totals: Totals) -> Row:
    return Row(
        (
            *names,
            totals.balls,
            totals.left_m,
            totals.left_g,
            totals.unknown_m,
            totals.unknown_g,
            totals.assumed,
        ),
        frozenset({"left_m", "left_g"}) if totals.assumed else frozenset(),
    )
