"""Every format in, RGB pixels out; every bad file named in one line."""

from __future__ import annotations

import hashlib
import os
import struct
import subprocess
import sys
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import cv2
import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image

from intake.errors import (
    CutShort,
    EmptyFile,
    LockedPdf,
    NotAPicture,
    PictureError,
    TooLarge,
    Unreadable,
)
from intake.pictures import load
from intake.pictures.load import MOST_PAGES, digest, pages

Pixels = npt.NDArray[np.uint8]
SIZE_PX = (90, 60)


def sample() -> Image.Image:
    """A picture whose four quarters differ, so that no turn or mirror image equals it."""
    picture = Image.new("RGB", SIZE_PX, (200, 30, 30))
    picture.paste((30, 160, 60), (45, 0, 90, 30))
    picture.paste((40, 60, 190), (0, 30, 45, 60))
    picture.paste((240, 230, 220), (45, 30, 90, 60))
    return picture


def only_page(path: Path) -> Pixels:
    (page,) = pages(path)
    assert page.number == 1
    assert page.image.dtype == np.uint8
    return page.image


def differs(image: Pixels, expected: Image.Image | Pixels) -> float:
    return float(np.abs(image.astype(float) - np.asarray(expected, dtype=float)).mean())


@pytest.mark.parametrize(
    ("name", "options", "tolerance"),
    [
        ("a.png", {}, 0.0),
        ("a.tif", {}, 0.0),
        ("a.tif", {"compression": "tiff_lzw"}, 0.0),
        ("a.webp", {"lossless": True}, 0.0),
        ("a.jpg", {"quality": 95}, 4.0),
        ("a.heic", {"quality": 95}, 4.0),
    ],
)
def test_each_format_gives_the_same_pixels(
    tmp_path: Path, name: str, options: dict[str, object], tolerance: float
) -> None:
    sample().save(tmp_path / name, **options)
    image = only_page(tmp_path / name)
    assert image.shape == (60, 90, 3)
    assert differs(image, sample()) <= tolerance


def test_format_is_told_by_content_not_by_suffix(tmp_path: Path) -> None:
    sample().save(tmp_path / "a.png")
    lying = tmp_path / "a.pdf"
    (tmp_path / "a.png").rename(lying)
    assert differs(only_page(lying), sample()) == 0


@pytest.mark.parametrize("orientation", range(1, 9))
def test_exif_turn_is_applied(tmp_path: Path, orientation: int) -> None:
    # OpenCV's reader applies EXIF orientation on its own; it is the outside check.
    path = tmp_path / "a.jpg"
    exif = Image.Exif()
    exif[0x0112] = orientation
    sample().save(path, exif=exif, quality=95)
    expected = cv2.cvtColor(cv2.imread(str(path), cv2.IMREAD_COLOR), cv2.COLOR_BGR2RGB)
    image = only_page(path)
    assert image.shape == expected.shape
    assert differs(image, np.asarray(expected, np.uint8)) < 2


def test_broken_exif_does_not_spoil_the_picture(tmp_path: Path) -> None:
    sample().save(tmp_path / "a.jpg", exif=b"Exif\x00\x00MM\x00*\x00\x00\x00\x08\xff\xff\x01")
    assert only_page(tmp_path / "a.jpg").shape == (60, 90, 3)


def test_every_page_of_a_tiff_comes_in_order(tmp_path: Path) -> None:
    colours = [(255, 0, 0), (0, 255, 0), (0, 0, 255)]
    first, *others = [Image.new("RGB", (20 + n, 10), colour) for n, colour in enumerate(colours)]
    first.save(tmp_path / "a.tif", save_all=True, append_images=others)
    got = list(pages(tmp_path / "a.tif"))
    assert [page.number for page in got] == [1, 2, 3]
    assert [page.image.shape[1] for page in got] == [20, 21, 22]
    assert [tuple(page.image[0, 0]) for page in got] == colours


def test_every_page_of_a_pdf_comes_at_300_dpi(tmp_path: Path) -> None:
    first, second = Image.new("RGB", (72, 144), "red"), Image.new("RGB", (144, 72), "blue")
    first.save(tmp_path / "a.pdf", save_all=True, append_images=[second], resolution=72.0)
    got = list(pages(tmp_path / "a.pdf"))
    assert [page.image.shape[:2] for page in got] == [(600, 300), (300, 600)]
    assert differs(got[1].image, second.resize((600, 300))) < 4


def test_a_huge_pdf_page_is_drawn_smaller(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(load, "FULL_PIXELS", 10_000)
    Image.new("RGB", (144, 72)).save(tmp_path / "a.pdf", resolution=72.0)
    height_px, width_px = only_page(tmp_path / "a.pdf").shape[:2]
    assert width_px * height_px == pytest.approx(10_000, rel=0.03)
    assert width_px / height_px == pytest.approx(2, rel=0.03)


def test_second_pictures_within_a_phones_jpeg_are_no_pages(tmp_path: Path) -> None:
    sample().save(
        tmp_path / "a.jpg", "MPO", save_all=True, append_images=[Image.new("RGB", (9, 9))]
    )
    assert only_page(tmp_path / "a.jpg").shape == (60, 90, 3)


def transparent() -> Image.Image:
    picture = Image.new("RGBA", (8, 8), (0, 0, 0, 0))
    picture.paste((10, 20, 30, 255), (0, 0, 4, 8))
    return picture


def as_transparent_palette() -> Image.Image:
    picture = Image.new("P", (8, 8), 1)
    picture.putpalette([10, 20, 30, 90, 90, 90])
    picture.paste(0, (0, 0, 4, 8))
    picture.info["transparency"] = 1
    return picture


@pytest.mark.parametrize("draw", [transparent, as_transparent_palette])
def test_transparent_parts_are_white(tmp_path: Path, draw: Callable[[], Image.Image]) -> None:
    draw().save(tmp_path / "a.png")
    image = only_page(tmp_path / "a.png")
    assert tuple(image[0, 0]) == (10, 20, 30)
    assert tuple(image[0, 7]) == (255, 255, 255)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "CMYK", "YCbCr"])
def test_colour_modes_become_rgb(tmp_path: Path, mode: str) -> None:
    sample().convert(mode).save(tmp_path / ("a.jpg" if mode == "YCbCr" else "a.tif"))
    path = next(tmp_path.iterdir())
    expected = sample().convert(mode).convert("RGB")
    assert differs(only_page(path), expected) < 4


@pytest.mark.parametrize("name", ["a.png", "a.tif"])
def test_sixteen_bit_grey_keeps_its_steps(tmp_path: Path, name: str) -> None:
    ramp = np.linspace(0, 65535, 256).astype(np.uint16)[None].repeat(4, axis=0)
    cv2.imwrite(str(tmp_path / name), ramp)
    image = only_page(tmp_path / name)
    assert np.abs(image[0, :, 0].astype(int) - np.arange(256)).max() <= 1


def test_sixteen_bit_colour_keeps_its_steps(tmp_path: Path) -> None:
    ramp = np.linspace(0, 65535, 256).astype(np.uint16)[None, :, None].repeat(3, axis=2)
    cv2.imwrite(str(tmp_path / "a.png"), ramp)
    image = only_page(tmp_path / "a.png")
    assert np.abs(image[0, :, 1].astype(int) - np.arange(256)).max() <= 1


@pytest.mark.parametrize("highest", [1.0, 255.0])
def test_grey_as_fractions_is_scaled(tmp_path: Path, highest: float) -> None:
    ramp = np.linspace(0, highest, 256, dtype=np.float32)[None].repeat(4, axis=0)
    Image.fromarray(ramp).save(tmp_path / "a.tif")
    image = only_page(tmp_path / "a.tif")
    assert np.abs(image[0, :, 2].astype(int) - np.arange(256)).max() <= 1


def test_digest_is_the_sha256_of_the_bytes(tmp_path: Path) -> None:
    # SHA-256 of "abc": FIPS 180-2, appendix B.1.
    (tmp_path / "a.jpg").write_bytes(b"abc")
    assert digest(tmp_path / "a.jpg") == (
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    )
    assert hashlib.sha256(b"abc").hexdigest() == digest(tmp_path / "a.jpg")


# Bad input


def refused(path: Path, kind: type[PictureError]) -> str:
    with pytest.raises(kind) as caught:
        list(pages(path))
    line = str(caught.value)
    assert type(caught.value) is kind
    assert line.startswith(f"{path}: ")
    assert "\n" not in line
    assert "; " in line
    return line


def test_an_empty_file_is_named(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").touch()
    refused(tmp_path / "a.jpg", EmptyFile)


@pytest.mark.parametrize("content", [b"lot 0042", b"\x00" * 500, b"GIF89a" + b"\x00" * 50])
def test_what_is_no_picture_is_named(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "a.jpg").write_bytes(content)
    refused(tmp_path / "a.jpg", NotAPicture)


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.tif", "a.webp", "a.heic", "a.pdf"])
@pytest.mark.parametrize("share", [0.05, 0.5, 0.9])
def test_a_picture_that_ends_early_is_named(tmp_path: Path, name: str, share: float) -> None:
    noise = np.random.default_rng(1).integers(0, 256, (120, 160, 3), dtype=np.uint8)
    Image.fromarray(noise).save(tmp_path / name)
    data = (tmp_path / name).read_bytes()
    (tmp_path / name).write_bytes(data[: int(share * len(data))])
    refused(tmp_path / name, CutShort)


def test_bytes_overwritten_within_a_png_are_named(tmp_path: Path) -> None:
    sample().save(tmp_path / "a.png")
    data = bytearray((tmp_path / "a.png").read_bytes())
    data[60:90] = b"\xff" * 30
    (tmp_path / "a.png").write_bytes(data)
    refused(tmp_path / "a.png", CutShort)


def png_of_size(width_px: int, height_px: int) -> bytes:
    """A PNG that claims any size in a few bytes (PNG specification, section 11.2.2)."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return (
            struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        )

    header = struct.pack(">IIBBBBB", width_px, height_px, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(b"\x00" * 100))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize(("width_px", "height_px"), [(12_001, 10_000), (50_000, 50_000)])
def test_a_bomb_is_refused_before_it_unfolds(tmp_path: Path, width_px: int, height_px: int) -> None:
    (tmp_path / "a.png").write_bytes(png_of_size(width_px, height_px))
    assert "120 million pixels" in refused(tmp_path / "a.png", TooLarge)


def test_a_picture_without_pixels_is_named(tmp_path: Path) -> None:
    (tmp_path / "a.png").write_bytes(png_of_size(0, 0))
    with pytest.raises((NotAPicture, CutShort)):
        list(pages(tmp_path / "a.png"))


@pytest.mark.parametrize("size_px", [(2000, 1), (1, 3000), (20_000, 39)])
def test_a_line_of_pixels_is_no_picture(tmp_path: Path, size_px: tuple[int, int]) -> None:
    Image.new("RGB", size_px, "white").save(tmp_path / "a.png")
    assert "500 times as long as broad" in refused(tmp_path / "a.png", NotAPicture)


def test_a_file_of_very_many_pages_is_refused(tmp_path: Path) -> None:
    page = Image.new("L", (8, 8), "white")
    page.save(tmp_path / "a.tif", save_all=True, append_images=[page] * MOST_PAGES)
    assert refused(tmp_path / "a.tif", TooLarge).endswith(
        "a.tif: has more than 1000 pages; save it in parts"
    )
    many = MOST_PAGES + 1
    (tmp_path / "a.pdf").write_bytes(
        pdf(
            b"<</Type/Catalog/Pages 2 0 R>>",
            b"<</Type/Pages/Kids[%s]/Count %d>>" % (b"3 0 R " * many, many),
            b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 72 72]>>",
        )
    )
    assert "more than 1000 pages" in refused(tmp_path / "a.pdf", TooLarge)


def test_a_page_of_a_tiff_without_pixels_is_named(tmp_path: Path) -> None:
    sample().save(tmp_path / "a.tif", save_all=True, append_images=[sample()])
    data = bytearray((tmp_path / "a.tif").read_bytes())
    first = struct.unpack_from("<I", data, 4)[0]
    entries = struct.unpack_from("<H", data, first)[0]
    second = struct.unpack_from("<I", data, first + 2 + 12 * entries)[0]
    assert struct.unpack_from("<H", data, second + 2) == (256,)  # ImageWidth (TIFF 6.0, page 18)
    struct.pack_into("<I", data, second + 10, 0)
    (tmp_path / "a.tif").write_bytes(data)
    assert "has no pixels; scan or copy it again" in refused(tmp_path / "a.tif", NotAPicture)


def test_a_tiff_that_holds_only_a_preview_is_named(tmp_path: Path) -> None:
    """A reduced copy of a picture that is not there: NewSubfileType, bit 0 (TIFF 6.0, page 36)."""
    sample().save(tmp_path / "a.tif", tiffinfo={254: 1})
    assert "is damaged or cut short; copy or scan it again" in refused(tmp_path / "a.tif", CutShort)


@pytest.mark.skipif(sys.platform != "linux", reason="others do not hold a process to its limit")
def test_a_picture_for_which_memory_is_short_is_named(tmp_path: Path) -> None:
    Image.new("RGB", (7000, 6000), "white").save(tmp_path / "a.png")
    load_it = (
        "import resource, sys; from pathlib import Path; import psutil\n"
        "from intake.pictures.load import pages; from intake.errors import TooLarge\n"
        "most = psutil.Process().memory_info().vms + 40_000_000\n"
        "resource.setrlimit(resource.RLIMIT_AS, (most, most))\n"
        "try: list(pages(Path(sys.argv[1])))\n"
        "except TooLarge as error: print(error)"
    )
    said = subprocess.run(
        [sys.executable, "-c", load_it, str(tmp_path / "a.png")],
        capture_output=True, text=True, check=True,
    ).stdout  # fmt: skip
    (line,) = said.splitlines()
    assert line.endswith(
        "a.png: wants more memory than there is; close other programs, or scan it at 300 dpi"
    )


def pdf(*objects: bytes, trailer: bytes = b"") -> bytes:
    """A PDF of these objects, the first of which is its catalogue (PDF 32000-1:2008, 7.5)."""
    data = b"%PDF-1.4\n"
    places = []
    for number, body in enumerate(objects, start=1):
        places.append(len(data))
        data += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    size = len(objects) + 1
    table = b"".join(b"%010d 00000 n \n" % place for place in places)
    return data + (
        b"xref\n0 %d\n0000000000 65535 f \n%strailer\n<</Size %d/Root 1 0 R%s>>\n"
        b"startxref\n%d\n%%%%EOF\n" % (size, table, size, trailer, len(data))
    )


def test_a_page_of_a_pdf_that_shows_nothing_is_named(tmp_path: Path) -> None:
    """Its crop box lies outside of its paper (PDF 32000-1:2008, 14.11.2)."""
    (tmp_path / "a.pdf").write_bytes(
        pdf(
            b"<</Type/Catalog/Pages 2 0 R>>",
            b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
            b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 72 72]/CropBox[100 100 200 200]>>",
        )
    )
    assert "has no pixels; scan or copy it again" in refused(tmp_path / "a.pdf", NotAPicture)


def test_a_pdf_without_pages_is_named(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(b"%PDF-1.4\n%%EOF\n")
    assert "is damaged or cut short; copy or scan it again" in refused(tmp_path / "a.pdf", CutShort)


def test_a_locked_pdf_is_named(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_bytes(locked_pdf())
    refused(tmp_path / "a.pdf", LockedPdf)


def locked_pdf() -> bytes:
    """A PDF with the standard security handler and a user password that is not empty
    (PDF 32000-1:2008, 7.6.3); any /O and /U that no password fits will do."""
    return pdf(
        b"<</Type/Catalog/Pages 2 0 R>>",
        b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
        b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 72 72]>>",
        b"<</Filter/Standard/V 1/R 2/P -4/O<" + b"41" * 32 + b">/U<" + b"42" * 32 + b">>>",
        trailer=b"/Encrypt 4 0 R/ID[<%s><%s>]" % (b"01" * 16, b"01" * 16),
    )


def test_lab_colours_are_refused(tmp_path: Path) -> None:
    Image.new("LAB", (8, 8)).save(tmp_path / "a.tif")
    refused(tmp_path / "a.tif", NotAPicture)


def test_a_folder_is_named(tmp_path: Path) -> None:
    refused(tmp_path, NotAPicture)


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    assert "no such file" in refused(tmp_path / "a.jpg", Unreadable)


def test_a_link_to_itself_is_named(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").symlink_to(tmp_path / "a.jpg")
    refused(tmp_path / "a.jpg", Unreadable)


def test_a_pipe_is_refused_without_waiting(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.jpg")
    refused(tmp_path / "a.jpg", NotAPicture)


@contextmanager
def unprivileged() -> Iterator[None]:
    """Gives up the right of the superuser to read everything, for as long as it lasts."""
    user = os.geteuid()
    if user == 0:
        os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(user)


def test_a_file_without_permission_is_named(tmp_path: Path) -> None:
    path = tmp_path / "a.jpg"
    sample().save(path)
    path.chmod(0)
    with unprivileged():
        assert "permission" in refused(path, Unreadable)


@pytest.mark.parametrize(
    ("mode", "ending"),
    [
        ("RGB", "jpg"), ("RGB", "png"), ("RGBA", "png"), ("P", "png"), ("1", "tif"), ("L", "jpg"),
        ("I;16", "png"), ("CMYK", "jpg"),
    ],
)  # fmt: skip
def test_a_huge_picture_is_brought_to_half_its_resolution(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, mode: str, ending: str
) -> None:
    monkeypatch.setattr(load, "FULL_PIXELS", 10_000)
    halves = Image.new("L", (160, 100), "black")
    halves.paste("white", (80, 0, 160, 100))
    path = tmp_path / f"huge.{ending}"
    deep = halves.convert("I").point(lambda grey: grey * 257) if mode == "I;16" else halves
    deep.convert(mode).save(path)
    (page,) = load.pages(path)
    assert page.image.shape == (50, 80, 3)
    assert page.image[:, :36].max() < 20
    assert page.image[:, 44:].min() > 235
