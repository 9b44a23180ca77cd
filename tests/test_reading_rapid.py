"""The first reader runs rapidocr's models itself: it must see what rapidocr sees."""

from __future__ import annotations

import os
import subprocess
import sys
from functools import cache
from pathlib import Path

import numpy as np
import PIL.Image
import pytest
import skimage.data
from rapidfuzz.distance import Levenshtein
from rapidocr import RapidOCR

from intake.reading.base import Image
from intake.reading.lines import cut_lines
from intake.reading.rapid import LONGEST_SIDE_PX, RapidReader

DEMO = Path(__file__).parent.parent / "demo_scans"


@cache
def reader() -> RapidReader:
    return RapidReader()


@cache
def theirs() -> RapidOCR:
    """The package as it comes, looking at pictures as large as the reader does."""
    return RapidOCR(
        params={
            "Global.log_level": "error",
            "Global.max_side_len": LONGEST_SIDE_PX,
            "Det.limit_type": "max",
            "Det.limit_side_len": LONGEST_SIDE_PX,
        }
    )


def scanned_page() -> Image:
    return np.repeat(skimage.data.page()[..., None], 3, axis=2)


def demo(name: str) -> Image:
    with PIL.Image.open(DEMO / name) as picture:
        picture.thumbnail((LONGEST_SIDE_PX, LONGEST_SIDE_PX))
        return np.asarray(picture.convert("RGB"))


PICTURES = {
    "a scanned page": scanned_page,
    "a scan of a tag": lambda: demo("scan_02.jpg"),
    "a photo of a tag": lambda: demo("photo_03.jpg"),
    "a line and little else": lambda: scanned_page()[60:100],
}


@pytest.mark.parametrize("name", PICTURES)
def test_the_lines_found_are_those_that_rapidocr_finds(name: str) -> None:
    # Source: the package rapidocr, of which only the models are taken.
    image = PICTURES[name]()
    bgr = np.ascontiguousarray(image[..., ::-1])
    found = theirs()(bgr, use_det=True, use_cls=False, use_rec=False).boxes
    expected = sorted(np.asarray(found, np.float32).reshape(-1, 8).tolist())
    ours = sorted(reader().find_lines(image).reshape(-1, 8).tolist())
    assert len(ours) >= 1
    assert ours == pytest.approx(np.array(expected), abs=1)


def test_the_lines_read_are_what_rapidocr_reads() -> None:
    # Source: the package rapidocr; it tells lines in other letters than Latin ones as well.
    image = scanned_page()
    lines = cut_lines(image, reader().find_lines(image))
    read = reader().read(lines)
    seen = [theirs().recognize_txt([np.ascontiguousarray(one[..., ::-1])]).txts[0] for one in lines]
    pairs = [(ours.text, text) for ours, text in zip(read, seen, strict=True) if text.isascii()]
    apart = sum(Levenshtein.distance(*pair) for pair in pairs)
    letters = sum(len(text) for _, text in pairs)
    assert letters > 0
    assert apart <= 0.02 * letters  # they pad lines otherwise, so a space may come or go


def test_a_line_is_read_the_same_whatever_else_is_read_with_it() -> None:
    image = demo("scan_02.jpg")
    lines = cut_lines(image, reader().find_lines(image))
    assert len(lines) > 2
    assert reader().read(lines)[::-1] == reader().read(lines[::-1])


def test_a_picture_without_print_has_no_lines() -> None:
    assert reader().find_lines(np.full((200, 300, 3), 255, np.uint8)).shape == (0, 4, 2)
    assert reader().read([]) == []


def test_numbers_too_small_to_matter_count_as_nothing_for_the_models_alone() -> None:
    """1e-39 lies below the smallest normal number of 32 bits, 1.18e-38 (IEEE 754)."""
    told = subprocess.run(
        [
            sys.executable,
            "-c",
            "import numpy as np\n"
            "from intake.inference import _thread\n"
            "from intake.reading.rapid import RapidReader\n"
            "def left():\n"
            "    return float((np.full(1000, 1e-39, np.float32) * np.float32(1)).max())\n"
            "RapidReader().find_lines(np.full((64, 64, 3), 255, np.uint8))\n"
            "print(_thread().submit(left).result(), left())\n",
        ],
        check=True,
        capture_output=True,
        text=True,
    ).stdout.split()
    assert float(told[0]) == 0
    assert float(told[1]) > 0


@pytest.mark.skipif(not hasattr(os, "fork"), reason="processes are not forked here")
def test_a_forked_process_reads_too() -> None:
    blank = np.full((64, 64, 3), 255, np.uint8)
    reader().find_lines(blank)
    child = os.fork()
    if child == 0:
        os._exit(0 if reader().find_lines(blank).shape == (0, 4, 2) else 1)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
