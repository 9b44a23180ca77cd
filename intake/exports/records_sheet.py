"""The sheet of records: a row a tag, as it, its maker and the scale know its ball or balls.

Metres and grams that are printed are those of one ball; what is left is that of all."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from pathlib import Path

from intake.exports.book import Cell, Column, Kind, Row, Sheet, moment
from intake.exports.sheet_in import ID, RECORDS_SHEET
from intake.filing.record import NUMBERS, Record
from intake.sums.ball import Ball
from intake.wording import value_text

ASSUMED = "assumed"
"""The column that names those whose value the tag does not print."""

AS_OF = "as_of_stroke"
"""The column that names the last stroke of the history when the sheet was written, so that
what changed in the stash meanwhile can be told when it comes back."""

TAG_PICTURE = "tag_picture"

_COUNTS = ("page", "tag")

COLUMNS = (
    Column(ID, width=18),
    Column(TAG_PICTURE, Kind.PICTURE, 18),
    Column("shade", width=18),
    Column("shade_code"),
    Column("lot"),
    Column("maker", width=20),
    Column("range", width=20),
    Column("weight_class"),
    Column("weight_printed", width=16),
    Column("fibre", width=36),
    Column("length_m", Kind.NUMBER),
    Column("mass_g", Kind.NUMBER),
    Column("balls", Kind.COUNT, 8),
    Column("left_m", Kind.NUMBER),
    Column("left_m_plus_minus", Kind.NUMBER, 18),
    Column("left_g", Kind.NUMBER),
    Column("left_g_plus_minus", Kind.NUMBER, 18),
    Column("weighed_at", Kind.MOMENT, 18),
    Column("care", width=36),
    Column("origin", width=14),
    Column("needle_mm"),
    Column("stitches_per_10cm", width=17),
    Column("rows_per_10cm", width=14),
    Column("tension", width=16),
    Column("barcode", width=16),
    Column("shade_printed", width=16),
    Column("note", width=30),
    Column("picture", width=30),
    Column("page", Kind.COUNT, 8),
    Column("tag", Kind.COUNT, 8),
    Column("filed_at", Kind.MOMENT, 18),
    Column(ASSUMED, width=20),
    Column(AS_OF, width=14),
)
"""All columns of the sheet.  Moments are in UTC."""

_NOT_TEXT = re.compile("[\ufffe\uffff]")
"""Signs that no file of XML may hold."""


def records_sheet(
    balls: Iterable[Ball], as_of: str, picture: Callable[[str], Path] | None
) -> Sheet:
    """The sheet of ``balls`` as they were after stroke ``as_of``.  ``picture`` gives the path
    of a record's tag picture; without it the sheet has the files' names alone."""
    columns: tuple[Column, ...] = COLUMNS
    if picture is None:
        columns = tuple(
            Column(column.name, width=22) if column.kind is Kind.PICTURE else column
            for column in COLUMNS
        )
    rows = (_row(ball, as_of, picture) for ball in balls)
    return Sheet(RECORDS_SHEET, columns, rows)


def record_text(record: Record, column: str) -> str:
    """What a record's cell says, as text that a cell of any format can hold."""
    cell = getattr(record, column)
    return _NOT_TEXT.sub("\ufffd", value_text(column, cell)) if cell != "" else ""


def assumed_columns(ball: Ball) -> frozenset[str]:
    """The columns whose value the maker sheet says, or rests on it."""
    found = set(ball.assumed)
    amounts = found & set(NUMBERS)
    if "length_m" in amounts or (ball.weighing and amounts):
        found.add("left_m")
    if "mass_g" in amounts and not ball.weighing:
        found.add("left_g")
    return frozenset(found)


def _row(ball: Ball, as_of: str, picture: Callable[[str], Path] | None) -> Row:
    assumed = assumed_columns(ball)
    cells = {
        **_amounts(ball),
        "filed_at": _moment_cell(ball.record.filed_at),
        ASSUMED: ", ".join(column.name for column in COLUMNS if column.name in assumed),
        AS_OF: as_of,
    }
    cells |= {name: _count(getattr(ball.record, name)) for name in _COUNTS}
    if picture is not None:
        cells[TAG_PICTURE] = picture(ball.record.id)
    names = (column.name for column in COLUMNS)
    return Row(
        tuple(cells[name] if name in cells else _text(ball, name) for name in names),
        assumed,
    )


def _text(ball: Ball, column: str) -> str:
    return record_text(ball.record, column) or ball.assumed.get(column, "")


def _amounts(ball: Ball) -> dict[str, Cell]:
    weighing = ball.weighing
    return {
        "length_m": ball.length_m,
        "mass_g": ball.mass_g,
        "balls": ball.count,
        "left_m": ball.left_m,
        "left_m_plus_minus": weighing.length_uncertainty_m if weighing else None,
        "left_g": ball.left_g,
        "left_g_plus_minus": weighing.mass_uncertainty_g if weighing else None,
        "weighed_at": _moment_cell(weighing.at) if weighing else None,
    }


def _moment_cell(text: str) -> Cell:
    return moment(text) or text


def _count(text: str) -> Cell:
    return int(text) if text.isdecimal() else text
