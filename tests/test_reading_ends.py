"""Boxes that leave the ends of their print outside grow to them, and no further."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image, ImageDraw, ImageFont

from intake.reading.base import Quads
from intake.reading.ends import grown_to_ends

FONT = ImageFont.load_default(40)
TOP_PX, HEIGHT_PX = 100, 44


def picture(*texts: tuple[int, str], ink: int = 20, ground: int = 235) -> Image.Image:
    """A card with texts that begin at these columns, all in one row."""
    card = Image.new("RGB", (900, 260), (ground,) * 3)
    draw = ImageDraw.Draw(card)
    for left_px, text in texts:
        draw.text((left_px, TOP_PX), text, font=FONT, fill=(ink,) * 3)
    return card


def box(left_px: float, right_px: float) -> list[list[float]]:
    bottom_px = TOP_PX + HEIGHT_PX
    return [[left_px, TOP_PX], [right_px, TOP_PX], [right_px, bottom_px], [left_px, bottom_px]]


def grown(card: Image.Image, *boxes: list[list[float]]) -> Quads:
    return grown_to_ends(np.asarray(card), np.array(boxes, np.float32))


@pytest.mark.parametrize(("ink", "ground"), [(20, 235), (240, 60)])
def test_a_box_that_cuts_off_the_last_digit_grows_to_hold_it(ink: int, ground: int) -> None:
    card = picture((100, "Lot 94437891"), ink=ink, ground=ground)
    whole_px, short_px = (100 + FONT.getlength(text) for text in ("Lot 94437891", "Lot 9443789"))
    found = grown(card, box(98, short_px))[0]
    assert whole_px - 6 < found[1, 0] < whole_px + 12
    assert abs(found[0, 0] - 98) < 12


def test_a_box_that_cuts_off_the_first_word_grows_to_hold_it() -> None:
    card = picture((100, "Oveja Lista"))
    start_px, end_px = 100 + FONT.getlength("Oveja "), 100 + FONT.getlength("Oveja Lista")
    found = grown(card, box(start_px, end_px + 2))[0]
    assert 85 < found[0, 0] < 104


def test_a_box_that_holds_its_print_stays_as_it_is() -> None:
    card = picture((100, "Lot 9443"), (100 + round(FONT.getlength("Lot 9443")) + 60, "Kelp"))
    own = box(98, 102 + FONT.getlength("Lot 9443"))
    assert np.array_equal(grown(card, own)[0], np.array(own, np.float32))


def test_no_box_grows_into_another() -> None:
    card = picture((100, "Kelp 0412"))
    middle_px = 100 + FONT.getlength("Kelp ")
    boxes = (box(98, middle_px - 14), box(middle_px - 2, 102 + FONT.getlength("Kelp 0412")))
    first, second = grown(card, *boxes)
    assert first[1, 0] <= second[0, 0] + 1


def test_the_ground_beyond_a_card_is_no_print() -> None:
    card = picture((600, "Lot 0412"))
    end_px = 600 + round(FONT.getlength("Lot 0412"))
    ImageDraw.Draw(card).rectangle((end_px + 8, 0, 900, 260), fill=(30, 30, 30))
    own = box(598, end_px + 2)
    assert np.array_equal(grown(card, own)[0], np.array(own, np.float32))


@pytest.mark.parametrize("quarters", [1, 3])
def test_a_box_that_stands_upright_grows_to_the_ends_of_its_print(quarters: int) -> None:
    card = picture((100, "Fjellvik 0412"), ink=240, ground=60)
    start_px, end_px = 98, 100 + FONT.getlength("Fjellvik 0412")
    short_px = 100 + FONT.getlength("Fjellvik")
    standing = np.rot90(np.asarray(card), quarters)

    def stood(left_px: float, right_px: float) -> Quads:
        """The box of a stretch of the turned card, its corners from the top left."""
        top_px, low_px = (TOP_PX, TOP_PX + HEIGHT_PX)
        if quarters == 1:
            left, right, top, low = top_px, low_px, 900 - right_px, 900 - left_px
        else:
            left, right, top, low = 260 - low_px, 260 - top_px, left_px, right_px
        return np.array([[left, top], [right, top], [right, low], [left, low]], np.float32)

    found = grown_to_ends(standing, stood(start_px, short_px)[np.newaxis])[0]
    assert np.abs(found - stood(start_px, end_px)).max() < 14
