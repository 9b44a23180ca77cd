"""Symbols on the half of a folded tag that stands on its head where it is spread out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from intake.reading.base import Reader
from intake.reading.turn import stands_on_its_head
from intake.records import Line, Quad, State, Symbol, SymbolKind
from intake.symbols.patch import Pixels
from intake.symbols.read import read_symbols


def read_both_ways(
    image: Pixels, lines: Sequence[Line], reader: Reader | None = None
) -> tuple[Symbol, ...]:
    """The symbols on ``image`` as :func:`read_symbols` gives them; where some of its ``lines`` are
    turned by half a turn, the care symbols that are read surely that way instead, if these are
    more."""
    symbols = read_symbols(image, lines, reader)
    if not any(stands_on_its_head(np.array(line.quad, np.float32)) for line in lines):
        return symbols
    height_px, width_px = image.shape[:2]

    def turned(quad: Quad) -> Quad:
        a, b, c, d = ((width_px - x, height_px - y) for x, y in quad)
        return a, b, c, d

    other_lines = [replace(line, quad=turned(line.quad)) for line in lines]
    others = read_symbols(np.ascontiguousarray(image[::-1, ::-1]), other_lines, reader)
    care = [replace(one, quad=turned(one.quad)) for one in others if _is_care(one)]
    if _sure(care) <= _sure(symbols):
        return symbols
    return (*care, *(one for one in symbols if not _is_care(one)))


def _is_care(one: Symbol) -> bool:
    return one.kind is SymbolKind.CARE


def _sure(symbols: Sequence[Symbol]) -> int:
    return sum(_is_care(one) and one.state is State.SURE for one in symbols)
