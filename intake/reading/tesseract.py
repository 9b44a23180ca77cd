"""Tesseract as the program, through pytesseract.

It is started once for all lines of a tag: pytesseract takes a list of pictures and numbers
the answers as pages.
"""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from pathlib import Path

import cv2
import pytesseract

from intake.reading.base import Image, Reader
from intake.reading.line_pictures import DPI, PLAIN, Manner, shown
from intake.reading.tesseract_words import letters_by_page
from intake.records import Reading
from intake.stages import stage


class TesseractProgram(Reader):
    """The program in its one-line mode, with the data for ``languages`` joined by ``+``;
    lines are shown in ``manner``."""

    name = "tesseract"

    def __init__(self, languages: str, manner: Manner = PLAIN) -> None:
        self._languages = languages
        self._manner = manner

    @stage("second reader")
    def read(self, lines: Sequence[Image]) -> list[Reading]:
        """See :meth:`Reader.read`."""
        if not lines:
            return []
        with tempfile.TemporaryDirectory(prefix="balltag-") as folder:
            listing = Path(folder) / "lines.txt"
            listing.write_text(
                "".join(f"{self._save(line, Path(folder), n)}\n" for n, line in enumerate(lines)),
                encoding="utf-8",
            )
            table = pytesseract.image_to_data(
                str(listing), lang=self._languages, config=self._config()
            )
        return [Reading(self.name, letters) for letters in letters_by_page(table, len(lines))]

    def _config(self) -> str:
        signs = self._manner.signs
        allowed = f" -c tessedit_char_whitelist={signs}" if signs else ""
        return f"--psm 7 --dpi {DPI} -c tessedit_do_invert=0{allowed}"

    def _save(self, line: Image, folder: Path, number: int) -> Path:
        path = folder / f"{number:04d}.png"
        cv2.imwrite(str(path), shown(line, self._manner))
        return path
