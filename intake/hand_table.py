"""Tables that users write by hand or in a spreadsheet: the maker sheet, a plan, a shade card.

CSV in UTF-8, with or without a byte order mark; the first line names the columns, in any order.
Cells are parted by commas, or by semicolons or tabs as spreadsheets of some countries do.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from intake.errors import BadTable, quoted

_DELIMITERS = ",;\t"


@dataclass(frozen=True, slots=True)
class HandTable:
    """One kind of table: what it is called, its columns, and those it must have.  Any others
    are passed over where it ``may_have_others``, else they are refused as misspelt."""

    name: str
    columns: tuple[str, ...]
    needed: tuple[str, ...]
    may_have_others: bool = False

    def read(self, path: Path) -> Iterator[tuple[int, dict[str, str]]]:
        """The lines of the file at ``path`` that are not blank, each with its number in the file
        and its cells by column, without the space around them.  Raises
        :class:`~intake.errors.BadTable`."""
        try:
            text = path.read_bytes().decode("utf-8-sig")
        except UnicodeDecodeError as error:
            raise BadTable(f"{path} is not in UTF-8; save the {self.name} as UTF-8 CSV") from error
        except OSError as error:
            raise BadTable(
                f"the {self.name} {path} cannot be read ({error.strerror or error}); check the path"
            ) from error
        rows = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
        try:
            columns = self._columns(path, next(rows, []))
            for row in rows:
                cells = [cell.strip() for cell in row]
                if any(cells):
                    yield rows.line_num, self._by_column(path, rows.line_num, columns, cells)
        except csv.Error as error:
            raise BadTable(
                f"{path}, line {rows.line_num}: no line of a CSV file ({error}); write it anew"
            ) from error

    def _columns(self, path: Path, head: Sequence[str]) -> list[str]:
        columns = [cell.strip().lower() for cell in head]
        for amiss in self._amiss(columns):
            raise BadTable(
                f"{path}, line 1: {amiss}; write a first line with {' and '.join(self.needed)}, of "
                f"the columns {', '.join(self.columns)}, parted by commas"
            )
        return columns

    def _amiss(self, columns: Sequence[str]) -> Iterator[str]:
        """What is wrong with the first line."""
        yield from (f"there is no {name}" for name in self.needed if name not in columns)
        yield from (f"{name} stands twice" for name in self.columns if columns.count(name) > 1)
        if not self.may_have_others:
            others = (name for name in columns if name not in self.columns)
            yield from (f"{quoted(name)} is no column" for name in others)

    def _by_column(
        self, path: Path, number: int, columns: Sequence[str], cells: Sequence[str]
    ) -> dict[str, str]:
        if len(cells) != len(columns):
            raise BadTable(
                f"{path}, line {number}: {len(cells)} cells where the first line has "
                f"{len(columns)}; put a text that holds a comma in double quotes"
            )
        by_column = dict(zip(columns, cells, strict=True))
        return {name: by_column[name] for name in self.columns if name in by_column}


def bad_line(path: Path, number: int, error: Exception) -> BadTable:
    """The failure of a line whose cells cannot be, as ``error`` says."""
    return BadTable(f"{path}, line {number}: {error}")


def _delimiter(text: str) -> str:
    """What parts the cells of the first line: that which stands in it most often."""
    head, _, _ = text.partition("\n")
    return max(_DELIMITERS, key=head.count)
