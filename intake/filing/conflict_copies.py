"""Copies that a program which keeps folders alike on two machines made of a file that was
changed on both: a record may stand in one of them only."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from intake.errors import BadStash

_COPY = re.compile(r".+(?:conflict|\s\(\d+\)|\s-\scopy).*", re.IGNORECASE)
"""How such programs name copies: ``stash (conflicted copy 2025-03-09).csv``,
``stash.sync-conflict-20250309-170542.csv``, ``stash (1).csv`` (common practice, no source)."""


def conflict_copies(stash: Path) -> list[Path]:
    """The copies of the stash and of what lies beside it.  Raises :class:`BadStash`."""
    try:
        return sorted(_copies(stash))
    except OSError as error:
        raise BadStash(f"{stash.parent} cannot be read ({error.strerror})") from error


def _copies(stash: Path) -> Iterator[Path]:
    if not stash.parent.is_dir():
        return
    for beside in stash.parent.iterdir():
        if not beside.name.startswith(stash.stem):
            continue
        if _COPY.fullmatch(beside.name.removeprefix(stash.stem).rjust(len(beside.name))):
            yield beside
        elif beside.is_dir():
            yield from (one for one in beside.rglob("*") if _COPY.fullmatch(one.name))
