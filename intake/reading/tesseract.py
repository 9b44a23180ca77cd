"""The second reader: the program Tesseract through pytesseract.

Tesseract is started once for all lines of a tag: pytesseract takes a list of pictures
and numbers the answers as pages.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np
import pytesseract

from intake.errors import MissingProgram
from intake.reading.base import Image, Reader
from intake.reading.tesseract_data import HOW_TO_INSTALL, language_sets
from intake.records import Letter, Reading

CODE_SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-/."


@dataclass(frozen=True, slots=True)
class Manner:
    """How a line is shown to Tesseract: scaled to ``height_px`` (it reads capitals of 20 to
    40 pixels best, measured on drawn tags), blurred by ``blur_px`` so that dots run together,
    in two tones, and only with ``signs`` allowed where they are given."""

    height_px: int = 48
    blur_px: float = 0.0
    two_tone: bool = False
    signs: str = ""


CODE_MANNERS = (
    Manner(72, blur_px=3.5, two_tone=True, signs=CODE_SIGNS),
    Manner(72, two_tone=True, signs=CODE_SIGNS),
    Manner(28, signs=CODE_SIGNS),
)
"""Manners of showing a code once more.  Of 17 lots and codes on drawn tags that the readers
still saw unlike they brought 7 to agreement, all of them right, and none of the 3 that the
first reader had wrong."""

_MARGIN_PX = 12
_DPI = 300


class TesseractReader(Reader):
    """Tesseract in its one-line mode, with one of :func:`language_sets`, shown in a manner.

    Raises :class:`MissingProgram` where the program or all its language data are missing.
    """

    name = "tesseract"

    def __init__(self, languages: str | None = None, manner: Manner = Manner()) -> None:
        if not language_sets():
            raise MissingProgram(HOW_TO_INSTALL)
        self._languages = languages or language_sets()[0]
        self._manner = manner
        # One core a worker: Tesseract's own threads cost more than they bring.
        os.environ.setdefault("OMP_THREAD_LIMIT", "1")

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
            words = pytesseract.image_to_data(
                str(listing),
                lang=self._languages,
                config=self._config(),
                output_type=pytesseract.Output.DICT,
            )
        return [Reading(self.name, letters) for letters in _letters_by_page(words, len(lines))]

    def _config(self) -> str:
        signs = self._manner.signs
        allowed = f" -c tessedit_char_whitelist={signs}" if signs else ""
        return f"--psm 7 --dpi {_DPI}{allowed}"

    def _save(self, line: Image, folder: Path, number: int) -> Path:
        path = folder / f"{number:04d}.png"
        cv2.imwrite(str(path), _prepared(line, self._manner))
        return path


def _prepared(line: Image, manner: Manner) -> Image:
    """Dark print on light ground, of one height, with a margin."""
    grey = cv2.cvtColor(line, cv2.COLOR_RGB2GRAY)
    scale = manner.height_px / grey.shape[0]
    width_px = max(8, round(grey.shape[1] * scale))
    kind = cv2.INTER_AREA if scale < 1 else cv2.INTER_CUBIC
    grey = cv2.resize(grey, (width_px, manner.height_px), interpolation=kind)
    if _is_light_on_dark(grey.astype(np.uint8)):
        grey = 255 - grey
    lit = _evenly_lit(grey.astype(np.uint8))
    if manner.blur_px:
        lit = cv2.GaussianBlur(lit, (0, 0), manner.blur_px).astype(np.uint8)
    if manner.two_tone:
        _, tones = cv2.threshold(lit, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
        lit = tones.astype(np.uint8)
    return np.pad(lit, _MARGIN_PX, constant_values=255)


def _evenly_lit(grey: Image) -> Image:
    """The print on white ground whatever shadow lies over it: the ground's brightness is
    that of the surroundings with all strokes closed."""
    height_px = grey.shape[0]
    window = cv2.getStructuringElement(cv2.MORPH_RECT, (height_px, height_px))
    ground = cv2.blur(cv2.morphologyEx(grey, cv2.MORPH_CLOSE, window), (height_px, height_px))
    share = grey.astype(np.float32) / np.maximum(ground, 1)
    low = float(np.percentile(share, 1))
    stretched = (share - low) * (255 / max(0.05, 0.97 - low))
    return np.clip(stretched, 0, 255).astype(np.uint8)


def _is_light_on_dark(grey: Image) -> bool:
    """Print covers less of a line than its ground: the ground is the commoner of the two."""
    level, _ = cv2.threshold(grey, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    return bool(np.mean(grey > level) < 0.5)


def _letters_by_page(words: dict[str, list[object]], pages: int) -> list[tuple[Letter, ...]]:
    """Tesseract's words as letters, a list a page; a word's score holds for its letters."""
    found: list[list[Letter]] = [[] for _ in range(pages)]
    widths = dict.fromkeys(range(pages), 1)
    rows = zip(
        words["page_num"], words["level"], words["left"], words["width"], words["conf"],
        words["text"], strict=True,
    )  # fmt: skip
    for page_num, level, left, width, conf, text in rows:
        page = int(str(page_num)) - 1
        if int(str(level)) == 1:
            widths[page] = max(1, int(str(width)) - 2 * _MARGIN_PX)
            continue
        word = str(text).strip()
        if float(str(conf)) < 0 or not word:
            continue
        start = (int(str(left)) - _MARGIN_PX) / widths[page]
        step = int(str(width)) / widths[page] / len(word)
        letters = found[page]
        if letters:
            letters.append(Letter(" ", 1.0, letters[-1].right, max(start, letters[-1].right)))
        letters += [
            Letter(sign, float(str(conf)) / 100, start + step * at, start + step * (at + 1))
            for at, sign in enumerate(word)
        ]
    return [tuple(letters) for letters in found]
