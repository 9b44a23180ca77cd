"""Reads .xlsx, .ods and .csv files that a spreadsheet program saved."""

from __future__ import annotations

import csv
import re
import zlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, datetime, time
from pathlib import Path
from typing import IO, Any
from xml.etree.ElementTree import Element, ParseError, iterparse
from zipfile import BadZipFile, ZipFile

import openpyxl
from openpyxl.utils.exceptions import InvalidFileException

from intake.errors import BadSheet
from intake.exports.formula_guard import unguarded
from intake.exports.sheet_in import (
    EMPTY,
    RECORDS_SHEET,
    Held,
    SheetCell,
    SheetIn,
    sheet_in,
)
from intake.filing.record import NUMBERS
from intake.wording import number_text

Cells = list[SheetCell]

_MOST_COLUMNS = 1024
"""A sheet of records has some dozens."""


def read_back(path: Path) -> SheetIn:
    """The sheet of records in the file at ``path``, read by its ending.  Raises
    :class:`BadSheet`."""
    reader = _READERS.get(path.suffix.lower())
    if reader is None:
        raise BadSheet(f"{path} is no spreadsheet by its name; give a .xlsx, .ods or .csv file")
    try:
        return sheet_in(str(path), reader(path))
    except OSError as error:
        raise BadSheet(
            f"{path} cannot be read ({error.strerror or error}); check the path"
        ) from error
    except _SPOILT as error:
        raise BadSheet(f"{path} is no whole {path.suffix.lower()} file; save it anew") from error


_SPOILT = (
    BadZipFile, zlib.error, EOFError, RuntimeError, InvalidFileException, ParseError, csv.Error,
    LookupError, ValueError, TypeError, AttributeError,
)  # fmt: skip
"""What the readers raise for a file that is not what its ending says: openpyxl stumbles over
whatever it finds amiss first."""


# Excel workbooks


def _xlsx_rows(path: Path) -> list[Cells]:
    book = openpyxl.load_workbook(path, read_only=True)
    try:
        sheets = {sheet.title: sheet for sheet in book.worksheets}
        sheet = sheets.get(RECORDS_SHEET) or book.worksheets[0]
        return list(_filled(sheet.iter_rows(max_col=_MOST_COLUMNS)))
    finally:
        book.close()


def _filled(rows: Iterable[Sequence[Any]]) -> Iterator[Cells]:
    """The cells of each row up to its last one that is filled.  Rows that the book leaves out
    come as one and the same, a million of them where a cell at the sheet's edge was touched."""
    last: Sequence[Any] | None = None
    cells: Cells = []
    for row in rows:
        if row is not last:
            last, cells = row, [_xlsx_cell(cell.value, cell.data_type) for cell in row]
            while cells and cells[-1] is EMPTY:
                cells.pop()
        yield cells


def _xlsx_cell(value: object, data_type: str) -> SheetCell:
    if value is None:
        return EMPTY
    if data_type == "f":
        return SheetCell(Held.FORMULA, str(value))
    if data_type == "e":
        return SheetCell(Held.ERROR, str(value))
    if isinstance(value, bool):
        return SheetCell(Held.TRUTH, str(value))
    if isinstance(value, int | float):
        return SheetCell(Held.NUMBER, number_text(value))
    if isinstance(value, datetime | date | time):
        return SheetCell(Held.DATE, value.isoformat())
    return SheetCell(Held.TEXT, str(value))


# OpenDocument spreadsheets; names after OpenDocument 1.3 (OASIS), part 3


def _ods_name(prefix: str, name: str) -> str:
    return f"{{urn:oasis:names:tc:opendocument:xmlns:{prefix}:1.0}}{name}"


_TABLE = _ods_name("table", "table")
_TABLE_NAME = _ods_name("table", "name")
_ROW = _ods_name("table", "table-row")
_CELL = _ods_name("table", "table-cell")
_COVERED = _ods_name("table", "covered-table-cell")
_ROWS_REPEATED = _ods_name("table", "number-rows-repeated")
_COLUMNS_REPEATED = _ods_name("table", "number-columns-repeated")
_FORMULA = _ods_name("table", "formula")
_VALUE_TYPE = _ods_name("office", "value-type")
_VALUE = _ods_name("office", "value")
_PARAGRAPH = _ods_name("text", "p")
_SPACES = _ods_name("text", "s")
_SPACES_COUNT = _ods_name("text", "c")
_TAB = _ods_name("text", "tab")

_MOST_REPEATED = 1024
"""A program that formats a whole row or column repeats its last, empty cell up to the
sheet's edge; such a stretch counts for one."""

_MOST_SPACES = 1024
"""More in a row say nothing."""

_DATE_TYPES = frozenset({"date", "time"})
_NUMBER_TYPES = frozenset({"float", "percentage", "currency"})


def _ods_rows(path: Path) -> list[Cells]:
    with ZipFile(path) as parts, parts.open("content.xml") as content:
        sheets = dict(_ods_sheets(content))
    return sheets.get(RECORDS_SHEET) or next(iter(sheets.values()), [])


def _ods_sheets(content: IO[bytes]) -> Iterator[tuple[str, list[Cells]]]:
    """Each sheet by its name, without holding the document in memory."""
    name, rows = "", list[Cells]()
    for event, element in iterparse(content, ("start", "end")):
        if event == "start":
            if element.tag == _TABLE:
                name, rows = element.get(_TABLE_NAME, ""), []
        elif element.tag == _ROW:
            cells = _ods_cells(element)
            repeated = int(element.get(_ROWS_REPEATED, "1"))
            rows += [cells] * (repeated if repeated < _MOST_REPEATED else 1)
            element.clear()
        elif element.tag == _TABLE:
            yield name, rows


def _ods_cells(row: Element) -> Cells:
    cells: Cells = []
    for cell in row:
        if cell.tag in (_CELL, _COVERED):
            repeated = int(cell.get(_COLUMNS_REPEATED, "1"))
            cells += [_ods_cell(cell)] * (repeated if repeated < _MOST_REPEATED else 1)
    while cells and not cells[-1].text:
        cells.pop()
    return cells


def _ods_cell(cell: Element) -> SheetCell:
    text = "\n".join(map(_ods_text, cell.findall(_PARAGRAPH)))
    kind = cell.get(_VALUE_TYPE, "")
    if _FORMULA in cell.attrib:
        return SheetCell(Held.FORMULA, text or cell.attrib[_FORMULA])
    if kind in _NUMBER_TYPES:
        return SheetCell(Held.NUMBER, number_text(float(cell.attrib[_VALUE])))
    if kind in _DATE_TYPES:
        return SheetCell(Held.DATE, cell.get(_ods_name("office", f"{kind}-value"), text))
    return SheetCell(Held.TRUTH if kind == "boolean" else Held.TEXT, text)


def _ods_text(element: Element) -> str:
    """The text of a paragraph, its spelt-out spaces among it."""
    if element.tag == _SPACES:
        return " " * min(int(element.get(_SPACES_COUNT, "1")), _MOST_SPACES)
    if element.tag == _TAB:
        return "\t"
    inner = (_ods_text(child) + (child.tail or "") for child in element)
    return (element.text or "") + "".join(inner)


# CSV files

_DELIMITERS = ",;\t"
_DECIMAL_COMMA = re.compile(r"(\d+),(\d+)")


def _csv_rows(path: Path) -> list[Cells]:
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            first = file.readline()
            delimiter = max(_DELIMITERS, key=first.count)
            file.seek(0)
            rows = list(csv.reader(file, delimiter=delimiter, strict=True))
    except UnicodeDecodeError as error:
        raise BadSheet(f"{path} is not in UTF-8; save it as CSV in UTF-8") from error
    if delimiter == ";" and rows:
        rows = [rows[0], *_with_points(rows[0], rows[1:])]
    return [[SheetCell(Held.BARE, unguarded(cell)) for cell in row] for row in rows]


def _with_points(head: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterator[list[str]]:
    """Numbers with a decimal point: countries that part cells by semicolons write commas."""
    for row in rows:
        yield [
            _DECIMAL_COMMA.sub(r"\1.\2", cell) if column in NUMBERS else cell
            for column, cell in zip(head, row, strict=False)
        ]


_READERS: dict[str, Callable[[Path], list[Cells]]] = {
    ".xlsx": _xlsx_rows,
    ".ods": _ods_rows,
    ".csv": _csv_rows,
}
