"""Picture files become pixels, page by page, whatever their format."""

from __future__ import annotations

import hashlib
import math
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BufferedReader
from pathlib import Path

import numpy as np
import numpy.typing as npt
import PIL.ExifTags
import PIL.Image
import PIL.ImageOps
import pillow_heif
import pypdfium2
import pypdfium2.raw

from intake.errors import (
    CutShort,
    EmptyFile,
    LockedPdf,
    NotAPicture,
    PictureError,
    TooLarge,
    Unreadable,
)

Image = npt.NDArray[np.uint8]
"""Pixels of shape (height, width, 3), RGB."""

MAX_PIXELS = 120_000_000
"""Pictures above this are refused: a phone's largest has 108 million pixels, an A3 page at
600 dpi 70 million."""

FULL_PIXELS = 36_000_000
"""Larger pages are brought to a half or a third of their resolution, for more would not go into
a worker's memory: an A4 page at 600 dpi has 35 million pixels."""

MOST_SLENDER = 500
"""No picture is so many times as long as it is broad: its small copy would have no pixels."""

MOST_PAGES = 1_000
"""Files of more pages are refused: each takes a second at least, and a broken file of some
kilobytes may name a million."""

PDF_DPI = 300.0

PILLOW_FORMATS = ("JPEG", "PNG", "TIFF", "WEBP", "HEIF")

_SIGNATURES = (
    (b"\xff\xd8\xff", 0, ".jpg"),
    (b"\x89PNG\r\n\x1a\n", 0, ".png"),
    (b"II*\x00", 0, ".tif"),
    (b"MM\x00*", 0, ".tif"),
    (b"WEBP", 8, ".webp"),
    (b"ftyp", 4, ".heic"),
)
"""How each format that Pillow reads begins: bytes, where they stand, and its suffix."""

_PDF_SIGNATURE = b"%PDF-"
HEAD_BYTES = 1024
"""So many bytes from a file's start tell its format."""

_PDF_END_WITHIN = 2048
_TIFF_SUBFILE_TYPE = 254
_TIFF_REDUCED_COPY = 1

pillow_heif.register_heif_opener()


@dataclass(frozen=True, slots=True)
class Page:
    """One page of a picture file; ``number`` counts from 1."""

    number: int
    image: Image


def pages(path: Path) -> Iterator[Page]:
    """The pages of a picture file, one after the other.

    Only TIFF and PDF files have more than one.  The format is told by the file's content,
    not its suffix.  Pages are turned as their EXIF data says, transparent parts are white,
    deeper colours are brought to 8 bits.  Raises a :class:`PictureError` of the kind that
    fits, for a later page only when it is reached.
    """
    with _opened(path) as file:
        head = file.read(HEAD_BYTES)
        file.seek(0)
        if not head:
            raise EmptyFile(f"{path}: the file is empty; scan or copy it again")
        suffix = suffix_of(head)
        if suffix is None:
            raise _not_a_picture(path)
        yield from _pdf_pages(path, file) if suffix == ".pdf" else _pillow_pages(path, file)


def suffix_of(head: bytes) -> str | None:
    """The suffix that fits a file whose first :data:`HEAD_BYTES` are ``head``; ``None``
    where it is of no format that can be read."""
    if _PDF_SIGNATURE in head:
        return ".pdf"
    return next((suffix for bytes_, at, suffix in _SIGNATURES if head.startswith(bytes_, at)), None)


def digest(path: Path) -> str:
    """SHA-256 of the file's bytes, as 64 hexadecimal digits; :class:`Unreadable` where it
    cannot be opened."""
    with _opened(path) as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def file_bytes(path: Path) -> bytes:
    """All of the file; :class:`Unreadable` where it cannot be opened."""
    with _opened(path) as file:
        return file.read()


@contextmanager
def _opened(path: Path) -> Iterator[BufferedReader]:
    try:
        if path.is_dir():
            raise NotAPicture(f"{path}: is a folder, not a picture; name the files within it")
        # Opening a pipe would wait for ever.
        if path.exists() and not path.is_file():
            raise NotAPicture(f"{path}: is no regular file; copy the picture to a file first")
        file = path.open("rb")
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise Unreadable(
            f"{path}: cannot be opened ({reason}); check the path and its permissions"
        ) from error
    with file:
        yield file


def _not_a_picture(path: Path) -> NotAPicture:
    return NotAPicture(
        f"{path}: is not a picture that can be read; use JPEG, PNG, TIFF, WebP, HEIC or PDF"
    )


def _cut_short(path: Path) -> CutShort:
    return CutShort(f"{path}: is damaged or cut short; copy or scan it again")


# Formats that Pillow reads


def _pillow_pages(path: Path, file: BufferedReader) -> Iterator[Page]:
    with _pillow_faults(path):
        picture = PIL.Image.open(file, formats=PILLOW_FORMATS)
        # Phones add depth maps and previews to a JPEG as further frames.
        frames = getattr(picture, "n_frames", 1) if picture.format == "TIFF" else 1
        _check_pages(path, frames)
    number = 0
    for frame in range(frames):
        with _pillow_faults(path):
            picture.seek(frame)
            if _is_reduced_copy(picture):
                continue
            _check_size(path, picture.width, picture.height)
            step = _step(picture)
            picture.draft(picture.mode, (picture.width // step, picture.height // step))
            picture.load()
        number += 1
        image = _to_rgb(path, _reduced(picture))
        if frame == frames - 1:  # its pixels would stay in memory while ours are read
            picture.close()
        yield Page(number, image)
    if not number:
        raise _cut_short(path)


@contextmanager
def _pillow_faults(path: Path) -> Iterator[None]:
    """Pillow's faults as ours.  It knows a file by its signature at this point, so
    whatever it cannot decode is damaged."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            yield
    except PictureError:
        raise
    except PIL.Image.DecompressionBombError as error:
        raise _too_large(path) from error
    except MemoryError as error:
        raise TooLarge(
            f"{path}: wants more memory than there is; close other programs, or scan it at 300 dpi"
        ) from error
    except Exception as error:
        # Decoders raise whatever they like on damaged data: OSError, ValueError,
        # SyntaxError, struct.error, EOFError and more.
        raise _cut_short(path) from error


def _is_reduced_copy(picture: PIL.Image.Image) -> bool:
    kind = getattr(picture, "tag_v2", {}).get(_TIFF_SUBFILE_TYPE, 0)
    return bool(int(kind) & _TIFF_REDUCED_COPY)


def _check_shape(path: Path, width: float, height: float) -> None:
    if width * height <= 0:
        raise NotAPicture(f"{path}: the picture has no pixels; scan or copy it again")
    if max(width, height) > MOST_SLENDER * min(width, height):
        raise NotAPicture(
            f"{path}: the picture is more than {MOST_SLENDER} times as long as broad; scan or copy "
            "it again"
        )


def _check_pages(path: Path, count: int) -> None:
    if count > MOST_PAGES:
        raise TooLarge(f"{path}: has more than {MOST_PAGES} pages; save it in parts")


def _check_size(path: Path, width_px: int, height_px: int) -> None:
    _check_shape(path, width_px, height_px)
    if width_px * height_px > MAX_PIXELS:
        raise _too_large(path)


_AS_MIXABLE = {"1": "L", "I;16": "I", "I;16L": "I", "I;16B": "I", "I;16N": "I"}
"""Modes whose values Pillow cannot mix, as modes whose values it can."""


def _step(picture: PIL.Image.Image) -> int:
    """Of how many pixels each way one is made."""
    return math.ceil(math.sqrt(picture.width * picture.height / FULL_PIXELS))


def _reduced(picture: PIL.Image.Image) -> PIL.Image.Image:
    step = _step(picture)  # 1 where the decoder did it itself, as that of JPEG does
    if step == 1:
        return picture
    if picture.mode == "P":
        picture = picture.convert("RGBA" if picture.has_transparency_data else "RGB")
    elif picture.mode in _AS_MIXABLE:
        picture = picture.convert(_AS_MIXABLE[picture.mode])
    return picture.reduce(step)


def _too_large(path: Path) -> TooLarge:
    limit = MAX_PIXELS // 1_000_000
    return TooLarge(f"{path}: has more than {limit} million pixels; scan it at 300 dpi")


def _to_rgb(path: Path, picture: PIL.Image.Image) -> Image:
    if picture.mode == "LAB":
        raise NotAPicture(f"{path}: has Lab colours, which cannot be read; save it as RGB")
    picture = _turned_upright(picture)
    if picture.mode.startswith(("I", "F")):
        picture = PIL.Image.fromarray(_to_8_bit(np.asarray(picture)))
    if picture.has_transparency_data:
        # Flattened in two steps, for some modes reach RGB only through RGBA.
        layer = picture.convert("RGBA")
        white = PIL.Image.new("RGBA", layer.size, "white")
        picture = PIL.Image.alpha_composite(white, layer)
    if picture.mode != "RGB":  # else it would be copied
        picture = picture.convert("RGB")
    return np.array(picture, dtype=np.uint8)


def _turned_upright(picture: PIL.Image.Image) -> PIL.Image.Image:
    try:
        if picture.getexif().get(PIL.ExifTags.Base.Orientation, 1) == 1:
            return picture
        return PIL.ImageOps.exif_transpose(picture)
    except Exception:
        # A picture with broken EXIF data is still a picture.
        return picture


def _to_8_bit(values: npt.NDArray[np.generic]) -> Image:
    """Grey values of more than 8 bits: whole numbers count as 16-bit unless all of them
    fit in 8, fractions as 0 to 1 unless they go beyond."""
    numbers = np.nan_to_num(values.astype(np.float32))
    highest = float(numbers.max())
    if np.issubdtype(values.dtype, np.floating):
        white = 1.0 if highest <= 1 else 255.0
    else:
        white = 255.0 if values.dtype != np.uint16 and highest <= 255 else 65535.0
    scaled: npt.NDArray[np.float32] = np.clip(numbers * (255 / white) + 0.5, 0, 255)
    return scaled.astype(np.uint8)


# PDF


def _pdf_pages(path: Path, file: BufferedReader) -> Iterator[Page]:
    _check_pdf_end(path, file)
    try:
        with pypdfium2.PdfDocument(path) as document:
            _check_pages(path, len(document))
            for index in range(len(document)):
                yield Page(index + 1, _drawn(path, document[index]))
    except pypdfium2.PdfiumError as error:
        if error.err_code == pypdfium2.raw.FPDF_ERR_PASSWORD:
            raise LockedPdf(f"{path}: the PDF wants a password; save a copy without one") from error
        raise _cut_short(path) from error


def _check_pdf_end(path: Path, file: BufferedReader) -> None:
    """PDFium mends what is cut short and would pass over lost pages in silence."""
    size = file.seek(0, 2)
    file.seek(max(0, size - _PDF_END_WITHIN))
    if b"%%EOF" not in file.read():
        raise _cut_short(path)


def _drawn(path: Path, page: pypdfium2.PdfPage) -> Image:
    width_pt, height_pt = page.get_size()
    scale = PDF_DPI / 72
    _check_shape(path, width_pt, height_pt)
    pixels = width_pt * height_pt * scale**2
    if pixels > FULL_PIXELS:
        scale *= (FULL_PIXELS / pixels) ** 0.5
    bitmap = page.render(scale=scale, rev_byteorder=True)
    return np.array(bitmap.to_numpy()[:, :, :3], dtype=np.uint8)
