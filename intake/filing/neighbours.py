"""Whether two pictures were likely made one after the other: one picture or pages that follow
each other, neighbouring file names, or moments that are near."""

from __future__ import annotations

import re
from contextlib import suppress
from datetime import datetime
from enum import IntEnum
from pathlib import Path, PurePath

import PIL.Image

NEAR_S = 90.0
"""Pictures taken within so many seconds may show two sides of one tag."""

_EXIF_IFD = 0x8769
_TAKEN = 0x9003
_EXIF_TIME = "%Y:%m:%d %H:%M:%S"
"""Exif 2.32, section 4.6: DateTimeOriginal and its form."""

_SIDES = (
    ("front", "back"), ("recto", "verso"), ("vorne", "hinten"), ("vorderseite", "rückseite"),
    ("vorderseite", "rueckseite"), ("avant", "arrière"), ("avant", "arriere"), ("devant", "dos"),
    ("fronte", "retro"), ("anverso", "reverso"), ("voorkant", "achterkant"),
    ("framsida", "baksida"), ("forside", "bagside"), ("forside", "bakside"),
)  # fmt: skip
"""How the two sides of a thing are named in the languages that balltag reads."""

_NO_MOMENT = (
    OSError, ValueError, TypeError, KeyError, SyntaxError, PIL.Image.DecompressionBombError,
)  # fmt: skip
"""What Pillow raises on files that are gone, are no pictures or have broken EXIF data."""

_NUMBER = re.compile(r"\d+")


class Nearness(IntEnum):
    """How near two pictures are."""

    FAR = 0
    NEAR = 1
    """Neighbouring names, moments or pages, or one picture."""
    NAMED = 2
    """One file is named as the front of what the other is named as the back of."""


def nearness(one: str, one_page: str, other: str, other_page: str) -> Nearness:
    """How near two pictures are, by their paths and pages.  The files are looked at for when
    they were taken only where their names do not tell."""
    if one == other:
        pages = one_page.isdecimal() and other_page.isdecimal()
        apart = abs(int(one_page) - int(other_page)) if pages else 0
        return Nearness.NEAR if apart <= 1 else Nearness.FAR
    if are_named_sides(one, other):
        return Nearness.NAMED
    if follow(one, other) or _taken_near(one, other):
        return Nearness.NEAR
    return Nearness.FAR


def are_named_sides(one: str, other: str) -> bool:
    """Whether two paths are one but for the words for the sides of a thing."""
    here, there = one.casefold(), other.casefold()
    if PurePath(here).parent != PurePath(there).parent:
        return False
    here, there = PurePath(here).stem, PurePath(there).stem
    for front, back in _SIDES:
        for mine, its in ((front, back), (back, front)):
            word = re.compile(rf"(?<![^\W_]){mine}(?![^\W_])")
            if word.search(here) and word.sub(its, here) == there:
                return True
    return False


def follow(one: str, other: str) -> bool:
    """Whether the names of two files in one folder differ by 1 in one number."""
    here, there = PurePath(one), PurePath(other)
    if here.parent != there.parent:
        return False
    mine, its = _NUMBER.findall(here.stem), _NUMBER.findall(there.stem)
    if _NUMBER.sub("#", here.stem) != _NUMBER.sub("#", there.stem) or len(mine) != len(its):
        return False
    apart = [abs(int(a) - int(b)) for a, b in zip(mine, its, strict=True) if int(a) != int(b)]
    return apart == [1]


def taken_at(path: Path) -> datetime | None:
    """When a camera took a picture; ``None`` where the file is gone or does not say."""
    with suppress(*_NO_MOMENT), PIL.Image.open(path) as picture:
        return datetime.strptime(str(picture.getexif().get_ifd(_EXIF_IFD)[_TAKEN]), _EXIF_TIME)
    return None


def _taken_near(one: str, other: str) -> bool:
    moments = taken_at(Path(one)), taken_at(Path(other))
    if moments[0] is None or moments[1] is None:
        return False
    return abs((moments[0] - moments[1]).total_seconds()) <= NEAR_S
