"""Barcodes on a tag: found at any turn, and checked once more here."""

from __future__ import annotations

import unicodedata

import cv2
import numpy as np
import numpy.typing as npt
import zxingcpp

from intake.reading.base import Image
from intake.records import Barcode, Quad

LONGEST_QR = 1000
"""A QR code's text is cut after this many signs: a tag holds an address, not a book."""

_FORMATS = zxingcpp.BarcodeFormats(
    [
        zxingcpp.BarcodeFormat.EAN13,
        zxingcpp.BarcodeFormat.EAN8,
        zxingcpp.BarcodeFormat.UPCA,
        zxingcpp.BarcodeFormat.QRCode,
    ]
)

_SYMBOLOGIES = {8: "EAN-8", 12: "UPC-A", 13: "EAN-13"}
"""Symbology by the number of digits."""

Grey = npt.NDArray[np.uint8]
Affine = npt.NDArray[np.float64]


def check_digit_ok(text: str) -> bool:
    """Whether ``text`` is an EAN-8, UPC-A or EAN-13 whose last digit checks the others.

    Weights 3 and 1 from the right, the sum filled up to a multiple of ten: GS1 General
    Specifications, "check digit calculation".  False for any other text.
    """
    if len(text) not in _SYMBOLOGIES or not (text.isascii() and text.isdigit()):
        return False
    digits = [int(digit) for digit in reversed(text)]
    return (sum(digits[::2]) + 3 * sum(digits[1::2])) % 10 == 0


def find_barcodes(image: Image) -> list[Barcode]:
    """The EAN-13, EAN-8, UPC-A and QR codes of ``image`` (uint8 RGB, height x width x 3).

    Each code once, in the order found, though it may be printed twice.
    """
    grey = _grey(image)
    found = _read(grey, np.eye(2, 3))
    if all(barcode.symbology == "QR" for barcode in found):
        # Bars are looked for along rows and columns, so those on a slant need a turn.
        found += _read(*_on_the_slant(grey))
    once = {(barcode.symbology, barcode.text): barcode for barcode in reversed(found)}
    return list(reversed(once.values()))


def _grey(image: Image) -> Grey:
    """Luma of ITU-R BT.601; the finder would take the colours for blue, green, red."""
    return cv2.cvtColor(image, cv2.COLOR_RGB2GRAY).astype(np.uint8, copy=False)


def _on_the_slant(grey: Grey) -> tuple[Grey, Affine]:
    """The picture turned by an eighth, and the way back from it to ``grey``."""
    height_px, width_px = grey.shape
    side_px = int(np.ceil((height_px + width_px) / np.sqrt(2)))
    turn = cv2.getRotationMatrix2D((width_px / 2, height_px / 2), 45.0, 1.0)
    turn[:, 2] += (side_px - width_px) / 2, (side_px - height_px) / 2
    turned = cv2.warpAffine(grey, turn, (side_px, side_px), borderValue=(255.0,))
    way_back = cv2.invertAffineTransform(turn).astype(np.float64, copy=False)
    return turned.astype(np.uint8, copy=False), way_back


def _read(grey: Grey, way_back: Affine) -> list[Barcode]:
    seen = zxingcpp.read_barcodes(grey, formats=_FORMATS, text_mode=zxingcpp.TextMode.Plain)
    found = (_barcode(each, way_back) for each in seen)
    return [barcode for barcode in found if barcode is not None]


def _barcode(seen: zxingcpp.Barcode, way_back: Affine) -> Barcode | None:
    quad = _quad(seen.position, way_back)
    if seen.format == zxingcpp.BarcodeFormat.QRCode:
        text = clean_text(seen.text)
        return Barcode("QR", text, quad) if text else None
    text = seen.text
    # An EAN-13 with a leading zero and a UPC-A are the same bars; the twelve digits are
    # what stands below them (GS1 General Specifications, UPC-A).
    if len(text) == 13 and text.startswith("0"):
        text = text[1:]
    return Barcode(_SYMBOLOGIES[len(text)], text, quad) if check_digit_ok(text) else None


def clean_text(text: str) -> str:
    """``text`` without control and invisible signs, cut to :data:`LONGEST_QR`."""
    shown = (sign for sign in text if unicodedata.category(sign)[0] != "C")
    return "".join(shown)[:LONGEST_QR]


def _quad(position: zxingcpp.Position, way_back: Affine) -> Quad:
    corners = (
        position.top_left,
        position.top_right,
        position.bottom_right,
        position.bottom_left,
    )
    places = [way_back @ (corner.x, corner.y, 1.0) for corner in corners]
    top_left, top_right, bottom_right, bottom_left = ((float(x), float(y)) for x, y in places)
    return (top_left, top_right, bottom_right, bottom_left)
