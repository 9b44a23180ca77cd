"""What a spreadsheet holds, whatever its format: sheets of typed columns."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from enum import Enum, auto
from pathlib import Path


class Kind(Enum):
    """What the cells of one column hold."""

    TEXT = auto()
    """Text for ever, digits or not."""
    NUMBER = auto()
    COUNT = auto()
    """A whole number."""
    MOMENT = auto()
    """A moment in UTC."""
    PICTURE = auto()
    """The path of a picture, shown small."""


FilledCell = str | float | datetime | Path
Cell = FilledCell | None


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its heading, what it holds, and its width in letters."""

    name: str
    kind: Kind = Kind.TEXT
    width: int = 12


@dataclass(frozen=True, slots=True)
class Row:
    """One row: a cell a column, ``None`` where it is empty.  ``assumed`` names the columns
    whose value no tag prints."""

    cells: tuple[Cell, ...]
    assumed: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet.  ``rows`` can be gone through once."""

    name: str
    columns: tuple[Column, ...]
    rows: Iterable[Row] = field(default_factory=tuple)

    @property
    def has_pictures(self) -> bool:
        """Whether its rows must be high enough for a picture."""
        return any(column.kind is Kind.PICTURE for column in self.columns)


ASSUMED_MARK = " (assumed)"
"""What stands behind a value that the tag does not print, where a cell can show more than
it holds."""


def moment(text: str) -> datetime | None:
    """The moment that the stash writes as ``2025-03-09T17:05:42Z``, in UTC but without a
    zone, which spreadsheets do not know; ``None`` for other text."""
    try:
        read = datetime.fromisoformat(text)
    except ValueError:
        return None
    return (read.astimezone(UTC) if read.tzinfo else read).replace(tzinfo=None)
