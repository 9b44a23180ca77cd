"""What every spreadsheet format has in common: sheets go into one file."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from pathlib import Path
from typing import BinaryIO

from intake.exports.book import Sheet
from intake.filing.safe_write import replace_file


class Exporter(ABC):
    """Writes sheets in one format.  Text is written as text, never as a formula."""

    first_sheet_only = False
    """Whether the format holds one sheet and no pictures."""

    def write(self, sheets: Sequence[Sheet], path: Path) -> None:
        """Write ``sheets`` to ``path``, in place of what is there once all is written.
        Raises :class:`~intake.errors.NoAccess`."""
        kept = sheets[:1] if self.first_sheet_only else sheets
        replace_file(path, lambda file: self.fill(kept, file))

    @abstractmethod
    def fill(self, sheets: Sequence[Sheet], file: BinaryIO) -> None:
        """Write ``sheets`` into ``file``."""
