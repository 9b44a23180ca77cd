"""One sheet as CSV: UTF-8, commas, a row a line.

A byte order mark comes first, or Excel takes the file for the old code page of its
country.  Moments are written as spreadsheets know them, in UTC.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

from intake.exports.book import Cell, Sheet
from intake.exports.exporter import Exporter
from intake.exports.formula_guard import guarded
from intake.wording import number_text


class CsvExporter(Exporter):
    """Writes ``.csv``; see :mod:`intake.exports.formula_guard` for its text."""

    first_sheet_only = True

    def fill(self, sheets: Sequence[Sheet], file: BinaryIO) -> None:
        """See :meth:`Exporter.fill`."""
        text = io.TextIOWrapper(file, "utf-8-sig", newline="")
        writer = csv.writer(text)
        for sheet in sheets:
            writer.writerow(column.name for column in sheet.columns)
            writer.writerows(map(_text, row.cells) for row in sheet.rows)
        text.detach()  # pushes what is left and leaves the file open


def _text(cell: Cell) -> str:
    if cell is None or cell == "":
        return ""
    if isinstance(cell, str):
        return guarded(cell)
    if isinstance(cell, datetime):
        return cell.isoformat(" ", "seconds")
    return guarded(cell.name) if isinstance(cell, Path) else number_text(cell)
