"""What every spreadsheet format has in common: sheets go into one file."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import BinaryIO

from intake.errors import BadSheet
from intake.exports.book import Row, Sheet
from intake.filing.safe_write import replace_file

MOST_ROWS = 1_048_576
"""Rows of a sheet, its head among them, that Excel and LibreOffice Calc open."""


class Exporter(ABC):
    """Writes sheets in one format.  Text is written as text, never as a formula."""

    first_sheet_only = False
    """Whether the format holds one sheet and no pictures."""

    def write(self, sheets: Sequence[Sheet], path: Path) -> None:
        """Write ``sheets`` to ``path``, in place of what is there once all is written.
        Raises :class:`~intake.errors.NoAccess` and :class:`~intake.errors.BadSheet`."""
        kept = sheets[:1] if self.first_sheet_only else sheets
        replace_file(path, lambda file: self.fill(kept, file))

    @abstractmethod
    def fill(self, sheets: Sequence[Sheet], file: BinaryIO) -> None:
        """Write ``sheets`` into ``file``."""


def rows_that_open(sheet: Sheet) -> Iterator[tuple[int, Row]]:
    """The rows under the head with their numbers, from 1.  Raises :class:`BadSheet` where a
    spreadsheet program would leave some out without a word."""
    for number, row in enumerate(sheet.rows, start=1):
        if number >= MOST_ROWS:
            raise BadSheet(
                f"a sheet holds {MOST_ROWS - 1} rows and there are more; narrow them down with "
                "--where or --since, or write a .csv file"
            )
        yield number, row
