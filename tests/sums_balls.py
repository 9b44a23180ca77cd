"""Invented balls for the tests of the sums: the cupboard of a knitting circle in Quillstow.

Makers, ranges and shades are made up.
"""

from __future__ import annotations

import hashlib
from dataclasses import replace
from itertools import count

from filing_tags import record

from intake.sums.ball import Ball, Weighing
from intake.sums.maker_sheet import MakerSheet

_numbers = count(1)


def ball(
    length_m: float | None = 210.0,
    mass_g: float | None = 50.0,
    weighing: Weighing | None = None,
    sheet: MakerSheet | None = None,
    **texts: str,
) -> Ball:
    """A ball of Quillstow Spinners' Sluicegate in Kelp 041, lot 0012, unless ``texts`` say
    otherwise; each with an id of its own."""
    number = hashlib.sha256(str(next(_numbers)).encode()).hexdigest()[:15]
    row = replace(record(**{"id": f"t{number}", **texts}), length_m=length_m, mass_g=mass_g)
    return Ball(row, sheet.assumed(row) if sheet else {}, weighing)


def weighed(mass_g: float, length_m: float) -> Weighing:
    """A weighing that left so much."""
    return Weighing("2025-04-01T09:00:00Z", mass_g, 1.0, length_m, 5.0)
