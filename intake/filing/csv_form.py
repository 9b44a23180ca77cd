"""How a CSV stash is written: by balltag, or by a spreadsheet that someone edited it in.

A spreadsheet may part the cells by semicolons or tabs, write UTF-16, move columns, and the
user may add columns of their own.  All that is read as it stands; columns of the user's own
are kept.  What cannot be told for sure is refused: a file in an old 8-bit encoding, such as
Windows-1252, looks the same as one in another, in which its letters are others.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from intake.errors import BadStash, quoted
from intake.filing.layouts import Cells, Steps, refuse_newer, upgraded, version_of_columns
from intake.filing.record import COLUMNS, NUMBERS, Record, record_from_row
from intake.filing.stash import check_columns

_DELIMITERS = ",;\t"
_DECIMAL_COMMA = re.compile(r"(\d+),(\d+)")


@dataclass(frozen=True, slots=True)
class CsvForm:
    """The columns of a CSV stash in their order, the unnamed ones empty, what parts its
    cells, and its encoding.

    ``own_columns`` are those that the user added.  ``is_plain`` tells that balltag can add
    to the file as it stands: its columns are in their order, from ``id`` to ``version``,
    perhaps with the user's own in between.  ``is_ours`` tells that balltag could do so once,
    in this layout or an older one: a row from ``id`` to ``version`` is whole, and a last one
    that is not was torn by a kill.
    """

    columns: tuple[str, ...]
    delimiter: str
    encoding: str
    own_columns: tuple[str, ...]
    is_plain: bool
    is_ours: bool

    def header(self) -> bytes:
        """The header of a plain file."""
        return csv_bytes([self.columns])

    def row(self, cells: Mapping[str, str]) -> list[str]:
        """The cells of a row; empty in columns that ``cells`` lacks."""
        return [cells.get(name, "") for name in self.columns]

    def cells(self, row: Sequence[str]) -> Cells:
        """A row's cells by column; ``ValueError`` where it has more or fewer.  Some
        spreadsheets leave the empty cells at a row's end out."""
        width = len(self.columns)
        if any(row[width:]) or (self.is_plain and len(row) != width):
            raise ValueError(f"it has {len(row)} cells, not {width}")
        padded = [*row[:width], *[""] * (width - len(row))]
        if any(cell for name, cell in zip(self.columns, padded, strict=True) if not name):
            raise ValueError("it has a cell under no column name; name the column")
        cells = {name: cell for name, cell in zip(self.columns, padded, strict=True) if name}
        if self.delimiter != ",":  # countries that part cells otherwise write decimal commas
            for name in cells.keys() & set(NUMBERS):
                cells[name] = _DECIMAL_COMMA.sub(r"\1.\2", cells[name])
        return cells

    def record(self, row: Sequence[str], steps: Steps) -> Record:
        """The record that a row holds; ``ValueError`` where there is none."""
        if self.is_plain and self.columns == COLUMNS:  # nearly all there is to read
            return record_from_row(row)
        cells = upgraded(self.cells(row), steps)
        return record_from_row([cells.get(name, "") for name in COLUMNS])


def plain_form(own_columns: Sequence[str] = ()) -> CsvForm:
    """The form that balltag writes.  ``version`` stays last, for it tells a whole row."""
    columns = (*COLUMNS[:-1], *own_columns, COLUMNS[-1])
    return CsvForm(columns, ",", "utf-8", tuple(own_columns), is_plain=True, is_ours=True)


def csv_form(path: Path, start: bytes, steps: Steps) -> CsvForm:
    """The form of the file at ``path`` that begins with ``start``: its header and, where it
    has rows, the first of them.  Raises :class:`BadStash`."""
    encoding = _encoding(start)
    try:
        text = codecs.getincrementaldecoder(encoding)().decode(start)
        head, delimiter = _head(text)
        rows = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
        columns = tuple(cell.strip() for cell in next(rows))
        first = next(rows, None)
    except UnicodeDecodeError as error:
        raise BadStash(
            f"{path} is no CSV file in UTF-8; save it as CSV in UTF-8, or give another file"
        ) from error
    except (StopIteration, csv.Error) as error:
        raise BadStash(f"{path} is no CSV file; give another file") from error
    as_cells = dict(zip(columns, first or (), strict=False))
    version = as_cells.get("version") or version_of_columns(columns, steps)
    refuse_newer(path, version)
    cells = {**dict.fromkeys(columns, ""), **as_cells, "version": version}
    known = upgraded(cells, steps) if version in steps else dict.fromkeys(columns)
    check_columns(path, list(known), may_have_own=True)
    _refuse_twins(path, columns)
    is_ours = (
        encoding == "utf-8-sig"
        and delimiter == ","
        and tuple(head) == columns
        and all(columns)
        and (columns[0], columns[-1]) == (COLUMNS[0], COLUMNS[-1])
    )
    in_order = tuple(name for name in columns if name in COLUMNS) == COLUMNS
    is_plain = is_ours and in_order and version not in steps
    own = tuple(name for name in known if name and name not in COLUMNS)
    return CsvForm(columns, delimiter, encoding, own, is_plain, is_ours)


def csv_bytes(rows: Iterable[Sequence[str]]) -> bytes:
    """``rows`` as balltag writes them."""
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue().encode()


def edited_rows(form: CsvForm, data: bytes) -> Iterator[tuple[int, list[str]]]:
    """The rows under the header of a file that is not plain, each with the number of its
    line.  Raises ``ValueError`` or :class:`csv.Error`."""
    text = io.StringIO(data.decode(form.encoding), newline="")
    rows = csv.reader(text, delimiter=form.delimiter, strict=True)
    next(rows)
    for row in rows:
        yield rows.line_num, row


def _encoding(start: bytes) -> str:
    utf_16 = start.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    return "utf-16" if utf_16 else "utf-8-sig"


def _head(text: str) -> tuple[list[str], str]:
    """The header's cells, and what parts them: that which makes the most of them."""
    line, _, _ = text.partition("\n")
    heads = {
        delimiter: next(csv.reader([line.rstrip("\r")], delimiter=delimiter), [])
        for delimiter in _DELIMITERS
    }
    delimiter = max(heads, key=lambda one: len(heads[one]))
    return heads[delimiter], delimiter


def _refuse_twins(path: Path, columns: Sequence[str]) -> None:
    twins = [name for name in columns if name and columns.count(name) > 1]
    if twins:
        raise BadStash(f"{path} has the column {quoted(twins[0])} twice; rename one of them")
