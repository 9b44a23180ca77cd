"""What one row of a stash holds."""

from __future__ import annotations

import hashlib
import math
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields
from datetime import UTC, datetime

from intake.errors import one_line, quoted
from intake.records import Field, TagReading
from intake.wording import number_text, value_text

VERSION = "2"
"""Version of the stash's layout.  It stands in every row."""

AMOUNTS = ("length_m", "mass_g")
"""The columns that hold an amount of one ball, or nothing."""

NUMBERS = (*AMOUNTS, "balls")
"""The columns that hold numbers; all others hold text for ever."""


@dataclass(frozen=True, slots=True)
class Record:
    """One filed tag.  The order of the fields is the order of the stash's columns.

    ``balls`` is how many balls the tag stands for, from 1 up; its length and mass are those
    of one of them.  Text that a tag does not carry is empty; a length or mass that it does
    not carry is ``None``.  ``weight_printed`` is the weight in the tag's own words,
    ``shade_printed`` what the tag says where ``shade`` is a normalised form of it.
    ``fibre`` and ``care`` are in the wording of :mod:`intake.wording`.  ``digest`` is the
    SHA-256 of the picture file, ``tag_picture`` the file's name in the folder of tag
    pictures, ``filed_at`` the moment of filing in UTC (ISO 8601).  ``version`` comes last: a
    row that ends with it is whole.
    """

    id: str
    weight_class: str
    weight_printed: str
    shade: str
    shade_printed: str
    shade_code: str
    lot: str
    fibre: str
    length_m: float | None
    mass_g: float | None
    balls: int
    care: str
    maker: str
    range: str
    barcode: str
    origin: str
    needle_mm: str
    stitches_per_10cm: str
    rows_per_10cm: str
    tension: str
    note: str
    picture: str
    page: str
    tag: str
    digest: str
    print_hash: str
    tag_picture: str
    filed_at: str
    version: str = VERSION


MOST_BALLS = 1000
"""One tag stands for no more balls than that: what says so is something else, such as a
lot or a barcode in the wrong column."""

COLUMNS = tuple(column.name for column in fields(Record))
"""The stash's columns, in their order."""

_AMOUNT_PLACES = tuple(COLUMNS.index(name) for name in AMOUNTS)
_BALLS_PLACE = COLUMNS.index("balls")

_ID = re.compile(r"t[0-9a-f]{15}")


def record_id(digest: str, tag: int | str) -> str:
    """The id of tag number ``tag`` (from 1) of the file with SHA-256 ``digest``.

    The same tag of the same file always gets the same id: a ``t``, which keeps
    spreadsheet programs from taking it for a number, and 15 hexadecimal digits.
    """
    return "t" + hashlib.sha256(f"{digest}:{tag}".encode()).hexdigest()[:15]


def split_id(record: Record, number: int) -> str:
    """The id of the ``number``-th record (from 2) that balls of ``record`` make."""
    return record_id(record.digest, f"{record.tag}:{number}")


def is_record_id(text: str) -> bool:
    """Whether ``text`` is an id as :func:`record_id` makes it."""
    return _ID.fullmatch(text) is not None


def picture_name(tag_id: str) -> str:
    """The file name of a tag's straightened picture."""
    return f"{tag_id}.jpg"


def utc_now() -> str:
    """This moment, as ``2025-03-09T17:05:42Z``."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def record_from_reading(reading: TagReading, filed_at: str = "") -> Record:
    """The row that ``reading`` makes, doubtful values included; ``filed_at`` is now
    unless it is given."""

    def read(name: str) -> Field:
        return reading.fields.get(name) or Field(name)

    def text(name: str) -> str:
        return one_line(value_text(name, read(name).value))

    tag_id = record_id(reading.digest, reading.tag)
    return Record(
        id=tag_id,
        weight_class=text("weight_class"),
        weight_printed=text("weight_printed"),
        shade=text("shade"),
        shade_printed=one_line(read("shade").printed),
        shade_code=text("shade_code"),
        lot=text("lot"),
        fibre=text("fibre"),
        length_m=_number(read("length_m")),
        mass_g=_number(read("mass_g")),
        balls=int(_number(read("balls")) or 1),
        care=text("care"),
        maker=text("maker"),
        range=text("range"),
        barcode=text("barcode"),
        origin=text("origin"),
        needle_mm=text("needle_mm"),
        stitches_per_10cm=text("stitches_per_10cm"),
        rows_per_10cm=text("rows_per_10cm"),
        tension=text("tension"),
        note=one_line(_notes(reading)),
        picture=one_line(reading.picture),
        page=str(reading.page),
        tag=str(reading.tag),
        digest=reading.digest,
        print_hash=reading.print_hash,
        tag_picture=picture_name(tag_id),
        filed_at=filed_at or utc_now(),
    )


def record_cells(record: Record) -> dict[str, str]:
    """The columns of ``record`` as cell text, in their order."""
    return {name: cell_text(getattr(record, name)) for name in COLUMNS}


def record_from_row(row: Sequence[str]) -> Record:
    """The record whose cells are ``row``, in the order of the columns; ``ValueError``
    where there is none."""
    if len(row) != len(COLUMNS):
        raise ValueError(f"it has {len(row)} cells, not {len(COLUMNS)}")
    if row[-1] != VERSION:
        raise ValueError(f"its version is {quoted(row[-1])}, not {VERSION!r}")
    values: list[str | float | None] = list(row)
    for place in _AMOUNT_PLACES:
        values[place] = _cell_number(row[place]) if row[place] else None
    balls = row[_BALLS_PLACE]
    values[_BALLS_PLACE] = 1 if balls == "1" else ball_count(balls)  # nearly all are one
    return Record(*values)  # type: ignore[arg-type]  # the columns are the fields, in order


def with_cells(record: Record, cells: Mapping[str, str]) -> Record:
    """``record`` with the columns in ``cells`` set to those texts; ``ValueError`` where
    one of them is no such cell."""
    return record_from_row(list({**record_cells(record), **cells}.values()))


def cell_text(value: str | float | None) -> str:
    """What a column of a record holds, as the text of a cell."""
    if isinstance(value, str):
        return value
    return "" if value is None else number_text(value)


def ball_count(text: str) -> int:
    """How many balls ``text`` says: one where it is empty.  ``ValueError`` where it is no
    whole number from 1 to :data:`MOST_BALLS`."""
    number = _cell_number(text) if text else 1
    if number not in range(1, MOST_BALLS + 1):
        raise ValueError(f"{quoted(text)} is no number of balls")
    return int(number)


def _cell_number(cell: str) -> float:
    try:
        number = float(cell)
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        raise ValueError(f"{quoted(cell)} is no number")
    return number


def _number(read: Field) -> float | None:
    """A number as exact as a cell holds it, so that every kind of stash has the same."""
    return float(number_text(read.value)) if isinstance(read.value, float | int) else None


def _notes(reading: TagReading) -> str:
    said: Iterable[str] = (*reading.notes, *(field.note for field in reading.fields.values()))
    return "; ".join(dict.fromkeys(note for note in said if note))
