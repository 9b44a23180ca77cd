"""A desk on a real port with invented tags waiting.

The tags are those of Hollin Fold, a wool shed that was made up with its shades.
"""

from __future__ import annotations

import hashlib
import io
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path

import PIL.Image
import PIL.ImageDraw
import PIL.ImageFont
from filing_tags import doubtful, sure
from patience import LONG_S, wait_until

from intake.desk.app import desk_app
from intake.desk.security import Keys
from intake.desk.serve import listen, own_hosts, server_for
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.judge import judge
from intake.filing.stash import WAIT_S
from intake.records import (
    FibrePart,
    Field,
    Letter,
    Line,
    Quad,
    Reading,
    Span,
    TagReading,
)

SHADES = ("Bracken", "Sloe", "Tarn", "Rowan", "Peat", "Gorse", "Slate", "Heron", "Clover", "Rime")

_SIZE = (1100, 700)
_LEFT_PX = 90
_LETTER_PX = 44
_ROWS_PX = (70, 160, 250, 320, 390, 460, 530, 600)


@dataclass(frozen=True)
class Printed:
    """One row of a tag: what the first reader saw, what the second saw where that
    differs, and the fields that stand there with the words that carry them."""

    text: str
    second: str = ""
    words: dict[str, str] = field(default_factory=dict)


def lot_tag(
    number: int = 1, shade: str = "", lot: str = "0O412", second: str = "00412"
) -> TagReading:
    """A tag whose lot the two readers saw differently; all else is sure."""
    shade = shade or SHADES[number % len(SHADES)]
    return printed_tag(
        f"shed-{number:04}.jpg",
        (
            Printed("HOLLIN FOLD", words={"maker": "HOLLIN FOLD"}),
            Printed("Drystone 4 ply", words={"range": "Drystone"}),
            Printed(f"Shade {shade} 071", words={"shade": shade, "shade_code": "071"}),
            Printed(f"Lot {lot}", f"Lot {second}", {"lot": lot}),
            Printed("80% wool 20% nylon", words={"fibre": "80% wool 20% nylon"}),
            Printed("50 g  200 m", words={"mass_g": "50", "length_m": "200"}),
            Printed("Hand wash. Dry flat.", words={"care": "Hand wash. Dry flat."}),
        ),
        sure("maker", "Hollin Fold"),
        sure("range", "Drystone"),
        sure("weight_class", "super fine"),
        sure("shade", shade),
        sure("shade_code", "071"),
        doubtful("lot", lot, second, reason="the two readers differ"),
        sure("fibre", (FibrePart("wool", "", 80.0), FibrePart("polyamide", "", 20.0))),
        sure("mass_g", 50.0),
        sure("length_m", 200.0),
        sure("care", ("hand wash", "dry flat")),
    )


def with_field(reading: TagReading, *fields: Field) -> TagReading:
    """``reading`` with ``fields`` in place of its own, where they stood."""
    kept = dict(reading.fields)
    for each in fields:
        before = kept.get(each.name)
        kept[each.name] = replace(each, spans=before.spans if before else ())
    return replace(reading, fields=kept)


def printed_tag(picture: str, rows: Sequence[Printed], *fields: Field) -> TagReading:
    """A tag with ``rows`` drawn on it, read as they say."""
    lines = tuple(_line(row, top) for row, top in zip(rows, _ROWS_PX, strict=False))
    spans = {
        name: Span(at, row.text.index(word), row.text.index(word) + len(word))
        for at, row in enumerate(rows)
        for name, word in row.words.items()
    }
    printed = {
        each.name: replace(
            each,
            spans=(spans[each.name],) if each.name in spans else (),
            line=rows[spans[each.name].line].text if each.name in spans else "",
        )
        for each in fields
    }
    digest = hashlib.sha256(picture.encode()).hexdigest()
    return TagReading(
        picture=picture,
        page=1,
        tag=1,
        digest=digest,
        print_hash=digest,
        jpeg=_drawn(tuple(row.text for row in rows)),
        lines=lines,
        barcodes=(),
        fields=printed,
    )


def _line(row: Printed, top: int) -> Line:
    second = row.second or row.text
    right = _LEFT_PX + _font().getlength(row.text)
    bottom = top + _LETTER_PX * 1.25
    quad: Quad = ((_LEFT_PX, top), (right, top), (right, bottom), (_LEFT_PX, bottom))
    letters, others = _letters(row.text), _letters(second)
    agreed = tuple(at < len(second) and letter == second[at] for at, letter in enumerate(row.text))
    return Line(
        quad=quad,
        letters=letters,
        agreed=agreed,
        others=tuple(
            "" if same or at >= len(second) else second[at] for at, same in enumerate(agreed)
        ),
        readings=(Reading("rapidocr", letters), Reading("tesseract", others)),
    )


def _letters(text: str) -> tuple[Letter, ...]:
    ends = [_font().getlength(text[:at]) for at in range(len(text) + 1)]
    whole = max(ends[-1], 1.0)
    return tuple(
        Letter(letter, 0.9, ends[at] / whole, ends[at + 1] / whole)
        for at, letter in enumerate(text)
    )


@cache
def _font() -> PIL.ImageFont.FreeTypeFont | PIL.ImageFont.ImageFont:
    return PIL.ImageFont.load_default(_LETTER_PX)


@cache
def _drawn(rows: tuple[str, ...]) -> bytes:
    """A paper tag with ``rows`` on it, a frame and a hole."""
    image = PIL.Image.new("RGB", _SIZE, (244, 239, 228))
    pen = PIL.ImageDraw.Draw(image)
    pen.rectangle((12, 12, _SIZE[0] - 13, _SIZE[1] - 13), outline=(70, 92, 96), width=4)
    pen.ellipse((980, 60, 1040, 120), outline=(70, 92, 96), width=4, fill=(190, 196, 194))
    for row, top in zip(rows, _ROWS_PX, strict=False):
        pen.text((_LEFT_PX, top), row, (38, 50, 56), _font())
    data = io.BytesIO()
    image.save(data, "JPEG", quality=88)
    return data.getvalue()


def hold(cabinet: Cabinet, *readings: TagReading) -> list[str]:
    """Let ``readings`` wait with the doubts they have; their ids."""
    return [cabinet.hold(reading, judge(reading)) for reading in readings]


class Served:
    """A desk that answers on a real port, and can be closed and opened again there."""

    def __init__(self, stash: Path, keys: Keys | None = None, wait_s: float = WAIT_S) -> None:
        self.stash = stash
        self.keys = keys
        self.wait_s = wait_s
        self._port: int | None = None
        self.open()

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self._port}"

    def open(self) -> None:
        listener = listen(self._port or 0)
        self._port = listener.getsockname()[1]
        app = desk_app(open_cabinet(self.stash, self.wait_s), own_hosts(listener), self.keys)
        self._server = server_for(app)
        self._server.end_within_s = 1
        self._thread = threading.Thread(
            target=self._server.run, kwargs={"sockets": [listener]}, daemon=True
        )
        self._thread.start()
        wait_until(lambda: self._server.started, "the desk opens")

    def close(self) -> None:
        self._server.should_exit = True
        self._thread.join(LONG_S)
        assert not self._thread.is_alive(), "the desk does not close"


@contextmanager
def served(stash: Path, keys: Keys | None = None, wait_s: float = WAIT_S) -> Iterator[Served]:
    """A desk for the stash at ``stash``, which wants one of ``keys`` where they are given and
    waits so long for another process."""
    desk = Served(stash, keys, wait_s)
    try:
        yield desk
    finally:
        desk.close()
