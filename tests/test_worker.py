"""One picture in one worker: every whole tag on it, and nothing of what only shows."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import PIL.Image
import pytest

from intake.errors import NoTag
from intake.worker import read_picture

DEMO = Path(__file__).resolve().parent.parent / "demo_scans"


def on_a_table(*pieces: tuple[PIL.Image.Image, tuple[int, int]]) -> PIL.Image.Image:
    table = PIL.Image.new("RGB", (1700, 1300), (96, 88, 84))
    for piece, place in pieces:
        table.paste(piece, place)
    return table


def tag(name: str) -> PIL.Image.Image:
    picture = PIL.Image.open(DEMO / name).convert("RGB")
    picture.thumbnail((900, 900))
    return picture


def test_the_rim_of_another_tag_at_the_edge_is_no_tag(tmp_path: Path) -> None:
    whole, other = tag("scan_03.jpg"), tag("scan_10.jpg")
    rim = other.crop((0, 0, other.width // 6, other.height))
    picture = tmp_path / "table.png"
    on_a_table((whole, (200, 150)), (rim, (1700 - rim.width, 100))).save(picture)
    reading = read_picture(picture)
    assert len(reading.tags) == 1
    assert reading.tags[0].fields["lot"].value is not None


def test_two_whole_tags_are_two(tmp_path: Path) -> None:
    picture = tmp_path / "table.png"
    small, other = tag("scan_03.jpg"), tag("scan_10.jpg")
    small.thumbnail((700, 700))
    other.thumbnail((700, 700))
    on_a_table((small, (80, 150)), (other, (900, 150))).save(picture)
    assert [reading.tag for reading in read_picture(picture).tags] == [1, 2]


def test_a_picture_without_print_is_told(tmp_path: Path) -> None:
    picture = tmp_path / "plain.png"
    PIL.Image.fromarray(np.full((400, 600, 3), 120, np.uint8)).save(picture)
    assert isinstance(read_picture(picture).error, NoTag)


@pytest.mark.parametrize("page", [1, 2, 3])
def test_tags_are_numbered_through_the_pages_of_a_file(page: int) -> None:
    tags = read_picture(DEMO / "three_tags.tif").tags
    assert (tags[page - 1].page, tags[page - 1].tag) == (page, page)
