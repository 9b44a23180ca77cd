"""How the picture of a line is shown to Tesseract."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from intake.reading.base import Image

Grey = npt.NDArray[np.uint8]
"""Brightness, height x width, 0 to 255."""

MARGIN_PX = 12
"""Width of the white margin around the line."""

DPI = 300
"""The resolution that Tesseract is told."""

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


PLAIN = Manner()

CODE_MANNERS = (
    Manner(72, blur_px=3.5, two_tone=True, signs=CODE_SIGNS),
    Manner(72, two_tone=True, signs=CODE_SIGNS),
    Manner(28, signs=CODE_SIGNS),
)
"""Manners of showing a code once more.  Of 17 lots and codes on drawn tags that the readers
still saw unlike they brought 7 to agreement, all of them right, and none of the 3 that the
first reader had wrong."""


def shown(line: Image, manner: Manner) -> Grey:
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
    return np.pad(lit, MARGIN_PX, constant_values=255)


def _evenly_lit(grey: Grey) -> Grey:
    """The print on white ground whatever shadow lies over it: the ground's brightness is
    that of the surroundings with all strokes closed."""
    height_px = grey.shape[0]
    window = cv2.getStructuringElement(cv2.MORPH_RECT, (height_px, height_px))
    ground = cv2.blur(cv2.morphologyEx(grey, cv2.MORPH_CLOSE, window), (height_px, height_px))
    share = grey.astype(np.float32) / np.maximum(ground, 1)
    low = float(np.percentile(share, 1))
    stretched = (share - low) * (255 / max(0.05, 0.97 - low))
    return np.clip(stretched, 0, 255).astype(np.uint8)


def _is_light_on_dark(grey: Grey) -> bool:
    """Print covers less of a line than its ground: the ground is the commoner of the two."""
    level, _ = cv2.threshold(grey, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    return bool(np.mean(grey > level) < 0.5)
