"""One picture in one worker: every whole tag on it, and nothing of what only shows."""

from __future__ import annotations

import io
import shutil
from dataclasses import replace
from pathlib import Path

import numpy as np
import PIL.Image
import PIL.ImageDraw
import PIL.ImageFont
import pytest

from intake.errors import NoTag, PictureError
from intake.pictures.load import Image, Page
from intake.reading.base import LineFinder, Quads
from intake.worker import read_picture, seen_on, worker_readers

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


def small_on_a_striped_table(text_px: int) -> PIL.Image.Image:
    """A turned tag with small print that takes a twelfth of a phone's picture."""
    rng = np.random.default_rng(1)
    rows = np.repeat(rng.integers(60, 110, 60), 50)[:, None, None] * np.array([1, 0.7, 0.5])
    grain = np.clip(rows + rng.normal(0, 4, (3000, 4000, 1)), 0, 255).astype(np.uint8)
    table, card = PIL.Image.fromarray(grain), PIL.Image.new("RGBA", (1500, 260), (246, 244, 240))
    pen, font = PIL.ImageDraw.Draw(card), PIL.ImageFont.load_default
    care = ("100% cotton", "Machine wash 60 °C.", "Tumble dry low.", "Cool iron.")
    for row, text in enumerate(care):
        pen.text((60, 60 + 34 * row), text, (20, 20, 24), font(text_px))
    pen.text((620, 40), "Lanternman", (20, 20, 24), font(64))
    pen.text((650, 175), "SHADE T110   LOT F4225", (20, 20, 24), font(text_px))
    turned = card.rotate(35, expand=True, resample=PIL.Image.Resampling.BICUBIC)
    table.paste(turned, (1100, 700), turned)
    return table


class LostWhenSmall(LineFinder):
    """Sees a whole small tag as one line where it is shown small, and its print where it is shown
    as large as is of use."""

    def find_lines(self, image: Image, longest_side_px: int | None = None) -> Quads:
        if longest_side_px is not None:
            return np.array([[[800, 60], [2400, 60], [2400, 1900], [800, 1900]]], np.float32)
        return worker_readers().finder.find_lines(image)


def test_a_tag_of_which_hardly_a_line_was_seen_is_looked_for_once_more() -> None:
    page = Page(1, np.asarray(small_on_a_striped_table(22)))
    readers = replace(worker_readers(), finder=LostWhenSmall())
    seen, _ = seen_on(page, readers)
    assert len(seen) > 1


def test_a_tag_that_is_small_in_its_picture_is_read_whole(tmp_path: Path) -> None:
    picture = tmp_path / "small.jpg"
    small_on_a_striped_table(22).save(picture, quality=92)
    (reading,) = read_picture(picture).tags
    assert reading.fields["lot"].value == "F4225"
    assert reading.fields["care"].value is not None
