"""A crossed dryer is told from a crossed ring by the four straight sides about it."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image, ImageDraw

from intake.records import State
from intake.symbols.border import is_bordered
from intake.symbols.look import Seen
from intake.symbols.patch import Pixels
from intake.symbols.read import as_symbol, squares_themselves
from intake.symbols.row import read_together
from tests.test_symbols_row import BLEACH, IRON, WASH, meanings, shown

RING_OR_DRYER = shown(do_not_dry_clean=0.6, do_not_tumble_dry=0.4)
SIDE_PX = 60


def drawn(shape: str) -> Pixels:
    """A crossed ring alone, or in a square with sharp or round corners, 10 pixels from the edge."""
    image = Image.new("RGB", (SIDE_PX + 20, SIDE_PX + 20), "white")
    draw = ImageDraw.Draw(image)
    box = (10, 10, 10 + SIDE_PX, 10 + SIDE_PX)
    draw.ellipse(box if shape == "ring" else (16, 16, 64, 64), outline="black", width=3)
    draw.line((12, 12, 68, 68), fill="black", width=3)
    draw.line((12, 68, 68, 12), fill="black", width=3)
    if shape == "sharp":
        draw.rectangle(box, outline="black", width=3)
    if shape == "round":
        draw.rounded_rectangle(box, radius=8, outline="black", width=3)
    return np.asarray(image)


@pytest.mark.parametrize(("shape", "bordered"), [("ring", False), ("sharp", True), ("round", True)])
def test_a_square_about_a_crossed_ring_is_seen(shape: str, bordered: bool) -> None:
    box = (10.0, 10.0, 10.0 + SIDE_PX, 10.0 + SIDE_PX)
    assert is_bordered(drawn(shape), box) is bordered
    assert is_bordered(255 - drawn(shape), box) is bordered


def test_what_has_straight_sides_that_are_no_frame_is_no_ring() -> None:
    row = [WASH, BLEACH, RING_OR_DRYER]
    assert meanings(read_together(row))[2] == "do not dry clean"
    told = read_together(row, square=[2])[2]
    assert meanings([told]) == ["do not tumble dry"]
    assert told.confidence > 0.97


@pytest.mark.parametrize(("shape", "found"), [("ring", [1]), ("sharp", [])])
def test_sides_that_every_symbol_has_are_frames(shape: str, found: list[int]) -> None:
    """The iron is drawn as a ring here, or with sides as a frame has them."""
    image = np.concatenate([drawn(shape), drawn("sharp")], axis=1)
    boxes = [(x, 10.0, x + SIDE_PX, 10.0 + SIDE_PX) for x in (10.0, 30.0 + SIDE_PX)]
    seen = [Seen(box, one) for box, one in zip(boxes, (IRON, RING_OR_DRYER), strict=True)]
    assert squares_themselves(image, seen) == found


@pytest.mark.parametrize(("held", "state"), [(False, State.SURE), (True, State.DOUBTFUL)])
def test_a_crossed_ring_that_a_tile_holds_is_asked_about(held: bool, state: State) -> None:
    verdict = shown(do_not_tumble_dry=0.986, do_not_dry_clean=0.014)
    (read,) = read_together([verdict])
    one = Seen((10.0, 10.0, 70.0, 70.0), verdict, held=held)
    assert as_symbol(one, read, may_be_sure=True).state is state
