"""Tesseract within this process, through tesserocr: nothing is started and no picture written.

Its data are loaded once for each set of languages, whatever the manners they read in.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path
from threading import Lock

import tesserocr

from intake.reading.base import Image, Reader
from intake.reading.line_pictures import DPI, PLAIN, Grey, Manner, shown
from intake.reading.tesseract_words import letters_by_page
from intake.records import Letter, Reading
from intake.stages import stage

_ONE_AT_A_TIME = Lock()

_UNSURE = 0.6
"""A line with a mean score below this is read once more as it stands, without a look for
its letters' place: slices of the lines above and below lead that astray."""


class TesseractInside(Reader):
    """The library in its one-line mode, with the data for ``languages`` joined by ``+`` from
    ``folder``; lines are shown in ``manner``.

    The data are loaded when the first line is read; ``RuntimeError`` then where the library
    cannot use them, see :func:`loaded`.
    """

    name = "tesseract"

    def __init__(self, languages: str, folder: Path, manner: Manner = PLAIN) -> None:
        self._languages, self._folder = languages, folder
        self._manner = manner

    @stage("second reader")
    def read(self, lines: Sequence[Image]) -> list[Reading]:
        """See :meth:`Reader.read`."""
        if not lines:
            return []
        with _ONE_AT_A_TIME:
            engine = loaded(self._languages, self._folder)
            engine.SetVariable("tessedit_char_whitelist", self._manner.signs)
            return [self._read(engine, line) for line in lines]

    def _read(self, engine: tesserocr.PyTessBaseAPI, line: Image) -> Reading:
        picture = shown(line, self._manner)
        reading = Reading(self.name, _letters(engine, picture, tesserocr.PSM.SINGLE_LINE))
        if self._manner.signs or reading.confidence >= _UNSURE:
            return reading
        whole = Reading(self.name, _letters(engine, picture, tesserocr.PSM.RAW_LINE))
        return max(reading, whole, key=lambda one: one.confidence)


def _letters(engine: tesserocr.PyTessBaseAPI, picture: Grey, mode: int) -> tuple[Letter, ...]:
    height_px, width_px = picture.shape
    engine.SetPageSegMode(mode)
    engine.SetImageBytes(picture.tobytes(), width_px, height_px, 1, width_px)
    engine.SetSourceResolution(DPI)
    (letters,) = letters_by_page(engine.GetTSVText(0), 1)
    return letters


@cache
def loaded(languages: str, folder: Path) -> tesserocr.PyTessBaseAPI:
    """The library with the data for ``languages`` from ``folder``, loaded once;
    ``RuntimeError`` where it cannot use them."""
    engine = tesserocr.PyTessBaseAPI(path=str(folder), lang=languages)
    # A line whose picture shows slices of its neighbours would be taken for noise as a whole.
    engine.SetVariable("textord_noise_rejrows", "0")
    engine.SetVariable("tessedit_do_invert", "0")  # a line is shown dark on light already
    return engine
