"""Care symbols of an icon package that is not ours, read as a tag's symbols are.

Outside check: the laundry icons of @tabler/icons, whose names say what they mean.  A tub,
an iron or a square without its mark has no process of its own; a "gentle" or "press" tub has
bars but no temperature.  Icons of what is no care symbol of the standards (a washing machine,
an economy programme, steam) are left out.
"""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from intake.records import State, Symbol
from intake.symbols.read import read_symbols
from tests.icon_package import Box, drawings, fetched, rows_of_icons

MEANINGS: dict[str, tuple[str, ...]] = {
    "wash": (),
    "wash-temperature-1": ("machine wash 30",),
    "wash-temperature-2": ("machine wash 40",),
    "wash-temperature-3": (),
    "wash-temperature-4": ("machine wash 60",),
    "wash-temperature-5": (),
    "wash-temperature-6": ("machine wash 95",),
    "wash-gentle": (),
    "wash-press": (),
    "wash-hand": ("hand wash",),
    "wash-off": ("do not wash",),
    "bleach": ("any bleach",),
    "bleach-chlorine": ("any bleach",),
    "bleach-no-chlorine": ("oxygen bleach only",),
    "bleach-off": ("do not bleach",),
    "wash-tumble-dry": ("tumble dry",),
    "wash-dry-1": ("tumble dry low",),
    "wash-dry-2": ("tumble dry",),
    "wash-dry-3": ("tumble dry",),
    "wash-tumble-off": ("do not tumble dry",),
    "wash-dry": (),
    "wash-dry-off": (),
    "wash-dry-hang": ("line dry",),
    "wash-dry-dip": ("drip line dry",),
    "wash-dry-flat": ("dry flat",),
    "wash-dry-shade": ("dry in shade",),
    "ironing": (),
    "ironing-1": ("iron low",),
    "ironing-2": ("iron medium",),
    "ironing-3": ("iron high",),
    "ironing-off": ("do not iron",),
    "wash-dryclean": ("dry clean",),
    "wash-dry-p": ("dry clean",),
    "wash-dry-f": ("dry clean",),
    "wash-dry-a": ("dry clean",),
    "wash-dry-w": ("wet clean",),
    "wash-dryclean-off": ("do not dry clean",),
}

READ_RIGHT = 0.9
"""Share of the icons that must be read right at each size."""


@pytest.mark.parametrize(
    "side_px",
    [pytest.param(32, marks=pytest.mark.slow), 64, pytest.param(96, marks=pytest.mark.slow)],
)
def test_most_icons_of_another_hand_are_read_right(side_px: int, cache: pytest.Cache) -> None:
    svgs = drawings(fetched(cache.mkdir("icons")), list(MEANINGS))
    image, squares = rows_of_icons(list(svgs.values()), side_px)
    symbols = read_symbols(image, ())
    read = dict(zip(MEANINGS, (in_square(symbols, square) for square in squares), strict=True))
    wrong = {name: read[name] for name, meant in MEANINGS.items() if read[name] != meant}
    right = len(MEANINGS) - len(wrong)
    print(f"{side_px} px: {right} of {len(MEANINGS)} icons read right; otherwise: {wrong}")
    assert right >= READ_RIGHT * len(MEANINGS)
    assert not [one for one in symbols if one.state is State.SURE and not is_right(one, squares)]


def in_square(symbols: Sequence[Symbol], square: Box) -> tuple[str, ...] | None:
    """The processes of the symbol in ``square``; ``None`` where none was found."""
    return next((one.processes for one in symbols if stands_in(one, square)), None)


def stands_in(symbol: Symbol, square: Box) -> bool:
    left, top, right, bottom = square
    x, y = (sum(corner[axis] for corner in symbol.quad) / 4 for axis in (0, 1))
    return left < x < right and top < y < bottom


def is_right(symbol: Symbol, squares: Sequence[Box]) -> bool:
    meanings = zip(MEANINGS.values(), squares, strict=True)
    return any(symbol.processes == meant for meant, square in meanings if stands_in(symbol, square))
