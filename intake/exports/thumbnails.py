"""Small pictures of tags, to know a row by."""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path

import PIL.Image

from intake.pictures.keep import SPOILT

WIDTH_PX = 120
HEIGHT_PX = 72
"""What a thumbnail fits into: 120 x 72 px stay below 4 kB, so that 20,000 of them make a
file that a spreadsheet still opens."""

_QUALITY = 60


@dataclass(frozen=True, slots=True)
class Thumbnail:
    """A small JPEG picture and its size in pixels."""

    jpeg: bytes
    width_px: int
    height_px: int


def thumbnail(path: Path) -> Thumbnail | None:
    """The picture at ``path`` made small; ``None`` where there is none that can be read."""
    if not path.is_file():  # a pipe would be waited for without end
        return None
    try:
        with PIL.Image.open(path, formats=("JPEG",)) as picture:
            picture.draft("RGB", (WIDTH_PX, HEIGHT_PX))  # decodes an eighth of the pixels
            small = picture.convert("RGB")
    except SPOILT:
        return None
    small.thumbnail((WIDTH_PX, HEIGHT_PX))
    data = io.BytesIO()
    small.save(data, "JPEG", quality=_QUALITY, optimize=True)
    return Thumbnail(data.getvalue(), small.width, small.height)
