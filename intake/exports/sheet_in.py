"""A spreadsheet that comes back: its rows, and what each cell holds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import zip_longest

from intake.errors import BadSheet

ID = "id"
"""The column that says which record a row is about."""

RECORDS_SHEET = "records"


class Held(StrEnum):
    """What a cell holds, in words that follow ``holds``."""

    TEXT = "text"
    BARE = "text of no type"
    """A cell of a CSV file, whose type nobody knows."""
    NUMBER = "a number"
    DATE = "a date"
    TRUTH = "true or false"
    FORMULA = "a formula"
    ERROR = "an error"


@dataclass(frozen=True, slots=True)
class SheetCell:
    """One cell.  ``text`` is what it says: a number as short as can be, a date as ISO 8601
    has it, a formula's own text."""

    held: Held
    text: str


EMPTY = SheetCell(Held.TEXT, "")


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One row under the head: its number in the file (from 1, the head counted), and its
    cells by column."""

    number: int
    cells: Mapping[str, SheetCell]

    def text(self, column: str) -> str:
        """What a cell says; empty where the sheet has no such column."""
        return self.cells.get(column, EMPTY).text


@dataclass(frozen=True, slots=True)
class SheetIn:
    """The columns and rows of a sheet; rows without any text are left out."""

    columns: tuple[str, ...]
    rows: tuple[SheetRow, ...]


def sheet_in(name: str, rows: Iterable[Sequence[SheetCell]]) -> SheetIn:
    """The sheet whose head is the first of ``rows``; ``name`` is the file's, for a
    complaint.  Raises :class:`BadSheet` where the head names no records."""
    head, *others = rows or [()]
    columns = tuple(cell.text.strip() for cell in head)
    named = [column for column in columns if column]
    twice = sorted({column for column in named if named.count(column) > 1})
    if ID not in named:
        raise BadSheet(f"{name} has no column {ID!r} in its first row; export it afresh")
    if twice:
        raise BadSheet(f"{name} has the column {twice[0]!r} twice; delete one of them")
    return SheetIn(tuple(named), tuple(_rows(columns, others)))


def _rows(columns: Sequence[str], rows: Iterable[Sequence[SheetCell]]) -> Iterator[SheetRow]:
    for number, cells in enumerate(rows, start=2):
        if any(cell.text.strip() for cell in cells):
            by_column = dict(zip_longest(columns, cells[: len(columns)], fillvalue=EMPTY))
            yield SheetRow(number, {name: by_column[name] for name in columns if name})
