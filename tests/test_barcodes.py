"""Barcodes: drawn by zxing-cpp's writer, check digits against python-stdnum."""

from __future__ import annotations

import random

import cv2
import numpy as np
import pytest
import zxingcpp
from stdnum import ean

from intake.reading.barcodes import LONGEST_QR, check_digit_ok, clean_text, find_barcodes
from intake.reading.base import Image
from intake.records import Barcode

SIDE_PX = 900
FORMATS = {
    "EAN-13": zxingcpp.BarcodeFormat.EAN13,
    "EAN-8": zxingcpp.BarcodeFormat.EAN8,
    "UPC-A": zxingcpp.BarcodeFormat.UPCA,
    "QR": zxingcpp.BarcodeFormat.QRCode,
}
LENGTHS = {"EAN-13": 13, "EAN-8": 8, "UPC-A": 12}


def with_check_digit(body: str) -> str:
    """``body`` completed by python-stdnum."""
    return body + ean.calc_check_digit(body)


EAN_13 = with_check_digit("200412000781")
EAN_8 = with_check_digit("0200412")
UPC_A = with_check_digit("00412000781")
CODES = [("EAN-13", EAN_13), ("EAN-8", EAN_8), ("UPC-A", UPC_A), ("QR", "shade 0412 lot 0077")]


def drawn(symbology: str, text: str, scale: int = 3) -> Image:
    """The code in the middle of a white square of ``SIDE_PX``."""
    barcode = zxingcpp.create_barcode(text, FORMATS[symbology])
    bars = np.array(barcode.to_image(scale=scale, add_quiet_zones=True))
    height_px, width_px = bars.shape
    square = np.full((SIDE_PX, SIDE_PX, 3), 255, np.uint8)
    top, left = (SIDE_PX - height_px) // 2, (SIDE_PX - width_px) // 2
    square[top : top + height_px, left : left + width_px] = bars[:, :, None]
    return square


def turned(image: Image, degrees: float) -> Image:
    turn = cv2.getRotationMatrix2D((SIDE_PX / 2, SIDE_PX / 2), degrees, 1.0)
    size = (SIDE_PX, SIDE_PX)
    return cv2.warpAffine(image, turn, size, borderValue=(255.0,) * 3).astype(np.uint8)


def seen(image: Image) -> list[tuple[str, str]]:
    return [(barcode.symbology, barcode.text) for barcode in find_barcodes(image)]


def middle(barcode: Barcode) -> tuple[float, float]:
    x, y = np.mean(barcode.quad, axis=0)
    return float(x), float(y)


@pytest.mark.parametrize("length", [8, 12, 13])
def test_check_digit_agrees_with_stdnum_on_random_digits(length: int) -> None:
    # Source: python-stdnum's stdnum.ean, written independently from GS1's rule.
    rng = random.Random(length)
    for _ in range(2000):
        text = "".join(rng.choices("0123456789", k=length))
        assert check_digit_ok(text) == ean.is_valid(text)
        assert check_digit_ok(with_check_digit(text[:-1]))


def test_one_wrong_digit_is_always_noticed() -> None:
    # GS1 General Specifications: the check digit finds every single wrong digit.
    code = EAN_13
    for place in range(len(code)):
        for digit in "0123456789":
            wrong = code[:place] + digit + code[place + 1 :]
            assert check_digit_ok(wrong) == (wrong == code)


@pytest.mark.parametrize("text", ["", "0", "12345", "2004120007819 ", "20O4120007819", "٠٢٠٠٤١٢٨"])
def test_check_digit_is_wrong_for_text_that_is_no_such_code(text: str) -> None:
    assert not check_digit_ok(text)


@pytest.mark.parametrize(("symbology", "text"), CODES)
@pytest.mark.parametrize("degrees", [0, 17, 45, 90, 135, 180, 233, 270, 318])
def test_code_is_found_at_any_turn(symbology: str, text: str, degrees: int) -> None:
    (barcode,) = find_barcodes(turned(drawn(symbology, text), degrees))
    assert (barcode.symbology, barcode.text) == (symbology, text)
    assert middle(barcode) == pytest.approx((SIDE_PX / 2, SIDE_PX / 2), abs=30)


@pytest.mark.parametrize(("symbology", "text"), CODES)
def test_code_is_found_through_blur_and_noise(symbology: str, text: str) -> None:
    noise = np.random.default_rng(7).normal(0, 12, (SIDE_PX, SIDE_PX, 3))
    scale = 6 if symbology == "QR" else 3
    blurred = cv2.GaussianBlur(turned(drawn(symbology, text, scale), 6), (0, 0), 1.2)
    image = np.clip(blurred * 0.7 + 30 + noise, 0, 255).astype(np.uint8)
    assert seen(image) == [(symbology, text)]


@pytest.mark.parametrize("symbology", ["EAN-13", "EAN-8", "UPC-A"])
def test_random_codes_come_back_as_text_with_their_leading_zeros(symbology: str) -> None:
    rng = random.Random(symbology)
    first = "2" if symbology == "EAN-13" else "0"
    for _ in range(10):
        body = first + "".join(rng.choices("0123456789", k=LENGTHS[symbology] - 2))
        code = with_check_digit(body)
        assert seen(drawn(symbology, code)) == [(symbology, code)]


def test_thirteen_digits_with_a_leading_zero_are_a_upc_a() -> None:
    # GS1 General Specifications: a GTIN-12 in an EAN-13 carries a leading zero.
    assert seen(drawn("EAN-13", "0" + UPC_A)) == [("UPC-A", UPC_A)]


def test_code_printed_twice_is_told_once() -> None:
    once = drawn("EAN-13", EAN_13, scale=2)
    twice = np.concatenate([once, once])
    assert seen(twice) == [("EAN-13", EAN_13)]


def test_bars_and_qr_on_one_tag_are_both_told() -> None:
    both = np.concatenate([drawn("EAN-8", EAN_8), drawn("QR", "shade 0412")])
    assert sorted(seen(both)) == [("EAN-8", EAN_8), ("QR", "shade 0412")]


def test_coloured_bars_are_read_as_printed() -> None:
    bars = drawn("EAN-13", EAN_13)
    navy_on_cream = np.where(bars < 128, [20, 30, 90], [250, 240, 215]).astype(np.uint8)
    assert seen(navy_on_cream) == [("EAN-13", EAN_13)]


def test_qr_text_loses_control_signs_and_is_cut() -> None:
    assert seen(drawn("QR", "0412\x07\x1b[31m lot\u202e 7")) == [("QR", "0412[31m lot 7")]
    assert clean_text("x" * (LONGEST_QR + 50)) == "x" * LONGEST_QR


def test_nothing_is_found_in_plain_noise() -> None:
    noise = np.random.default_rng(3).integers(0, 256, (500, 700, 3)).astype(np.uint8)
    assert find_barcodes(noise) == []
    assert find_barcodes(np.full((1, 1, 3), 255, np.uint8)) == []
