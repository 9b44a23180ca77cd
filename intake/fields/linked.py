"""A caption with what it announces."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from intake.fields.captions import Caption
from intake.fields.pieces import Piece

Fit = Callable[[Caption, Piece], float]
"""How well a piece would do as a caption's value, 0 to 1."""


@dataclass(frozen=True, slots=True)
class Link:
    """A caption with the piece that it announces; ``closeness`` from 0 to 1 tells how
    plainly: 1 behind it in the same line, less across boxes; ``doubt`` is what is asked of it."""

    caption: Caption
    piece: Piece
    closeness: float
    doubt: str = ""
