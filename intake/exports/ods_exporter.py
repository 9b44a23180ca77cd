"""Sheets as an OpenDocument spreadsheet.

Written as a stream: a document tree of 20,000 rows would take more than a gigabyte.  The
file's parts and the names in them are those of OpenDocument 1.3 (OASIS), parts 2 and 3.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from pathlib import Path
from tempfile import TemporaryFile
from typing import BinaryIO
from xml.sax.saxutils import escape, quoteattr
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile

from intake.exports.book import ASSUMED_MARK, Cell, Column, Kind, Row, Sheet
from intake.exports.exporter import Exporter, rows_that_open
from intake.exports.thumbnails import HEIGHT_PX, thumbnail
from intake.wording import number_text

MIME_TYPE = "application/vnd.oasis.opendocument.spreadsheet"

_CM_A_PX = 2.54 / 96
_CM_A_LETTER = 0.2
_MARGIN_PX = 3

_NAMESPACES = " ".join(
    f'xmlns:{prefix}="{name}"'
    for prefix, name in {
        **{
            prefix: f"urn:oasis:names:tc:opendocument:xmlns:{part}:1.0"
            for prefix, part in {
                "office": "office",
                "style": "style",
                "table": "table",
                "text": "text",
                "draw": "drawing",
                "number": "datastyle",
                "config": "config",
                "manifest": "manifest",
                "fo": "xsl-fo-compatible",
                "svg": "svg-compatible",
            }.items()
        },
        "xlink": "http://www.w3.org/1999/xlink",
    }.items()
)

_MARK = f"<number:text>{ASSUMED_MARK}</number:text>"
_DATA_STYLES = {
    Kind.TEXT: ("text-style", "<number:text-content/>"),
    # Numbers are shown whole: a program that saves them as shown must not round them.
    Kind.NUMBER: ("number-style", '<number:number number:min-integer-digits="1"/>'),
    Kind.COUNT: (
        "number-style",
        '<number:number number:min-integer-digits="1" number:decimal-places="0"/>',
    ),
    Kind.MOMENT: (
        "date-style",
        '<number:year number:style="long"/><number:text>-</number:text>'
        '<number:month number:style="long"/><number:text>-</number:text>'
        '<number:day number:style="long"/><number:text> </number:text>'
        '<number:hours number:style="long"/><number:text>:</number:text>'
        '<number:minutes number:style="long"/>',
    ),
    Kind.PICTURE: ("text-style", "<number:text-content/>"),
}

_SPACE_THAT_FOLDS = re.compile(r"(?<= ) |^ | $")
"""White space that OpenDocument takes for one space or none unless it is spelt out."""


class OdsExporter(Exporter):
    """Writes ``.ods``."""

    def fill(self, sheets: Sequence[Sheet], file: BinaryIO) -> None:
        """See :meth:`Exporter.fill`."""
        with ZipFile(file, "w", ZIP_DEFLATED) as parts, TemporaryFile() as content:
            # The first part is stored plain, so that the file's type can be told.
            parts.writestr("mimetype", MIME_TYPE, ZIP_STORED)
            pictures = _Pictures(parts)
            content.writelines(piece.encode() for piece in _content(sheets, pictures))
            content.seek(0)
            with parts.open("content.xml", "w", force_zip64=True) as part:
                for block in iter(lambda: content.read(1 << 20), b""):
                    part.write(block)
            parts.writestr("settings.xml", _settings(sheets))
            parts.writestr("META-INF/manifest.xml", _manifest(pictures.names))


class _Pictures:
    """The small pictures of the file, put into it as the rows name them."""

    def __init__(self, parts: ZipFile) -> None:
        self._parts = parts
        self.names: list[str] = []

    def frame(self, path: Path) -> str:
        """What shows the picture at ``path`` in a cell; empty where there is none."""
        small = thumbnail(path)
        if small is None:
            return ""
        name = f"Pictures/{len(self.names)}.jpg"
        self._parts.writestr(name, small.jpeg, ZIP_STORED)
        self.names.append(name)
        return (
            f'<draw:frame svg:width="{small.width_px * _CM_A_PX:.3f}cm" '
            f'svg:height="{small.height_px * _CM_A_PX:.3f}cm" '
            f'svg:x="{_MARGIN_PX * _CM_A_PX:.3f}cm" svg:y="{_MARGIN_PX * _CM_A_PX:.3f}cm">'
            f'<draw:image xlink:href="{name}" xlink:type="simple"/>'
            f"<svg:desc>tag of record {escape(path.stem)}</svg:desc></draw:frame>"
        )


def _content(sheets: Sequence[Sheet], pictures: _Pictures) -> Iterator[str]:
    yield _part_head("content")
    yield f"<office:automatic-styles>{''.join(_styles(sheets))}</office:automatic-styles>"
    yield "<office:body><office:spreadsheet>"
    filters = []
    for sheet in sheets:
        rows = 0
        yield from _table_head(sheet)
        for rows, row in rows_that_open(sheet):  # noqa: B007
            yield _row(sheet, row, pictures)
        yield "</table:table>"
        filters.append(_filter(sheet, rows + 1))
    yield f"<table:database-ranges>{''.join(filters)}</table:database-ranges>"
    yield "</office:spreadsheet></office:body></office:document-content>"


def _styles(sheets: Iterable[Sheet]) -> Iterator[str]:
    """The styles that cells, columns and rows are named after."""
    for kind, (element, body) in _DATA_STYLES.items():
        for mark in ("", _MARK):
            name = _cell_style(kind, assumed=bool(mark))
            yield f'<number:{element} style:name="n-{name}">{body}{mark}</number:{element}>'
            yield (
                f'<style:style style:name="{name}" style:family="table-cell" '
                f'style:data-style-name="n-{name}">'
                '<style:table-cell-properties style:vertical-align="top"/>'
                f'<style:text-properties fo:font-style="{"italic" if mark else "normal"}"/>'
                "</style:style>"
            )
    yield (
        '<style:style style:name="head" style:family="table-cell">'
        '<style:text-properties fo:font-weight="bold"/></style:style>'
        '<style:style style:name="high" style:family="table-row"><style:table-row-properties '
        f'style:row-height="{(HEIGHT_PX + 2 * _MARGIN_PX) * _CM_A_PX:.3f}cm" '
        'style:use-optimal-row-height="false"/></style:style>'
    )
    for width in sorted({column.width for sheet in sheets for column in sheet.columns}):
        yield (
            f'<style:style style:name="w{width}" style:family="table-column">'
            f'<style:table-column-properties style:column-width="{width * _CM_A_LETTER:.2f}cm"/>'
            "</style:style>"
        )


def _cell_style(kind: Kind, assumed: bool) -> str:
    return kind.name.lower() + ("-assumed" if assumed else "")


def _table_head(sheet: Sheet) -> Iterator[str]:
    yield f"<table:table table:name={quoteattr(sheet.name)}>"
    for column in sheet.columns:
        yield (
            f'<table:table-column table:style-name="w{column.width}" '
            f'table:default-cell-style-name="{_cell_style(column.kind, assumed=False)}"/>'
        )
    headings = "".join(_string_cell(column.name, "head") for column in sheet.columns)
    yield "<table:table-header-rows><table:table-row>"
    yield f"{headings}</table:table-row></table:table-header-rows>"


def _row(sheet: Sheet, row: Row, pictures: _Pictures) -> str:
    high = ' table:style-name="high"' if sheet.has_pictures else ""
    cells = (
        _cell(column, cell, column.name in row.assumed, pictures)
        for column, cell in zip(sheet.columns, row.cells, strict=True)
    )
    return f"<table:table-row{high}>{''.join(cells)}</table:table-row>"


def _cell(column: Column, cell: Cell, assumed: bool, pictures: _Pictures) -> str:
    style = _cell_style(column.kind, assumed)
    if cell is None or cell == "":
        return f'<table:table-cell table:style-name="{style}"/>'
    if isinstance(cell, str):
        return _string_cell(cell, style)
    if isinstance(cell, Path):
        return f"<table:table-cell>{pictures.frame(cell)}</table:table-cell>"
    if isinstance(cell, datetime):
        kind, name, value = "date", "date-value", cell.isoformat(timespec="seconds")
    else:
        kind, name, value = "float", "value", number_text(cell)
    return (
        f'<table:table-cell table:style-name="{style}" office:value-type="{kind}" '
        f'office:{name}="{value}"><text:p>{value}</text:p></table:table-cell>'
    )


def _string_cell(text: str, style: str) -> str:
    paragraph = _SPACE_THAT_FOLDS.sub("<text:s/>", escape(text))
    return (
        f'<table:table-cell table:style-name="{style}" office:value-type="string">'
        f"<text:p>{paragraph}</text:p></table:table-cell>"
    )


def _filter(sheet: Sheet, rows: int) -> str:
    """Filter buttons over a table of so many rows, its head among them."""
    last = f"{_letters(len(sheet.columns))}{rows}"
    area = f"'{sheet.name}'.A1:'{sheet.name}'.{last}"
    return (
        f"<table:database-range table:name={quoteattr('filter ' + sheet.name)} "
        f"table:target-range-address={quoteattr(area)} "
        'table:display-filter-buttons="true"/>'
    )


def _letters(count: int) -> str:
    """The name of column number ``count``, from 1: ``A``, ``Z``, ``AA``."""
    letters = ""
    while count:
        count, place = divmod(count - 1, 26)
        letters = chr(ord("A") + place) + letters
    return letters


def _settings(sheets: Sequence[Sheet]) -> str:
    """Keeps the head and the first column of every sheet in sight."""
    frozen = "".join(
        f'<config:config-item config:name="{name}" config:type="{kind}">{value}'
        "</config:config-item>"
        for name, kind, value in (
            ("HorizontalSplitMode", "short", 2),
            ("VerticalSplitMode", "short", 2),
            ("HorizontalSplitPosition", "int", 1),
            ("VerticalSplitPosition", "int", 1),
            ("PositionRight", "int", 1),
            ("PositionBottom", "int", 1),
        )
    )
    entries = "".join(
        f"<config:config-item-map-entry config:name={quoteattr(sheet.name)}>{frozen}"
        "</config:config-item-map-entry>"
        for sheet in sheets
    )
    return (
        f"{_part_head('settings')}<office:settings>"
        '<config:config-item-set config:name="ooo:view-settings">'
        '<config:config-item-map-indexed config:name="Views"><config:config-item-map-entry>'
        f'<config:config-item-map-named config:name="Tables">{entries}'
        "</config:config-item-map-named></config:config-item-map-entry>"
        "</config:config-item-map-indexed></config:config-item-set></office:settings>"
        "</office:document-settings>"
    )


def _manifest(pictures: Iterable[str]) -> str:
    parts = {"/": MIME_TYPE, "content.xml": "text/xml", "settings.xml": "text/xml"}
    parts |= dict.fromkeys(pictures, "image/jpeg")
    entries = "".join(
        f'<manifest:file-entry manifest:full-path="{name}" manifest:media-type="{kind}"/>'
        for name, kind in parts.items()
    )
    return (
        '<?xml version="1.0" encoding="UTF-8"?>'
        f'<manifest:manifest {_NAMESPACES} manifest:version="1.3">{entries}</manifest:manifest>'
    )


def _part_head(name: str) -> str:
    return (
        '<?xml version="1.0" encoding="UTF-8"?>'
        f'<office:document-{name} {_NAMESPACES} office:version="1.3">'
    )
