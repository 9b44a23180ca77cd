"""One picture in one worker: every whole tag on it, and nothing of what only shows."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import numpy as np
import PIL.Image
import pytest

from intake.errors import NoTag, PictureError
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


@pytest.mark.slow
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


def test_print_is_placed_on_the_picture_that_is_kept(tmp_path: Path) -> None:
    picture = tmp_path / "large.png"
    large = tag("scan_03.jpg").resize((2400, round(2400 * tag("scan_03.jpg").height / 900)))
    large.save(picture)
    (reading,) = read_picture(picture).tags
    with PIL.Image.open(io.BytesIO(reading.jpeg)) as kept:
        assert max(kept.size) == 1600
        pixels = np.asarray(kept.convert("L")).astype(float)
    # Print is darker than the paper around it, wherever there is a line of it.
    for line in reading.lines:
        (left, top), (right, bottom) = line.quad[0], line.quad[2]
        inside = pixels[int(top) : int(bottom) + 1, int(left) : int(right) + 1]
        assert inside.size > 0
        assert inside.min() < np.median(pixels) - 60


def test_tags_are_numbered_through_the_pages_of_a_file() -> None:
    tags = read_picture(DEMO / "three_tags.tif").tags
    assert [(tag.page, tag.tag) for tag in tags] == [(1, 1), (2, 2), (3, 3)]


def test_a_picture_that_another_takes_the_place_of_while_it_is_read_is_told(
    tmp_path: Path,
) -> None:
    picture = tmp_path / "scan.jpg"
    shutil.copy(DEMO / "scan_03.jpg", picture)

    def swap() -> None:
        shutil.copy(DEMO / "scan_10.jpg", picture)

    reading = read_picture(picture, swap)
    assert type(reading.error) is PictureError
    assert str(reading.error) == f"{picture}: was changed while it was read; run it again"
    assert not reading.tags, "they would go by the digest of another picture"


def test_a_picture_that_goes_away_while_it_is_read_is_told(tmp_path: Path) -> None:
    picture = tmp_path / "scan.jpg"
    shutil.copy(DEMO / "scan_03.jpg", picture)
    reading = read_picture(picture, lambda: picture.unlink(missing_ok=True))
    assert reading.error is not None
    assert not reading.tags
