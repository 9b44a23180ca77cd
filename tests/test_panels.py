"""A tag of two panels is one tag, and asked about; two tags side by side are two."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import PIL.Image
import PIL.ImageDraw
import PIL.ImageFont
import pytest

from intake.pictures.panels import around_both
from intake.pictures.quads import Points
from intake.records import State
from intake.worker import read_picture

WHITE, PURPLE, INK = (254, 254, 254), (92, 74, 126), (20, 20, 24)


def box(left: float, top: float, right: float, bottom: float) -> Points:
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]], np.float32)


def panel(size: tuple[int, int], ground: tuple[int, int, int], ink: tuple[int, int, int],
          *texts: str) -> PIL.Image.Image:  # fmt: skip
    made = PIL.Image.new("RGB", size, ground)
    pen, font = PIL.ImageDraw.Draw(made), PIL.ImageFont.load_default(34)
    for row, text in enumerate(texts):
        pen.text((40, 40 + 62 * row), text, ink, font)
    return made


def on_a_table(*pieces: tuple[PIL.Image.Image, tuple[int, int]]) -> PIL.Image.Image:
    table = PIL.Image.new("RGB", (1600, 760), (96, 88, 84))
    for piece, place in pieces:
        table.paste(piece, place)
    return table


HEAD = ("Ventoluz Yarns", "Dunalba", "50 g", "140 m")
BACK = ("100% wool", "Colour: 090 Coral", "Lot: 11-801", "Hand wash")


def test_two_parts_edge_to_edge_that_complete_each_other_are_one_tag_that_is_asked_about(
    tmp_path: Path,
) -> None:
    picture = tmp_path / "band.png"
    left = panel((500, 520), PURPLE, WHITE, *HEAD)
    right = panel((700, 520), WHITE, INK, *BACK)
    on_a_table((left, (120, 110)), (right, (640, 110))).save(picture)
    (reading,) = read_picture(picture).tags
    assert reading.fields["length_m"].value == 140
    assert reading.fields["lot"].value == "11-801"
    assert reading.fields["lot"].state is State.DOUBTFUL
    assert "two parts" in reading.fields["lot"].reason


def test_two_whole_tags_edge_to_edge_are_two(tmp_path: Path) -> None:
    picture = tmp_path / "two.png"
    left = panel((600, 520), PURPLE, WHITE, *HEAD, *BACK[:3])
    right = panel((600, 520), WHITE, INK, *HEAD, "100% wool", "Colour: 091 Fern", "Lot: 11-802")
    on_a_table((left, (120, 110)), (right, (740, 110))).save(picture)
    found = [reading.fields["lot"].value for reading in read_picture(picture).tags]
    assert found == ["11-801", "11-802"]


@pytest.mark.parametrize("gap_px", [0, 3, 12])
def test_parts_edge_to_edge_have_one_rectangle_around_both(gap_px: float) -> None:
    whole = around_both(box(0, 0, 50, 60), box(50 + gap_px, 1, 160, 60))
    assert whole is not None
    assert np.ptp(whole, axis=0) == pytest.approx((160, 60), abs=2)


@pytest.mark.parametrize(
    "other",
    [box(120, 0, 200, 60), box(50, 30, 150, 130), box(50, 0, 150, 20), box(10, 10, 40, 50)],
)
def test_parts_apart_aslant_or_within_one_another_have_none(other: Points) -> None:
    assert around_both(box(0, 0, 50, 60), other) is None
