"""What is kept of a tag's picture, and how two kept pictures compare."""

from __future__ import annotations

import io
from typing import Literal

import cv2
import numpy as np
import numpy.typing as npt
import PIL.Image

from intake.pictures.load import Image

JPEG_QUALITY = 88
LONGEST_SIDE_PX = 1600

HASH_SIDE = 16
_HASH_SAMPLE_PX = 64

_COMPARED_SIDE_PX = 640
_FEATURES = 1500
_FEWEST_MATCHES = 15
_LEAST_COVERED = 0.5
_DETAIL_SIGMA_PX = 4.0
_LIGHT_SIGMA_PX = 15.0
_LIGHT_TOLERANCE = 0.015
"""Deviation of the logarithm of smoothed brightness, one picture against the other.  Copies
of one photograph stay below 0.01, photographs taken anew are mostly above 0.03."""

_SAME_DETAIL = 0.95
"""Correlation of fine detail that copies of one photograph reach even when one of them
was kept at half the size."""

SPOILT = (OSError, EOFError, SyntaxError, ValueError, PIL.Image.DecompressionBombError)
"""What Pillow raises where a kept picture was taken away or is none."""

Grey = npt.NDArray[np.float32]
Homography = npt.NDArray[np.float64]


def tag_jpeg(image: Image) -> bytes:
    """The picture as JPEG, its longer side at most 1600 px, without any metadata."""
    picture = PIL.Image.fromarray(image)
    picture.thumbnail((LONGEST_SIDE_PX, LONGEST_SIDE_PX), PIL.Image.Resampling.LANCZOS)
    data = io.BytesIO()
    picture.save(data, "JPEG", quality=JPEG_QUALITY, optimize=True)
    return data.getvalue()


def shape_of(jpeg: bytes) -> float:
    """The width of a kept picture as a multiple of its height; 0 where it is none."""
    try:
        with PIL.Image.open(io.BytesIO(jpeg), formats=("JPEG",)) as picture:
            return picture.width / picture.height
    except SPOILT:
        return 0.0


def kept_scale(image: Image) -> float:
    """How many pixels of the picture that :func:`tag_jpeg` keeps make one of ``image``'s:
    1, or less for a large tag."""
    longest_px: int = max(image.shape[:2])
    return min(1.0, LONGEST_SIDE_PX / longest_px)


def print_hash(image: Image) -> str:
    """Perceptual hash: 256 bits as 64 hexadecimal digits.

    A bit tells whether one of the 16 x 16 lowest frequencies of the picture's cosine
    transform lies above their median; size, light and compression hardly change it.
    """
    grey = cv2.cvtColor(image, cv2.COLOR_RGB2GRAY)
    sample = cv2.resize(grey, (_HASH_SAMPLE_PX, _HASH_SAMPLE_PX), interpolation=cv2.INTER_AREA)
    waves = cv2.dct(sample.astype(np.float32))[:HASH_SIDE, :HASH_SIDE].ravel()
    bits = waves > np.median(waves)
    return np.packbits(bits).tobytes().hex()


def hash_distance(one: str, other: str) -> int:
    """Number of bits, 0 to 256, in which two print hashes differ.  ``ValueError`` where
    they are not two hashes of one length."""
    if len(one) != len(other):
        raise ValueError(f"hashes of different length: {len(one)} and {len(other)} digits")
    return (int(one, 16) ^ int(other, 16)).bit_count()


def same_print(one_jpeg: bytes, other_jpeg: bytes) -> float:
    """How surely two kept pictures come from one photograph, 0 to 1.

    The same photograph compressed again, resized or turned scores near 1; another
    photograph of a tag that looks the same scores clearly lower, for its light, grain and
    perspective differ.  0 where the two cannot be brought to cover each other.
    ``ValueError`` where either is not a picture.
    """
    one, other = _grey(one_jpeg), _grey(other_jpeg)
    matrix = _covering(one, other)
    if matrix is None:
        return 0.0
    size = (one.shape[1], one.shape[0])
    seen = cv2.warpPerspective(np.ones_like(other), matrix, size)
    moved = cv2.warpPerspective(other, matrix, size, flags=cv2.INTER_CUBIC)
    return _likeness(one, np.asarray(moved, dtype=np.float32), np.asarray(seen) > 0.99)


def kept_pixels(jpeg: bytes, mode: Literal["L", "RGB"]) -> Image:
    """The pixels of a kept picture, in grey of shape (height, width) or in colour.  Raises
    ``ValueError`` where it is no picture."""
    # Not by OpenCV: of a spoilt picture its decoder prints a line of its own.
    try:
        with PIL.Image.open(io.BytesIO(jpeg), formats=("JPEG",)) as picture:
            picture.draft(mode, picture.size)
            return np.asarray(picture.convert(mode))
    except SPOILT as error:
        raise ValueError("not a JPEG picture") from error


def _grey(jpeg: bytes) -> Grey:
    grey = kept_pixels(jpeg, "L")
    scale = _COMPARED_SIDE_PX / max(grey.shape)
    resized = cv2.resize(grey, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    return np.asarray(resized, dtype=np.float32)


def _covering(one: Grey, other: Grey) -> Homography | None:
    """Matrix that brings ``other`` to lie on ``one``; None where their print does not
    match."""
    finder = cv2.ORB.create(_FEATURES)
    points, marks = finder.detectAndCompute(one.astype(np.uint8), None)
    other_points, other_marks = finder.detectAndCompute(other.astype(np.uint8), None)
    if marks is None or other_marks is None:
        return None
    matches = cv2.BFMatcher(cv2.NORM_HAMMING, crossCheck=True).match(other_marks, marks)
    if len(matches) < _FEWEST_MATCHES:
        return None
    source = np.array([other_points[match.queryIdx].pt for match in matches], np.float32)
    target = np.array([points[match.trainIdx].pt for match in matches], np.float32)
    rough, agreeing = cv2.findHomography(source, target, cv2.RANSAC, 3.0)
    if rough is None or int(np.sum(agreeing)) < _FEWEST_MATCHES:
        return None
    return _refined(one, other, np.asarray(rough, dtype=np.float64))


def _refined(one: Grey, other: Grey, rough: Homography) -> Homography | None:
    """``rough`` brought to a fraction of a pixel by the pixels themselves."""
    stop = (cv2.TERM_CRITERIA_EPS | cv2.TERM_CRITERIA_COUNT, 30, 1e-4)
    try:
        back = np.linalg.inv(rough).astype(np.float32)
        _, fine = cv2.findTransformECC(one, other, back, cv2.MOTION_HOMOGRAPHY, stop)
        return np.linalg.inv(np.asarray(fine, dtype=np.float64))
    except (cv2.error, np.linalg.LinAlgError):
        return None


def _likeness(one: Grey, moved: Grey, seen: npt.NDArray[np.bool_]) -> float:
    """How alike two pictures are where they cover each other: the same print, and the same
    light on it.  Print alone would not do, for two balls of one yarn carry the same."""
    if seen.mean() < _LEAST_COVERED:
        return 0.0
    print_likeness = np.corrcoef(_detail(one)[seen], _detail(moved)[seen])[0, 1]
    ratio = np.log((np.clip(moved, 0, 255) + 8) / (one + 8))
    ratio[~seen] = ratio[seen].mean()
    unevenness = float(_smooth(ratio, _LIGHT_SIGMA_PX)[seen].std())
    light_likeness = 1 / (1 + (unevenness / _LIGHT_TOLERANCE) ** 2)
    return float(np.clip(print_likeness / _SAME_DETAIL, 0, 1) * light_likeness)


def _detail(grey: Grey) -> Grey:
    return grey - _smooth(grey, _DETAIL_SIGMA_PX)


def _smooth(grey: Grey, sigma_px: float) -> Grey:
    return np.asarray(cv2.GaussianBlur(grey, (0, 0), sigma_px), dtype=np.float32)
