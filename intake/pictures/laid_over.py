"""One kept picture of a tag laid over another, by the print that both show."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from intake.pictures.keep import kept_pixels
from intake.pictures.load import Image

Floats = npt.NDArray[np.float32]
Doubles = npt.NDArray[np.float64]

_COMPARED_SIDE_PX = 900.0
_LONGEST_SIDE_PX = 1600
_LIGHT_SIGMA_PX = 20.0
_FAINTEST = 3.0

_MARKS = 3000
_UNLIKE_THE_NEXT = 0.8
_FEWEST_MATCHES = 25
_WITHIN_PX = 3.0


@dataclass(frozen=True, slots=True)
class Overlay:
    """Two pictures of the same print.

    ``print`` and ``other_print`` are evened out (mean 0, deviation about 1, whatever the
    light), the other one moved to lie on the first by ``matrix`` (3 by 3, from the other's
    pixels to the first's); ``seen`` tells where both show something.
    """

    image: Image
    other_image: Image
    print: Floats
    other_print: Floats
    matrix: Doubles
    seen: npt.NDArray[np.bool_]


def laid_over(one_jpeg: bytes, other_jpeg: bytes) -> Overlay | None:
    """The second picture laid over the first; ``None`` where their print does not match.
    ``ValueError`` where either is no picture."""
    image, other_image = _picture(one_jpeg), _picture(other_jpeg)
    one, other = _evened(image), _evened(other_image)
    matrix = _matching(one, other)
    if matrix is None:
        return None
    size = (one.shape[1], one.shape[0])
    moved = cv2.warpPerspective(other, matrix, size, flags=cv2.INTER_CUBIC)
    seen = cv2.warpPerspective(np.ones_like(other), matrix, size) > 0.99
    return Overlay(image, other_image, one, np.asarray(moved, np.float32), matrix, seen)


def _picture(jpeg: bytes) -> Image:
    """The picture in colour, all tags at about the same area."""
    picture = kept_pixels(jpeg, "RGB")
    height, width = picture.shape[:2]
    scale = min(_LONGEST_SIDE_PX / max(height, width), _COMPARED_SIDE_PX / (height * width) ** 0.5)
    method = cv2.INTER_AREA if scale < 1 else cv2.INTER_CUBIC
    resized = cv2.resize(picture, None, fx=scale, fy=scale, interpolation=method)
    return np.asarray(resized, np.uint8)


def _evened(image: Image) -> Floats:
    """Brightness without the light's slope, shadow and strength."""
    grey = cv2.cvtColor(image, cv2.COLOR_RGB2GRAY).astype(np.float32)
    detail = grey - cv2.GaussianBlur(grey, (0, 0), _LIGHT_SIGMA_PX)
    strength = np.sqrt(cv2.GaussianBlur(detail * detail, (0, 0), _LIGHT_SIGMA_PX))
    return np.asarray(detail / (strength + _FAINTEST), np.float32)


def _matching(one: Floats, other: Floats) -> Doubles | None:
    finder = cv2.SIFT.create(_MARKS, contrastThreshold=0.03)
    points, marks = finder.detectAndCompute(_as_bytes(one), None)
    other_points, other_marks = finder.detectAndCompute(_as_bytes(other), None)
    if min(len(points), len(other_points)) < _FEWEST_MATCHES:
        return None
    nearest = cv2.BFMatcher().knnMatch(other_marks, marks, k=2)
    # Letters come many times; only what is like one place alone tells where it belongs.
    sure = [best for best, second in nearest if best.distance < _UNLIKE_THE_NEXT * second.distance]
    if len(sure) < _FEWEST_MATCHES:
        return None
    source = np.array([other_points[match.queryIdx].pt for match in sure], np.float32)
    target = np.array([points[match.trainIdx].pt for match in sure], np.float32)
    matrix, agreeing = cv2.findHomography(
        source, target, cv2.USAC_MAGSAC, _WITHIN_PX, maxIters=5000, confidence=0.999
    )
    if matrix is None or int(np.sum(agreeing)) < _FEWEST_MATCHES:
        return None
    return np.asarray(matrix, np.float64)


def _as_bytes(evened: Floats) -> npt.NDArray[np.uint8]:
    return np.clip(evened * 40 + 128, 0, 255).astype(np.uint8)
