"""Figures that carry their plus-minus, after the GUM (JCGM 100:2008).

The package ``uncertainties`` propagates to first order, in quadrature (GUM 5.1.2), and
remembers which source each part of a result's uncertainty came from.  A figure without any
is a plain float.
"""

from __future__ import annotations

import math
from typing import Any

from uncertainties import ufloat

Figure = Any
"""A float, or a figure of ``uncertainties``; that package has no type hints."""

COVERAGE_FACTOR = 2.0
"""Standard uncertainties times this make a plus-minus: about 95 times in 100 the true figure
lies within it (GUM 6.3.3)."""


def within(middle: float, half_width: float, source: str) -> Figure:
    """A figure that is equally likely anywhere from ``middle - half_width`` to ``middle +
    half_width`` (GUM 4.3.7); ``source`` names the plus-minus in :func:`shares`."""
    return ufloat(middle, half_width / math.sqrt(3), tag=source) if half_width else middle


def twice_rounded(middle: float, step: float, source: str) -> Figure:
    """The difference of two readings that were each rounded to ``step``: triangular, one step
    to either side (GUM 4.3.9)."""
    return ufloat(middle, step / math.sqrt(6), tag=source)


def shares(figure: Figure) -> dict[str, float]:
    """The standard uncertainty that each source brings to ``figure``, in its unit."""
    squares: dict[str, float] = {}
    for variable, part in figure.error_components().items():
        squares[variable.tag] = squares.get(variable.tag, 0.0) + part**2
    return {source: math.sqrt(square) for source, square in squares.items()}
