"""The kinds of stash, by the ending of the file."""

from __future__ import annotations

import os
from pathlib import Path

from intake.errors import BadStash
from intake.filing.csv_stash import CsvStash
from intake.filing.parquet_stash import ParquetStash
from intake.filing.stash import WAIT_S, Stash

KINDS: dict[str, type[Stash]] = {".csv": CsvStash, ".parquet": ParquetStash}

LONGEST_STEM_BYTES = 255 - len(".history.jsonl")
"""A name has 255 bytes at most (NAME_MAX of Linux, limits.h), that of a file beside it too."""


def open_stash(path: str | os.PathLike[str], wait_s: float = WAIT_S) -> Stash:
    """The stash at ``path``, by its ending: ``.csv`` or ``.parquet``.  The file need
    not exist yet.  Raises :class:`BadStash` for another ending."""
    kind = KINDS.get(Path(path).suffix.lower())
    if kind is None:
        raise BadStash(f"{path} is no stash by its name; end it with .csv or .parquet")
    return kind(Path(path), wait_s)


def check_name(path: Path) -> None:
    """Refuse a stash whose name is too long for what lies beside it, or that is beside one of
    its name and another ending: both would hold the same queue, tag pictures and history, each
    under a lock of its own.  Raises :class:`BadStash`."""
    if len(os.fsencode(path.stem)) > LONGEST_STEM_BYTES:
        raise BadStash(
            f"{path} has a name of more than {LONGEST_STEM_BYTES} bytes before its ending, too "
            "long for the files beside it; give it a shorter one"
        )
    for ending in KINDS:
        other = path.with_suffix(ending)
        if ending != path.suffix.lower() and other.exists():
            raise BadStash(
                f"{path} and {other.name} would share one queue and one history; rename "
                f"{other.name} or move it away"
            )
