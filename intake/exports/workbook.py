"""The sheets that a stash makes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from intake.collector import paused_collector
from intake.exports.book import Sheet
from intake.exports.records_sheet import records_sheet
from intake.exports.totals_sheets import lots_sheet, shades_sheet, short_lots_sheet
from intake.sums.ball import Ball
from intake.sums.lots import shades

GARMENT_M = 1200.0
"""Metres in a garment unless the user says otherwise: a plain jumper for an adult in yarn
of medium weight takes about as much (common practice, no source)."""


@paused_collector()
def stash_sheets(
    balls: Sequence[Ball],
    as_of: str,
    picture: Callable[[str], Path] | None,
    garment_m: float = GARMENT_M,
) -> list[Sheet]:
    """Records first, as they were after stroke ``as_of``, then shades, lots, and lots with
    less than ``garment_m`` metres.  ``picture`` gives the path of a record's tag picture;
    without it the sheets have none."""
    every_shade = shades(balls)
    every_lot = [lot for shade in every_shade for lot in shade.lots]
    return [
        records_sheet(balls, as_of, picture),
        shades_sheet(every_shade),
        lots_sheet(every_lot),
        short_lots_sheet(every_lot, garment_m),
    ]
