"""What a reader and a line finder are: two small interfaces, one file an engine."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from intake.records import Reading

Image = npt.NDArray[np.uint8]
"""A picture: height x width x 3, RGB, 0 to 255."""

Quads = npt.NDArray[np.float32]
"""Boxes of text: N x 4 x 2, corners in pixels from the top left, as the text runs."""


class LineFinder(ABC):
    """Finds where lines of print stand in a picture."""

    @abstractmethod
    def find_lines(self, image: Image, longest_side_px: int | None = None) -> Quads:
        """Boxes of the lines in ``image``, N x 4 x 2; N is 0 where there is no print.

        A larger picture is looked at in a copy whose longer side is ``longest_side_px``, which
        takes less time, or by default as large as is of use.
        """


class Reader(ABC):
    """Reads pictures that hold one straightened line of print each."""

    name: str

    @abstractmethod
    def read(self, lines: Sequence[Image]) -> list[Reading]:
        """One reading a line, in the same order; an empty reading where it saw nothing."""
