"""Invented tags for the tests of filing: the balls of a weaver's cellar in Quillstow.

Maker, range and shades are made up.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import PIL.Image
import PIL.ImageDraw
import PIL.ImageFont

from intake.filing.cabinet import open_cabinet
from intake.filing.record import Record, record_from_reading
from intake.pictures.keep import print_hash, tag_jpeg
from intake.records import (
    FibrePart,
    Field,
    Letter,
    Line,
    Reading,
    State,
    TagReading,
    Value,
)

WOOL = (FibrePart("wool", "merino", 75.0), FibrePart("polyamide", "", 25.0))

PRINT: Mapping[str, Value] = {
    "weight_class": "4 ply",
    "shade": "Kelp",
    "shade_code": "041",
    "lot": "0012",
    "fibre": WOOL,
    "length_m": 210.0,
    "mass_g": 50.0,
    "care": ("hand wash", "dry flat"),
    "maker": "Quillstow Spinners",
    "range": "Sluicegate",
}


def sure(name: str, value: Value) -> Field:
    return Field(name, value, 0.99, State.SURE, line=f"{name} {value}")


def doubtful(
    name: str, value: Value, *others: str, reason: str = "the two readers differ"
) -> Field:
    return Field(name, value, 0.4, State.DOUBTFUL, f"{name} {value}", (), others, reason)


def tag(
    picture: str = "cellar.jpg", number: int = 1, *fields: Field, **values: Value
) -> TagReading:
    """Tag ``number`` of ``picture``: :data:`PRINT` with ``values`` (``None`` for what it
    does not carry) and ``fields`` in their place.  Its tag picture shows that print."""
    known = {name: sure(name, value) for name, value in {**PRINT, **values}.items() if value}
    known |= {field.name: field for field in fields}
    words = " ".join(str(field.value) for field in known.values())
    jpeg, seen = picture_of(words, picture)
    return TagReading(
        picture=picture,
        page=1,
        tag=number,
        digest=hashlib.sha256(picture.encode()).hexdigest(),
        print_hash=seen,
        jpeg=jpeg,
        lines=(line(f"LOT {known['lot'].value}"),) if "lot" in known else (),
        barcodes=(),
        fields=known,
    )


def waiting_tag(picture: str = "cellar.jpg", number: int = 1, **values: Value) -> TagReading:
    """A tag whose lot is doubtful: read as ``0O12``, or else ``0012``."""
    return tag(picture, number, doubtful("lot", "0O12", "0012"), **values)


def record(picture: str = "cellar.jpg", number: int = 1, **texts: str) -> Record:
    """The row of :func:`tag`, with columns set to ``texts``."""
    return replace(plain_record(picture, number), **texts)  # type: ignore[arg-type]


def plain_record(picture: str, number: int) -> Record:
    bare = replace(tag(), picture=picture, tag=number)
    digest = hashlib.sha256(picture.encode()).hexdigest()
    return record_from_reading(replace(bare, digest=digest), "2025-03-09T17:05:42Z")


def line(text: str) -> Line:
    """A line of print that both readers read as ``text``."""
    step = 1 / max(len(text), 1)
    letters = tuple(
        Letter(letter, 0.9, place * step, (place + 1) * step) for place, letter in enumerate(text)
    )
    return Line(
        quad=((1.0, 2.0), (90.5, 2.0), (90.5, 14.0), (1.0, 14.0)),
        letters=letters,
        agreed=(True,) * len(text),
        others=("",) * len(text),
        readings=(Reading("one", letters), Reading("two", letters)),
    )


@cache
def picture_of(words: str, seed: str) -> tuple[bytes, str]:
    """A drawn tag with ``words``, and its print hash.  ``seed`` sets the place of
    the print and the fall of the light, as another photograph would."""
    chance = np.random.default_rng(list(seed.encode()))
    image = PIL.Image.new("RGB", (1280, 800), (215, 215, 210))
    pen = PIL.ImageDraw.Draw(image)
    font = PIL.ImageFont.load_default(56)
    left, top = (int(place) for place in chance.integers(16, 160, 2))
    for row, start in enumerate(range(0, len(words), 30)):
        pen.text((left, top + 72 * row), words[start : start + 30], (30, 30, 40), font)
    slopes = chance.uniform(-0.25, 0.25, 2)
    down, across = np.mgrid[-1:1:800j, -1:1:1280j]
    light = 0.85 + (slopes[0] * down + slopes[1] * across) / 2
    pixels = np.clip(np.asarray(image) * light[..., None], 0, 255).astype(np.uint8)
    return tag_jpeg(pixels), print_hash(pixels)


def use_cabinet(stash: Path) -> None:
    """All that is done with a stash by looking at it."""
    cabinet = open_cabinet(stash)
    cabinet.asked()
    for one in cabinet.waiting():
        cabinet.get(one)
    cabinet.learnt.lessons()
    cabinet.history.standing()
