"""What is kept of a tag, and whether two kept pictures are one photograph."""

from __future__ import annotations

import io
from contextlib import suppress

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image, ImageDraw, ImageFont

from fixtures.shooting import photo_shot, plain_card
from intake.pictures.keep import hash_distance, kept_pixels, print_hash, same_print, tag_jpeg
from intake.pictures.straighten import cut_out

Pixels = npt.NDArray[np.uint8]


def opened(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data))


def card(text: str) -> Pixels:
    picture = Image.new("RGB", (600, 400), "white")
    pen = ImageDraw.Draw(picture)
    pen.text((40, 60), text, font=ImageFont.load_default(60), fill="black")
    return np.asarray(picture)


def compressed_again(data: bytes, scale: float, quality: int) -> bytes:
    picture = opened(data)
    small = picture.resize((round(picture.width * scale), round(picture.height * scale)))
    again = io.BytesIO()
    small.save(again, "JPEG", quality=quality)
    return again.getvalue()


@pytest.fixture(scope="module")
def two_photographs() -> tuple[bytes, bytes]:
    """One tag, photographed twice."""
    rng = np.random.default_rng(4)
    tag = plain_card(30, rng)
    shots = [photo_shot(tag, rng) for _ in range(2)]
    one, other = (tag_jpeg(cut_out(np.asarray(shot.image), shot.quads[0])) for shot in shots)
    return one, other


def test_kept_picture_is_a_jpeg_of_limited_size() -> None:
    kept = opened(tag_jpeg(np.full((3000, 2000, 3), 90, np.uint8)))
    assert kept.format == "JPEG"
    assert kept.size == (1067, 1600)


def test_small_pictures_keep_their_size() -> None:
    assert opened(tag_jpeg(card("Heron"))).size == (600, 400)


def test_a_spoilt_picture_is_told_by_its_error_alone(capfd: pytest.CaptureFixture[str]) -> None:
    data = bytearray(tag_jpeg(card("Heron")))
    for place in range(len(data) // 3, len(data) // 2, 7):
        data[place] ^= 0x5A
    with suppress(ValueError):  # it may still be a picture
        kept_pixels(bytes(data), "L")
    with pytest.raises(ValueError, match="not a JPEG"):
        kept_pixels(bytes(data[:700]), "RGB")
    assert capfd.readouterr().err == ""


def test_kept_picture_carries_no_metadata() -> None:
    data = tag_jpeg(card("Heron"))
    kept = opened(data)
    assert not kept.getexif()
    assert set(kept.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    # ITU-T T.81, table B.1: APP1 (EXIF, XMP), APP2 (ICC), APP13 (IPTC), COM.
    markers = [data[i + 1] for i in range(len(data) - 1) if data[i] == 0xFF]
    assert not {0xE1, 0xE2, 0xED, 0xFE} & set(markers)


def test_hash_of_a_copy_hardly_differs() -> None:
    image = card("Lot 00731")
    copy = np.asarray(opened(compressed_again(tag_jpeg(image), 0.5, 50)))
    assert len(print_hash(image)) == 64
    assert hash_distance(print_hash(image), print_hash(copy)) <= 16


def test_hash_of_other_print_differs() -> None:
    one, other = print_hash(card("Lot 00731")), print_hash(card("Fernhollow"))
    assert hash_distance(one, other) > 40


def test_hash_distance_counts_bits() -> None:
    assert hash_distance("00ff", "00f0") == 4
    assert hash_distance("0000", "ffff") == 16


def test_hashes_of_different_length_are_refused() -> None:
    with pytest.raises(ValueError, match="2 and 4 digits"):
        hash_distance("00", "0000")


def test_a_picture_is_the_same_as_itself(two_photographs: tuple[bytes, bytes]) -> None:
    assert same_print(two_photographs[0], two_photographs[0]) > 0.97


@pytest.mark.parametrize(("scale", "quality"), [(1.0, 50), (0.6, 70), (0.8, 40)])
def test_a_photograph_saved_again_is_the_same(
    two_photographs: tuple[bytes, bytes], scale: float, quality: int
) -> None:
    original = two_photographs[0]
    assert same_print(original, compressed_again(original, scale, quality)) > 0.6


@pytest.mark.parametrize("quarter_turns", [1, 2, 3])
def test_a_turned_photograph_is_the_same(
    two_photographs: tuple[bytes, bytes], quarter_turns: int
) -> None:
    original = two_photographs[0]
    turned = np.ascontiguousarray(np.rot90(np.asarray(opened(original)), quarter_turns))
    assert same_print(original, tag_jpeg(turned)) > 0.6


def test_another_photograph_of_the_tag_is_not_the_same(
    two_photographs: tuple[bytes, bytes],
) -> None:
    assert same_print(*two_photographs) < 0.3


def test_pictures_without_print_are_not_the_same() -> None:
    blank = tag_jpeg(np.full((200, 300, 3), 200, np.uint8))
    assert same_print(blank, blank) == 0.0


@pytest.mark.parametrize("data", [b"", b"not a picture"])
def test_what_is_no_jpeg_is_refused(data: bytes) -> None:
    with pytest.raises(ValueError, match="not a JPEG picture"):
        same_print(data, data)
