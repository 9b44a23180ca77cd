"""Sheets as an Excel workbook."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.workbook import Workbook
from xlsxwriter.worksheet import Worksheet

from intake.exports.book import ASSUMED_MARK, Column, FilledCell, Kind, Sheet
from intake.exports.exporter import Exporter, rows_that_open
from intake.exports.thumbnails import HEIGHT_PX, thumbnail

_PT_A_PX = 0.75
_MARGIN_PX = 3

# Numbers are shown whole: a program that saves them as shown must not round them.
_NUMBER_FORMATS = {
    Kind.TEXT: "@",
    Kind.NUMBER: "General",
    Kind.COUNT: "0",
    Kind.MOMENT: "yyyy-mm-dd hh:mm",
    Kind.PICTURE: "@",
}


Formats = Mapping[tuple[Kind, bool], Format]
"""Cell formats by what the cell holds and whether it is assumed."""


class XlsxExporter(Exporter):
    """Writes ``.xlsx``."""

    def fill(self, sheets: Sequence[Sheet], file: BinaryIO) -> None:
        """See :meth:`Exporter.fill`.  Rows go to the disk one by one, so a long stash
        takes little memory."""
        # The workbook seeks in what it writes to; nothing in it is ever to be guessed at.
        options = {
            "constant_memory": True,
            "strings_to_formulas": False,
            "strings_to_urls": False,
            "strings_to_numbers": False,
        }
        with xlsxwriter.Workbook(file, options) as book:
            formats = _formats(book)
            head = book.add_format({"bold": True, "bottom": 1, "num_format": "@"})
            for sheet in sheets:
                _write_sheet(book.add_worksheet(sheet.name), sheet, formats, head)


def _formats(book: Workbook) -> Formats:
    return {
        (kind, assumed): book.add_format(
            {
                "num_format": number_format + (f'"{ASSUMED_MARK}"' if assumed else ""),
                "italic": assumed,
                "valign": "top",
            }
        )
        for kind, number_format in _NUMBER_FORMATS.items()
        for assumed in (False, True)
    }


def _write_sheet(page: Worksheet, sheet: Sheet, formats: Formats, head: Format) -> None:
    page.freeze_panes(1, 1)
    for place, column in enumerate(sheet.columns):
        page.set_column(place, place, column.width, formats[column.kind, False])
        page.write_string(0, place, column.name, head)
    plain = [formats[column.kind, False] for column in sheet.columns]
    last = 0
    for last, row in rows_that_open(sheet):
        if sheet.has_pictures:
            page.set_row(last, (HEIGHT_PX + 2 * _MARGIN_PX) * _PT_A_PX)
        for place, (cell, cell_format) in enumerate(zip(row.cells, plain, strict=True)):
            if cell is None or cell == "":
                continue  # the format of its column keeps text that is typed into it
            column = sheet.columns[place]
            if column.name in row.assumed:
                cell_format = formats[column.kind, True]
            _write_cell(page, (last, place), cell, cell_format)
    page.autofilter(0, 0, last, len(sheet.columns) - 1)
    _allow_digits_as_text(page, sheet.columns, last)


def _write_cell(
    page: Worksheet, place: tuple[int, int], cell: FilledCell, cell_format: Format
) -> None:
    if isinstance(cell, str):
        page.write_string(*place, cell, cell_format)
    elif isinstance(cell, datetime):
        page.write_datetime(*place, cell, cell_format)
    elif isinstance(cell, Path):
        _insert_picture(page, place, cell)
    else:
        page.write_number(*place, cell, cell_format)


def _insert_picture(page: Worksheet, place: tuple[int, int], path: Path) -> None:
    small = thumbnail(path)
    if small is None:
        return
    options = {
        "image_data": io.BytesIO(small.jpeg),
        "x_offset": _MARGIN_PX,
        "y_offset": _MARGIN_PX,
        "object_position": 1,  # hides and moves with its row when the user filters
        "description": f"tag of record {path.stem}",
    }
    page.insert_image(*place, path.name, options)


def _allow_digits_as_text(page: Worksheet, columns: Sequence[Column], last: int) -> None:
    """Keep Excel from offering to turn lots into numbers."""
    places = [place for place, column in enumerate(columns) if column.kind is Kind.TEXT]
    ranges = " ".join(
        f"{xlsxwriter.utility.xl_rowcol_to_cell(1, place)}:"
        f"{xlsxwriter.utility.xl_rowcol_to_cell(max(last, 1), place)}"
        for place in places
    )
    page.ignore_errors({"number_stored_as_text": ranges})
