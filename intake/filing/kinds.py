"""The kinds of stash, by the ending of the file."""

from __future__ import annotations

import os
from pathlib import Path

from intake.errors import BadStash
from intake.filing.csv_stash import CsvStash
from intake.filing.parquet_stash import ParquetStash
from intake.filing.stash import WAIT_S, Stash

KINDS: dict[str, type[Stash]] = {".csv": CsvStash, ".parquet": ParquetStash}


def open_stash(path: str | os.PathLike[str], wait_s: float = WAIT_S) -> Stash:
    """The stash at ``path``, by its ending: ``.csv`` or ``.parquet``.  The file need
    not exist yet.  Raises :class:`BadStash` for another ending."""
    kind = KINDS.get(Path(path).suffix.lower())
    if kind is None:
        raise BadStash(f"{path} is no stash by its name; end it with .csv or .parquet")
    return kind(Path(path), wait_s)
