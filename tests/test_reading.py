"""Both readers on real pictures: lines found, turned upright, read, and merged."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import matplotlib
import numpy as np
import PIL.Image
import PIL.ImageDraw
import PIL.ImageFont
import pytest
import skimage.data
from rapidfuzz.distance import Levenshtein

from intake.reading.base import Image
from intake.reading.language import is_danish_or_norwegian
from intake.reading.lines import merge, open_codes, without_lost_accents
from intake.reading.order import reading_order
from intake.reading.read import Readers, read_tag, righted_lines, without_leaders
from intake.reading.tesseract_data import DANISH, knows
from intake.reading.turn import joined, turned_code
from intake.records import Letter, Line, Reading
from intake.worker import worker_readers

PAGE_TEXT = (
    "Region-based segmentation",
    "Let us first determine markers of the coins and the",
    "background. These markers are pixels that we can label",
    "unambiguously as either object or background. Here,",
    "the markers are found at the two extreme parts of the",
    "histogram of grey values:",
    ">>> markers = np.zeros_like(coins)",
)
"""What the scanned page that scikit-image carries (``skimage.data.page``) prints,
transcribed by eye."""

CORNERS = ((0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (0.0, 20.0))


@cache
def readers() -> Readers:
    return worker_readers()


@pytest.fixture(scope="module")
def page() -> Image:
    grey = skimage.data.page()
    return np.repeat(grey[..., None], 3, axis=2)


def error_rate(read: str, printed: str) -> float:
    return Levenshtein.distance(read, printed) / len(printed)


def test_a_scanned_page_with_a_shadow_is_read_by_both(page: Image) -> None:
    _, lines = read_tag(page, readers())
    read = [line.text for line in lines]
    assert len(read) == len(PAGE_TEXT)
    assert error_rate("\n".join(read), "\n".join(PAGE_TEXT)) < 0.02
    second = [line.readings[1].text for line in lines]
    assert error_rate("\n".join(second), "\n".join(PAGE_TEXT)) < 0.12
    alike = [agreed for line in lines for agreed in line.agreed]
    assert sum(alike) / len(alike) > 0.9


@pytest.mark.parametrize("turn_deg", [90, 180, 270, 14])
def test_print_is_read_whichever_way_it_lies(page: Image, turn_deg: int) -> None:
    picture = PIL.Image.fromarray(page).resize((768, 382))
    turned = np.asarray(picture.rotate(turn_deg, expand=True, fillcolor=(200, 200, 200)))
    _, lines = read_tag(turned, readers())
    read = "\n".join(line.text for line in lines)
    assert error_rate(read, "\n".join(PAGE_TEXT)) < 0.05


def test_half_of_a_folded_tag_that_stands_on_its_head_is_read(page: Image) -> None:
    """Its lines keep their places; :func:`righted_lines` has them as if it were held upright."""
    spread = np.vstack([page[:100][::-1, ::-1], page])
    _, lines = read_tag(spread, readers())
    over = [line for line in lines if line.quad[1][0] < line.quad[0][0]]
    read = [line.text for line in over]
    assert error_rate("\n".join(read), "\n".join(PAGE_TEXT[: len(read)])) < 0.05
    assert len(lines) == len(over) + len(PAGE_TEXT)
    upright = [line for line in righted_lines(lines) if line.text in read][: len(read)]
    assert all(line.quad[0][0] < line.quad[1][0] for line in upright)
    tops = [line.quad[0][1] for line in upright]
    assert tops == sorted(tops)


@pytest.mark.parametrize(
    ("code", "other"), [("66", "99"), ("0/09", "60/0"), ("88", ""), ("204", ""), ("Lot 66", "")]
)
def test_a_code_that_is_one_upside_down_as_well_is_told(code: str, other: str) -> None:
    assert turned_code(code) == other


def test_a_picture_without_print_gives_no_lines() -> None:
    assert read_tag(np.full((200, 300, 3), 255, np.uint8), readers())[1] == ()


# Merging two readings


def reading(text: str, confidence: float = 0.9) -> Reading:
    step = 1 / max(1, len(text))
    letters = (Letter(c, confidence, at * step, (at + 1) * step) for at, c in enumerate(text))
    return Reading("reader", tuple(letters))


def merged(first: str, second: str) -> Line:
    return merge(CORNERS, reading(first), reading(second))


def test_letters_seen_alike_are_agreed_on() -> None:
    line = merged("Lot 00412", "Lot 00412")
    assert line.text == "Lot 00412"
    assert all(line.agreed)


def test_a_letter_seen_otherwise_keeps_both_readings() -> None:
    line = merged("Lot 00412", "Lot 0O412")
    assert line.text == "Lot 00412"
    assert [at for at, agreed in enumerate(line.agreed) if not agreed] == [5]
    assert line.others[5] == "O"


def test_a_letter_that_only_the_second_saw_is_told_at_the_one_before() -> None:
    line = merged("Lot 0412", "Lot 04412")
    assert line.text == "Lot 0412"
    assert not all(line.agreed)
    assert "44" in "".join(line.others)


def test_an_accent_that_one_reader_lost_is_put_back() -> None:
    for first, second in (("Nebelgrün", "Nebelgrun"), ("Snospurv", "Snøspurv")):
        line = merged(first, second)
        assert line.text in ("Nebelgrün", "Snøspurv")
        assert all(line.agreed)


def test_two_different_accents_are_a_difference() -> None:
    assert not all(merged("Isblå", "Isblà").agreed)


def test_a_ligature_that_only_the_second_reader_knows_is_kept() -> None:
    line = merged("AEBLE Naebbet", "ÆBLE Næbbet")
    assert line.text == "ÆBLE Næbbet"
    assert all(line.agreed)


def test_the_style_of_a_dash_is_no_difference() -> None:
    assert all(merged("12–345", "12-345").agreed)


def test_a_space_that_only_the_first_saw_is_doubtful() -> None:
    line = merged("12 345", "12345")
    assert line.text == "12 345"
    assert not line.agreed[2]


def test_one_reader_alone_agrees_with_nobody() -> None:
    line = merge(CORNERS, reading("Lot 00412"), None)
    assert line.text == "Lot 00412"
    assert not any(line.agreed)


# Reading order


def box(left: float, top: float, width: float, height: float = 20.0) -> list[list[float]]:
    right, bottom = left + width, top + height
    return [[left, top], [right, top], [right, bottom], [left, bottom]]


def test_a_column_is_read_to_its_end_before_the_next() -> None:
    left = [box(0, top, 200) for top in (0, 25, 50)]
    right = [box(400, top + 4, 200) for top in (0, 25, 50)]
    quads = np.array([left[0], right[0], left[1], right[1], left[2], right[2]], np.float32)
    assert reading_order(quads) == [0, 2, 4, 1, 3, 5]


def test_a_line_goes_on_below_the_line_that_it_begins_like_and_not_beside_a_caption() -> None:
    """A caption in the left column stands at the height of the first of two lines of fibre."""
    batch, caption = box(0, 0, 367, 45), box(0, 75, 151, 48)
    shares, rest = box(222, 54, 420, 46), box(223, 98, 122, 46)
    order = reading_order(np.array([batch, caption, shares, rest], np.float32))
    assert order.index(2) + 1 == order.index(3)


def test_lines_of_one_block_keep_their_order_beside_others_half_a_line_off() -> None:
    block = [box(400, top, 300) for top in (0, 25)]
    others = [box(0, 10, 100), box(800, 18, 100)]
    quads = np.array([block[1], others[0], block[0], others[1]], np.float32)
    order = reading_order(quads)
    assert order.index(2) + 1 == order.index(0)


def test_boxes_of_one_upright_line_are_joined_as_level_ones_are() -> None:
    level = np.array([box(0, 0, 100), box(104, 1, 80), box(240, 0, 80)], np.float32)
    assert sorted(len(each) for each in (joined(level), joined(level[:2]))) == [1, 2]
    upright = np.array([box(0, 104, 20, 80), box(1, 0, 20, 100), box(0, 240, 20, 80)], np.float32)
    (whole, apart) = sorted(joined(upright), key=lambda quad: float(quad[:, 1].min()))
    assert whole.min(axis=0).tolist() == [0.0, 0.0]
    assert whole.max(axis=0).tolist() == [21.0, 184.0]
    assert apart.tolist() == upright[2].tolist()
    both = joined(np.concatenate([level + 400, upright]))
    assert len(both) == 4


def test_leaders_are_cut_off_what_the_second_reader_sees() -> None:
    def read(text: str) -> Reading:
        count = len(text)
        letters = tuple(
            Letter(sign, 0.99, at / count, (at + 1) / count) for at, sign in enumerate(text)
        )
        return Reading("first", letters)

    quads = np.array([box(500, 0, 400, 20), box(500, 40, 400, 20), box(0, 80, 200, 20)], np.float32)
    firsts = [read("............25 g"), read("Peso ..........."), read("Lotto: 4711")]
    cut = without_leaders(quads, firsts)
    assert cut[0, :, 0].tolist() == [788.0, 900.0, 900.0, 788.0]
    assert cut[1, :, 0].tolist() == [500.0, 612.0, 612.0, 500.0]
    assert cut[2].tolist() == quads[2].tolist()
    assert cut[0, :, 1].tolist() == quads[0, :, 1].tolist()


def test_parts_of_one_line_stay_together() -> None:
    quads = np.array([box(110, 0, 90), box(0, 1, 100), box(0, 25, 200)], np.float32)
    assert reading_order(quads) == [1, 0, 2]


def test_lines_that_end_flush_are_one_block() -> None:
    block = [box(200, 0, 200), box(180, 25, 220), box(360, 50, 40), box(210, 75, 190)]
    other = box(0, 44, 90)
    quads = np.array([block[3], other, block[1], block[2], block[0]], np.float32)
    order = reading_order(quads)
    assert [at for at in order if at != 1] == [4, 2, 3, 0]


def test_a_column_of_text_is_not_joined_with_what_stands_close_beside_it() -> None:
    column = [box(200, top, 300) for top in (0, 25, 50)]
    caption = box(80, 26, 96)
    quads = np.array([caption, *column], np.float32)
    order = reading_order(quads)
    assert [at for at in order if at] == [1, 2, 3]
    assert order.index(0) in (0, 3)


def test_parts_of_a_line_in_a_column_of_text_stay_together() -> None:
    lines = [box(0, top, 300) for top in (0, 50)]
    parts = [box(0, 26, 130), box(154, 25, 146)]
    quads = np.array([parts[1], lines[1], lines[0], parts[0]], np.float32)
    assert reading_order(quads) == [2, 3, 0, 1]


def test_a_sign_that_no_code_holds_is_taken_for_the_letter_it_looks_like() -> None:
    assert all(merged("Lot 37723J", "Lot 37723]").agreed)
    assert not all(merged("Lot 377238", "Lot 37723S").agreed)


def test_danish_and_norwegian_are_told_from_their_neighbours() -> None:
    assert is_danish_or_norwegian(["Må ikke bleges", "Farve 14 Tåge", "Vask 30"])
    assert is_danish_or_norwegian(["Garn fra Bjørk", "Strikkefasthet 22 m"])
    assert not is_danish_or_norwegian(["Ej blek", "Tvätt 30", "Färg 14 Dimma", "garn"])
    assert not is_danish_or_norwegian(["Hand wash", "Shade 14 Mist", "Lot 0072"])


def test_an_accent_that_one_reader_lost_is_no_difference() -> None:
    assert without_lost_accents("LOVVANG", "LØVVANG") == ("LOVVANG", "LOVVANG")
    assert without_lost_accents("BAEK", "BÆK") == ("BAEK", "BAEK")
    assert without_lost_accents("Tåge", "Tage") == ("Tage", "Tage")
    one, other = without_lost_accents("Färg", "Fårg")
    assert one != other


def test_a_ring_that_only_the_second_reader_saw_is_a_difference() -> None:
    assert not all(merged("Aran", "Åran").agreed)
    assert merged("Aran", "Åran").text == "Aran"


def code_line(text: str, second: str) -> Line:
    return merge(CORNERS, reading(text), reading(second))


def test_codes_on_which_readers_differ_are_looked_at_again() -> None:
    assert open_codes(code_line("E1611B", "E1GLLB")) == []  # 1 or L is for nobody to settle
    assert open_codes(code_line("254/37", "RSFE37")) == [(0, 6)]
    assert open_codes(code_line("10071", "l0071")) == [(0, 5)]
    assert open_codes(code_line("L0710", "LO710")) == []
    assert open_codes(code_line("50g", "60g")) == []


def test_a_stroke_through_a_capital_is_read_on_a_danish_tag() -> None:
    if not knows(DANISH):
        pytest.skip("Tesseract's data for Danish are not installed")
    face = Path(matplotlib.get_data_path()) / "fonts" / "ttf" / "DejaVuSans.ttf"
    tag = PIL.Image.new("RGB", (900, 420), "white")
    draw = PIL.ImageDraw.Draw(tag)
    for row, text in enumerate(("RØDHØJ MØLLE", "Farve 14 Tåge", "Må ikke bleges", "Vask 30")):
        draw.text((40, 30 + 95 * row), text, "black", PIL.ImageFont.truetype(face, 56))
    _, lines = read_tag(np.array(tag), readers())
    assert "RØDHØJ MØLLE" in [line.text for line in lines]
